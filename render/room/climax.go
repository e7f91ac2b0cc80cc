package room

import (
	"fmt"

	"plinth/songspec/guide"
)

// Climax is where the energy is highest. In a song of several passes whose energy never
// changes, it is where the voice has its highest note, or nowhere.
type Climax struct {
	Pass int // index into Passes; -1 for a song without one
	Bar  int
	Why  string
}

// climax is the pass with the most energy, and among equals the loudest and the latest.
// Its bar is that of the highest sung note or, where that comes too early or nobody sings,
// the first with the full energy.
func (r *Report) climax() Climax {
	if len(r.Passes) == 0 {
		return Climax{Pass: -1}
	}
	var c Climax
	equal, level := 0, r.Song.EnergyFrom == r.Song.EnergyTo
	for i := range r.Passes {
		a, b := &r.Passes[i], &r.Passes[c.Pass]
		switch {
		case a.Most > b.Most:
			c.Pass, equal = i, 1
		case a.Most == b.Most:
			equal++
			if a.Loudness >= b.Loudness {
				c.Pass = i
			}
		}
	}
	if level && len(r.Passes) > 1 {
		return r.climaxByVoice()
	}
	s := &r.Passes[c.Pass]
	c.Bar = s.FirstBar
	c.Why = fmt.Sprintf("energy %d, the highest of the song", s.Most)
	if equal > 1 {
		others := "another pass"
		if equal > 2 {
			others = fmt.Sprintf("%d other passes", equal-1)
		}
		c.Why = fmt.Sprintf("energy %d, as in %s, but the band is fullest here", s.Most, others)
	}
	for i, p := 0, &r.tl.Passes[c.Pass]; p.EnergyAt(i) < s.Most; i++ {
		c.Bar = p.FirstBar + i + 1
	}
	if bar := r.highestNoteBar(s, c.Bar); bar > 0 {
		c.Bar = bar
		of := "of the pass"
		if s.Voice.High == r.Song.Voice.High {
			of = "of the song"
		}
		c.Why += fmt.Sprintf("; the voice has its highest note %s there, %s", of, s.pitch(s.Voice.High))
	}
	return c
}

// highestNoteBar is the first bar from a bar on in which the singer has the highest note of
// a pass, 0 when there is none.
func (r *Report) highestNoteBar(s *Scope, from int) int {
	if s.Voice == nil {
		return 0
	}
	for _, n := range beginningIn(r.sung, s.Start, s.End) {
		if bar := guide.At(r.tl, n.tick).Bar; n.key == s.Voice.High && bar >= from {
			return bar
		}
	}
	return 0
}

// climaxByVoice is the climax of a song whose energy never changes: where the voice has
// its highest note for the last time.
func (r *Report) climaxByVoice() Climax {
	c := Climax{Pass: -1}
	if r.Song.Voice == nil {
		return c
	}
	for i := range r.Passes {
		s := &r.Passes[i]
		for _, n := range beginningIn(r.sung, s.Start, s.End) {
			if n.key == r.Song.Voice.High {
				c = Climax{i, guide.At(r.tl, n.tick).Bar,
					fmt.Sprintf("the energy is %d throughout, and the voice has its highest note there, %s",
						s.EnergyFrom, s.pitch(n.key))}
			}
		}
	}
	return c
}

// climaxWords is a sentence about the climax, or about why there is none; "" for a song of
// one pass without a climax.
func (r *Report) climaxWords() string {
	switch c := r.Climax; {
	case c.Pass >= 0:
		return fmt.Sprintf("The climax is %s, bar %d: %s.", r.Passes[c.Pass].Name, c.Bar, c.Why)
	case len(r.Passes) > 1:
		return fmt.Sprintf("The energy is %d throughout: the song file has no climax.", r.Song.EnergyFrom)
	}
	return ""
}
