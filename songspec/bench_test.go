package songspec

import (
	"fmt"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// longSong is a song of so many bars, all of them written out.
func longSong(bars int) []byte {
	const per = 8
	var b strings.Builder
	b.WriteString("key = \"Eb major\"\ntempo = 72\n")
	sections := min(max(1, bars/per), MaxSections)
	lines := bars / sections / per
	for i := range sections {
		fmt.Fprintf(&b, "section \"s%d\" {\n  energy = 2\n  chords = <<-EOT\n", i)
		for range max(1, lines) {
			b.WriteString("    | Eb | Bb/D | Cm7 | Ab / Abm6 / | Eb/Bb | Bb7sus4 Bb7 | vi7 | %  |\n")
		}
		b.WriteString("  EOT\n  push \"4: 4&\" {}\n  accent \"2 4\" {\n    by = [\"drums\"]\n  }\n  space \"4: 3\" " +
			"{\n    beats = 2\n  }\n}\n")
	}
	return []byte(b.String())
}

func BenchmarkParseResolve(b *testing.B) {
	for _, n := range []int{100, 1000, 9000} {
		src := longSong(n)
		b.Run(fmt.Sprintf("floor-%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, d := hclsyntax.ParseConfig(src, "t", hcl.InitialPos); d.HasErrors() {
					b.Fatal(d)
				}
			}
		})
		b.Run(fmt.Sprintf("parse-%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, d := Parse("t", src); d.HasErrors() {
					b.Fatal(d)
				}
			}
		})
		b.Run(fmt.Sprintf("both-%d", n), func(b *testing.B) {
			b.ReportAllocs()
			e := env()
			for b.Loop() {
				f, d := Parse("t", src)
				if d.HasErrors() {
					b.Fatal(d)
				}
				if _, d = f.Resolve(e); d.HasErrors() {
					b.Fatal(d)
				}
			}
		})
	}
}
