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
// from energy 4 up and one of weight 3 always, unless it is short, but of a run of hits, or of those in one bar, only
// the last of the heaviest, and none where a quieter section follows.
func (d *Drummer) accents() []accent {
	var out []accent
	run := 0 // where the run of hits begins
	for i, q := range d.Cues.Each(cue.Accent, timeline.Drums) {
		a := accent{Cue: q, index: i, first: true, chance: d.SectionChance("drum hit").At(q.At)}
		energy := d.Energy(int(q.Bar))
		a.crash = !q.Short && (q.Weight >= 3 || q.Weight == 2 && crashes.At(energy)) && d.LeadsTo(int(q.Bar)) >= energy
		if n := len(out); n > 0 {
			near := q.At-out[n-1].At <= d.beatLength(q.At)
			if a.first = !near; !near && q.Bar != out[n-1].Bar {
				thinCrashes(out[run:])
				run = n
			}
		}
		out = append(out, a)
	}
	thinCrashes(out[run:])
	return out
}

// thinCrashes leaves the crash on the last of the heaviest hits of a run.
func thinCrashes(run []accent) {
	crash := -1
	for i := range run {
		if run[i].crash && (crash < 0 || run[i].Weight >= run[crash].Weight) {
			crash = i
		}
	}
	for i := range run {
		run[i].crash = i == crash
	}
}

// besideHits leaves in a bar of two hits or more the pushes, what the time has on 1 and, below the hits, the
// hat or the ride on the beats: hands and kick have the hits to play, and nothing between.
func (d *Drummer) besideHits(notes []score.Note) []score.Note {
	hits := map[int]int{} // by bar
	for _, q := range d.Cues.Each(cue.Accent, timeline.Drums) {
		hits[d.BarAt(q.At)]++
	}
	return slices.DeleteFunc(notes, func(n score.Note) bool {
		bar := d.BarAt(n.At)
		if hits[bar] < 2 || n.At == d.Pass.Bars[bar].Start || n.Voice.Limb() == feel.LeftFoot || n.Cue >= 0 {
			return false // what the song asks for stays, as a push or a written fill
		}
		k := kindOf(n.Key)
		return !(k == kindHat || k == kindRide) || d.MetricPlace(bar, n.At) > 0
	})
}

// beatLength is the length of the beat that the tempo counts, at a tick.
func (d *Drummer) beatLength(tick int64) int64 { return d.Pass.Bars[d.BarAt(tick)].Meter.PlayedBeat() }

// strikeAccents strikes every accent that names the drummer, and sets it up.
func (d *Drummer) strikeAccents(notes []score.Note, fills []drumFill) []score.Note {
	hits := d.accents()
	if len(hits) == 0 {
		return notes
	}
	notes = d.besideHits(notes)
	score.ByTick(notes)
	var cymbals []int64
	var struck []score.Note
	setUp := -1 // the bar that has a set-up
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
		if bar := d.BarAt(d.beatBefore(a.At)); bar != setUp {
			if lead := d.setUp(a, notes, fills); len(lead) > 0 {
				struck, setUp = append(struck, lead...), bar
			}
		}
	}
	notes, struck = d.chokeForShortHits(d.withoutCymbals(notes, cymbals...), hits, struck)
	return append(notes, struck...)
}

// chokeForShortHits leaves nothing on the cymbals and the hat with a hit that is cut off dry, and
// has the foot close a hat that is open before it.
func (d *Drummer) chokeForShortHits(notes []score.Note, hits []accent, struck []score.Note) (left, with []score.Note) {
	for i := range hits {
		at := hits[i].At
		if !hits[i].Short {
			continue
		}
		if last := lastOnHat(notes, at); last >= 0 && kindOf(notes[last].Key) == kindOpen {
			struck = append(struck, withCue(hits[i].index, newStroke(footVoice, at, at+strokeTicks, feel.Normal))...)
		}
		notes = slices.DeleteFunc(d.withoutCymbals(notes, at), func(n score.Note) bool {
			return n.At == at && kindOf(n.Key) == kindCrash
		})
	}
	return notes, struck
}

// lastOnHat is the last stroke on the hat before a tick, as an index; -1: none.
func lastOnHat(notes []score.Note, tick int64) int {
	last := -1
	for i := range notes {
		k := kindOf(notes[i].Key)
		if (k == kindHat || k == kindOpen) && notes[i].At < tick && (last < 0 || notes[i].At >= notes[last].At) {
			last = i
		}
	}
	return last
}

// accentVoices are what strikes an accent: kick and snare, or below energy 3 kick and what
// marks the backbeat. A crash stands beside the snare on the beat, at weight 3, and on the
// off-beat of 2. Elsewhere a light hit off the beat without a
// crash, and every other hit of a run, may open the hat or strike the bell instead, on the cymbal
// that keeps the time. What is short is struck on the drums alone.
func (d *Drummer) accentVoices(a *accent) []feel.Voice {
	bar := int(min(a.Bar, int32(len(d.Pass.Bars)-1)))
	drum := snareVoice
	if !snareDrum.At(d.Energy(bar)) {
		drum = d.backbeat(bar)
	}
	off := d.MetricPlace(bar, a.At) > 0
	beats := d.BeatStarts(bar)
	late := a.At - d.Pass.Bars[bar].Start
	onTwoAnd := off && len(beats) > 2 && late > beats[1] && late < beats[2]
	switch {
	case !a.crash && d.onBackbeat(bar, a.At): // the time's own stroke, struck as a hit
		return []feel.Voice{drum}
	case a.Short: // nothing that rings
		return []feel.Voice{kickVoice, drum}
	case a.crash && off && !onTwoAnd && a.Weight < 3:
		return []feel.Voice{kickVoice, crashVoice}
	case a.crash:
		return []feel.Voice{kickVoice, drum, crashVoice}
	case !snareDrum.At(d.Energy(bar)) && a.Weight == 1 && a.chance.Below(3) == 0:
		return []feel.Voice{drum}
	case a.Pushed() || !snareDrum.At(d.Energy(bar)):
	case a.first && !(off && a.Weight == 1), onTwoAnd, a.chance.Below(2) == 0:
	case d.Texture(d.Level(bar)) == "ride":
		return []feel.Voice{kickVoice, bellVoice}
	case d.Texture(d.Level(bar)) == "hat":
		return []feel.Voice{kickVoice, openVoice}
	}
	return []feel.Voice{kickVoice, drum}
}

// onBackbeat reports whether the row of the bar's level has its backbeat at a tick.
func (d *Drummer) onBackbeat(bar int, tick int64) bool {
	lv := d.Level(bar)
	for _, st := range d.Steps(bar, lv) {
		if st.Tick != tick {
			continue
		}
		for _, r := range lv.Drums {
			if r.Voice.Backbeat() && st.Index < len(r.Steps) && r.Steps[st.Index].Touch > feel.Ghost {
				return true
			}
		}
	}
	return false
}

// setUp is the stroke that leads to a hit out of the time: a ghost on the beat or the off-beat
// before it, where the drum is free there. Runs of hits are set up once, and so is a bar. A hit
// in the first beat of the pass has no room, and a fill is a set-up itself.
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
	if busy(drum) || d.onBackbeat(d.BarAt(a.At), a.At) { // the backbeat needs none, and is one itself
		return nil
	}
	return []score.Note{newStroke(drum, at, at+strokeTicks, feel.Ghost)}
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
		if d.SwingIn(bar).Triplets || d.Pass.Bars[bar].Meter.Compound() {
			at = tick - length/3
		}
	}
	return at
}
