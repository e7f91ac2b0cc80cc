package main

import (
	"fmt"
	"maps"
	"slices"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// bassFigures measures the bassist.
func bassFigures(t *table, songs []*song) {
	t.title("BASS")
	t.addAll("bars with a fifth, an octave or a step, song feels", byEnergy(songs, 2, timeline.Bass,
		inFeels(songFeels...), []aim{between(.2, .6)}, barsWithMore))
	inSongFeels := passesFrom(songs, 1, timeline.Bass, inFeels(songFeels...))
	t.add("approaches outside key and next chord, song feels", between(0, 0), approachesOf(inSongFeels).outside())
	ballads := passesFrom(songs, 1, timeline.Bass, inFeels("ballad-eighths", "ballad-sixteenths"))
	t.add("changes with an approach, ballads", atMost(.15), approachesOf(ballads).share())
	all := passesFrom(songs, 1, timeline.Bass, func(*pass) bool { return true })
	t.add("notes of a beat or longer outside the chord", between(0, 0), longOutside(all))
	longest, over := runs(songs)
	var byFeel []value
	for _, name := range slices.Sorted(maps.Keys(longest)) {
		byFeel = append(byFeel, value{name, longest[name], atMost(8)})
	}
	t.addAll("longest run of bars with equal rhythm", byFeel)
	t.add("runs of 4 bars or more over a section's border", between(0, 0), over)
	t.add("walking bars that come more than twice in a pass", between(0, 0), walkedAgain(all))
	addRepeats(t, songs, timeline.Bass, between(.65, .95), between(.55, .92))
}

// chordAt is the chord in force for the bassist.
func (p *pass) chordAt(at int64) *cue.Change { return cue.ChangeAt(p.cues.Changes(timeline.Bass), at) }

// onBass reports whether a note is the chord's bass, in any octave.
func onBass(c *cue.Change, n note) bool { return int(n.key)%12 == c.Chord.Bass.PC() }

// barsWithMore is the share of bars that have more than the chord's bass at one pitch: its
// fifth, its octave, or a step to or from it, which is two semitones at most.
func barsWithMore(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		more := make([]bool, len(p.Bars))
		plays := make([]bool, len(p.Bars))
		notes := p.notes[timeline.Bass]
		for i, n := range notes {
			bar, c := p.barOf(n.at), p.chordAt(n.at)
			if bar < 0 || c == nil || c.Chord.None {
				continue
			}
			plays[bar] = true
			if i == 0 {
				continue
			}
			b := notes[i-1]
			step := max(int(n.key)-int(b.key), int(b.key)-int(n.key))
			fifth := (int(n.key)-c.Chord.Bass.PC())%12 == 7
			octave := onBass(c, n) && onBass(c, b) && b.at >= c.Start && step == 12
			passing := step > 0 && step <= 2 && !onBass(c, n)
			more[bar] = more[bar] || fifth && !onBass(c, n) || octave || passing
		}
		for bar := range plays {
			if plays[bar] {
				r.count(more[bar])
			}
		}
	}
	return r.share()
}

// approaches counts the last notes before a change to another bass, within a beat of it, that
// are not the old chord's bass and lie a step of one or two semitones from the new one. Those
// outside are no tone of the key's scale and of neither chord.
type approaches struct{ all, foreign ratio }

// share is of all changes.
func (a *approaches) share() float64 { return a.all.share() }

// outside is of all approaches.
func (a *approaches) outside() float64 { return a.foreign.share() }

func approachesOf(ps []*pass) *approaches {
	out := &approaches{}
	for _, p := range ps {
		notes := p.notes[timeline.Bass]
		for i := 1; i < len(notes); i++ {
			b, n := notes[i-1], notes[i]
			c, before := p.chordAt(n.at), p.chordAt(b.at)
			if c == nil || c.Start != n.at || c.Chord.None || before.Chord.None || before == c ||
				c.Chord.Bass.PC() == before.Chord.Bass.PC() {
				continue
			}
			step := max(int(n.key)-int(b.key), int(b.key)-int(n.key))
			beat := p.Bars[p.BarAt(max(0, b.at))].Meter.PlayedBeat()
			is := step >= 1 && step <= 2 && !onBass(before, b) && n.at-b.at <= beat
			out.all.count(is)
			if is {
				inKey := p.KeyAt(n.at).PCSet()&(1<<(b.key%12)) != 0
				out.foreign.count(!inChord(c, b.key) && !inChord(before, b.key) && !inKey)
			}
		}
	}
	return out
}

