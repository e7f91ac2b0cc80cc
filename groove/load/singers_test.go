package load_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"plinth/groove/load"
	"plinth/songspec/outline"
)

// TestOneSingerTwoFiles: who has two files is one singer, with a line for each file in the outline; what is
// said of a later singer stands at that singer's block.
func TestOneSingerTwoFiles(t *testing.T) {
	song := "key = \"C\"\nsection \"a\" { chords = \"| C | F | G7 | C |\" }\n" +
		"vocal \"v.mid\" { name = \"Joss\" }\nvocal \"w.mid\" {\n  name = \"Joss\"\n  from = 3\n}\n" +
		"vocal \"x.mid\" {\n  name  = \"Ada\"\n  range = [\"A4\", \"C6\"]\n}\n"
	s := load.Read("a.song.hcl", []byte(song), fstest.MapFS{"v.mid": {Data: sungFile()},
		"w.mid": {Data: sungFile()}, "x.mid": {Data: sungFile()}})
	if s.Timeline == nil || len(s.Diags) != 0 {
		t.Fatal(s.Diags)
	}
	if v := s.Timeline.Vocals; len(v) != 2 || len(v[0].Notes) != 4 || v[0].Notes[2].Tick != 2*3840 ||
		len(v[1].Notes) != 2 {
		t.Fatalf("vocals %+v", v)
	}
	out := s.VoiceCheck()
	if len(out) != 1 || out[0].Subject.Start.Line != 8 || !strings.Contains(out[0].Detail, "below the range A4 to C6") {
		t.Errorf("the check says %v", out)
	}
	var b strings.Builder
	if err := outline.Write(&b, s.Timeline); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Joss, v.mid from bar 1\n", "Joss, w.mid from bar 3\n", "  sings    Joss, Ada\n"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in the outline:\n%s", want, &b)
		}
	}
}
