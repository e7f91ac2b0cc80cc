package songspec

import (
	"os"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// examplesWith are the examples of a README that have a word in them.
func examplesWith(t testing.TB, readme, word string) (out []string) {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	for i, part := range strings.Split(string(text), "```") {
		if example, is := strings.CutPrefix(part, "hcl\n"); is && i%2 == 1 && strings.Contains(example, word) {
			out = append(out, example)
		}
	}
	return out
}

// TestSingerExamples: what the reference and the guide's README show reads as they say.
func TestSingerExamples(t *testing.T) {
	duet := examplesWith(t, "README.md", "track =")
	if len(duet) != 1 {
		t.Fatalf("%d examples with a vocal", len(duet))
	}
	v := good(t, duet[0]+one("| C |")).Vocals
	// Middle C is 60: G3 55, E5 76, A2 45, F4 65.
	if len(v) != 2 || v[0].Name != "Nell" || v[1].Name != "Tom" || v[0].Path != v[1].Path || v[0].Track != "Soprano" ||
		v[0].RangeLow != 55 || v[0].RangeHigh != 76 || v[1].RangeLow != 45 || v[1].RangeHigh != 65 || v[0].Rough {
		t.Errorf("vocals %+v", v)
	}
	more := examplesWith(t, "guide/README.md", "vocal ")
	if len(more) != 2 {
		t.Fatalf("%d examples in the guide's README", len(more))
	}
	if v := good(t, more[0]+one("| F |")).Vocals; v[0].Transpose != -2 || v[0].From != 1 {
		t.Errorf("another key: %+v", v)
	}
	if v := good(t, more[1]+one("| F |")).Vocals; !v[0].Rough || v[0].Transpose != 0 {
		t.Errorf("a rough recording: %+v", v)
	}
}

// TestFilesOfOneSinger: vocals of one name are files of one singer, also the same file in two places.
func TestFilesOfOneSinger(t *testing.T) {
	files := examplesWith(t, "README.md", "demo-verse.mid")
	if len(files) != 1 {
		t.Fatalf("%d examples with two files of a singer", len(files))
	}
	form := one("| C |") + "form {\n  play \"a\" {}\n  play \"a\" {}\n}\n"
	v := good(t, strings.ReplaceAll(files[0], "chorus (2)", "a (2)")+form).Vocals
	if len(v) != 2 || !v[0].SameSinger(&v[1]) || v[0].Path == v[1].Path || v[1].From != 2 {
		t.Errorf("vocals %+v", v)
	}
	twice := "vocal \"v.mid\" { name = \"Joss\" }\nvocal \"v.mid\" {\n  name = \"joss\"\n  from = 2\n}\n"
	v = good(t, twice+form).Vocals
	if len(v) != 2 || !v[0].SameSinger(&v[1]) || v[1].From != 2 {
		t.Errorf("vocals %+v", v)
	}
}

// Eight singers are taken, in order, and the ninth is one too many.
func TestManySingers(t *testing.T) {
	src := one("| C |")
	for _, name := range strings.Split("abcdefgh", "") {
		src += "vocal \"" + name + ".mid\" {\n  name = \"" + name + "\"\n}\n"
	}
	tl := good(t, src)
	if len(tl.Vocals) != timeline.MaxVocals || tl.Vocals[7].Name != "h" {
		t.Errorf("vocals %+v", tl.Vocals)
	}
	f, _ := Parse("x", []byte(src))
	if refs := f.VocalFiles(); len(refs) != 8 || refs[2].Path != "c.mid" {
		t.Errorf("files %+v", refs)
	}
}

// TestVocalFromPass: a guide may begin with a pass, as many bars earlier as it has count-in.
func TestVocalFromPass(t *testing.T) {
	const form = "\nsection \"vamp\" {\n  chords = \"| C | F |\"\n}\n" +
		"section \"verse\" {\n  chords = \"| C | F | G |\"\n}\n" +
		"section \"tag - 2\" {\n  chords = \"| C |\"\n}\n" +
		"form {\n  play \"vamp\" { times = 3 }\n  play \"verse\" {}\n  play \"verse\" {}\n" +
		"  play \"tag - 2\" {}\n}\n"
	for from, want := range map[string]int{
		`"vamp"`: 1, `"vamp - 2"`: -1, `"verse"`: 7, `"Verse"`: 7, `"verse (1)"`: 7, `"verse (2)"`: 10,
		`"verse (2) - 2"`: 8, `"verse (2)+1"`: 11, `"tag - 2"`: 13, `"tag - 2 - 1"`: 12, "4": 4,
	} {
		if got := good(t, "vocal \"a.mid\" { from = "+from+" }"+form).Vocals[0].From; got != want {
			t.Errorf("from = %s is bar %d, want %d", from, got, want)
		}
	}
}
