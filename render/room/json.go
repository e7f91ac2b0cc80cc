package room

import (
	"bytes"
	"encoding/json"
	"io"

	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// jsonObject is an object of the file. Its fields keep their order, and there is at least
// one.
type jsonObject []jsonField

type jsonField struct {
	name  string
	value any
}

// MarshalJSON writes the fields in order. It leaves <, > and & as they are.
func (o jsonObject) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	for i, f := range o {
		b.WriteByte("{,"[min(i, 1)])
		if err := e.Encode(f.name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := e.Encode(f.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// objects makes an object of each item. An empty list is [] in the file and not null.
func objects[T any](items []T, of func(*T) jsonObject) []jsonObject {
	out := make([]jsonObject, len(items))
	for i := range items {
		out[i] = of(&items[i])
	}
	return out
}

// JSON writes the report as one JSON object, indented. Pitches are MIDI notes with their
// names; times are bars, counts, beats and seconds. Figures with decimals are written from
// integers, so that the bytes are the same on every machine. The error is that of w.
func (r *Report) JSON(w io.Writer) error {
	var voice, climax any // null where there is none
	if r.Voice != "" {
		voice = r.Voice
	}
	if c := r.Climax; c.Pass >= 0 {
		climax = jsonObject{{"pass", c.Pass}, {"name", r.Passes[c.Pass].Name}, {"bar", c.Bar}, {"why", c.Why}}
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(jsonObject{
		{"title", r.Title},
		{"voice", voice}, // the first singer's track
		{"singers", objects(r.tl.Vocals, func(v *timeline.Vocal) jsonObject {
			return jsonObject{{"name", v.Called()}, {"file", v.Path}, {"track", v.TrackResolved}}
		})},
		{"bars", r.Bars},
		{"file_bar", r.FileBar}, // the bar of the MIDI file in which bar 1 stands
		{"seconds", thousandths(r.Micros / 1000)},
		{"climax", climax},
		{"windows", objects(r.Windows, r.windowJSON)},
		{"suspensions", objects(r.Suspensions, r.suspensionJSON)},
		{"song", r.scopeJSON(&r.Song)},
		{"passes", objects(r.Passes, r.scopeJSON)},
		{"hints", objects(r.Hints, func(h *Hint) jsonObject {
			return jsonObject{{"where", h.Where}, {"say", h.Say}, {"why", h.Why}}
		})},
	})
}

func thousandths(n int64) json.Number { return json.Number(wording.Thousandths(n)) }

func (r *Report) windowJSON(w *guide.Window) jsonObject {
	out := jsonObject{{"pass", w.Pass}} // from 0; -1 in front of bar 1
	return append(append(out, stretchJSON(w.From, w.To)...), jsonObject{
		{"beats", thousandths(w.Beats)},
		{"seconds", thousandths(w.Micros / 1000)},
		{"space", w.Space},
		{"chords", r.chordsOver(*w)},
	}...)
}

// stretchJSON are the fields for where a stretch begins and ends.
func stretchJSON(from, to guide.Position) jsonObject {
	return jsonObject{{"bar", from.Bar}, {"count", from.Count}, {"to_bar", to.Bar}, {"to_count", to.Count}}
}

func (r *Report) scopeJSON(s *Scope) jsonObject {
	out := jsonObject{
		{"name", s.Name},
		{"first_bar", s.FirstBar},
		{"last_bar", s.LastBar},
		{"seconds", thousandths(s.Micros / 1000)},
		{"energy", [2]int{s.EnergyFrom, s.EnergyTo}},
		{"key", s.Key.String()},
		{"tempo", s.BPM},
		{"tempo_played", s.Played}, // another than is written where a place has its time
		{"inside", objects(s.Inside, func(c *timeline.BarChange) jsonObject { // what changes inside a pass
			out := jsonObject{{"bar", s.FirstBar + c.Bar}, {"what", c.What}, {"is", c.Is}}
			if c.Count != "" { // else on the bar line
				out = append(out, jsonField{"count", c.Count})
			}
			return out
		})},
		{"lift", s.Lift},             // semitones up from the pass before, by a lift
		{"players", s.Plays.Names()}, // who plays in it
		{"band", objects(s.Band, func(w *[2]string) jsonObject { // what they play on, otherwise than in the song
			return jsonObject{{"player", w[0]}, {"plays", w[1]}}
		})},
	}
	for _, p := range s.registers() {
		out = append(out, jsonField{p.name, registerJSON(p.part, s.Key)})
	}
	return append(out, jsonObject{
		{"singers", objects(s.Singers, func(v *Singer) jsonObject {
			return jsonObject{{"name", v.Name}, {"register", registerJSON(v.Part, s.Key)}}
		})},
		{"free", objects(s.Free, func(f *FreeRange) jsonObject {
			return append(boundsJSON(f.Low, f.High, s.Key),
				jsonField{"instruments", objects(f.Seats, func(seat *Seat) jsonObject {
					return append(jsonObject{{"name", seat.Instrument}}, boundsJSON(seat.Low, seat.High, s.Key)...)
				})})
		})},
		{"windows", objects(s.Windows, r.windowJSON)},
		{"counts", gridJSON(&s.Grid)},
		{"hits", objects(s.Hits, hitJSON)},
		{"held", objects(s.Held, heldJSON)},
	}...)
}

func pitchJSON(note int, in harmony.Key) jsonObject {
	return jsonObject{{"midi", note}, {"name", guide.PitchName(note, in)}}
}

func boundsJSON(low, high int, in harmony.Key) jsonObject {
	return jsonObject{{"low", pitchJSON(low, in)}, {"high", pitchJSON(high, in)}}
}

// registerJSON is null for a silent part.
func registerJSON(p *Part, in harmony.Key) any {
	if p == nil {
		return nil
	}
	return jsonObject{
		{"p5", pitchJSON(p.P5, in)},
		{"p95", pitchJSON(p.P95, in)},
		{"lowest", pitchJSON(p.Low, in)},
		{"highest", pitchJSON(p.High, in)},
		{"lower_quartile", pitchJSON(p.Quarter, in)},
		{"notes", p.Notes},
		{"attacks_a_beat", thousandths(int64(p.Attacks))},
	}
}

func gridJSON(g *Grid) jsonObject {
	meter, step := "", "sixteenth"
	if g.Bars > 0 {
		meter = g.Meter.String()
	}
	switch {
	case g.Thirds:
		step = "triplet eighth"
	case g.Meter.Den == 2:
		step = "eighth"
	}
	return jsonObject{{"meter", meter}, {"bars", g.Bars}, {"step", step},
		{"steps", objects(g.Steps, func(s *Step) jsonObject {
			out := jsonObject{{"count", s.Count}}
			for _, row := range attackRows() {
				out = append(out, jsonField{row.Name, row.At(*s)}) // attacks in 100 bars
			}
			return append(out, jsonField{"free", s.Free})
		})}}
}

func hitJSON(h *Hit) jsonObject {
	out := jsonObject{{"kind", h.Kind.String()}, {"bar", h.Bar}, {"count", h.Count}, {"by", h.By.Names()}}
	add := func(known bool, name string, value any) {
		if known {
			out = append(out, jsonField{name, value})
		}
	}
	add(h.Weight > 0, "weight", h.Weight)             // of an accent, 1 to 3
	add(h.Alone, "alone", true)                       // of an accent: nothing else sounds in the bar
	add(h.Short, "short", true)                       // of an accent: it is cut off dry
	add(h.Chord != "", "chord", h.Chord)              // of a push: what comes early
	add(h.Beats > 0, "beats", thousandths(h.Beats))   // how long a stop or a caesura is, how much a hold adds
	add(h.Kind.MovesTempo(), "last_bar", h.LastBar)   // of a rit and an accel
	add(h.LastCount != "", "last_count", h.LastCount) // likewise, where they do not go over whole bars
	add(h.Text != "", "text", h.Text)                 // of a cue
	add(h.To != 0, "to", h.To)                        // likewise: the tempo they reach
	return out
}

func heldJSON(h *Held) jsonObject {
	return append(stretchJSON(h.From, h.To),
		jsonField{"chords", h.Chords}, // how many follow each other in it
		jsonField{"tones", objects(h.Tones, func(t *HeldTone) jsonObject {
			var against any // what the voice holds a semitone away; null where there is nothing
			if t.Against != "" {
				against = jsonObject{{"sung", t.Against}, {"bar", t.At.Bar}, {"count", t.At.Count}}
			}
			return jsonObject{{"name", t.Name}, {"against", against}}
		})})
}
