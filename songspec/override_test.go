package songspec

import (
	"strconv"
	"strings"
	"testing"
)

// A value that replaces the file's has the bounds and the message of the file.
func TestOverrideSet(t *testing.T) {
	for _, row := range []struct{ name, text string }{
		{"looseness", "0"}, {"looseness", "0.35"}, {"looseness", "1"}, {"looseness", "1.01"}, {"looseness", "-0.1"},
		{"looseness", "loose"}, {"looseness", ""}, {"looseness", "1e999999999"},
		{"take", "0"}, {"take", "1000000"}, {"take", "1000001"}, {"take", "-1"}, {"take", "2.5"}, {"take", "two"},
	} {
		var o Override
		err := o.Set(row.name, row.text)
		const section = "section \"a\" { chords = \"| C |\" }\n"
		file, diags := Parse("song", []byte(row.name+" = "+strconv.Quote(row.text)+"\n"+section))
		if !diags.HasErrors() {
			if err != nil {
				t.Errorf("%s %q: %v; the file takes it", row.name, row.text, err)
				continue
			}
			inFile, _ := file.Resolve(Env{})
			file, _ = Parse("song", []byte(section))
			replaced, _ := file.Resolve(Env{Override: o})
			if inFile.Looseness != replaced.Looseness || inFile.Take != replaced.Take {
				t.Errorf("%s %q: looseness %d and take %d, in the file %d and %d", row.name, row.text,
					replaced.Looseness, replaced.Take, inFile.Looseness, inFile.Take)
			}
			continue
		}
		inFile := diags[0].Detail
		if err == nil || err.Error() != strings.ReplaceAll(inFile, strconv.Quote(row.text), row.text) {
			t.Errorf("%s %q: %v; in the file %q", row.name, row.text, err, inFile)
		}
	}
}

// What is given counts and not what the file says.
func TestOverrideReplaces(t *testing.T) {
	file, _ := Parse("song", []byte("looseness = 0.9\ntake = 7\nsection \"a\" { chords = \"| C |\" }\n"))
	var o Override
	for name, text := range map[string]string{"looseness": "0", "take": "0"} {
		if err := o.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if tl, _ := file.Resolve(Env{Override: o}); tl.Looseness != 0 || tl.Take != 0 {
		t.Errorf("looseness %d and take %d, want 0 and 0", tl.Looseness, tl.Take)
	}
	if tl, _ := file.Resolve(Env{}); tl.Looseness != 900 || tl.Take != 7 {
		t.Errorf("without: looseness %d and take %d, want 900 and 7", tl.Looseness, tl.Take)
	}
}