// longOutside is the share of notes that are played for a beat or longer, less a tenth, and are
// no tone of the chord they are struck in. Where the bass walks it steps, and is left out.
func longOutside(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		for _, n := range p.notes[timeline.Bass] {
			c, bar := p.chordAt(n.at), p.BarAt(max(0, n.at))
			if c == nil || c.Chord.None || p.walksIn(bar) || 10*(n.end-n.at) < 9*p.Bars[bar].Meter.PlayedBeat() {
				continue
			}
			r.count(!inChord(c, n.key))
		}
	}
	return r.share()
}

// walk is a bar in which the bassist walks, and its notes.
type walk struct {
	bar  int
	keys string
}

// walking are the bars that the feel's bass walks in, with a note on each of three beats or more, on
// three keys or more.
func (p *pass) walking() []walk {
	byBar := make([][]note, len(p.Bars))
	for _, n := range p.notes[timeline.Bass] {
		if bar := p.barOf(n.at); bar >= 0 {
			byBar[bar] = append(byBar[bar], n)
		}
	}
	var out []walk
	for bar, notes := range byBar {
		beats := p.Bars[bar].Meter.Beats()
		keys, on := set[uint8]{}, set[int64]{}
		text := ""
		for _, n := range notes {
			keys[n.key], on[n.at-p.Bars[bar].Start] = true, true
			text += fmt.Sprint(n.at-p.Bars[bar].Start, ":", n.key, " ")
		}
		every := !slices.ContainsFunc(beats, func(b int64) bool { return !on[b] })
		if p.walksIn(bar) && len(beats) >= 3 && every && len(keys) >= 3 {
			out = append(out, walk{bar, text})
		}
	}
	return out
}

// walksIn reports whether the feel's bass walks at the energy of a bar.
func (p *pass) walksIn(bar int) bool { return p.walks[p.EnergyAt(bar)-1] }

func (p *pass) walkingBars() set[int] {
	out := set[int]{}
	for _, w := range p.walking() {
		out[w.bar] = true
	}
	return out
}

// walkedAgain is the share of walking bars whose notes have come twice before in their pass.
func walkedAgain(ps []*pass) float64 {
	var r ratio
	for _, p := range ps {
		seen := map[string]int{}
		for _, w := range p.walking() {
			seen[w.keys]++
			r.count(seen[w.keys] > 2)
		}
	}
	return r.share()
}

// runs measures the runs of bars in which the bass has equal places, in the songs as written
// and in feels with a figure. A walking bar is in no run: it is to be even. longest is in bars,
// by the feel of the last of them; over is the share of runs of four bars or more that begin in
// one pass and end in another.
func runs(songs []*song) (longest map[string]float64, over float64) {
	longest = map[string]float64{}
	var crossing ratio
	for _, s := range songs {
		var before set[int64]
		run, crosses, feel := 0, false, ""
		end := func() {
			if run > 0 {
				longest[feel] = max(longest[feel], float64(run))
			}
			if run >= 4 {
				crossing.count(crosses)
			}
			run, crosses = 0, false
		}
		for _, p := range s.written.passes {
			if !figured(p) {
				continue
			}
			walks := p.walkingBars()
			for bar, places := range p.rhythms(timeline.Bass) {
				if walks[bar] {
					places = nil
				}
				if run > 0 && (len(places) == 0 || jaccard(places, before) < 1) {
					end()
				}
				if len(places) > 0 {
					crosses = crosses || run > 0 && bar == 0
					run, feel = run+1, p.Feel
				}
				before = places
			}
		}
		end()
	}
	return longest, crossing.share()
}
