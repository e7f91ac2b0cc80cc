package groove

import (
	"testing"

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
			tl := song(t, section{name: "a", chords: row.chords, energy: 4, change: func(p *timeline.Pass) {
				k, err := harmony.ParseKey(row.key)
				if err != nil {
					t.Fatal(err)
				}
				p.Key = k
			}}, section{name: "b", chords: "F", energy: 4})
			tl.Take = take
			p := NewPlan(tl, &tl.Passes[0], set)
			chords, notes := tl.Passes[0].Chords, p.bass(nil)
			for i := 2; i+1 < len(notes); i += 3 {
				c := chords[i/3].Chord
				minor, major := (c.Root.PC()+3)%12, (c.Root.PC()+4)%12
				pc := int(notes[i].Key) % 12
				if pc == minor && hasTone(&c, major) || pc == major && hasTone(&c, minor) {
					t.Errorf("take %d: %s under %s", take, keyNames[pc], chords[i/3].Written)
				}
			}
		}
	}
}
