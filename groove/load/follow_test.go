package load_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"plinth/groove"
	"plinth/groove/load"
	"plinth/render/midi"
	"plinth/songspec/guide"
)

// A guide that the band follows must be there and must be read; any other may be missing.
func TestGuideThatLeads(t *testing.T) {
	const section = "section \"a\" { chords = \"| C | F | G7 | C |\" }\n"
	const two = "vocal \"v.mid\" { name = \"Nell\" }\nvocal \"w.mid\" {\n  name  = \"Tom\"\n  leads = true\n}\n"
	for _, row := range []struct {
		what, song string
		v, w       []byte
		want       string
		errors     bool
	}{
		{"missing", "vocal \"v.mid\" {}\n", nil, nil, "The band plays as if no vocal were given.", false},
		{"missing and followed", "tempo = \"guide\"\nvocal \"v.mid\" {}\n", nil, nil, "No guide vocal of that name",
			true},
		{"no MIDI", "vocal \"v.mid\" {}\n", []byte("RIFFxxxxWAVE12"), nil, "RIFF", false},
		{"no MIDI and followed", "tempo = \"guide\"\nvocal \"v.mid\" {}\n", []byte("RIFFxxxxWAVE12"), nil, "RIFF",
			true},
		{"the other is missing", "tempo = \"guide\"\n" + two, nil, sungFile(), "A guide without a tempo", true},
		{"the one that leads is missing", "tempo = \"guide\"\n" + two, sungFile(), nil, "No guide vocal of that name",
			true},
	} {
		folder := fstest.MapFS{}
		if row.v != nil {
			folder["v.mid"] = &fstest.MapFile{Data: row.v}
		}
		if row.w != nil {
			folder["w.mid"] = &fstest.MapFile{Data: row.w}
		}
		s := load.Read("a.song.hcl", []byte(row.song+section), folder)
		said := ""
		for _, d := range s.Diags {
			said += d.Error() + "\n"
		}
		if s.Diags.HasErrors() != row.errors || !strings.Contains(said, row.want) {
			t.Errorf("%s: %s", row.what, said)
		}
	}
}

// A guide is not lent: a section that follows its own song's has the tempo of the song that borrows it.
func TestGuideIsNotLent(t *testing.T) {
	s := lent("tempo = 80\nform {\n  play \"free\" {}\n}\n", `
vocal "v.mid" {}
section "free" {
  tempo  = "guide"
  chords = "| C | F |"
  bars "2" { tempo = "guide" }
}
`)
	if s.Timeline == nil {
		t.Fatal(s.Diags)
	}
	if p := s.Timeline.Passes[0]; p.Guided || p.Bars[1].Pace != nil || p.BPM != 80_000 {
		t.Errorf("the section goes at %v, its second bar at %v", p.Pace(), p.Bars[1].Pace)
	}
}

// From file to file: 11 pop songs whose guides have the tempo map of a recording (POP909, MIT). Each
// bar line of the MIDI file that plinth writes comes within 20 ms of the guide's own. The clocks of
// both are worked out here from their tempo events alone.
func TestFollowRealMaps(t *testing.T) {
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	paths, err := filepath.Glob(filepath.Join(data, "pop909-dev", "*", "raw.mid"))
	if err != nil || len(paths) != 30 {
		t.Fatalf("%d songs in pop909-dev, %v", len(paths), err)
	}
	maps := 0
	for _, path := range paths {
		src, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		sung, err := guide.Read(src)
		if err != nil {
			t.Fatal(err)
		}
		if len(sung.Tempos) < 3 {
			continue
		}
		maps++
		bars := int(sung.End/int64(4*sung.Division)) + 1
		song := fmt.Sprintf("tempo = \"guide\"\nvocal \"raw.mid\" { rough = true }\nsection \"a\" {\n  chords = "+
			"\"%s\"\n}\n", strings.Repeat("| C ", bars)+"|")
		s := load.Read("a.song.hcl", []byte(song), os.DirFS(filepath.Dir(path)))
		if s.Timeline == nil {
			t.Fatalf("%s: %v", path, s.Diags)
		}
		out, err := midi.Write(s.Timeline, groove.Perform(s.Timeline, s.Feels))
		if err != nil {
			t.Fatal(err)
		}
		band, err := guide.Read(out)
		if err != nil {
			t.Fatal(err)
		}
		worst := 0.0
		for bar := range bars {
			off := moment(band, 4*bar) - moment(sung, 4*bar)
			worst = max(worst, off, -off)
		}
		t.Logf("%s: %d bars, %d tempos in the guide, %d in the band: %.1f ms off at most",
			filepath.Base(filepath.Dir(path)),
			bars, len(sung.Tempos), len(band.Tempos), worst*1000)
		if worst > 0.020 {
			t.Errorf("%s: a bar line is %.1f ms away from the guide's", path, worst*1000)
		}
	}
	if maps != 11 {
		t.Errorf("%d songs with a tempo map; there are 11", maps)
	}
}

// moment is when a quarter of a file comes, in seconds from its start: Standard MIDI File 1.0, FF 51.
func moment(f *guide.File, quarter int) (seconds float64) {
	to := int64(quarter) * int64(f.Division)
	micros, from := int64(500_000), int64(0)
	for _, s := range f.Tempos {
		if s.Tick >= to {
			break
		}
		seconds += float64(s.Tick-from) * float64(micros)
		micros, from = s.Micros, s.Tick
	}
	return (seconds + float64(to-from)*float64(micros)) / float64(f.Division) / 1e6
}
