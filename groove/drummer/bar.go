package drummer

import (
	"cmp"
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
)

// barStrokes are the strokes of the time in one bar, while the drummer changes them.
type barStrokes struct {
	*Drummer
	bar   int
	level *feel.Level
	steps []plan.Step
	notes []score.Note
	time  feel.Voice // the voice of the hands that keeps the time; Word "": none
}

// strokesOf are the strokes of a bar, made ready to be changed; ok is false where the tab
// does not divide the bar, or where the feel is for any meter, as such a feel is the beat and
// nothing else.
func (d *Drummer) strokesOf(bar int, steps []plan.Step, notes []score.Note) (b *barStrokes, ok bool) {
	m, length := d.Pass.Bars[bar].Meter, d.Pass.Bars[bar].Length
	if len(d.FeelIn(bar).Meters) == 0 || len(steps) == 0 || length%int64(len(steps)) != 0 || m.BarTicks() != length {
		return nil, false
	}
	b = &barStrokes{Drummer: d, bar: bar, level: d.Level(bar), steps: steps, notes: notes}
	if d.weightsOf != m || len(d.weights) != len(steps) {
		d.weightsOf, d.weights = m, feel.Weights(m, len(steps))
	}
	d.places = d.places[:0]
	for i := range steps {
		d.places = append(d.places, d.MetricPlace(bar, steps[i].Tick))
	}
	b.time, _ = feel.VoiceNamed(d.Texture(b.level))
	if b.time.Word == "sweep" { // it sounds from stroke to stroke, and what is struck is the tap
		b.time, _ = feel.VoiceNamed("tap")
	}
	if b.time.Limb != feel.Hand {
		b.time = feel.Voice{}
	}
	return b, true
}

// find is the index of the stroke of a voice at a step, -1 if there is none.
func (b *barStrokes) find(step int, is func(v feel.Voice) bool) int {
	for i := range b.notes {
		n := &b.notes[i]
		if n.At == b.steps[step].Tick && n.Roll == 0 && is(n.Voice.Instrument()) {
			return i
		}
	}
	return -1
}

func isKick(v feel.Voice) bool  { return v.Limb == feel.RightFoot }
func isSnare(v feel.Voice) bool { return v.Word == "snare" }

func (b *barStrokes) isTime(v feel.Voice) bool { return v.Word != "" && v.Word == b.time.Word }

// add strikes a voice at a step.
func (b *barStrokes) add(step int, v feel.Voice, t feel.Touch) {
	at := b.steps[step].Tick
	end := b.BarEnd(b.bar)
	if step+1 < len(b.steps) {
		end = b.steps[step+1].Tick
	}
	b.notes = append(b.notes, newStroke(v, at, min(end, at+strokeTicks), t))
}

// drop takes a stroke away, with the grace strokes that lead to it.
func (b *barStrokes) drop(i int) {
	n := b.notes[i]
	b.notes = slices.DeleteFunc(b.notes, func(x score.Note) bool { return x.At == n.At && x.Key == n.Key })
}

// place is 0 for a step on a beat, 1 for a step half-way between two, 2 for others.
func (b *barStrokes) place(step int) int { return b.places[step] }

// pickup is the step that leads to the next beat from beat k of the bar: the "and" of the
// beat, or its last part where the beat has three.
func (b *barStrokes) pickup(k int) int {
	from, end := b.beat(k)
	best := from
	for i := from + 1; i < end; i++ {
		if best == from || b.weights[i] >= b.weights[best] {
			best = i
		}
	}
	return best
}

// beat is beat k of the bar as steps: the first, and the one after its last.
func (b *barStrokes) beat(k int) (from, end int) {
	starts := b.BeatStarts(b.bar)
	line := b.Pass.Bars[b.bar].Start
	end = len(b.steps)
	for i, s := range b.steps {
		if s.Tick-line < starts[k] {
			from = i + 1
		}
		if k+1 < len(starts) && s.Tick-line >= starts[k+1] {
			end = min(end, i)
		}
	}
	return from, end
}

// tooSyncopated reports whether kick and snare together are further off the beat than the
// feel goes.
func (b *barStrokes) tooSyncopated() bool {
	on := make([]bool, len(b.steps))
	for i := range b.notes {
		n := &b.notes[i]
		if n.Touch <= feel.Ghost || n.Roll != 0 {
			continue
		}
		if v := n.Voice.Instrument(); !isKick(v) && !v.Backbeat() {
			continue
		}
		step, ok := slices.BinarySearchFunc(b.steps, n.At, func(s plan.Step, at int64) int {
			return cmp.Compare(s.Tick, at)
		})
		if ok {
			on[step] = true
		}
	}
	return feel.LHL(on, b.weights) > b.FeelIn(b.bar).Syncopation
}

// try makes a change and takes it back where it goes too far off the beat.
func (b *barStrokes) try(change func()) bool {
	before := slices.Clone(b.notes)
	change()
	if len(b.notes) == len(before) || b.tooSyncopated() {
		b.notes = before
		return false
	}
	return true
}
