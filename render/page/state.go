package page

import "slices"

// State is all that the page is told at once: what the last save came to, and the last good bed.
type State struct {
	Rev    int    // counts the states
	File   string // the song file's name, without its folder; the title while there is no bed
	Only   string // the part of the song that is built; empty: all of it
	Says   string // the line that is printed for it, without the time of day
	OK     bool   // the last save is right, and Bed is made of it
	Wrong  []Diag
	Doubts []Diag
	Bed    *Bed // nil before the first that is good

	// Changed are the chunks of Bed that the last good save changed or added.
	Changed []int
}

// Diag is a mistake or a doubt. One that is not of a place in a file has no File, Line, Column and Lines.
type Diag struct {
	Severity string `json:"severity"` // "error" or "warning"
	Summary  string `json:"summary"`
	Detail   string `json:"detail"`
	File     string `json:"file,omitempty"` // without its folder
	Line     int    `json:"line,omitempty"`
	Column   int    `json:"column,omitempty"` // in UTF-16 units, from 1
	Lines    []Line `json:"lines,omitempty"`
}

// Line is a line of a file. From and To are the UTF-16 units to underline, where there are any.
type Line struct {
	N    int    `json:"n"`
	Text string `json:"text"`
	From *int   `json:"from,omitempty"`
	To   *int   `json:"to,omitempty"`
}

// cleaned are diagnostics that may be shown.
func cleaned(diags []Diag) []Diag {
	out := append([]Diag{}, diags...)
	for i := range out {
		d := &out[i]
		d.Summary, d.Detail, d.File = plain(d.Summary), plainLines(d.Detail), plain(d.File)
		d.Lines = slices.Clone(d.Lines)
		for j := range d.Lines {
			d.Lines[j].Text = plain(d.Lines[j].Text)
		}
	}
	return out
}

// stateJSON are the fields of a state that are not the bed's.
type stateJSON struct {
	Rev    int      `json:"rev"`
	Song   songJSON `json:"song"`
	Says   string   `json:"says"`
	OK     bool     `json:"ok"`
	Wrong  []Diag   `json:"wrong"`
	Doubts []Diag   `json:"doubts"`
}

type songJSON struct {
	Title string `json:"title"`
	By    string `json:"by"`
	File  string `json:"file"`
	Only  string `json:"only"`
}

// JSON is the state as the page gets it; since, when not nil, is where the chunks of a state before it
// went.
func (s *State) JSON(since *Since) []byte {
	song := songJSON{Title: plain(s.File), File: plain(s.File), Only: plain(s.Only)}
	if s.Bed != nil {
		song.Title, song.By = plain(s.Bed.Timeline.Title), plain(s.Bed.Timeline.By)
	}
	b := encode(stateJSON{s.Rev, song, plain(s.Says), s.OK, cleaned(s.Wrong), cleaned(s.Doubts)})
	if s.Bed == nil {
		return b
	}
	b = append(append(b[:len(b)-1], ','), s.Bed.json...)
	b = append(append(b, `,"changed":`...), encode(append([]int{}, s.Changed...))...)
	if since != nil {
		b = append(append(b, `,"was":`...), encode(since)...)
	}
	return append(b, '}')
}
