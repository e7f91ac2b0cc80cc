package main

import (
	"slices"

	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// pianoChanges measures the comp at changes of chord, at energies 2 to 5.
func pianoChanges(t *table, songs []*song) {
	all := changesOf(passesFrom(songs, 2, timeline.Piano, figured))
	t.add("changes at which the new chord is heard", atLeast(.95), all.heard.share())
	early := func(ps []*pass) float64 { c := changesOf(ps); return c.early.share() }
	t.addAll("changes struck an eighth early", byFeel(songs, 2, timeline.Piano, between(.25, .40),
		[]string{"swing", "bossa"}, early))
	t.add("changes at which the top moves by 2 semitones at most", atLeast(.85), all.steps.share())
	t.add("changes at which the top is unmoved", atMost(.35), all.unmoved.share())
	t.add("changes into which a foreign note rings", between(0, 0), all.foreign.share())
	t.add("changes with octaves of top and bass in parallel", between(0, 0), all.octaves.share())
}

// atChanges counts, of all changes of chord to another one:
//
//   - heard: two of its tones are struck at most an eighth before it or up to 1.5 beats after;
//   - early: two or more notes, all of the new chord, are struck together at most an eighth
//     before it, and nothing on it; changes that the song pushes are left out;
//   - steps, unmoved: the top voice moves by two semitones at most, or not at all;
//   - foreign: a note that is no tone of the new chord sounds on for more than a sixteenth;
//   - octaves: the top voice doubles the chord's bass before and after the change, and both
//     move.
type atChanges struct{ heard, early, steps, unmoved, foreign, octaves ratio }

func changesOf(ps []*pass) *atChanges {
	out := &atChanges{}
	for _, p := range ps {
		notes := p.comp()
		for _, c := range p.changes(notes) {
			out.heard.count(c.isHeard())
			out.foreign.count(c.foreignRings(notes))
			if !c.Pushed() {
				out.early.count(c.early)
			}
			before, after, ok := c.tops(notes)
			if !ok {
				continue
			}
			moves := max(before-after, after-before)
			out.steps.count(moves <= 2)
			out.unmoved.count(moves == 0)
			out.octaves.count(moves > 0 && doubles(before, c.before) && doubles(after, c.Change))
		}
	}
	return out
}

func doubles(key int, c *cue.Change) bool { return key%12 == c.Chord.Bass.PC() }

// pianoEndings measures the last attack of the songs that come to rest, as written: how many of
// them have it wide, which is an octave and a half or more in two hands; spread from below; and softer
// than the mean of the attacks of the bar before.
func pianoEndings(t *table, songs []*song) {
	var wide, rolled, quieter ratio
	for _, s := range songs {
		p := s.lastPass()
		if p == nil || p.cues.Ending < 0 {
			continue
		}
		list := attacksOf(p.notes[timeline.Piano])
		if len(list) < 2 {
			continue
		}
		a := &list[len(list)-1]
		bar := p.BarAt(a.at)
		left := slices.ContainsFunc(a.notes, func(n note) bool { return n.meant.Voice == score.Left })
		wide.count(left && int(a.top().key)-int(a.notes[0].key) >= 18)
		rolled.count(slices.ContainsFunc(a.notes, func(n note) bool { return n.meant.Art.Has(score.Rolled) }))
		var before []note
		for _, b := range list {
			if p.barOf(b.at) == bar-1 {
				before = append(before, b.notes...)
			}
		}
		if len(before) > 0 {
			quieter.count(a.velocity() < velocityOf(before))
		}
	}
	t.add("last chords an octave and a half wide, in two hands", between(1, 1), wide.share())
	t.add("last chords spread from below", between(1, 1), rolled.share())
	t.add("last chords quieter than the bar before", between(1, 1), quieter.share())
}

// lastPass is the last pass of the song as written, nil where it is not measured.
func (s *song) lastPass() *pass {
	if n := len(s.written.passes); n > 0 && s.written.passes[n-1].After == nil {
		return s.written.passes[n-1]
	}
	return nil
}
