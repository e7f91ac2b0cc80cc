package voicing

import (
	"cmp"
	"slices"

	"plinth/songspec/harmony"
)

// shape is what a voicing is made of: pitch classes, one a voice, and how far
// it is from the pianist's first choice (in cost, see voicing_cost.go).
type shape struct {
	pcs  [MaxVoices]int8
	n    int
	cost int32
}

// shapes are the sets of pitch classes with which a comp of that many voices
// plays the chord, the first choice first. A chord whose guide tones and altered
// tones are more than the voices gets the voices it needs: they are never left
// out. avoid is a set of pitch classes (bit = pitch class) that must not sound.
func shapes(c harmony.Chord, voices int, avoid uint16) []shape {
	all := roles(c)
	dim7 := isDim7(all)
	tones := slices.DeleteFunc(all, func(t chordTone) bool { return avoid&(1<<t.pc) != 0 })
	if len(tones) == 0 {
		return nil
	}
	need := 0
	for _, t := range tones {
		// The seventh of a diminished seventh chord says its fifth too.
		if t.role <= roleAltered && !(dim7 && t.role == roleAltered) {
			need++
		}
	}
	n := min(max(voices, need), MaxVoices)
	var base shape
	for _, t := range tones[:min(n, len(tones))] {
		base.add(t.pc)
	}
	out := []shape{base}
	switch {
	case base.n < n:
		out = doubled(base, tones, n)
	case n == 2 && len(tones) == 3 && tones[0].role == roleThird && tones[1].role == roleFifth &&
		tones[2].role == roleRoot:
		// Two voices of a triad: third and fifth, or root and third where the
		// hand lies better.
		alt := base
		alt.pcs[1], alt.cost = tones[2].pc, costRootForFifth
		out = append(out, alt)
	case n > 3:
		out = opened(out, c, tones)
	}
	return unled(out, c, tones)
}

// opened adds the same chord with its fifth twice instead of the root that the
// bass has: a seventh and a root side by side close a voicing up.
func opened(out []shape, c harmony.Chord, tones []chordTone) []shape {
	if c.Bass.PC() != c.Root.PC() {
		return out
	}
	for _, t := range tones {
		if s, ok := out[0].with(int8(c.Root.PC()), t.pc); ok && t.role == roleFifth {
			return append(out, s)
		}
	}
	return out
}

// unled adds the same chord without the major third that the bass plays: it is
// heard there, and is most often the next chord's leading tone. The root or the
// fifth takes its place; with the third it costs more.
func unled(out []shape, c harmony.Chord, tones []chordTone) []shape {
	bass := int8(c.Bass.PC())
	third := func(t chordTone) bool { return t.pc == bass && t.degree == 3 && t.semis == 4 }
	if !slices.ContainsFunc(tones, third) {
		return out
	}
	for i, n := 0, len(out); i < n; i++ {
		if !slices.Contains(out[i].pcs[:out[i].n], bass) {
			continue
		}
		for _, t := range tones {
			cost, good := t.doubling()
			if s, ok := out[i].with(bass, t.pc); ok && good {
				s.cost += cost
				out = append(out, s)
			}
		}
		if out[i].n > 3 {
			out[i].cost += costBassThird / 2 // full chords want it more
		} else {
			out[i].cost += costBassThird
		}
	}
	return out
}

// add adds a voice.
func (s *shape) add(pc int8) {
	s.pcs[s.n] = pc
	s.n++
}

// with is the shape with one pitch class in the place of another; false when the
// new one would come a third time or the old one is not there.
func (s shape) with(old, pc int8) (shape, bool) {
	found, times := false, 0
	for i, p := range s.pcs[:s.n] {
		switch {
		case p == pc:
			times++
		case p == old && !found:
			s.pcs[i], found = pc, true
		}
	}
	return s, found && times < 2
}

// isDim7 recognises a third, an altered fifth and a seventh nine semitones up.
func isDim7(tones []chordTone) bool {
	has := func(degree, semis int8) bool {
		return slices.ContainsFunc(tones, func(t chordTone) bool { return t.degree == degree && t.semis == semis })
	}
	return has(5, 6) && has(7, 9)
}

// doubling is what a tone costs in a second voice: the root comes first, then the fifth,
// then a minor third; never a major third, a seventh or an altered tone (common practice, no
// single source).
func (t chordTone) doubling() (cost int32, ok bool) {
	switch {
	case t.semis == 0:
		return 0, true
	case t.degree == 5 && t.semis == 7:
		return costDoubleFifth, true
	}
	return costDoubleThird, t.degree == 3 && t.semis == 3
}

// doubled fills a chord of few tones up to n voices. Leaving the voice out is the last
// choice.
func doubled(base shape, tones []chordTone, n int) []shape {
	var out []shape
	for _, t := range tones {
		if cost, ok := t.doubling(); ok {
			s := base
			s.cost = cost
			s.add(t.pc)
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b shape) int { return cmp.Compare(a.cost, b.cost) })
	base.cost = CostVoiceLess * int32(n-base.n)
	return append(out, base)
}
