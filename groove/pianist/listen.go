package pianist

import (
	"slices"
	"sort"

	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// listener is what the pianist hears of the singer in one pass. A nil listener
// hears nothing: no vocal is given and no space is written.
type listener struct {
	*plan.Plan
	sung  []timeline.SungNote // in order
	long  []timeline.SungNote // those of a beat or more
	heard bool                // a vocal is given
}

// duck is how long a comp note ends before a held sung note that it would rub against, in
// ticks: a thirty-second, which is more than any player strays.
const duck = quarter / 8

// busyPerBeat is the number of sung notes a beat, in thousandths, from which the
// comp plays less. Ours: eighths with some sixteenths.
const busyPerBeat = 1500

// listen returns what the pianist hears of the singer in a pass.
func listen(p *plan.Plan) *listener {
	l := &listener{Plan: p, heard: len(p.Pass.Sung) > 0}
	l.sung = slices.Clone(p.Pass.Sung)
	sort.SliceStable(l.sung, func(i, j int) bool { return l.sung[i].Tick < l.sung[j].Tick })
	for _, s := range l.sung {
		if s.Length >= p.Pass.Bars[p.BarAt(s.Tick)].Meter.TempoTicks() {
			l.long = append(l.long, s)
		}
	}
	return l
}

// isRub reports whether a comp note is a semitone from a sung note, or a semitone and octaves
// (a minor ninth).
func isRub(comp, sung int) bool {
	return max(comp-sung, sung-comp)%12 == 1
}

// avoided is the set of pitch classes (bit = pitch class) that the voicing of a chord should
// leave out: a held sung note a semitone above, or a semitone and octaves, lasts for half of
// the chord or more.
func (l *listener) avoided(ch *cue.Change) uint16 {
	var rub [12]int64
	for _, s := range l.longIn(ch.Start, ch.End) {
		low, high := max(s.Tick, ch.Start), min(s.Tick+s.Length, ch.End)
		rub[(int(s.Key)+11)%12] += high - low
	}
	var out uint16
	for pc, ticks := range rub {
		if ticks > 0 && 2*ticks >= ch.End-ch.Start {
			out |= 1 << pc
		}
	}
	return out
}

// longIn are the held sung notes that sound between two ticks.
func (l *listener) longIn(start, end int64) []timeline.SungNote {
	i := sort.Search(len(l.long), func(i int) bool { return l.long[i].Tick+l.long[i].Length > start })
	j := i
	for j < len(l.long) && l.long[j].Tick < end {
		j++
	}
	return l.long[i:j]
}

// sungAt is the sung note that sounds at a tick.
func (l *listener) sungAt(tick int64) (timeline.SungNote, bool) {
	i := sort.Search(len(l.sung), func(i int) bool { return l.sung[i].Tick > tick }) - 1
	if i < 0 || l.sung[i].Tick+l.sung[i].Length <= tick {
		return timeline.SungNote{}, false
	}
	return l.sung[i], true
}

// doublingCost is the cost of a top voice that has the pitch class of the sung note. The comp
// does not play along with a moving tune. It may double a note that the singer holds an
// octave or more above: at the height of a chorus, a way round it would take the chord down
// and away from under the voice, and that would be heard more.
func doublingCost(tune timeline.SungNote, top int, beat int64) int32 {
	if tune.Length >= beat && int(tune.Key)-top >= 12 {
		return voicing.CostDoubleHeld
	}
	return voicing.CostDoubleTune
}

// tuneCosts is the cost of each voicing under the tune: for a top voice that doubles the note
// sung at the chord's attack, for any voice in unison with it, and for any rub with a held
// note.
func (l *listener) tuneCosts(ch *cue.Change, set *voicing.Set) []int32 {
	if !l.heard {
		return nil
	}
	tune, sounds := l.sungAt(ch.Start)
	long := l.longIn(ch.Start, ch.End)
	if !sounds && len(long) == 0 {
		return nil
	}
	beat := l.Pass.Bars[l.BarAt(ch.Nominal)].Meter.TempoTicks()
	out := make([]int32, len(set.List))
	for i := range set.List {
		v := &set.List[i].Voicing
		if sounds && v.Top()%12 == int(tune.Key)%12 {
			out[i] += doublingCost(tune, v.Top(), beat)
		}
		for k := int8(0); k < v.N; k++ {
			key := int(v.Notes[k])
			if sounds && key == int(tune.Key) {
				out[i] += voicing.CostUnison
			}
			for _, s := range long {
				if isRub(key, int(s.Key)) {
					out[i] += voicing.CostRub
				}
			}
		}
	}
	return out
}

// dropRubs takes away notes that are struck against a held sung note that they rub with, and
// notes that are struck in unison with the tune. A note that was struck earlier ends before
// the rub.
func (l *listener) dropRubs(notes []score.Note) []score.Note {
	if !l.heard {
		return notes
	}
	return score.Without(notes, func(i int) bool {
		n := &notes[i]
		if n.Voice == score.Left { // the bass may rub, as a bassist's may
			return false
		}
		if tune, ok := l.sungAt(n.At); ok && tune.Key == n.Key {
			return true
		}
		for _, s := range l.longIn(n.At-duck, n.End()+duck) {
			if !isRub(int(n.Key), int(s.Key)) {
				continue
			}
			if n.At >= s.Tick-2*duck {
				return true
			}
			if s.Tick-duck < n.End() { // written to where the singer comes in
				n.Value = int32(s.Tick - n.At)
				n.Hold(s.Tick - duck)
			}
		}
		return false
	})
}

// isBusy reports whether the singer has many notes in a bar.
func (l *listener) isBusy(bar int) bool {
	if !l.heard {
		return false
	}
	b := l.Pass.Bars[bar]
	from := func(tick int64) int {
		return sort.Search(len(l.sung), func(i int) bool { return l.sung[i].Tick >= tick })
	}
	count := int64(from(b.Start+b.Length) - from(b.Start))
	return count*1000*b.Meter.TempoTicks() >= busyPerBeat*b.Length
}
