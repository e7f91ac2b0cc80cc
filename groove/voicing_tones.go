package groove

import (
	"sort"

	"plinth/songspec/harmony"
)

// maxVoices bounds a voicing: a hand has five fingers, and no chord that the
// comp plays needs both hands full.
const maxVoices = 5

// shape is what a voicing is made of: pitch classes, one a voice, and how far
// it is from the pianist's first choice (in cost, see voicing_cost.go).
type shape struct {
	pcs  [maxVoices]int8
	n    int
	cost int32
}

// toneRole ranks a chord tone by what the comp would miss without it. The bass
// has the root. Common practice, no single source.
type toneRole uint8

const (
	roleThird   toneRole = iota // the third, or what stands in for it (sus)
	roleSeventh                 // the seventh, or the sixth of a sixth chord
	roleAltered                 // a bent fifth, ninth, eleventh or thirteenth
	roleColour                  // 13, 9, 11 as they are in the scale
	roleFifth
	roleRoot
	roleBass // the tone that the bass plays in an inversion: it is heard already
)

// chordTone is one tone of a chord as the comp sees it.
type chordTone struct {
	pc     int8
	degree int8
	semis  int8 // from the root
	role   toneRole
}

// naturalSemis are the semitones of the scale degrees 1 to 13 that a symbol
// names without an accidental, reduced to an octave. The seventh is not in it:
// no seventh counts as altered.
var naturalSemis = [14]int8{1: 0, 2: 2, 3: 4, 4: 5, 5: 7, 6: 9, 9: 2, 11: 5, 13: 9}

// roles ranks the tones of a chord. The result is ordered: first what must
// sound, last what may be left out.
func roles(c harmony.Chord) []chordTone {
	root, bass := int8(c.Root.PC()), int8(c.Bass.PC())
	tones := c.Tones()
	var third, second, fourth, seventh bool
	for _, t := range tones {
		switch t.Degree {
		case 3:
			third = true
		case 2:
			second = true
		case 4:
			fourth = true
		case 7:
			seventh = true
		}
	}
	out := make([]chordTone, 0, len(tones))
	for _, t := range tones {
		ct := chordTone{pc: (root + t.Semitones) % 12, degree: t.Degree, semis: t.Semitones}
		ct.role = roleOf(t, third, second || fourth, seventh)
		out = append(out, ct)
	}
	if bass != root {
		invert(out, bass)
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := out[i], out[j]
		if a.role != b.role {
			return a.role < b.role
		}
		return rankInRole(a) < rankInRole(b)
	})
	return out
}

// roleOf ranks one tone, knowing what else the chord has.
func roleOf(t harmony.Tone, third, sus, seventh bool) toneRole {
	natural := t.Semitones == naturalSemis[t.Degree]
	switch t.Degree {
	case 1:
		return roleRoot
	case 3:
		return roleThird
	case 2, 4:
		if !third {
			return roleThird
		}
		return roleColour
	case 7:
		return roleSeventh
	case 6:
		switch {
		case !seventh:
			return roleSeventh
		case natural:
			return roleColour
		}
		return roleAltered
	case 5:
		if natural {
			return roleFifth
		}
		return roleAltered
	}
	// 9, 11, 13. Without a third or a 2 or 4 the eleventh is the suspended
	// fourth of an eleventh chord, and a lone ninth the second of a sus2.
	if !third && !sus && natural {
		if t.Degree == 11 || t.Degree == 9 && !seventh {
			return roleThird
		}
	}
	if !natural {
		return roleAltered
	}
	return roleColour
}

// rankInRole orders tones of one role: of the altered ones the ninth first,
// then the fifth; of the colours 13 before 11 before 9 before added tones.
func rankInRole(t chordTone) int {
	if t.role == roleAltered {
		switch t.degree {
		case 9:
			return 0
		case 5:
			return 1
		case 13, 6:
			return 2
		}
		return 3
	}
	// As in harmony.Chord.DropOrder: what names the chord stays longest.
	switch t.degree {
	case 13, 6:
		return 0
	case 11:
		return 1
	case 9:
		return 2
	}
	return 3
}

// invert ranks for a bass that is not the root: what the bass plays is heard
// already and goes last, and the root, which nobody else plays now, goes before
// colours and fifth. Over a bent fifth it goes before the seventh too: without
// it the chord would be another one.
func invert(tones []chordTone, bass int8) {
	bent := false
	for i := range tones {
		if tones[i].pc == bass {
			bent = tones[i].role == roleAltered && tones[i].degree == 5
			tones[i].role = roleBass
		}
	}
	for i := range tones {
		if tones[i].role == roleRoot {
			tones[i].role = roleColour
			tones[i].degree = 13 // first of its rank
			if bent {
				tones[i].role, tones[i].degree = roleThird, 1
			}
		}
	}
}

// shapes are the sets of pitch classes with which a comp of that many voices
// plays the chord, the first choice first. A chord whose guide tones and bent
// tones are more than the voices gets the voices it needs: they are never left
// out. avoid is a set of pitch classes (bit = pitch class) that must not sound.
func shapes(c harmony.Chord, voices int, avoid uint16) []shape {
	all := roles(c)
	tones := make([]chordTone, 0, len(all))
	for _, t := range all {
		if avoid&(1<<t.pc) == 0 {
			tones = append(tones, t)
		}
	}
	if len(tones) == 0 {
		return nil
	}
	need := 0
	dim7 := isDim7(all)
	for _, t := range tones {
		// The seventh of a diminished seventh chord says its fifth too.
		if t.role <= roleAltered && !(dim7 && t.role == roleAltered) {
			need++
		}
	}
	n := min(max(voices, need), maxVoices)
	var base shape
	for _, t := range tones {
		if base.n < n {
			base.pcs[base.n] = t.pc
			base.n++
		}
	}
	out := []shape{base}
	switch {
	case base.n < n:
		out = doubled(base, tones, n)
	case n == 2 && len(tones) == 3 && tones[0].role == roleThird && tones[1].role == roleFifth && tones[2].role == roleRoot:
		// Two voices of a triad: third and fifth, or root and third where the
		// hand lies better.
		alt := base
		alt.pcs[1], alt.cost = tones[2].pc, costRootForFifth
		out = append(out, alt)
	}
	return out
}

// isDim7 recognises a third, a bent fifth and a seventh nine semitones up.
func isDim7(tones []chordTone) bool {
	var five, seven bool
	for _, t := range tones {
		five = five || t.degree == 5 && t.semis == 6
		seven = seven || t.degree == 7 && t.semis == 9
	}
	return five && seven
}

// doubled fills a chord of few tones up to n voices. The root is doubled first,
// then the fifth, then a minor third; never a major third, a seventh or a bent
// tone (common practice, no single source). Leaving the voice out is the last
// choice.
func doubled(base shape, tones []chordTone, n int) []shape {
	var out []shape
	for _, t := range tones {
		s := base
		switch {
		case t.degree == 1 || t.semis == 0:
			s.cost = 0
		case t.degree == 5 && t.semis == 7:
			s.cost = costDoubleFifth
		case t.degree == 3 && t.semis == 3:
			s.cost = costDoubleThird
		default:
			continue
		}
		s.pcs[s.n] = t.pc
		s.n++
		out = append(out, s)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].cost < out[j].cost })
	base.cost = costVoiceLess * int32(n-base.n)
	return append(out, base)
}
