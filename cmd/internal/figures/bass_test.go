package main

import (
	"testing"

	"plinth/songspec/timeline"
)

// Five bars: the root alone, with its fifth, with its octave, with a step, and the root again.
func TestBarsWithMore(t *testing.T) {
	var notes []note
	for bar, second := range []uint8{36, 43, 48, 38, 36} {
		from := int64(bar) * testBar
		notes = append(notes, at(from, 2*quarter, 36, 60), at(from+2*quarter, 2*quarter, second, 60))
	}
	p := testPass(t, timeline.Bass, "|: C :|x5", notes...)
	expect(t, "bars with more", barsWithMore([]*pass{p}), 3./5)
}

// Into F from C: by E, which is in the key; by F#, in neither key nor chord; by no step; by G.
// Into A from E7: by G#, which is in that chord.
func TestApproaches(t *testing.T) {
	for _, c := range []struct {
		chart          string
		key, to        uint8
		share, outside float64
	}{
		{"| C | F |", 40, 41, 1, 0},
		{"| C | F |", 42, 41, 1, 1},
		{"| C | F |", 36, 41, 0, 0},
		{"| C | F |", 43, 41, 1, 0},
		{"| E7 | Am |", 44, 45, 1, 0},
	} {
		p := testPass(t, timeline.Bass, c.chart, at(0, 2*quarter, 28, 60), at(3*quarter, quarter, c.key, 60),
			at(testBar, testBar, c.to, 60))
		got := approachesOf([]*pass{p})
		expect(t, "approaches", got.share(), c.share)
		if c.share > 0 {
			expect(t, "outside", got.outside(), c.outside)
		}
	}
}

func TestLongOutside(t *testing.T) {
	p := testPass(t, timeline.Bass, "| C |", at(0, quarter, 36, 60), at(quarter, quarter, 42, 60),
		at(2*quarter, eighth, 42, 60))
	expect(t, "long notes outside", longOutside([]*pass{p}), 1./2)
}

func TestWalking(t *testing.T) {
	var notes []note
	for bar := range int64(4) {
		for beat, key := range []uint8{36, 40, 43, 42} {
			if bar == 3 && beat == 3 {
				key = 45
			}
			notes = append(notes, at(bar*testBar+int64(beat)*quarter, quarter, key, 60))
		}
	}
	p := testPass(t, timeline.Bass, "|: C :|x4", notes...)
	if got := len(p.walking()); got != 0 {
		t.Errorf("%d bars walk where the feel does not", got)
	}
	p.walks = [5]bool{true, true, true, true, true}
	expect(t, "the third time is too many", walkedAgain([]*pass{p}), 1./4)
	if got := len(p.walking()); got != 4 {
		t.Errorf("%d bars walk", got)
	}
	p.notes[timeline.Bass] = notes[1:]
	if got := len(p.walking()); got != 3 {
		t.Errorf("%d bars walk without the first note", got)
	}
}

// A run of six bars over a border, and one of two.
func TestRuns(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{2, 3}, "|: C :|x4", "|: F :|x4")
	for i, p := range s.written.passes {
		for bar := range int64(4) {
			p.notes[timeline.Bass] = append(p.notes[timeline.Bass], at(bar*testBar, quarter, 36, 60))
			if i == 1 && bar >= 2 {
				p.notes[timeline.Bass] = append(p.notes[timeline.Bass], at(bar*testBar+quarter, quarter, 36, 60))
			}
		}
	}
	longest, over := runs([]*song{s})
	expect(t, "longest", longest["ballad-eighths"], 6)
	expect(t, "over a border", over, 1)
}

func TestRepeats(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{2, 2, 2}, "| C |", "| C |", "| C |")
	for i, p := range s.written.passes {
		p.Section = "verse"
		p.notes[timeline.Bass] = []note{at(0, quarter, 36, 60), at(quarter, quarter, 40+uint8(i), 60)}
	}
	got := s.repeats(timeline.Bass) // the last pass of the song is left out
	if len(got) != 1 {
		t.Fatalf("%d repeats", len(got))
	}
	expect(t, "shared", got[0], .5)
}
