package sketch

import (
	"os"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/audio/soundfont"
)

// figures are what is measured of a note at velocity 127: decibels below full scale over the first 0.3 s, the middle of
// the spectrum in hertz, and decibels that it has lost after 0.6 s, at most 60.
type figures struct{ level, centroid, lost float64 }

// sampled are the figures of notes of two General MIDI banks that Debian has, TimGM6mb and FluidR3, each hit once in
// full. TestSampledFigures holds them against the banks where they are installed.
var sampled = []struct {
	program, key uint8
	drums        bool
	tim, fluid   figures
}{
	{0, 28, false, figures{-22.0, 217, 5.3}, figures{-16.6, 241, 1.9}},
	{0, 36, false, figures{-22.7, 336, 9.2}, figures{-17.2, 382, 5.4}},
	{0, 48, false, figures{-23.6, 428, 13.8}, figures{-16.9, 484, 6.0}},
	{0, 60, false, figures{-20.2, 540, 6.5}, figures{-16.2, 625, 5.8}},
	{0, 72, false, figures{-18.5, 697, 16.7}, figures{-17.5, 1317, 21.8}},
	{0, 84, false, figures{-18.3, 1057, 23.0}, figures{-22.5, 1555, 22.4}},
	{0, 96, false, figures{-24.7, 2091, 22.5}, figures{-23.6, 2159, 43.2}},
	{1, 60, false, figures{-20.2, 564, 6.6}, figures{-16.6, 661, 5.8}},
	{2, 48, false, figures{-18.6, 493, 5.2}, figures{-13.8, 483, 5.4}},
	{2, 60, false, figures{-18.1, 760, 6.4}, figures{-12.9, 580, 4.6}},
	{3, 60, false, figures{-18.7, 509, 11.5}, figures{-16.3, 585, 12.7}},
	{4, 48, false, figures{-17.6, 208, 0.4}, figures{-16.1, 323, 0.8}},
	{4, 60, false, figures{-17.5, 282, 2.6}, figures{-13.1, 409, 1.4}},
	{4, 72, false, figures{-14.5, 535, 5.0}, figures{-11.3, 551, 4.0}},
	{5, 60, false, figures{-18.4, 541, 4.6}, figures{-15.8, 375, 5.8}},
	{6, 48, false, figures{-19.4, 637, 3.0}, figures{-14.7, 1042, 2.0}},
	{6, 60, false, figures{-20.5, 1040, 4.1}, figures{-14.0, 1263, 7.4}},
	{7, 60, false, figures{-17.7, 987, 4.9}, figures{-14.3, 987, 7.0}},
	{32, 28, false, figures{-12.2, 45, 12.2}, figures{-11.3, 74, 3.2}},
	{32, 36, false, figures{-13.3, 74, 11.5}, figures{-12.1, 95, 8.5}},
	{32, 43, false, figures{-14.5, 116, 10.8}, figures{-12.6, 103, 13.6}},
	{33, 28, false, figures{-14.7, 129, 2.5}, figures{-15.6, 110, 7.8}},
	{33, 36, false, figures{-14.9, 210, 3.3}, figures{-11.8, 142, 1.8}},
	{33, 43, false, figures{-14.9, 319, 3.2}, figures{-14.5, 231, 2.0}},
	{34, 28, false, figures{-16.7, 180, 1.9}, figures{-14.2, 158, 5.5}},
	{34, 36, false, figures{-16.7, 274, 1.5}, figures{-13.4, 183, 1.4}},
	{34, 43, false, figures{-16.8, 394, 3.4}, figures{-16.7, 340, -0.9}},
	{35, 28, false, figures{-13.7, 73, 1.9}, figures{-11.7, 105, 2.4}},
	{35, 36, false, figures{-13.9, 119, 1.5}, figures{-13.2, 158, 4.6}},
	{35, 43, false, figures{-14.9, 183, 2.4}, figures{-11.2, 180, 1.8}},
	{36, 28, false, figures{-13.1, 169, 4.0}, figures{-14.1, 193, 7.8}},
	{36, 36, false, figures{-13.5, 191, 3.1}, figures{-13.8, 193, 7.4}},
	{36, 43, false, figures{-14.7, 183, 3.1}, figures{-16.8, 312, 11.7}},
	{37, 28, false, figures{-17.5, 199, 9.2}, figures{-17.4, 325, 8.8}},
	{37, 36, false, figures{-18.7, 304, 7.4}, figures{-17.7, 481, 10.9}},
	{37, 43, false, figures{-20.2, 333, 9.5}, figures{-16.2, 1102, 7.3}},
	{38, 28, false, figures{-13.8, 127, 8.4}, figures{-12.9, 82, 15.7}},
	{38, 36, false, figures{-13.8, 188, 9.3}, figures{-13.0, 122, 15.8}},
	{38, 43, false, figures{-13.8, 231, 10.2}, figures{-13.2, 169, 16.6}},
	{39, 28, false, figures{-13.7, 73, 4.0}, figures{-6.2, 52, 1.1}},
	{39, 36, false, figures{-14.0, 120, 4.0}, figures{-6.5, 82, 6.2}},
	{39, 43, false, figures{-15.3, 196, 3.8}, figures{-7.2, 120, 5.1}},
	{53, 64, false, figures{-16.3, 340, 4.2}, figures{-12.1, 345, 4.0}},
	{115, 72, false, figures{-25.0, 1060, 60.0}, figures{-26.9, 1742, 60.0}},
	{115, 84, false, figures{-26.9, 1471, 60.0}, figures{-27.6, 1920, 60.0}},
	{0, 36, true, figures{-18.0, 142, 60.0}, figures{-19.5, 143, 60.0}},
	{0, 37, true, figures{-28.5, 2198, 60.0}, figures{-24.6, 3291, 34.1}},
	{0, 38, true, figures{-18.1, 668, 60.0}, figures{-18.5, 633, 60.0}},
	{0, 39, true, figures{-24.3, 1975, 60.0}, figures{-19.9, 2342, 60.0}},
	{0, 42, true, figures{-35.6, 9360, 60.0}, figures{-32.3, 10388, 58.0}},
	{0, 43, true, figures{-16.1, 183, 29.1}, figures{-14.0, 268, 34.8}},
	{0, 44, true, figures{-32.5, 6825, 60.0}, figures{-31.2, 8967, 60.0}},
	{0, 46, true, figures{-33.4, 2124, 16.7}, figures{-30.4, 7276, 12.6}},
	{0, 47, true, figures{-17.3, 210, 32.0}, figures{-18.1, 208, 19.2}},
	{0, 49, true, figures{-23.3, 3134, 10.9}, figures{-19.5, 4052, 6.5}},
	{0, 50, true, figures{-17.9, 254, 35.6}, figures{-19.8, 211, 25.1}},
	{0, 51, true, figures{-37.9, 7458, 13.0}, figures{-28.6, 8049, 16.3}},
	{0, 53, true, figures{-35.3, 3119, 13.1}, figures{-26.7, 4065, 12.7}},
	{0, 54, true, figures{-25.9, 6319, 50.1}, figures{-21.7, 9279, 60.0}},
	{0, 56, true, figures{-23.7, 719, 60.0}, figures{-23.6, 1415, 60.0}},
	{0, 69, true, figures{-26.4, 6488, 60.0}, figures{-23.9, 11703, 60.0}},
	{0, 70, true, figures{-32.6, 8832, 60.0}, figures{-26.6, 10012, 60.0}},
	{0, 75, true, figures{-25.8, 2226, 60.0}, figures{-21.6, 2185, 60.0}},
	{0, 81, true, figures{-27.7, 6240, 16.4}, figures{-22.9, 10853, 21.2}},
	{40, 38, true, figures{-27.8, 1517, 60.0}, figures{-25.5, 1105, 60.0}},
	{40, 39, true, figures{-26.2, 1994, 60.0}, figures{-24.4, 1422, 60.0}},
	{40, 40, true, figures{-27.9, 1495, 40.2}, figures{-29.4, 2459, 60.0}},
}

