package sketch

import (
	"testing"

	"plinth/render/audio/bank"
)

// slope is how many decibels a second a sound loses between two times.
func slope(s bank.Sound, from, to float64) float64 {
	return (rms(s, from, from+0.1) - rms(s, to, to+0.1)) / (to - from)
}

// A piano's first sound dies away by some decibels a second in the bass and by some 80 at the top (Martin, Decay Rates
// of Piano Tones, JASA 19, 1947: 4 to 80 dB/s; from memory), a later sound several times slower (Weinreich, Coupled
// piano strings, JASA 62, 1977).
func TestPianoDecay(t *testing.T) {
	renders(t)
	before := 0.0
	for _, row := range []struct {
		key       uint8
		until     float64 // of the first sound
		low, high float64 // dB/s
	}{{28, 1, 3, 12}, {40, 1, 4, 15}, {60, 0.8, 8, 20}, {72, 0.5, 15, 40}, {84, 0.25, 40, 85}, {96, 0.12, 60, 160}} {
		s := compute(bank.Note{Key: row.key, Layer: 1}, bank.MaxFrames)
		first := slope(s, 0.02, row.until)
		if first < row.low || first > row.high || first < before*0.9 {
			t.Errorf("key %d loses %.1f dB/s at first, not %g to %g and more than the key below (%.1f)",
				row.key, first, row.low, row.high, before)
		}
		before = first
		if row.key < 60 {
			continue
		}
		end := float64(len(s.Left))/bank.Rate - 1.1 // before it is faded out
		if late := slope(s, end-0.4, end); late > first*0.7 {
			t.Errorf("key %d: the aftersound loses %.1f dB/s, the first %.1f", row.key, late, first)
		}
	}
}

// A bass guitar's open E lasts, a double bass's does not: real ones lose 3 to 8 and 10 to 20 dB in a second
// (measured on TimGM6mb and FluidR3, keys 28 to 40).
func TestBassDecay(t *testing.T) {
	renders(t)
	for program, want := range map[uint8][2]float64{32: {10, 22}, 33: {3, 10}, 34: {3, 10}, 35: {1, 8}} {
		for _, key := range []uint8{28, 34, 40} {
			s := compute(bank.Note{Patch: bank.Patch{Program: program}, Key: key, Layer: 1}, bank.MaxFrames)
			if lost := rms(s, 0.05, 0.15) - rms(s, 1.05, 1.15); lost < want[0] || lost > want[1] {
				t.Errorf("program %d key %d loses %.1f dB in a second, not %g to %g",
					program, key, lost, want[0], want[1])
			}
		}
	}
}

// The guide holds as long as a note may be, and steadily.
func TestGuideHolds(t *testing.T) {
	s := compute(bank.Note{Patch: bank.Patch{Program: guideProgram}, Key: 64}, bank.MaxFrames)
	if len(s.Left) < (bank.MaxSeconds*bank.Rate)*99/100 {
		t.Fatalf("the guide lasts %.2f s", float64(len(s.Left))/bank.Rate)
	}
	for at := 0.5; at < bank.MaxSeconds-1; at += 0.5 {
		if d := rms(s, at, at+0.4) - rms(s, 1, 3); d < -1 || d > 1 {
			t.Errorf("at %g s the guide is %.1f dB from its level", at, d)
		}
	}
}
