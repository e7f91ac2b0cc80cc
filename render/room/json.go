package room

import (
	"encoding/json"
	"io"

	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// The JSON form. Pitches are MIDI notes with their name, times are bars, counts,
// beats and seconds; figures with decimals are written from integers, so the
// bytes are the same on every machine.
type jsonReport struct {
	Title   string       `json:"title"`
	Voice   *string      `json:"voice"` // the guide's track, null without a vocal
	Bars    int          `json:"bars"`
	FileBar int          `json:"file_bar"` // the bar of the MIDI file in which bar 1 stands
	Seconds json.Number  `json:"seconds"`
	Climax  *jsonClimax  `json:"climax"`
	Windows []jsonWindow `json:"windows"`
	Song    jsonScope    `json:"song"`
	Passes  []jsonScope  `json:"passes"`
	Hints   []jsonHint   `json:"hints"`
}

type jsonClimax struct {
	Pass int    `json:"pass"`
	Name string `json:"name"`
	Bar  int    `json:"bar"`
	Why  string `json:"why"`
}

type jsonWindow struct {
	Pass    int         `json:"pass"` // from 0; -1 in front of bar 1
	Bar     int         `json:"bar"`
	Count   string      `json:"count"`
	ToBar   int         `json:"to_bar"`
	ToCount string      `json:"to_count"`
	Beats   json.Number `json:"beats"`
	Seconds json.Number `json:"seconds"`
	Space   bool        `json:"space"`
	Chords  []string    `json:"chords"` // what sounds under it
}

type jsonScope struct {
	Name     string        `json:"name"`
	FirstBar int           `json:"first_bar"`
	LastBar  int           `json:"last_bar"`
	Seconds  json.Number   `json:"seconds"`
	Energy   [2]int        `json:"energy"`
	Key      string        `json:"key"`
	Tempo    int           `json:"tempo"`
	Lift     int           `json:"lift"`    // semitones up from the pass before, by a lift
	Players  []string      `json:"players"` // who plays in it
	Voice    *jsonRegister `json:"voice"`
	Piano    *jsonRegister `json:"piano"`
	Bass     *jsonRegister `json:"bass"`
	Free     []jsonBand    `json:"free"`
	Windows  []jsonWindow  `json:"windows"`
	Counts   jsonGrid      `json:"counts"`
	Hits     []jsonHit     `json:"hits"`
	Held     []jsonHeld    `json:"held"`
}

// jsonHeld is a stretch over whose chords a note can be held.
type jsonHeld struct {
	Bar     int            `json:"bar"`
	Count   string         `json:"count"`
	ToBar   int            `json:"to_bar"`
	ToCount string         `json:"to_count"`
	Chords  int            `json:"chords"` // how many follow each other in it
	Tones   []jsonHeldTone `json:"tones"`
}

// jsonHeldTone is one of its notes, with what the voice holds a semitone beside it
// and where; null when it is clear.
type jsonHeldTone struct {
	Name    string       `json:"name"`
	Against *jsonAgainst `json:"against"`
}

type jsonAgainst struct {
	Sung  string `json:"sung"`
	Bar   int    `json:"bar"`
	Count string `json:"count"`
}

type jsonPitch struct {
	Midi int    `json:"midi"`
	Name string `json:"name"`
}

type jsonRegister struct {
	From    jsonPitch   `json:"p5"`
	To      jsonPitch   `json:"p95"`
	Low     jsonPitch   `json:"lowest"`
	High    jsonPitch   `json:"highest"`
	Quarter jsonPitch   `json:"lower_quartile"`
	Notes   int         `json:"notes"`
	Attacks json.Number `json:"attacks_a_beat"`
}

type jsonBand struct {
	Low         jsonPitch        `json:"low"`
	High        jsonPitch        `json:"high"`
	Instruments []jsonInstrument `json:"instruments"`
}

type jsonInstrument struct {
	Name string    `json:"name"`
	Low  jsonPitch `json:"low"`
	High jsonPitch `json:"high"`
}

type jsonGrid struct {
	Meter string     `json:"meter"`
	Bars  int        `json:"bars"`
	Step  string     `json:"step"` // "sixteenth" or "triplet eighth"
	Steps []jsonStep `json:"steps"`
}

type jsonStep struct {
	Count string `json:"count"`
	Voice int    `json:"voice"` // attacks in 100 bars
	Piano int    `json:"piano"`
	Bass  int    `json:"bass"`
	Drums int    `json:"drums"`
	Free  bool   `json:"free"`
}

type jsonHit struct {
	Kind    string      `json:"kind"` // accent, push, stop, hold or rit
	Bar     int         `json:"bar"`
	Count   string      `json:"count"`
	By      []string    `json:"by"`
	Weight  int         `json:"weight,omitempty"`   // of an accent, 1 to 3
	Alone   bool        `json:"alone,omitempty"`    // of an accent: nothing else sounds in the bar
	Chord   string      `json:"chord,omitempty"`    // of a push: what comes early
	Beats   json.Number `json:"beats,omitempty"`    // how long a stop is, how much a hold adds
	LastBar int         `json:"last_bar,omitempty"` // of a rit
	To      int         `json:"to,omitempty"`       // of a rit: the tempo it reaches
}

type jsonHint struct {
	Where string `json:"where"`
	Say   string `json:"say"`
	Why   string `json:"why"`
}

// JSON writes the report as one JSON object, indented.
func (r *Report) JSON(w io.Writer) error {
	out := jsonReport{Title: r.Title, Bars: r.Bars, FileBar: r.FileBar, Seconds: thousandths(r.Micros / 1000),
		Windows: r.windowsJSON(r.Windows),
		Song:    r.scopeJSON(&r.Song), Passes: []jsonScope{}, Hints: []jsonHint{}}
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

func thousandths(n int64) json.Number { return json.Number(guide.Thousandths(n)) }

func (r *Report) windowsJSON(in []guide.Window) []jsonWindow {
	out := []jsonWindow{}
	for _, w := range in {
		out = append(out, jsonWindow{w.Pass, w.From.Bar, w.From.Count, w.To.Bar, w.To.Count, thousandths(w.Beats),
			thousandths(w.Micros / 1000), w.Space, r.chordsOver(w)})
	}
	return out
}

func (r *Report) scopeJSON(s *Scope) jsonScope {
	pitch := func(k int) jsonPitch { return jsonPitch{k, guide.PitchName(k, s.Key)} }
	register := func(p *Part) *jsonRegister {
		if p == nil {
			return nil
		}
		return &jsonRegister{pitch(p.P5), pitch(p.P95), pitch(p.Low), pitch(p.High), pitch(p.Quarter), p.Notes,
			thousandths(int64(p.Attacks))}
	}
	out := jsonScope{Name: s.Name, FirstBar: s.FirstBar, LastBar: s.LastBar, Seconds: thousandths(s.Micros / 1000),
		Energy: [2]int{s.EnergyFrom, s.EnergyTo}, Key: s.Key.String(), Tempo: s.BPM, Lift: s.Lift,
		Players: s.Plays.Names(),
		Voice:   register(s.Voice), Piano: register(s.Piano), Bass: register(s.Bass),
		Free: []jsonBand{}, Windows: r.windowsJSON(s.Windows), Hits: []jsonHit{}, Held: []jsonHeld{},
		Counts: jsonGrid{Bars: s.Grid.Bars, Step: "sixteenth", Steps: []jsonStep{}}}
	for _, f := range s.Free {
		b := jsonBand{Low: pitch(f.Low), High: pitch(f.High), Instruments: []jsonInstrument{}}
		for _, seat := range f.Seats {
			b.Instruments = append(b.Instruments, jsonInstrument{seat.Instrument, pitch(seat.Low), pitch(seat.High)})
		}
		out.Free = append(out.Free, b)
	}
	if s.Grid.Bars > 0 {
		out.Counts.Meter = s.Grid.Meter.String()
	}
	if s.Grid.Thirds {
		out.Counts.Step = "triplet eighth"
	}
	for _, st := range s.Grid.Steps {
		out.Counts.Steps = append(out.Counts.Steps, jsonStep(st))
	}
	for _, h := range s.Hits {
		j := jsonHit{Kind: h.Kind.String(), Bar: h.Bar, Count: h.Count, By: h.By.Names(), Weight: h.Weight,
			Alone: h.Alone, Chord: h.Chord, To: h.To}
		if h.Beats > 0 {
			j.Beats = thousandths(h.Beats)
		}
		if h.Kind == timeline.Rit {
			j.LastBar = h.LastBar
		}
		out.Hits = append(out.Hits, j)
	}
	for _, h := range s.Held {
		j := jsonHeld{h.From.Bar, h.From.Count, h.To.Bar, h.To.Count, h.Chords, []jsonHeldTone{}}
		for _, t := range h.Tones {
			tone := jsonHeldTone{Name: t.Name}
			if t.Against != "" {
				tone.Against = &jsonAgainst{t.Against, t.At.Bar, t.At.Count}
			}
			j.Tones = append(j.Tones, tone)
		}
		out.Held = append(out.Held, j)
	}
	return out
}
