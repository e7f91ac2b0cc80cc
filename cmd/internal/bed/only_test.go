package bed

import (
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/cmd/internal/files"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// Every part of a song fits a file (midi.Write checks that), however early and late the hands
// are, and no two parts have one file, nor does a part have the song's.
func TestEveryPartFitsAFile(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	loose := 1000
	parts := 0
	for range 25 {
		song := songtest.Random(r, randomFeels())
		req := randomRequest(song)
		req.Override.Looseness = &loose
		res, err := Build(req)
		if err != nil || res.Failed() {
			t.Fatalf("%v %v\n%s", err, res.Diags.Errs(), song.Text)
		}
		names := map[string]string{strings.ToLower(res.Outputs[0].Name): "the song"}
		all := res.Parts()
		for i := range res.Timeline.Passes {
			all = append(all, res.Timeline.Passes[i].Name())
		}
		for _, name := range all {
			req.Only = name
			part, err := Build(req)
			if err != nil {
				t.Fatalf("%q: %v\n%s", name, err, song.Text)
			}
			file := strings.ToLower(part.Outputs[0].Name)
			if other, twice := names[file]; twice && other != name {
				t.Errorf("%q and %q are both written to %s", other, name, file)
			}
			names[file] = name
			parts++
		}
	}
	if parts < 200 {
		t.Errorf("only %d parts", parts)
	}
}

// The name of a part's file is one that every file system takes: letters, digits, hyphens and
// points, no more than 255 bytes (the common limit of file systems), not ending with a point.
func TestPartNames(t *testing.T) {
	for name, want := range map[string]string{
		"chorus":                       "chorus",
		"Verse 1":                      "Verse-1",
		"A/B: \"what?\" <1> | *2\\":    "A-B-what-1-2",
		"..":                           "section",
		"con.":                         "con",
		"サビ":                           "サビ",
		"Zwischenspiel (für Clara) –":  "Zwischenspiel-für-Clara",
		"Stro\u0302phe":                "Strôphe",
		strings.Repeat("長", 64):        strings.Repeat("長", 26),
		strings.Repeat("verse ", 10):   "verse-verse-verse-verse-verse-verse-verse-verse-verse-verse",
		"\u202e":                       "section",
		"tab\tand\u00a0no-break space": "tab-and-no-break-space",
	} {
		if got := FileNames([]string{name}, "section")[0]; got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
	alike := &timeline.Timeline{}
	for _, name := range []string{"A", "a", "A'", "!", "?", "a-2"} {
		alike.Passes = append(alike.Passes, timeline.Pass{Section: name})
	}
	var got []string
	for i, p := range alike.Passes {
		got = append(got, partName(alike, p.Section, i), partName(alike, p.Name(), i))
	}
	if s := fmt.Sprint(got); s != "[A A.1 a-2 a-2.1 A-3 A-3.1 section section.1 section-2 section-2.1 a-2-2 a-2-2.1]" {
		t.Error(s)
	}
}

// A part keeps away from the file of a whole song beside it.
func TestPartBesideASongOfItsName(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"weir.song.hcl", "weir.verse.hcl"} {
		if err := files.Create(filepath.Join(dir, name), []byte(plainSong)); err != nil {
			t.Fatal(err)
		}
	}
	song := filepath.Join(dir, "weir.song.hcl")
	for _, want := range []string{"weir.verse.part.mid", "weir.verse.mid"} {
		res, err := Build(Request{Song: song, Only: "verse"})
		if err != nil || res.Outputs[0].Name != want {
			t.Errorf("%v, want %s", err, want)
		}
		if err := os.Remove(filepath.Join(dir, "weir.verse.hcl")); err != nil && want == "weir.verse.part.mid" {
			t.Fatal(err)
		}
	}
}
