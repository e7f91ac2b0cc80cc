package bed

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"gitlab.com/gomidi/midi/v2/smf"

	"plinth/groove"
	"plinth/render/midi"
	"plinth/songspec"
)

// ballad is a song of n bars, a hundred at a time: verses, choruses and a tighter
// bridge, written out in a chart of its own for each.
func ballad(n int) string {
	var b strings.Builder
	b.WriteString("title = \"Lanterns, again and again\"\nkey = \"Eb\"\ntempo = 72\n\n")
	for _, s := range []struct {
		name, feel string
		energy     int
		lines      int
	}{{"verse", "ballad-eighths", 2, 4}, {"chorus", "ballad-eighths", 4, 4}, {"bridge", "tight-sixteenths", 3, 2}} {
		fmt.Fprintf(&b, "section %q {\n  feel   = %q\n  energy = %d\n  chords = <<-EOT\n", s.name, s.feel, s.energy)
		for range s.lines {
			b.WriteString("    | Eb | Bb/D | Cm7 | Ab / Abm6 / |\n    | Eb/Bb | Bb7sus4 Bb7 | Eb | % | Ab | Bb7 |\n")
		}
		b.WriteString("  EOT\n  push \"4: 4&\" {}\n  accent \"7: 1 3\" {}\n}\n\n")
	}
	b.WriteString("form {\n")
	for range n / 100 {
		b.WriteString("  play \"verse\" {}\n  play \"chorus\" {}\n  play \"bridge\" {}\n")
	}
	b.WriteString("}\n")
	return b.String()
}

// songs are what is measured: the long example and three lengths.
func songs(b *testing.B) map[string][]byte {
	long, err := os.ReadFile(filepath.Join("..", "..", "..", "examples", "lanterns.song.hcl"))
	if err != nil {
		b.Fatal(err)
	}
	return map[string][]byte{
		"example":    long,
		"bars=100":   []byte(ballad(100)),
		"bars=1000":  []byte(ballad(1000)),
		"bars=10000": []byte(ballad(10000)),
	}
}

var sizes = []string{"example", "bars=100", "bars=1000", "bars=10000"}

func eachSong(b *testing.B, run func(b *testing.B, req Request, src []byte)) {
	all := songs(b)
	for _, name := range sizes {
		b.Run(name, func(b *testing.B) {
			src := all[name]
			req := Request{Song: "long.song.hcl", ReadFile: func(string) ([]byte, error) { return src, nil }}
			b.ReportAllocs()
			run(b, req, src)
		})
	}
}

func built(b *testing.B, req Request) *Result {
	res, err := Build(req)
	if err != nil || res.Failed() {
		b.Fatal(err, res.Diags)
	}
	return res
}

func BenchmarkParse(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, src []byte) {
		for b.Loop() {
			if _, diags := songspec.Parse(req.Song, src); diags.HasErrors() {
				b.Fatal(diags)
			}
		}
	})
}

func BenchmarkResolve(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, src []byte) {
		env := (&loader{}).env()
		for b.Loop() {
			b.StopTimer() // a File is resolved once
			file, _ := songspec.Parse(req.Song, src)
			b.StartTimer()
			if _, diags := file.Resolve(env); diags.HasErrors() {
				b.Fatal(diags)
			}
		}
	})
}

func BenchmarkPerform(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, _ []byte) {
		res := built(b, req)
		for b.Loop() {
			groove.Perform(res.Timeline, res.Feels)
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, _ []byte) {
		res := built(b, req)
		for b.Loop() {
			if _, err := midi.Write(res.Timeline, res.Performance); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkWhole(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, _ []byte) {
		bars := built(b, req).Timeline.SongBars()
		for b.Loop() {
			built(b, req)
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(bars), "ns/bar")
	})
}

// BenchmarkFloor is what no program of this kind can do without: HCL's parser
// reading the same text, and gomidi writing the same events.
func BenchmarkFloor(b *testing.B) {
	eachSong(b, func(b *testing.B, req Request, src []byte) {
		song, err := smf.ReadFrom(bytes.NewReader(built(b, req).Outputs[0].Data))
		if err != nil {
			b.Fatal(err)
		}
		song.NoRunningStatus = true
		for b.Loop() {
			if _, diags := hclsyntax.ParseConfig(src, req.Song, hcl.InitialPos); diags.HasErrors() {
				b.Fatal(diags)
			}
			var buf bytes.Buffer
			if _, err := song.WriteTo(&buf); err != nil {
				b.Fatal(err)
			}
		}
	})
}
