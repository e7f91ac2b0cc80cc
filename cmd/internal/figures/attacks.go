package main

import (
	"slices"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// attack is what a player strikes at one place: the notes of a spread chord, too, are one.
type attack struct {
	at    int64
	notes []note // from below
}

// attacksOf are the attacks of notes that are in order of their places.
func attacksOf(notes []note) []attack {
	var out []attack
	for _, n := range notes {
		if k := len(out); k > 0 && out[k-1].at == n.at {
			out[k-1].notes = append(out[k-1].notes, n)
			continue
		}
		out = append(out, attack{n.at, []note{n}})
	}
	for i := range out {
		slices.SortFunc(out[i].notes, func(a, b note) int { return int(a.key) - int(b.key) })
	}
	return out
}

func (a *attack) top() note { return a.notes[len(a.notes)-1] }

// velocity is the mean velocity.
func (a *attack) velocity() float64 { return velocityOf(a.notes) }

func velocityOf(notes []note) float64 {
	sum := 0.0
	for _, n := range notes {
		sum += n.velocity
	}
	return sum / float64(len(notes))
}

// overHeld reports whether a note that was struck before still sounds at a place.
func overHeld(notes []note, at int64) bool {
	return slices.ContainsFunc(notes, func(n note) bool { return n.at < at && n.end > at })
}

// compLow is the lowest key that counts as the pianist's comp: C3.
const compLow = 48

// comp are the notes of the pianist from C3 up.
func (p *pass) comp() []note {
	return slices.DeleteFunc(slices.Clone(p.notes[timeline.Piano]), func(n note) bool { return n.key < compLow })
}

// change is a change of chord and how the comp comes to it.
type change struct {
	*cue.Change
	before *cue.Change
	at     int64  // where the new chord is struck: on the change, or at most an eighth before it
	early  bool   // it is struck before the change, and the song asks for no push there
	heard  []note // what is struck from there until 1.5 beats after the change, or until the chord ends
}

// changes are the changes to another chord in a pass that the pianist may play: not where
// he is silent, where only the written hits are played, or where the song comes to rest.
func (p *pass) changes(notes []note) []change {
	list := p.cues.Changes(timeline.Piano)
	var out []change
	for i := 1; i < len(list); i++ {
		c, before := &list[i], &list[i-1]
		bar := p.BarAt(c.Nominal)
		if c.Same || c.Chord.None || before.Chord.None || c.Start >= c.End || c.Chord == before.Chord ||
			p.cues.Silences(timeline.Piano).Has(c.Start) || p.cues.Alone[bar] || p.cues.Holds.Has(c.Start) {
			continue
		}
		x := change{Change: c, before: before, at: c.Start}
		until := min(c.End, c.Nominal+3*p.Bars[bar].Meter.PlayedBeat()/2)
		if at, ok := arrivesEarly(notes, c); ok {
			x.at, x.early = at, !c.Pushed()
		}
		for _, n := range notes {
			if n.at >= x.at && n.at < until {
				x.heard = append(x.heard, n)
			}
		}
		out = append(out, x)
	}
	return out
}

// arrivesEarly finds the place, at most an eighth before a change at which nothing is struck,
// where two or more notes are struck together, all of the new chord.
func arrivesEarly(notes []note, c *cue.Change) (int64, bool) {
	var early []note
	for _, n := range notes {
		switch {
		case n.at == c.Start:
			return 0, false
		case n.at >= c.Start-eighth && n.at < c.Start:
			early = append(early, n)
		}
	}
	list := attacksOf(early)
	if len(list) == 0 {
		return 0, false
	}
	last := list[len(list)-1]
	foreign := slices.ContainsFunc(last.notes, func(n note) bool { return !inChord(c, n.key) })
	return last.at, len(last.notes) > 1 && !foreign
}

// inChord reports whether a key is a tone of a chord, or its bass.
func inChord(c *cue.Change, key uint8) bool {
	return c.Chord.PCSet()>>(key%12)&1 == 1 || c.Chord.Bass.PC() == int(key)%12
}

// isHeard reports whether two tones of the new chord are struck at the change.
func (c *change) isHeard() bool {
	tones := set[uint8]{}
	for _, n := range c.heard {
		if inChord(c.Change, n.key) {
			tones[n.key%12] = true
		}
	}
	return len(tones) >= 2
}

// foreignRings reports whether a note that was struck before the new chord, and is no tone of
// it, sounds for more than a sixteenth after it begins.
func (c *change) foreignRings(notes []note) bool {
	return slices.ContainsFunc(notes, func(n note) bool {
		return n.at < c.at && n.end > c.at+quarter/4 && !inChord(c.Change, n.key)
	})
}

// tops are the highest note in the last 1.5 beats before the change, which is struck or sounds
// there, and the highest one that is heard at the change.
func (c *change) tops(notes []note) (before, after int, ok bool) {
	for _, n := range notes {
		if n.at < c.at && (n.at >= c.at-3*quarter/2 || n.end > c.at-quarter/4) {
			before = max(before, int(n.key))
		}
	}
	for _, n := range c.heard {
		after = max(after, int(n.key))
	}
	return before, after, before > 0 && after > 0
}
