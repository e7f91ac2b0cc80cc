package audit_test

import (
	"fmt"
	"os"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/realsongs"
)

// TestArtSongs: the art songs, whose chords often change off the beat, are played without a fault at
// every energy, in the feel of their meter and in one more.
func TestArtSongs(t *testing.T) {
	dataFiles(t, "lieder-dev/*/truth.json", 30)
	songs, err := realsongs.ArtSongs(os.DirFS(os.Getenv("PLINTH_DATA")))
	if err != nil {
		t.Fatal(err)
	}
	set, other := library.Builtin(), map[string]string{"4/4": "swing", "3/4": "jazz-waltz", "2/2": "show-two"}
	remarks := 0
	for i, s := range songs {
		chart, err := s.Chart()
		if err != nil {
			t.Fatal(err)
		}
		for energy := 1; energy <= 5; energy++ {
			src := fmt.Sprintf("key = %q\nmeter = %q\nenergy = %d\n", s.Home, chart.Meter, energy)
			if f := other[chart.Meter]; energy%2 == 0 && f != "" {
				src += fmt.Sprintf("feel = %q\n", f)
			}
			tl := songfiletest.Song(t, src+"section \"a\" {\n  chords = <<-EOT\n"+chart.Lines+"  EOT\n}\n")
			r := audit.Song(tl, groove.Perform(tl, set), set)
			all := len(r.Findings)
			r.Findings = slices.DeleteFunc(r.Findings, func(f audit.Finding) bool { return f.Severity == audit.Remark })
			if remarks += all - len(r.Findings); len(r.Findings) > 0 {
				t.Errorf("song %d, %s, energy %d:\n%s", i, tl.Passes[0].Feel, energy, findingsOf(r, 3))
			}
		}
	}
	t.Logf("%d remarks in %d plays", remarks, 5*len(songs))
	if remarks > len(songs)/3 {
		t.Errorf("%d remarks in %d plays", remarks, 5*len(songs))
	}
}
