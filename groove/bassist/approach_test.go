package bassist

import (
	"testing"

	"plinth/groove/bassline"
	"plinth/groove/groovetest"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// An approach is no false relation to the chord it leaves: the bass does not play C
// under the Cb of Abm6 because the key has it, nor G under the G# of E7. The songs are
// in C, the first row in Eb. Common practice, no single source.
func TestApproachAgreesWithTheThird(t *testing.T) {
	set := withBass("1=======5=====a=")
	for _, row := range []struct{ key, chords string }{
		{"Eb major", "Abm6|Bb7|Eb|Abm6|Bb7|Gm7|Cm7|Abm|Bb"},
		{"C major", "E7|Am|D7|G|Fm6|G7|A7|Dm|B7|Em"},
	} {
		for take := 1; take <= 10; take++ {
			tl := groovetest.Song(t,
				groovetest.Section{Name: "a", Chords: row.chords, Energy: 4, Change: func(p *timeline.Pass) {
					k, err := harmony.ParseKey(row.key)
					if err != nil {
						t.Fatal(err)
					}
					p.Key = k
				}}, groovetest.Section{Name: "b", Chords: "F", Energy: 4})
			tl.Take = take
			chords, notes := tl.Passes[0].Chords, bassAlone(tl, 0, set)
			for i := 2; i+1 < len(notes); i += 3 {
				c := chords[i/3].Chord
				minor, major := (c.Root.PC()+3)%12, (c.Root.PC()+4)%12
				pc := int(notes[i].Key) % 12
				if pc == minor && bassline.HasTone(&c, major) || pc == major && bassline.HasTone(&c, minor) {
					t.Errorf("take %d: %s under %s", take, groovetest.KeyNames[pc], chords[i/3].Written)
				}
			}
		}
	}
}

// Where the bass does not walk, an approach is no semitone beside the third or seventh of the chord that
// it leaves, and nothing leads where the root is a step from the next bass already.
func TestApproachDoesNotRub(t *testing.T) {
	set := withBass("1=======1=====a=")
	for take := 1; take <= 20; take++ {
		tl := groovetest.Song(t,
			groovetest.Section{Name: "a", Chords: "Bb7sus4|B|Bb7|Ebm|Ab7|Cb|Dm7|G7|C7|F|Em7|F#m7", Energy: 4},
			groovetest.Section{Name: "b", Chords: "F", Energy: 4})
		tl.Take = take
		p, notes := &tl.Passes[0], bassAlone(tl, 0, set)
		for i, n := range notes[:len(notes)-1] {
			chord, next := chordAt(p, n.At), chordAt(p, notes[i+1].At)
			pc := int(n.Key) % 12
			if *chord == *next || pc == chord.Bass.PC() || bassline.HasTone(chord, pc) {
				continue
			}
			if isStepApart(chord.Bass.PC(), next.Bass.PC()) {
				t.Errorf("take %d: %s between %s and %s", take, groovetest.KeyName(int(n.Key)), chord, next)
			}
			for _, degree := range []byte{'3', '7'} {
				tone, ok := bassline.Tone(chord, degree)
				if d := (pc - tone + 12) % 12; ok && (d == 1 || d == 11) {
					t.Errorf("take %d: %s under %s", take, groovetest.KeyName(int(n.Key)), chord)
				}
			}
		}
	}
}