// figuresOf measures a sound.
func figuresOf(s bank.Sound) figures {
	return figures{rms(s, 0, 0.3), centroid(s), min(60, rms(s, 0, 0.1)-rms(s, 0.6, 0.7))}
}

// The sketch's notes are as loud as those of sampled banks, so that one table of levels fits all; they lie as high
// in the spectrum, and last as long: between the two banks or a little beside them.
func TestLikeSampledBanks(t *testing.T) {
	renders(t)
	for _, row := range sampled {
		p := bank.Patch{Program: row.program, Drums: row.drums}
		b := New()
		got := figuresOf(b.Sound(b.Note(p, row.key, 100), whole))
		between := func(what string, got, a, b, below, above float64) {
			if low, high := min(a, b)-below, max(a, b)+above; got < low || got > high {
				t.Errorf("%v key %d: %s is %.1f, not %.1f to %.1f", p, row.key, what, got, low, high)
			}
		}
		between("level", got.level, row.tim.level, row.fluid.level, 2, 2)
		low, high := min(row.tim.centroid, row.fluid.centroid), max(row.tim.centroid, row.fluid.centroid)
		between("centroid", got.centroid, low, high, low*0.45, high*0.35)
		between("loss", got.lost, row.tim.lost, row.fluid.lost, 7, 9)
	}
}

// The table of figures is what the banks give.
func TestSampledFigures(t *testing.T) {
	if !long() {
		t.Skip("with PLINTH_LONG=1 all notes of the table are rendered by both banks")
	}
	for i, path := range []string{"/usr/share/sounds/sf2/TimGM6mb.sf2", "/usr/share/sounds/sf2/FluidR3_GM.sf2"} {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Logf("%s is not installed", path)
			continue
		}
		b, err := soundfont.Open(data, path)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range sampled {
			p := bank.Patch{Program: row.program, Drums: row.drums}
			want := [...]figures{row.tim, row.fluid}[i]
			got := figuresOf(b.Sound(b.Note(p, row.key, 127), whole))
			if d := got.level - want.level; d < -0.5 || d > 0.5 {
				t.Errorf("%s %v key %d: level %.1f, not %.1f", path, p, row.key, got.level, want.level)
			}
			if d := got.centroid / want.centroid; d < 0.95 || d > 1.05 {
				t.Errorf("%s %v key %d: centroid %.0f, not %.0f", path, p, row.key, got.centroid, want.centroid)
			}
			if d := got.lost - want.lost; want.lost < 40 && (d < -1 || d > 1) {
				t.Errorf("%s %v key %d: lost %.1f, not %.1f", path, p, row.key, got.lost, want.lost)
			}
		}
	}
}
