package room

import (
	"fmt"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Held is a stretch of a pass through which one note or more can be held: what a string
// pad is made of.
type Held struct {
	Start, End int64 // absolute ticks
	From, To   guide.Position
	FirstBar   int
	LastBar    int
	Chords     int // how many different ones follow each other in it
	Tones      []HeldTone
}

// HeldTone is a note that can be held. Against is the first note that the voice holds a
// semitone away from it for a beat or more, with its place; it is empty when there is
// none.
type HeldTone struct {
	Name    string // spelled for the first chord: "Eb"
	Against string // what is sung there: "D5"
	At      guide.Position
}

// heldStretches returns the stretches of a pass. Each lasts as long as any note can be
// held from its start, so that a pad changes as seldom as it can. A stretch has at least
// two chords and two bars.
func (r *Report) heldStretches(p *timeline.Pass) []Held {
	chords := timeline.Joined(p.Chords)
	var out []Held
	for i := 0; i < len(chords); {
		set, j := guide.ChordTones(chords[i].Chord), i+1
		for ; j < len(chords) && set&guide.ChordTones(chords[j].Chord) != 0; j++ {
			set &= guide.ChordTones(chords[j].Chord)
		}
		if set == 0 || j < i+2 {
			i++
			continue
		}
		if b := &p.Bars[p.BarAt(chords[i].Start)]; chords[j-1].End-chords[i].Start < 2*b.Length {
			i = j
			continue
		}
		h := Held{Start: p.Start + chords[i].Start, End: p.Start + chords[j-1].End, Chords: j - i}
		h.From, h.To = guide.At(r.tl, h.Start), guide.At(r.tl, h.End)
		h.FirstBar, h.LastBar = h.From.Bar, guide.At(r.tl, h.End-meter.TicksPerQuarter/4).Bar
		for _, t := range chordTones(chords[i].Chord, set) {
			if t.Alter > 1 || t.Alter < -1 {
				t = p.KeyAt(chords[i].Start).Spell(t.PC()) // nobody reads Bbb in a pad
			}
			tone := HeldTone{Name: t.String()}
			if n, ok := r.sungAgainst(t.PC(), h.Start, h.End); ok {
				tone.Against = guide.PitchName(n.key, p.KeyAt(n.tick-p.Start))
				tone.At = guide.At(r.tl, max(n.tick, h.Start))
			}
			h.Tones = append(h.Tones, tone)
		}
		out = append(out, h)
		i = j
	}
	return out
}

// chordTones are those notes of a chord by name that are in a set of pitch classes, each
// once, from the root up, with the bass last.
func chordTones(c harmony.Chord, set uint16) []harmony.Name {
	var out []harmony.Name
	for i := range c.ToneCount() + 1 {
		n := c.Bass
		if i < c.ToneCount() {
			n = c.Spell(c.Tone(i))
		}
		if set&(1<<n.PC()) != 0 {
			set &^= 1 << n.PC()
			out = append(out, n)
		}
	}
	return out
}

// sungAgainst is the first sung note that sounds a semitone away from a pitch class, in
// any octave, for a beat or longer between two absolute ticks.
func (r *Report) sungAgainst(pc int, start, end int64) (n meant, ok bool) {
	for _, n := range beginningIn(r.sung, start-16*meter.TicksPerQuarter, end) { // an earlier one is over
		a, b := max(n.tick, start), min(n.end, end)
		if d := (n.key - pc + 12*11) % 12; (d == 1 || d == 11) && b > a && guide.Beats(r.tl, a, b) >= 1000 {
			return n, true
		}
	}
	return meant{}, false
}

// placeWords is "bars 5-7"; it names counts where the stretch does not go from bar line to
// bar line.
func (h Held) placeWords() string {
	at := func(p guide.Position) string { return strings.TrimSuffix(p.String(), " count 1") }
	switch {
	case h.From.Count == "1" && h.To.Count == "1":
		return barsWord(h.FirstBar, h.LastBar)
	case h.To.Bar == h.From.Bar:
		return fmt.Sprintf("%s to count %s", h.From, h.To.Count)
	case h.To.Count == "1" && h.From.Bar == h.LastBar:
		return fmt.Sprintf("bar %d from count %s", h.From.Bar, h.From.Count)
	case h.To.Count == "1":
		return fmt.Sprintf("%s to bar %d", at(h.From), h.LastBar)
	}
	return at(h.From) + " to " + at(h.To)
}

// heldWords says one stretch: "bars 5-7: Eb, G (F#4 is sung against it, bar 6 count 1)".
func heldWords(h Held) string {
	var tones []string
	for _, t := range h.Tones {
		s := t.Name
		if t.Against != "" {
			s += fmt.Sprintf(" (%s is sung against it, %s)", t.Against, t.At)
		}
		tones = append(tones, s)
	}
	return h.placeWords() + ": " + wording.And(tones)
}

// chordsOver returns the names of the chords that sound in a window. A chord that is
// repeated at once stands once.
func (r *Report) chordsOver(w guide.Window) []string {
	out := []string{}
	for i := max(0, r.tl.PassAt(w.Start)); i < len(r.tl.Passes) && r.tl.Passes[i].Start < w.End; i++ {
		p := &r.tl.Passes[i]
		for k := range p.Chords {
			s := &p.Chords[k]
			// A chord that only touches the window is none of its chords.
			if a, b := max(p.Start+s.Start, w.Start), min(p.Start+s.End, w.End); b-a < together {
				continue
			}
			if t := s.Chord.String(); len(out) == 0 || out[len(out)-1] != t {
				out = append(out, t)
			}
		}
	}
	return out
}
