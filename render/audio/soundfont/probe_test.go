package soundfont

import (
	"os"
	"plinth/render/audio/bank"
	"testing"
)

func BenchmarkProbe(bm *testing.B) {
	data, _ := os.ReadFile(timGM)
	b, _ := Open(data, "")
	for i := 0; i < bm.N; i++ {
		for k := uint8(40); k < 80; k++ {
			n := b.Note(bank.Patch{}, k, 100)
			l := b.layersOf(n.Patch, k)
			b.render(l.sets[n.Layer], k)
		}
	}
}
