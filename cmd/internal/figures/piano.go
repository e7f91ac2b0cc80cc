package main

import (
	"slices"

	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// pianoFigures measures the comp, which is the pianist's notes from C3 up.
func pianoFigures(t *table, songs []*song) {
	t.title("PIANO")
	ballads := func(figure string, aims []aim, measure func([]*pass) float64) {
		t.addAll(figure+", ballads", byEnergy(songs, 2, timeline.Piano, ballad, aims, measure))
	}
	ballads("single notes of the attacks",
		[]aim{between(.35, .75), between(.30, .70), between(.15, .50), between(.05, .35)}, singles)
	ballads("single notes that are struck over a held one", each(atLeast(.6), 4), singlesOverHeld)
	ballads("attacks a beat", []aim{atMost(1.2), atMost(1.5), atMost(1.7), atMost(1.9)}, compDensity)
	ballads("notes sounding", each(between(1.6, 2.8), 4), sounding)

	pianoPhrases(t, songs, ", song feels", inFeels(songFeels...))
	pianoPhrases(t, songs, ", others", func(p *pass) bool {
		return figured(p) && !slices.Contains(songFeels, p.Feel)
	})

	all := passesFrom(songs, 2, timeline.Piano, figured)
	t.add("upper hand not softer than the lower, of attacks", atLeast(.95), upperNotSofter(all))
	t.addAll("bars with a strike on 1", byFeel(songs, 2, timeline.Piano, atMost(.60),
		[]string{"swing", "bossa", "two-beat", "waltz", "jazz-waltz"}, strikesOnOne))
	pianoChanges(t, songs)
	pianoEndings(t, songs)
	short, clear := accents(songs)
	t.add("accents of half a beat at most", between(1, 1), short)
	t.add("accents with an attack in the eighth before", between(0, 0), clear)
	addRepeats(t, songs, timeline.Piano, between(.55, .88), between(.40, .85))
}

// singles is the share of attacks that are one note.
func singles(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, a := range attacksOf(p.comp()) {
			r.count(len(a.notes) == 1)
		}
	}
	return r.share()
}

// singlesOverHeld is the share of attacks of one note during which one struck before sounds.
func singlesOverHeld(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		notes := p.comp()
		for _, a := range attacksOf(notes) {
			if len(a.notes) == 1 {
				r.count(overHeld(notes, a.at))
			}
		}
	}
	return r.share()
}

// compDensity is the attacks of the comp a beat, as the tempo counts beats.
func compDensity(ps []*pass) float64 {
	n, beats := 0, 0.0
	for _, p := range ps {
		n += len(attacksOf(p.comp()))
		beats += p.beats()
	}
	return float64(n) / beats
}

// sounding is how many notes sound on average: all lengths together, by the length of the
// passes.
func sounding(ps []*pass) float64 {
	var sum, length int64
	for _, p := range ps {
		for _, n := range p.comp() {
			sum += min(n.end, p.Length) - max(n.at, 0)
		}
		length += p.Length
	}
	return float64(sum) / float64(length)
}

// upperNotSofter is the share of attacks of both hands whose upper hand's mean velocity is
// not under the lower's. Where the score names one hand alone, as over a bass, the hands are
// the halves of the attack from below and from above; a middle note is in neither.
func upperNotSofter(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, a := range attacksOf(p.notes[timeline.Piano]) {
			if lower, upper := hands(a); len(lower) > 0 && len(upper) > 0 {
				r.count(velocityOf(upper) >= velocityOf(lower))
			}
		}
	}
	return r.share()
}

func hands(a attack) (lower, upper []note) {
	for _, n := range a.notes {
		if n.meant.Voice == score.Left {
			lower = append(lower, n)
		} else {
			upper = append(upper, n)
		}
	}
	if half := len(a.notes) / 2; len(lower) == 0 || len(upper) == 0 {
		return a.notes[:half], a.notes[len(a.notes)-half:]
	}
	return lower, upper
}

// strikesOnOne is the share of bars in which the pianist strikes on the first beat.
func strikesOnOne(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, places := range p.rhythms(timeline.Piano) {
			r.count(places[0])
		}
	}
	return r.share()
}

// accents measures the accents that the pianist strikes, in the songs as written. short is the
// share of them that are written for half a beat at most; those that are pushed, held or left to
// ring are left out. crowded is the share with an attack of the pianist in the eighth before,
// where the chart asks for none.
func accents(songs []*song) (short, crowded float64) {
	var s, c ratio
	for _, song := range songs {
		for _, p := range song.written.passes {
			list := attacksOf(p.notes[timeline.Piano])
			for _, a := range list {
				n := a.top()
				if !n.meant.Art.Has(score.Accent) {
					continue
				}
				half := p.Bars[p.BarAt(a.at)].Meter.PlayedBeat() / 2
				if !n.meant.Art.Has(score.Pushed) && !n.meant.Art.Has(score.Rings) && !p.held(a.at) {
					s.count(int64(n.meant.Held) <= half)
				}
				c.count(slices.ContainsFunc(list, func(b attack) bool {
					return b.at < a.at && b.at >= a.at-eighth && b.top().meant.Cue < 0
				}))
			}
		}
	}
	return s.share(), c.share()
}

// held reports whether a place is in a held beat, its first tick included.
func (p *pass) held(at int64) bool { return p.cues.Holds.Has(at) || p.cues.Holds.Has(at+1) }
