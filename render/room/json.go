package room

import (
	"encoding/json"
	"io"

	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// JSON writes the report as one JSON object, indented. The error is that of w.
func (r *Report) JSON(w io.Writer) error {
	out := jsonReport{Title: r.Title, Bars: r.Bars, FileBar: r.FileBar, Seconds: thousandths(r.Micros / 1000),
		Windows: r.windowsJSON(r.Windows),
		Song:    r.scopeJSON(&r.Song), Passes: []jsonObject{}, Hints: []jsonHint{}}
	if r.Voice != "" {
		out.Voice = &r.Voice
	}
	if c := r.Climax; c.Pass >= 0 {
		out.Climax = &jsonClimax{c.Pass, r.Passes[c.Pass].Name, c.Bar, c.Why}
	}
	for i := range r.Passes {
		out.Passes = append(out.Passes, r.scopeJSON(&r.Passes[i]))
	}
	for _, h := range r.Hints {
		out.Hints = append(out.Hints, jsonHint(h))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(out)
}

func thousandths(n int64) json.Number { return json.Number(wording.Thousandths(n)) }

func (r *Report) windowsJSON(in []guide.Window) []jsonWindow {
	out := []jsonWindow{}
	for _, w := range in {
		out = append(out, jsonWindow{w.Pass, w.From.Bar, w.From.Count, w.To.Bar, w.To.Count, thousandths(w.Beats),
			thousandths(w.Micros / 1000), w.Space, r.chordsOver(w)})
	}
	return out
}

// scopeJSON turns a stretch into an object.
func (r *Report) scopeJSON(s *Scope) jsonObject {
	out := jsonObject{
		{"name", s.Name},
		{"first_bar", s.FirstBar},
		{"last_bar", s.LastBar},
		{"seconds", thousandths(s.Micros / 1000)},
		{"energy", [2]int{s.EnergyFrom, s.EnergyTo}},
		{"key", s.Key.String()},
		{"tempo", s.BPM},
		{"lift", s.Lift},             // semitones up from the pass before, by a lift
		{"players", s.Plays.Names()}, // who plays in it
	}
	for _, p := range s.registers() {
		out = append(out, jsonField{p.name, registerJSON(p.part, s.Key)})
	}
	return append(out, jsonObject{
		{"free", freeJSON(s)},
		{"windows", r.windowsJSON(s.Windows)},
		{"counts", gridJSON(&s.Grid)},
		{"hits", hitsJSON(s.Hits)},
		{"held", heldJSON(s.Held)},
	}...)
}

func pitchJSON(note int, in harmony.Key) jsonPitch { return jsonPitch{note, guide.PitchName(note, in)} }

// registerJSON turns a register into an object; it is nil, and null in the file, for a
// silent part.
func registerJSON(p *Part, in harmony.Key) *jsonRegister {
	if p == nil {
		return nil
	}
	return &jsonRegister{pitchJSON(p.P5, in), pitchJSON(p.P95, in), pitchJSON(p.Low, in), pitchJSON(p.High, in),
		pitchJSON(p.Quarter, in), p.Notes, thousandths(int64(p.Attacks))}
}

func freeJSON(s *Scope) []jsonBand {
	out := []jsonBand{}
	for _, f := range s.Free {
		b := jsonBand{pitchJSON(f.Low, s.Key), pitchJSON(f.High, s.Key), []jsonInstrument{}}
		for _, seat := range f.Seats {
			b.Instruments = append(b.Instruments,
				jsonInstrument{seat.Instrument, pitchJSON(seat.Low, s.Key), pitchJSON(seat.High, s.Key)})
		}
		out = append(out, b)
	}
	return out
}

func gridJSON(g *Grid) jsonGrid {
	out := jsonGrid{Bars: g.Bars, Step: "sixteenth", Steps: []jsonObject{}}
	if g.Bars > 0 {
		out.Meter = g.Meter.String()
	}
	if g.Thirds {
		out.Step = "triplet eighth"
	}
	for _, st := range g.Steps {
		step := jsonObject{{"count", st.Count}}
		for _, row := range attackRows() {
			step = append(step, jsonField{row.name, row.at(st)}) // attacks in 100 bars
		}
		out.Steps = append(out.Steps, append(step, jsonField{"free", st.Free}))
	}
	return out
}

func hitsJSON(hits []Hit) []jsonHit {
	out := []jsonHit{}
	for _, h := range hits {
		j := jsonHit{Kind: h.Kind.String(), Bar: h.Bar, Count: h.Count, By: h.By.Names(), Weight: h.Weight,
			Alone: h.Alone, Chord: h.Chord, To: h.To}
		if h.Beats > 0 {
			j.Beats = thousandths(h.Beats)
		}
		if h.Kind == timeline.Rit {
			j.LastBar = h.LastBar
		}
		out = append(out, j)
	}
	return out
}

func heldJSON(held []Held) []jsonHeld {
	out := []jsonHeld{}
	for _, h := range held {
		j := jsonHeld{h.From.Bar, h.From.Count, h.To.Bar, h.To.Count, h.Chords, []jsonHeldTone{}}
		for _, t := range h.Tones {
			tone := jsonHeldTone{Name: t.Name}
			if t.Against != "" {
				tone.Against = &jsonAgainst{t.Against, t.At.Bar, t.At.Count}
			}
			j.Tones = append(j.Tones, tone)
		}
		out = append(out, j)
	}
	return out
}
