package drummer

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// accent is an accent that the drummer strikes.
type accent struct {
	*cue.Cue
	index  int32 // of the cue
	crash  bool
	first  bool // it is the first of its run: the hit before it is more than a beat away
	chance plan.Chance
}

// accents are the accents that the drummer strikes, in order. A crash marks one of weight 2
// from energy 4 up and one of weight 3 always, but in a run of hits it marks the heaviest, or
// the first and the last of several that are as heavy.
func (d *Drummer) accents() []accent {
	var out []accent
	run := 0 // where the run of hits begins
	for i, q := range d.Cues.Each(cue.Accent, timeline.Drums) {
		a := accent{Cue: q, index: i, first: true, chance: d.SectionChance("drum hit").At(q.At)}
		a.crash = q.Weight >= 3 || q.Weight == 2 && crashes.At(d.Energy(int(q.Bar)))
		if n := len(out); n > 0 && q.At-out[n-1].At <= d.beatLength(q.At) {
			a.first = false
		} else {
			d.thinCrashes(out[run:])
			run = n
		}
		out = append(out, a)
	}
	d.thinCrashes(out[run:])
	return out
}

// thinCrashes leaves the crashes of a run of hits on its heaviest: the first and the last,
// or the last alone where the two are within a beat.
func (d *Drummer) thinCrashes(run []accent) {
	var most uint8
	for i := range run {
		most = max(most, run[i].Weight)
	}
	first, last := -1, -1
	for i := range run {
		if run[i].crash && run[i].Weight == most {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	for i := range run {
		near := i < last && run[last].At-run[i].At <= d.beatLength(run[i].At)
		run[i].crash = i == last || i == first && !near
	}
}

// beatLength is the length of the beat that the tempo counts, at a tick.
func (d *Drummer) beatLength(tick int64) int64 { return d.Pass.Bars[d.BarAt(tick)].Meter.TempoTicks() }

// strikeAccents strikes every accent that names the drummer, and sets it up.
func (d *Drummer) strikeAccents(notes []score.Note, fills []drumFill) []score.Note {
	hits := d.accents()
	if len(hits) == 0 {
		return notes
	}
	score.ByTick(notes)
	var cymbals []int64
	var struck []score.Note
	for i := range hits {
		a := &hits[i]
		for _, v := range d.accentVoices(a) {
			n := newStroke(v, a.At, a.At+strokeTicks, feel.Strong)
			if v.Limb != feel.Hand && a.Weight == 1 {
				n.Touch = feel.Normal
			}
			n.Cue, n.Art = a.index, score.Accent
			if a.Pushed() {
				n.Art |= score.Pushed
			}
			if k := kindOf(v.Key); k == kindCrash || k == kindOpen || k == kindRide {
				cymbals = append(cymbals, a.At)
			}
			struck = append(struck, n)
		}
		struck = append(struck, d.setUp(a, notes, fills)...)
	}
	return append(d.withoutCymbals(notes, cymbals...), struck...)
}

// accentVoices are what strikes an accent: kick and snare, or below energy 3 kick and what
// marks the backbeat. A crash takes the snare's place off the beat, and stands beside it on
// the beat and at weight 3. Without a crash a light hit off the beat, and every other hit of a
// run, may open the hat or strike the bell instead, on the cymbal that keeps the time.
func (d *Drummer) accentVoices(a *accent) []feel.Voice {
	bar := int(min(a.Bar, int32(len(d.Pass.Bars)-1)))
	drum := snareVoice
	if !snareDrum.At(d.Energy(bar)) {
		drum = d.backbeat(bar)
	}
	off := d.MetricPlace(bar, a.At) > 0
	switch {
	case a.crash && off && a.Weight < 3:
		return []feel.Voice{kickVoice, crashVoice}
	case a.crash:
		return []feel.Voice{kickVoice, drum, crashVoice}
	case !snareDrum.At(d.Energy(bar)) && a.Weight == 1 && a.chance.Below(3) == 0:
		return []feel.Voice{drum}
	case a.Pushed() || !snareDrum.At(d.Energy(bar)):
	case a.first && !(off && a.Weight == 1), a.chance.Below(2) == 0:
	case d.Texture(d.Level(bar)) == "ride":
		return []feel.Voice{kickVoice, bellVoice}
	case d.Texture(d.Level(bar)) == "hat":
		return []feel.Voice{kickVoice, openVoice}
	}
	return []feel.Voice{kickVoice, drum}
}

// setUp are the strokes that lead to a hit out of the time: one soft stroke on the beat or the
// off-beat before it, or a heavy hit a pair, on a drum that is free there. Runs of hits are set
// up once. A hit in the first beat of the pass has no room, and a fill is a set-up itself.
// What may not sound, as in a stop, is taken away later, see plan.Allowed. notes are in order.
func (d *Drummer) setUp(a *accent, notes []score.Note, fills []drumFill) []score.Note {
	at := d.beatBefore(a.At)
	bar := d.BarAt(at)
	if !a.first || a.At < d.beatLength(0) || !snareDrum.At(d.Energy(bar)) || !d.keepsTime(bar) {
		return nil
	}
	for i := range fills {
		if fills[i].Start < a.At && fills[i].End > at {
			return nil
		}
	}
	busy := func(v feel.Voice) bool {
		i := sort.Search(len(notes), func(i int) bool { return notes[i].At >= at })
		for ; i < len(notes) && notes[i].At == at; i++ {
			if notes[i].Key == v.Key {
				return true
			}
		}
		return false
	}
	drum := d.backbeat(bar)
	touch := d.withBrushes(feel.Soft)
	lead := []feel.Voice{drum, kickVoice, lowTomVoice}
	if a.chance.At(1).Below(2) == 0 {
		lead[0], lead[1] = lead[1], lead[0]
	}
	if lead = slices.DeleteFunc(lead, busy); len(lead) == 0 {
		return nil
	}
	out := []score.Note{newStroke(lead[0], at, at+strokeTicks, touch)}
	c, late := d.Clock(), (at+a.At)/2
	if a.Weight >= 2 && (c.Micros(a.At)-c.Micros(late)) > limbGapUS && a.chance.At(2).Below(2) == 0 {
		out = append(out, newStroke(drum, late, late+strokeTicks, touch))
	}
	return out
}

// beatBefore is the beat before a tick that is off the beat, and the off-beat before one that
// is on it.
func (d *Drummer) beatBefore(tick int64) int64 {
	bar := d.BarAt(max(0, tick-1))
	start := d.Pass.Bars[bar].Start
	at := start
	for _, s := range d.BeatStarts(bar) {
		if start+s < tick {
			at = start + s
		}
	}
	if length := tick - at; d.nextBeat(at) == tick {
		at += length / 2
		if d.Swing().Triplets || d.Pass.Bars[bar].Meter.Compound() {
			at = tick - length/3
		}
	}
	return at
}
