package harmony

import "testing"

func BenchmarkParseChord(b *testing.B) {
	for _, r := range []struct{ name, symbol string }{
		{"common", "Cm7b5/Gb"},
		{"uncommon", "C7(b9,#11)/Bb"},
		{"wrong", "Cmja7"},
	} {
		b.Run(r.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				_, _ = ParseChord(r.symbol)
			}
		})
	}
}

func BenchmarkParseNumeral(b *testing.B) {
	k := Key{Tonic: Name{2, -1}}
	b.ReportAllocs()
	for range b.N {
		_, _ = ParseNumeral("viio7/V/3", k)
	}
}
