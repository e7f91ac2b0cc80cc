package sketch

import (
	"testing"

	"plinth/render/audio/bank"
)

func BenchmarkPianoNote(b *testing.B) {
	for b.Loop() {
		compute(bank.Note{Key: 60, Layer: 1})
	}
}
