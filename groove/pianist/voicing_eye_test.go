package pianist

import (
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/voicing"
	"plinth/songspec/harmony"
)

// What a pianist sees at a glance in a voicing or between two: each row plays a
// chart at some energies, and every voicing of it (or the way from each to the
// next) has the property. Common practice, no single source.
func TestVoicingsByEye(t *testing.T) {
	all := []int{1, 2, 3, 4, 5}
	tests := []struct {
		name   string
		charts []string
		levels []int
		holds  func(c harmony.Chord, a, b voicing.Voicing) bool
		why    string
	}{
		{"line cliché", []string{"Cm|Cm(maj7)|Cm7|Cm6", "Am|Am(maj7)|Am7|Am6", "Fm Fm(maj7)|Fm7 Fm6"}, []int{3, 4, 5},
			func(_ harmony.Chord, a, b voicing.Voicing) bool { return b.N == 0 || oneVoiceDown(a, b) },
			"root, major seventh, seventh and sixth come down in one voice and nothing else moves"},
		{"suspended fourth", []string{"G7sus4|G7", "Bb7sus4 Bb7|Eb", "Dsus4|D"}, all,
			func(c harmony.Chord, a, b voicing.Voicing) bool { return !hasDegree(c, 4) || oneVoiceDown(a, b) },
			"the fourth goes to the third in its own voice, the others stay"},
		{"minor seventh over its fifth", []string{"Am7/E|Dm7/A", "Gm7/D|F#m7/C#"}, all, rootSounds,
			"without its root Am7/E is C/E"},
		{"major seventh over its fifth", []string{"Cmaj7/G|Fmaj7/C", "Abmaj7/Eb|Dmaj7/A"}, all, rootSounds,
			"without its root Cmaj7/G is Em/G"},
		{"borrowed iv with its sixth over its fifth", []string{"Eb|Abm6/Eb", "C|Fm6/C"}, all, rootSounds,
			"without its root Abm6/Eb is half of a Db9"},
		{"major third in the bass", []string{"C/E|F", "D/F#|G", "G/B|C", "Eb/G|Ab"}, []int{2, 3}, bassAlone,
			"the bass has the third, most often a leading tone: not twice"},
		{"first inversion of a dominant", []string{"F|G7/B|C", "Bb|C7/E|F"}, []int{2, 3}, bassAlone,
			"its third is the leading tone, and the bass has it"},
		{"major seventh as it comes", []string{"Cmaj7|Am7|Dm7|G7", "Dm7|G7|Cmaj7", "Ebmaj7|Cm7|Fm7|Bb7"}, []int{4, 5},
			func(c harmony.Chord, a, _ voicing.Voicing) bool { return !isMaj7(c) || !sideBySide(a, c.Root.PC(), 11) },
			"root and seventh a semitone apart in the middle close the chord up"},
		{"thirteenth over the seventh", []string{"Gm9|C13|Fmaj7", "Am9|D13|Gmaj7", "Dm9|G13|Cmaj9"}, all,
			func(c harmony.Chord, a, _ voicing.Voicing) bool { return !sideBySide(a, c.Root.PC(), 9) },
			"a thirteenth a semitone under the seventh is a wrong note"},
		{"sharp ninth over the third", []string{"Dm|E7#9|Am", "Bb|C7#9|Fm", "Gm|D7alt|Gm", "Cm|F7#9|Bbm",
			"Dm7|G7alt|Cmaj7", "Dm7b5|G7#5#9|Cm"}, all,
			func(c harmony.Chord, a, _ voicing.Voicing) bool { return !sideBySide(a, c.Root.PC(), 3) },
			"major and minor third a semitone apart sound like a slip; an octave makes the chord"},
		{"colours on top", []string{"Cmaj9|Am9|Dm9|G13", "F13|Cmaj9|Am9", "Ebmaj9|Fm9|Bb13|Ebmaj9"}, []int{2, 3, 4, 5},
			func(c harmony.Chord, a, _ voicing.Voicing) bool {
				return !isMaj7(c) || int(a.Notes[0])%12 != (c.Root.PC()+2)%12
			},
			"a ninth at the bottom hides what the chord stands on"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, chart := range tt.charts {
				for _, energy := range tt.levels {
					pass := groovetest.PassOf(t, chart, energy)
					p := groovetest.PlanOf(pass, groovetest.CompFeel("c==============="))
					vs := append(chordsOf(p), voicing.Voicing{})
					for i := range pass.Chords {
						if !tt.holds(pass.Chords[i].Chord, vs[i], vs[i+1]) {
							t.Errorf("energy %d, %s, %s: %s, then %s: %s",
								energy, chart, pass.Chords[i].Written, names(vs[i]), names(vs[i+1]), tt.why)
						}
					}
				}
			}
		})
	}
}

// oneVoiceDown reports whether b is a with one voice a semitone or a tone lower.
func oneVoiceDown(a, b voicing.Voicing) bool {
	moved := 0
	for i := int8(0); i < a.N && a.N == b.N; i++ {
		switch d := int(a.Notes[i]) - int(b.Notes[i]); d {
		case 0:
		case 1, 2:
			moved++
		default:
			return false
		}
	}
	return moved == 1
}

func hasDegree(c harmony.Chord, degree int8) bool {
	for _, t := range c.Tones() {
		if t.Degree == degree {
			return true
		}
	}
	return false
}

func isMaj7(c harmony.Chord) bool {
	for _, t := range c.Tones() {
		if t.Degree == 7 && t.Semitones == 11 {
			return true
		}
	}
	return false
}

func soundsPC(v voicing.Voicing, pc int) bool {
	for _, k := range v.Notes[:v.N] {
		if int(k)%12 == pc {
			return true
		}
	}
	return false
}

// rootSounds: a chord over another bass has its root in the comp.
func rootSounds(c harmony.Chord, a, _ voicing.Voicing) bool {
	return c.Bass.PC() == c.Root.PC() || soundsPC(a, c.Root.PC())
}

// bassAlone: what the bass plays in an inversion is not in the comp.
func bassAlone(c harmony.Chord, a, _ voicing.Voicing) bool {
	return c.Bass.PC() == c.Root.PC() || !soundsPC(a, c.Bass.PC())
}

// sideBySide reports whether the tone so many semitones over the root stands a
// semitone under its neighbour.
func sideBySide(v voicing.Voicing, root, semitones int) bool {
	for i := int8(1); i < v.N; i++ {
		if int(v.Notes[i-1])%12 == (root+semitones)%12 && v.Notes[i]-v.Notes[i-1] == 1 {
			return true
		}
	}
	return false
}
