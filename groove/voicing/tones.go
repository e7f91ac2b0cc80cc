package voicing

import (
	"cmp"
	"slices"

	"plinth/songspec/harmony"
)

// MaxVoices bounds a voicing: a hand has five fingers, and no chord that the
// comp plays needs both hands full.
const MaxVoices = 5

// toneRole ranks a chord tone by what the comp would miss without it. The bass
// has the root. Common practice, no single source.
type toneRole uint8

const (
	roleThird   toneRole = iota // the third, or what stands in for it (sus)
	roleSeventh                 // the seventh, or the sixth of a sixth chord
	roleAltered                 // an altered fifth, ninth, eleventh or thirteenth
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
	has := func(degree int8) bool {
		return slices.ContainsFunc(tones, func(t harmony.Tone) bool { return t.Degree == degree })
	}
	third, sus, seventh := has(3), has(2) || has(4), has(7)
	out := make([]chordTone, 0, len(tones))
	for _, t := range tones {
		out = append(out, chordTone{pc: (root + t.Semitones) % 12, degree: t.Degree, semis: t.Semitones,
			role: roleOf(t, third, sus, seventh)})
	}
	if bass != root {
		rankForInversion(out, bass)
	}
	slices.SortStableFunc(out, func(a, b chordTone) int {
		return cmp.Or(cmp.Compare(a.role, b.role), cmp.Compare(rankInRole(a), rankInRole(b)))
	})
	return out
}

// roleOf ranks one tone, knowing what else the chord has.
func roleOf(t harmony.Tone, third, sus, seventh bool) toneRole {
	natural := t.Semitones == naturalSemis[t.Degree]
	switch bare := natural && !third && !sus; {
	case t.Degree == 1:
		return roleRoot
	case t.Degree == 5 && natural:
		return roleFifth
	case t.Degree == 7, t.Degree == 6 && !seventh:
		return roleSeventh
	case t.Degree == 3, (t.Degree == 2 || t.Degree == 4) && !third:
		return roleThird
	case bare && (t.Degree == 11 || t.Degree == 9 && !seventh):
		// The suspended fourth of an eleventh chord, or the second of a sus2.
		return roleThird
	case natural, t.Degree == 2, t.Degree == 4:
		return roleColour
	}
	return roleAltered
}

// The ranks of tones of one role by degree, the lowest first: of the altered ones the ninth,
// then the fifth; of the others 13 before 11 before 9 before added tones, since what names
// the chord stays longest.
var (
	rankAltered = [14]int8{9: -3, 5: -2, 13: -1, 6: -1}
	rankOther   = [14]int8{13: -3, 6: -3, 11: -2, 9: -1}
)

func rankInRole(t chordTone) int8 {
	if t.role == roleAltered {
		return rankAltered[t.degree]
	}
	return rankOther[t.degree]
}

// rankForInversion changes the ranks of the tones for a bass that is not the root: the tone
// that the bass plays is heard already and goes last, and the root, which nobody else plays
// now, goes before colours and fifth. Over the fifth it goes before the seventh too: without it
// the chord would be another one (Am7/E would be C/E, Cmaj7/G Em/G), unless an altered tone
// names it.
func rankForInversion(tones []chordTone, bass int8) {
	overFifth, alteredBass, altered := false, false, false
	for i := range tones {
		if tones[i].pc == bass {
			overFifth = tones[i].degree == 5
			alteredBass = tones[i].role == roleAltered
			tones[i].role = roleBass
		}
		altered = altered || tones[i].role == roleAltered
	}
	for i := range tones {
		if tones[i].role == roleRoot {
			tones[i].role = roleColour
			tones[i].degree = 13 // first of its rank
			if overFifth && (alteredBass || !altered) {
				tones[i].role, tones[i].degree = roleThird, 1
			}
		}
	}
}
