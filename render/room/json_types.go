package room

import (
	"bytes"
	"encoding/json"
)

// jsonReport is the whole report. Pitches are MIDI notes with their names; times are bars,
// counts, beats and seconds. Figures with decimals are written from integers, so that the
// bytes are the same on every machine.
type jsonReport struct {
	Title   string       `json:"title"`
	Voice   *string      `json:"voice"` // the guide's track, null without a vocal
	Bars    int          `json:"bars"`
	FileBar int          `json:"file_bar"` // the bar of the MIDI file in which bar 1 stands
	Seconds json.Number  `json:"seconds"`
	Climax  *jsonClimax  `json:"climax"`
	Windows []jsonWindow `json:"windows"`
	Song    jsonObject   `json:"song"`
	Passes  []jsonObject `json:"passes"`
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

// jsonHeld is a stretch through which one note or more can be held.
type jsonHeld struct {
	Bar     int            `json:"bar"`
	Count   string         `json:"count"`
	ToBar   int            `json:"to_bar"`
	ToCount string         `json:"to_count"`
	Chords  int            `json:"chords"` // how many follow each other in it
	Tones   []jsonHeldTone `json:"tones"`
}

// jsonHeldTone is a note that can be held. Against is the note that the voice holds a
// semitone away from it, null when there is none.
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
	Meter string       `json:"meter"`
	Bars  int          `json:"bars"`
	Step  string       `json:"step"` // "sixteenth" or "triplet eighth"
	Steps []jsonObject `json:"steps"`
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

// jsonObject is an object whose names are not all fixed, because the players are among
// them. Its fields keep their order, and there is at least one.
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
