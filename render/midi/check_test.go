package midi

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"gitlab.com/gomidi/midi/v2/smf"
)

// chunk is a chunk of a file from its type and its body in hexadecimal.
func chunk(t testing.TB, kind, body string) string {
	b := mustHex(t, body)
	return kind + fmt.Sprintf("%c%c%c%c", len(b)>>24, len(b)>>16&0xff, len(b)>>8&0xff, len(b)&0xff)[:4] + b
}

func mustHex(t testing.TB, s string) string {
	t.Helper()
	var b []byte
	if _, err := fmt.Sscanf(strings.ReplaceAll(s, " ", ""), "%X", &b); err != nil {
		t.Fatal(s, err)
	}
	return string(b)
}

// The smallest file that passes: one bar of 4/4 (3840 ticks are 9E 00), one note
// each. Every row of the test changes one thing in it.
var (
	goodHeader    = "0001 0004 03C0"
	goodConductor = "00 FF03 01 61 | 00 FF51 03 07A120 | 00 FF58 04 04021808 | 00 FF59 02 0000 | 00 FF06 01 61 | " +
		"9E00 FF2F00"
	goodDrums = "00 FF03 05 4472756D73 | 00 FF04 01 61 | 00 C900 | 00 99 24 40 | 10 89 24 40 | 9D70 FF2F00"
	goodBass  = "00 FF03 04 42617373 | 00 FF04 01 61 | 00 C121 | 00 91 24 40 | 9E00 81 24 40 | 00 FF2F00"
	goodPiano = "00 FF03 05 5069616E6F | 00 FF04 01 61 | 00 C000 | 00 90 24 40 | 10 80 24 40 | 9D70 FF2F00"
)

func assemble(t testing.TB, header, conductor, drums string) []byte {
	clean := func(s string) string { return strings.ReplaceAll(s, "|", "") }
	return []byte(chunk(t, "MThd", header) + chunk(t, "MTrk", clean(conductor)) + chunk(t, "MTrk", clean(drums)) +
		chunk(t, "MTrk", clean(goodBass)) + chunk(t, "MTrk", clean(goodPiano)))
}

var checks = []struct{ name, where, old, new, want string }{
	{"a good file", "", "", "", ""},
	{"format 0", "header", "0001", "0000", "format 0"},
	{"another division", "header", "03C0", "01E0", "480 ticks"},
	{"more tracks than there are", "header", "0004", "0005", "no chunk"},
	{"fewer tracks than there are", "header", "0004", "0003", "3 tracks"},
	{"a note in the first track", "conductor", "00 FF06", "00 902440 | 10 802440 | 00 FF06",
		"channel event in the first track"},
	{"no tempo at 0", "conductor", "00 FF51 03 07A120 |", "", "does not stand at tick 0"},
	{"no meter at 0", "conductor", "00 FF58 04 04021808 |", "", "does not stand at tick 0"},
	{"no key at 0", "conductor", "00 FF59 02 0000 |", "", "does not stand at tick 0"},
	{"the tempo comes late", "conductor", "00 FF51", "10 FF51", "does not stand at tick 0"},
	{"tempo 0", "conductor", "07A120", "000000", "0 microseconds"},
	{"a tempo of one byte", "conductor", "FF51 03 07A120", "FF51 01 07", "1 bytes instead of 3"},
	{"eight 32nds a quarter", "conductor", "04021808", "04021804", "the meter"},
	{"no clocks", "conductor", "04021808", "04020008", "the meter"},
	{"eight sharps", "conductor", "FF59 02 0000", "FF59 02 0800", "the key"},
	{"the end is on no bar line", "conductor", "04021808", "03021808", "no bar line"},
	{"a title beyond ASCII", "conductor", "FF03 01 61", "FF03 01 E9", "plain ASCII"},
	{"a copyright", "conductor", "FF06 01 61", "FF02 01 61", "belongs in no file"},
	{"another name", "drums", "4472756D73", "4472756D74", `named "Drumt"`},
	{"the name is not first", "drums", "00 FF03 05 4472756D73 | 00 FF04 01 61", "00 FF04 01 61 | 00 FF03 05 4472756D73",
		"first event"},
	{"no instrument", "drums", "00 FF04 01 61 |", "", "no instrument"},
	{"no program", "drums", "00 C900 |", "", "before the program change"},
	{"the note before the program", "drums", "00 C900 | 00 99 24 40", "00 99 24 40 | 00 C900",
		"before the program change"},
	{"two programs", "drums", "00 C900", "00 C900 00 C900", "second program"},
	{"a program under a note", "drums", "10 89 24 40", "08 C900 08 89 24 40", "under a note"},
	{"another channel", "drums", "C900", "C800", "channel 9 instead of 10"},
	{"a tempo in a part", "drums", "00 C900", "00 FF51 03 07A120 00 C900", "outside the first track"},
	{"a cue point in a part", "drums", "00 C900", "00 FF07 01 61 00 C900", "outside the first track"},
	{"an empty cue point", "conductor", "00 FF06 01 61", "00 FF07 00", "an empty text"},
	{"a cue point", "conductor", "00 FF06 01 61", "00 FF07 01 61", ""},
	{"a marker in a part", "drums", "00 C900", "00 FF06 01 61 00 C900", "outside the first track"},
	{"a bank select", "drums", "00 C900", "00 B90000 00 C900", "bank select"},
	{"a system exclusive", "drums", "00 C900", "00 F0057E7F0901F7 00 C900", "status F0"},
	{"running status", "drums", "10 89 24 40", "10 24 00", "without a status byte"},
	{"an off in disguise", "drums", "89 24 40", "99 24 00", "note-on of velocity 0"},
	{"no off", "drums", "10 89 24 40 | 9D70", "9E00", "1 notes still sound"},
	{"an off too many", "drums", "10 89 24 40", "10 89 24 40 00 89 24 40", "does not sound"},
	{"two of one pitch", "drums", "10 89", "00 99 24 40 | 10 89", "struck while it sounds"},
	{"a note of no length", "drums", "10 89 24 40 | 9D70", "00 89 24 40 | 9E00", "order at one tick"},
	{"an on before an off", "drums", "10 89 24 40", "10 99 26 40 00 89 24 40", "order at one tick"},
	{"a program after a note", "drums", "00 C900 | 00 99 24 40", "00 C900 | 00 99 24 40 00 B90740",
		"order at one tick"},
	{"key 128", "drums", "99 24 40", "99 80 40", "over 127"},
	{"an end before the others", "drums", "9D70 FF2F00", "9D6F FF2F00", "ends at tick 3839"},
	{"no end", "drums", "9D70 FF2F00", "", "no end"},
	{"more after the end", "drums", "9D70 FF2F00", "9D70 FF2F00 00 FF2F00", "follows the end"},
	{"a delta of two bytes that needs one", "drums", "10 89", "8010 89", "empty byte"},
	{"cut in a note", "drums", "9D70 FF2F00", "10 99 24", "middle of an event"},
	{"cut in a text", "drums", "FF04 01 61 | 00 C900 | 00 99 24 40 | 10 89 24 40 | 9D70 FF2F00", "FF04 7F 61",
		"middle of an event"},
}

