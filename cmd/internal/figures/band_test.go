package main

import (
	"testing"

	"plinth/songspec/timeline"
)

// A bar that is louder by half of the jump in dB.
func TestLeading(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{2, 4}, "|: C :|x4", "|: F :|x4")
	a, b := s.written.passes[0], s.written.passes[1]
	for bar := range int64(4) {
		v := 10.
		if bar >= 2 {
			v = 20 // 10, 20, 40: twice as much is as many dB each time
		}
		a.notes[timeline.Bass] = append(a.notes[timeline.Bass], at(bar*testBar, quarter, 36, v))
		b.notes[timeline.Bass] = append(b.notes[timeline.Bass], at(bar*testBar, quarter, 36, 40))
	}
	bass := []timeline.Player{timeline.Bass}
	expect(t, "up", leading([]*song{s}, bass, true), .5)
	a.EnergyTo = 5
	expect(t, "down", leading([]*song{s}, bass, false), .5)
}

func TestDensityFalls(t *testing.T) {
	s := testSong(t, "ballad-eighths", []int{3}, "| C |")
	for energy, count := range []int{0, 1, 2, 2, 1, 3} {
		for i := range count {
			p := s.flat[max(1, energy)].passes[0]
			p.notes[timeline.Bass] = append(p.notes[timeline.Bass], at(int64(i)*quarter, quarter, 36, 60))
		}
	}
	falls, where := densityFalls([]*song{s})
	expect(t, "falls", falls.share(), 1./4)
	if where != "ballad-eighths bass 3 to 4: .50 to .25" {
		t.Errorf("falls %s", where)
	}
}

func TestRitsFalling(t *testing.T) {
	s, err := fromText("test", "section \"a\" {\n  chords = \"| C | F | C | C |\"\n  rit \"3-4\" { to = 60 }\n}\n")
	if err != nil {
		t.Fatal(err)
	}
	p := s.written.passes[0]
	p.notes = [][]note{nil, {at(2*testBar, quarter, 36, 60), at(3*testBar, quarter, 36, 59)}, nil}
	expect(t, "falls", ritsFalling([]*song{s}), 1)
	p.notes[1][1].velocity = 60
	expect(t, "stays", ritsFalling([]*song{s}), 0)
}
