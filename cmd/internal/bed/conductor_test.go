package bed

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"gitlab.com/gomidi/midi/v2/smf"
)

// told are the events of one type in the first track of a song's MIDI file, each with its bar of 4/4: key
// signatures (59) as sharps and mode, cue points (07) as text. Standard MIDI Files 1.0.
func told(t *testing.T, song string, kind byte) (out []string) {
	t.Helper()
	res, err := Build(memory("weir.song.hcl", map[string]string{"weir.song.hcl": song}))
	if err != nil || res.Failed() {
		t.Fatal(err, res.Diags)
	}
	file, err := smf.ReadFrom(bytes.NewReader(res.Outputs[0].Data))
	if err != nil {
		t.Fatal(err)
	}
	tick := int64(0)
	for _, e := range file.Tracks[0] {
		tick += int64(e.Delta)
		m := []byte(e.Message)
		if len(m) < 3 || m[0] != 0xFF || m[1] != kind {
			continue
		}
		text := string(m[3:])
		if kind == 0x59 {
			text = fmt.Sprintf("%+d %s", int8(m[3]), []string{"major", "minor"}[m[4]])
		}
		out = append(out, fmt.Sprintf("%d: %s", tick/3840+1, text))
	}
	return out
}

const eight = "key = \"Eb\"\nsection \"verse\" {\n  chords = \"| Eb | Ab | Bb7 | Eb | Ab | Bb7 | Eb | Bb7 |\"\n%s}\n" +
	"form {\n  play \"verse\" {\n%s  }\n  play \"verse\" {}\n}\n"

// TestKeySignatures: a key that changes inside a pass has its key signature in the file.
func TestKeySignatures(t *testing.T) {
	for _, row := range []struct{ section, play, want string }{
		{"", "", "1: -3 major"},
		{"  bars \"5-\" { key = \"C minor\" }\n", "", "1: -3 major, 5: -3 minor, 9: -3 major, 13: -3 minor"},
		{"  bars \"5-6\" { key = \"Bb\" }\n", "", "1: -3 major, 5: -2 major, 7: -3 major, 13: -2 major, 15: -3 major"},
		{"", "    bars \"7-\" { lift = 1 }\n", "1: -3 major, 7: +4 major"},
		{"", "    bars \"5-\" { key = \"F\" }\n", "1: -3 major, 5: -1 major, 9: -3 major"},
		{"", "    only = \"4-5\"\n    times = 2\n    bars \"5\" { key = \"F\" }\n",
			"1: -3 major, 2: -1 major, 3: -3 major, 4: -1 major, 5: -3 major"},
	} {
		if got := strings.Join(told(t, fmt.Sprintf(eight, row.section, row.play), 0x59), ", "); got != row.want {
			t.Errorf("%s%s: %s, expected %s", row.section, row.play, got, row.want)
		}
	}
}

// TestCuePoints: a line of dialogue in a pass that goes round comes once, unless it says each_time, and
// the words of a vamp stand where it begins.
func TestCuePoints(t *testing.T) {
	const cue = "  cue \"2: 1\" {\n    text = \"Nell: no\"\n%s  }\n"
	once, each := fmt.Sprintf(cue, ""), fmt.Sprintf(cue, "    each_time = true\n")
	for _, row := range []struct {
		section, play string
		want          []string
	}{
		{once, "", []string{"2: Nell: no", "10: Nell: no"}},
		{once, "    only = \"1-2\"\n    times = 3\n", []string{"2: Nell: no", "8: Nell: no"}},
		{each, "    only = \"1-2\"\n    times = 3\n",
			[]string{"2: Nell: no", "4: Nell: no", "6: Nell: no", "8: Nell: no"}},
		{each, "    only = \"1-2\"\n    times = 3\n" + once, []string{"2: Nell: no", "8: Nell: no"}},
		{"", "    vamp = \"till Nell turns\"\n    times = 2\n", []string{"1: vamp till Nell turns"}},
		{"", "    vamp = \"Vamp bis Nell geht, weiß\"\n", []string{"1: vamp bis Nell geht, weiss"}},
	} {
		if got := told(t, fmt.Sprintf(eight, row.section, row.play), 7); !slices.Equal(got, row.want) {
			t.Errorf("%s%s: %q, expected %q", row.section, row.play, got, row.want)
		}
	}
}
