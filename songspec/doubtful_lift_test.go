package songspec

import (
	"fmt"
	"strings"
	"testing"
)

// Letters are doubted where all plays of a section are lifted into the key that they are written in, and nowhere
// else.
func TestLettersUnderALift(t *testing.T) {
	const song = "key = \"D\"\n%ssection \"verse\" {\n  chords = \"| D | A/C# | Bm7 | G |\"\n}\n" +
		"section \"coda\" {\n%s}\nform {\n  play \"verse\" {}\n%s}\n"
	const inEb, inD = "  chords = \"| Eb | Ab/Eb | Fm7 | Eb |\"\n", "  chords = \"| D | G/D | Em7 | D |\"\n"
	const lifted = "  play \"verse\" { lift = 1 }\n  play \"coda\" {}\n"
	for _, row := range []struct {
		name, top, coda, form string
		want                  bool
	}{
		{"as it is to sound", "", inEb, lifted, true},
		{"transposed for another singer", "transpose = -3\n", inEb, lifted, true},
		{"under the key of a play", "", inEb, "  play \"coda\" { key = \"Eb\" }\n", true},
		{"as it is to be written", "", inD, lifted, false},
		{"in numerals", "", "  chords = \"| I | IV/5 | ii7 | I |\"\n", lifted, false},
		{"played before the lift, too", "", inEb, "  play \"coda\" {}\n" + lifted, false},
		{"no lift", "", inEb, "  play \"coda\" {}\n", false},
		{"lifted elsewhere", "", inEb, strings.Replace(lifted, "1", "3", 1), false},
		{"with a key of its own", "", "  key = \"Eb\"\n" + inEb, lifted, false},
	} {
		_, diags := build(fmt.Sprintf(song, row.top, row.coda, row.form))
		got := false
		for _, d := range diags {
			if d.Summary == "Letters that a lift moves once more" {
				got = true
				if want := "Write D for Eb, G/D for Ab/Eb, Em7 for Fm7."; !strings.HasSuffix(d.Detail, want) {
					t.Errorf("%s: %q does not say %q", row.name, d.Detail, want)
				}
			}
		}
		if got != row.want {
			t.Errorf("%s: doubted: %v", row.name, got)
		}
	}
}