func TestCheck(t *testing.T) {
	for _, row := range checks {
		parts := map[string]string{"header": goodHeader, "conductor": goodConductor, "drums": goodDrums}
		if row.where != "" {
			if strings.Count(parts[row.where], row.old) != 1 {
				t.Fatalf("%s: %q stands not once in the %s", row.name, row.old, row.where)
			}
			parts[row.where] = strings.Replace(parts[row.where], row.old, row.new, 1)
		}
		err := Check(assemble(t, parts["header"], parts["conductor"], parts["drums"]))
		switch {
		case row.want == "" && err != nil:
			t.Errorf("%s: %v", row.name, err)
		case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
			t.Errorf("%s: %v, expected %q", row.name, err, row.want)
		}
	}
}

// Every file that is cut short or has a byte too many is refused.
func TestCheckEveryLength(t *testing.T) {
	file := assemble(t, goodHeader, goodConductor, goodDrums)
	for n := range file {
		if err := Check(file[:n]); err == nil {
			t.Errorf("the first %d of %d bytes pass", n, len(file))
		}
	}
	if err := Check(append(file, 0)); err == nil {
		t.Error("a byte after the last track passes")
	}
}

// gomidi reads every file that passes, with as many note-ons as note-offs.
func FuzzCheck(f *testing.F) {
	f.Add(assemble(f, goodHeader, goodConductor, goodDrums))
	for _, row := range checks {
		if row.where == "drums" {
			f.Add(assemble(f, goodHeader, goodConductor, strings.Replace(goodDrums, row.old, row.new, 1)))
		}
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		if Check(file) != nil {
			return
		}
		song, err := smf.ReadFrom(bytes.NewReader(file))
		if err != nil {
			t.Fatalf("passes the check and is not read: %v", err)
		}
		var on, off int
		for _, track := range song.Tracks {
			for _, e := range track {
				var channel, key, velocity uint8
				switch {
				case e.Message.GetNoteStart(&channel, &key, &velocity):
					on++
				case e.Message.GetNoteEnd(&channel, &key):
					off++
				}
			}
		}
		if on != off {
			t.Fatalf("%d notes begin and %d end", on, off)
		}
	})
}
