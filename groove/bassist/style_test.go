package bassist

import (
	"slices"
	"testing"

	"plinth/groove/bassline"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// At energy 2 a row of roots turns aside in some bars, the second and fourth of a phrase and of
// its second half.
func TestTheVerseTurnsAside(t *testing.T) {
	eachFeel(func(f *feel.Feel) {
		row := f.Levels[1].Bass
		if !keepsTime(f, 2) || slices.ContainsFunc(row, func(s feel.BassStep) bool { return s.Degree > '1' }) ||
			!slices.ContainsFunc(row[1:], func(s feel.BassStep) bool { return s.Degree == '1' }) {
			return // it has fifths of its own, or one note a bar
		}
		var turned share
		for _, chart := range charts[:3] {
			for take := 1; take <= 5; take++ {
				r := render(t, f, chart, 2, take)
				p, notes := &r.Passes[0], r.lines[0]
				for i, b := range p.Bars {
					aside := slices.ContainsFunc(within(notes, b.Start, b.Start+b.Length), func(n score.Note) bool {
						return int(n.Key)%12 != chordAt(p, n.At).Bass.PC()
					})
					if turned.add(aside); aside && i%2 == 0 {
						t.Errorf("%s: bar %d of a phrase turns aside", f.Name, i%8+1)
					}
				}
			}
		}
		t.Logf("%-18s turns aside in %.2f of the bars", f.Name, turned.of())
		among(t, f.Name, turned.of(), 0.2, 0.6)
	})
}

// chordAt is the chord of the chart at a tick.
func chordAt(p *timeline.Pass, tick int64) *harmony.Chord {
	i := slices.IndexFunc(p.Chords, func(s timeline.Span) bool { return s.End > tick })
	return &p.Chords[i].Chord
}

// Approaches are in the key or in one of the two chords, but for the styles that are chromatic;
// in ballads they are rare; and nothing but a walking line is off the chord for a beat.
func TestApproachesByStyle(t *testing.T) {
	chromatic := []string{"swing", "bossa", "jazz-waltz", "samba"}
	key := scaleOf(harmony.Key{})
	eachFeel(func(f *feel.Feel) {
		var leads, outside share
		for energy := 3; energy <= 5; energy++ {
			for _, chart := range charts {
				for take := 1; take <= 5; take++ {
					r := render(t, f, chart, energy, take)
					p, notes := &r.Passes[0], r.lines[0]
					beat := p.Bars[0].Meter.PlayedBeat()
					for i, n := range notes[:len(notes)-1] {
						chord, pc := chordAt(p, n.At), int(n.Key)%12
						own := bassline.HasTone(chord, pc) || pc == chord.Bass.PC()
						if walks := f.Levels[energy-1].Bass[0].Degree == 'w' && !slow(f); !own && !walks &&
							int64(n.Held) >= beat {
							t.Errorf("%s: %s for a beat under %s", f.Name, groovetest.KeyName(int(n.Key)), chord)
						}
						next := chordAt(p, notes[i+1].At)
						if *next == *chord {
							continue
						}
						led := !own && abs(int(n.Key)-int(notes[i+1].Key)) <= 2
						if leads.add(led); led {
							outside.add(!key.has(pc) && !bassline.HasTone(next, pc))
						}
					}
				}
			}
		}
		t.Logf("%-18s approaches at %.2f of the changes, %.2f of them outside", f.Name, leads.of(), outside.of())
		switch {
		case slices.Contains(chromatic, f.Name):
			among(t, f.Name+" outside", outside.of(), 0.1, 0.9)
		default:
			among(t, f.Name+" outside", outside.of(), 0, 0)
		}
		if slow(f) {
			among(t, f.Name+" approaches", leads.of(), 0, 0.15)
		}
	})
}

// slow reports whether a feel is a ballad.
func slow(f *feel.Feel) bool {
	return slices.Contains([]string{"ballad-eighths", "ballad-sixteenths", "brushes-ballad", "slow-twelve",
		"gospel-six", "lilt"}, f.Name)
}

// No walking bar comes more than twice in a pass.
func TestNoWalkingBarComesThrice(t *testing.T) {
	charts := []string{"C|C|C|C|Am|Am|Am|Am|C|C|C|C|F|G|C|C", "C|C|C|C|G|G|G|Am|Am|F|F|C/E"}
	for _, name := range []string{"swing", "jazz-waltz"} {
		for i := range 2 * 2 * 10 {
			chart, energy, take := charts[i%2], 4+i/2%2, 1+i/4
			r := render(t, library.Builtin().Feels[name], chart, energy, take)
			seen := map[string]int{}
			for _, b := range r.Passes[0].Bars {
				text := ""
				for _, n := range within(r.lines[0], b.Start, b.Start+b.Length) {
					text += " " + groovetest.KeyName(int(n.Key))
				}
				if seen[text]++; seen[text] > 2 && text != "" {
					t.Errorf("%s, energy %d, take %d:%s for the third time", name, energy, take, text)
				}
			}
		}
	}
}

// The line turns aside to no fifth but a perfect one, and never to the octave.
func TestTheLineTurnsAsideToPerfectFifths(t *testing.T) {
	set := withBass("1=====1=1=1=1===")
	turned := map[int]int{} // by interval over the first note
	for i := range 40 {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Energy: 5,
			Chords: []string{"Bdim7|Bdim7|Bdim7|Bdim7", "C|C|C|C"}[i%2]})
		tl.Take = i
		notes := bassOf(tl, 0, set)
		for _, n := range notes {
			turned[100*(i%2)+int(n.Key)-int(notes[0].Key)]++
		}
	}
	if turned[6] > 0 || turned[-6] > 0 || turned[107]+turned[95] == 0 || turned[12]+turned[112] > 0 {
		t.Errorf("the line turns to %v", turned)
	}
}
