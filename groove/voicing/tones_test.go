package voicing

import (
	"encoding/json"
	"os"
	"sort"
	"strings"
	"testing"

	"plinth/songspec/harmony"
)

// suffixes are the chord suffixes of testdata/reference/chord_symbols_agreed.json
// (npm tonal and npm chord-symbol read each alike), in order.
func suffixes(t testing.TB) []string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/reference/chord_symbols_agreed.json")
	if err != nil {
		t.Fatal(err)
	}
	var in struct {
		Symbols map[string][]int `json:"symbols"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		t.Fatal(err)
	}
	var out []string
	for s := range in.Symbols {
		out = append(out, s)
	}
	sort.Strings(out)
	if len(out) < 100 {
		t.Fatalf("only %d suffixes", len(out))
	}
	return out
}

var roots = []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}

// pcNames writes a shape's pitch classes in order of rank.
func pcNames(s shape) string {
	var out []string
	for _, pc := range s.pcs[:s.n] {
		out = append(out, keyNames[pc])
	}
	return strings.Join(out, " ")
}

// Common practice, no single source: which tones a comp over a bass plays, the
// one it would miss most first.
func TestShapes(t *testing.T) {
	tests := []struct {
		chord  string
		voices int
		want   string
		why    string
	}{
		{"C", 2, "E G", "the bass has the root: third and fifth make the chord whole"},
		{"C", 3, "E G C", "a triad in three voices is the triad"},
		{"C", 4, "E G C C", "the root is doubled, not the third"},
		{"Cm", 4, "Eb G C C", "the root is doubled first"},
		{"C7", 2, "E Bb", "guide tones"},
		{"C7", 3, "E Bb G", "the root is the last to come"},
		{"C7", 4, "E Bb G C", "all four"},
		{"Cmaj7", 2, "E B", "guide tones"},
		{"Cm7", 3, "Eb Bb G", "guide tones, then the fifth"},
		{"C6", 2, "E A", "the sixth stands for the seventh"},
		{"C6", 3, "E A G", "with the root instead of the fifth it would be Am"},
		{"C69", 3, "E A D", "sixth and ninth name it"},
		{"C9", 3, "E Bb D", "the fifth goes before the ninth"},
		{"C9", 4, "E Bb D G", "the root goes first"},
		{"C13", 3, "E Bb A", "the thirteenth names it"},
		{"C13", 4, "E Bb A D", "root and fifth go first"},
		{"Cm11", 3, "Eb Bb F", "the eleventh names it"},
		{"C11", 3, "F Bb D", "an eleventh chord is a suspended ninth"},
		{"C7sus4", 2, "F Bb", "the fourth stands for the third"},
		{"Csus4", 2, "F G", "the fourth, and the fifth that it hangs over"},
		{"Csus2", 3, "D G C", "the second stands for the third"},
		{"C5", 3, "G C C", "a power chord has no third to find"},
		{"Cadd9", 3, "E D G", "the added ninth before the fifth"},
		{"Caug", 2, "E Ab", "the altered fifth is never dropped"},
		{"Cdim", 2, "Eb F#", "nor here"},
		{"Cdim7", 2, "Eb A", "its seventh says its fifth too"},
		{"Cm7b5", 2, "Eb Bb F#", "without the altered fifth it would be Cm7: one voice more"},
		{"C7b9", 2, "E Bb C#", "the altered ninth is never dropped: one voice more"},
		{"C7b9", 3, "E Bb C#", "fifth and root go"},
		{"C7#9", 3, "E Bb Eb", "the altered ninth"},
		{"C7#5b9", 3, "E Bb C# Ab", "two altered tones and the guide tones: one voice more"},
		{"C7#11", 3, "E Bb F#", "the altered eleventh"},
		{"C/E", 2, "G C", "the bass has the third, nobody else has the root"},
		{"C/E", 3, "C G E", "three voices of a triad are all three"},
		{"C/G", 2, "E C", "the bass has the fifth"},
		{"C7/Bb", 3, "E C G", "the bass has the seventh: the triad over it"},
		{"Am7/G", 3, "C A E", "likewise"},
		{"C7/E", 2, "Bb C", "seventh and root over the third"},
		{"Cm7b5/Gb", 2, "C Eb Bb", "over the altered fifth the root makes clear what it is"},
		{"F/G", 3, "A F C", "a bass outside the chord: the upper chord"},
		{"Bb/Ab", 2, "D Bb", "likewise, with its root"},
		{"C/Db", 3, "E C G", "likewise"},
	}
	for _, tt := range tests {
		t.Run(tt.chord, func(t *testing.T) {
			got := pcNames(shapes(chordOf(t, tt.chord), tt.voices, 0)[0])
			// In one shape the order of equals does not matter.
			if sorted(got) != sorted(tt.want) {
				t.Errorf("%d voices: %s, want %s: %s", tt.voices, got, tt.want, tt.why)
			}
		})
	}
}

func sorted(s string) string {
	f := strings.Fields(s)
	sort.Strings(f)
	return strings.Join(f, " ")
}

// What makes a chord what it is (harmony.Chord.Essential) is in every shape,
// unless the bass plays it; the diminished seventh's fifth may go.
func TestShapesKeepTheEssential(t *testing.T) {
	for _, suffix := range suffixes(t) {
		for _, bass := range []string{"", "/E", "/G", "/D"} {
			c, err := harmony.ParseChord("C" + suffix + bass)
			if err != nil {
				continue // which spellings are read is tested in harmony
			}
			for voices := 2; voices <= 4; voices++ {
				for _, s := range shapes(c, voices, 0) {
					checkEssential(t, c, s, voices)
				}
			}
		}
	}
}

func checkEssential(t *testing.T, c harmony.Chord, s shape, voices int) {
	t.Helper()
	var has uint16
	for _, pc := range s.pcs[:s.n] {
		has |= 1 << pc
	}
	has |= 1 << c.Bass.PC()
	dim7 := isDim7(roles(c))
	for _, tone := range c.Tones() {
		pc := (c.Root.PC() + int(tone.Semitones)) % 12
		if essential(c, tone) && has&(1<<pc) == 0 && !(dim7 && tone.Degree == 5) && int(s.n) < MaxVoices {
			t.Errorf("%s in %d voices, %s: without its %s", c, voices, pcNames(s), keyNames[pc])
		}
	}
}
