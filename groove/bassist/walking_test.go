package bassist

import (
	"slices"
	"testing"

	"plinth/groove/groovetest"
)

func TestWalking(t *testing.T) {
	set := withBass("w===w===w===w===")
	for take := 1; take <= 10; take++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "Cmaj7|A7|Dm7|G7|Em7|A7|Dm7 G7|C6", Energy: 4},
			groovetest.Section{Name: "b", Chords: "F", Energy: 4})
		tl.Take = take
		notes := bassOf(tl, 0, set)
		if len(notes) != 33 { // the last bar of the phrase has one off the beat
			t.Fatalf("%d notes in 32 beats", len(notes))
		}
		for i, n := range notes {
			if i > 0 {
				d := abs(int(n.Key) - int(notes[i-1].Key))
				if d == 0 || d > 12 {
					t.Errorf("take %d: %d semitones into beat %d", take, d, i+1)
				}
			}
			if end := n.End(); i+1 < len(notes) && end != notes[i+1].At {
				t.Errorf("take %d: beat %d is not legato", take, i+1)
			}
		}
	}
}

// A section that begins with the chord that the one before it ends with begins on its
// bass all the same: the first beat of a section is where the harmony is heard. Common
// practice, no single source.
func TestWalkingBassOpensASectionOnTheBass(t *testing.T) {
	set := withBass("w===w===w===w===")
	for take := 1; take <= 20; take++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "F|G7|C|C", Energy: 4},
			groovetest.Section{Name: "b", Chords: "C|C|F", Energy: 4})
		tl.Take = take
		if n := bassOf(tl, 1, set)[0]; n.At != 0 || n.Key%12 != 0 {
			t.Errorf("take %d: the section on C begins with %s", take, groovetest.KeyName(int(n.Key)))
		}
	}
}

// A walking bass goes somewhere: it does not rock to and fro between two notes, leaves
// a note off the chord by step, and does not step on the next chord's bass before that
// chord is there. Common practice, no single source.
func TestWalkingGoesSomewhere(t *testing.T) {
	set := withBass("w===w===w===w===")
	for take := 1; take <= 20; take++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|Am7|Am7|F|F|G7|G7", Energy: 4},
			groovetest.Section{Name: "b", Chords: "C", Energy: 4})
		tl.Take = take
		notes := bassOf(tl, 0, set)
		for i := 3; i < len(notes); i++ {
			if a, b := notes[i-3].Key, notes[i-2].Key; a != b && notes[i-1].Key == a && notes[i].Key == b {
				t.Errorf("take %d: %s and %s to and fro from beat %d",
					take, groovetest.KeyName(int(a)), groovetest.KeyName(int(b)), i-2)
			}
		}
		tones := [4][]uint8{{0, 4, 7}, {9, 0, 4, 7}, {5, 9, 0}, {7, 11, 2, 5}} // two bars each
		for i, n := range notes[:len(notes)-1] {
			d := abs(int(notes[i+1].Key) - int(n.Key))
			if !slices.Contains(tones[i/8], n.Key%12) && d > 2 {
				t.Errorf("take %d: %d semitones away from %s, which is off the chord",
					take, d, groovetest.KeyName(int(n.Key)))
			}
		}
		// F is no tone of Am7 and the next bass; so is G over F, and C is one of both.
		for _, x := range []struct {
			from, to int
			next     uint8
		}{{8, 15, 5}, {16, 23, 7}} {
			for _, n := range notes[x.from:x.to] {
				if n.Key%12 == x.next {
					t.Errorf("take %d: %s gives the next chord away at %d", take, groovetest.KeyName(int(n.Key)), n.At)
				}
			}
		}
	}
}
