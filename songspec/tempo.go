package songspec

import (
	"slices"
	"sort"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// maxMicros is the longest quarter that a tempo event of a MIDI file can say:
// 24 bits of microseconds (Standard MIDI File 1.0, FF 51).
const maxMicros = 1<<24 - 1

// microsPerMinute is a minute in the unit that a tempo of one thousandth of a beat a minute
// divides into microseconds a beat.
const microsPerMinute int64 = 60_000_000 * 1000

// microsFor is a tempo in beats of m as microseconds a quarter, rounded half up.
func microsFor(bpm meter.BPM, m meter.Meter) int64 {
	return rounded(microsPerMinute*meter.TicksPerQuarter, int64(bpm)*m.TempoTicks())
}

// rounded is a quotient rounded half up.
func rounded(num, den int64) int64 { return (2*num + den) / (2 * den) }

// tempos is a pass's tempo map, made of the tempos that it begins with and that are set in it, in
// order, and of the events that come from these blocks. A hold stretches its beat in addition, and
// a caesura puts its silence after that.
func (r *resolver) tempos(pass *timeline.Pass, bases []base, from []*event) []timeline.Tempo {
	var steps []timeline.Tempo
	bpm := pass.BPM
	setUpTo := func(tick int64) {
		for len(bases) > 0 && bases[0].tick <= tick {
			bpm = bases[0].BPM
			steps = append(steps, timeline.Tempo{Tick: bases[0].tick, Micros: microsFor(bpm, pass.Meter)})
			bases = bases[1:]
		}
	}
	setUpTo(0)
	end := int64(-1)
	var before *event // the last that moved the tempo
	for i := range pass.Events {
		ev, e := &pass.Events[i], from[i]
		if !ev.Kind.MovesTempo() {
			continue
		}
		setUpTo(ev.Tick)
		if ev.Tick < end {
			r.rep.Errorf(e.rng, wording.Sentence("%s inside %s", withArticle(ev.Kind.String()),
				withArticle(before.kind.String())),
				"It begins before the %s %q ends. Give each bar, or each count, to one of them.", before.kind,
				before.place.Text)
			continue
		}
		end, before = ev.End, e
		r.noteMove(e, bpm)
		steps = append(steps, moving(pass, ev, bpm)...)
		bpm = ev.To
		if len(bases) > 0 && bases[0].tick < ev.End {
			r.rep.Errorf(e.rng, "A tempo inside "+withArticle(ev.Kind.String()),
				"A bars block sets the tempo in the middle of this %[1]s. End the %[1]s before it.", ev.Kind)
		}
	}
	setUpTo(pass.Length)
	plain := steps
	steps = r.holds(pass, steps, from)
	steps = r.caesuras(pass, steps, plain, from)
	return settled(steps, pass.Length)
}

// base is a tempo that is set at a bar line of a pass.
type base struct {
	tick int64
	timeline.Pace
}

// What a tempo may be besides a number: in a bars block the pass's own, and anywhere the guide's.
const (
	ownTempo = meter.BPM(0)
	guided   = meter.BPM(-1)
)

// paceOf is the tempo that a song file states, in a meter.
func paceOf(t *said[meter.BPM], m meter.Meter) timeline.Pace {
	if bpm := or(t, usualTempo(m)); bpm != guided {
		return timeline.Pace{BPM: bpm}
	}
	return timeline.Pace{BPM: usualTempo(m), Guided: true} // until the guide's is known, see follow
}

// setPaces gives the bars of a pass the tempos that are set in it: where a bars block that says the
// tempo begins or ends. was is the tempo that the pass has as a whole.
func setPaces(pass *timeline.Pass, bars []barSettings, was *said[meter.BPM]) {
	for i := range bars {
		t := bars[i].tempo
		if t == was {
			continue
		}
		was = t
		pace := pass.Pace()
		if t == nil || t.v != ownTempo {
			pace = paceOf(t, pass.Meter)
		}
		pass.Bars[i].Pace = &pace
	}
}

// basesOf are the tempos that are set in a pass, in order, the first where it begins.
func basesOf(pass *timeline.Pass) []base {
	out := []base{{0, pass.Pace()}}
	for i := range pass.Bars {
		if b := &pass.Bars[i]; b.Pace != nil {
			if i == 0 {
				out = nil
			}
			out = append(out, base{b.Start, *b.Pace})
		}
	}
	return out
}

// holds stretches the beats of all holds of a pass. Each looks at the tempos of its own beat alone.
func (r *resolver) holds(pass *timeline.Pass, steps []timeline.Tempo, from []*event) []timeline.Tempo {
	var out []timeline.Tempo // up to the end of the last hold
	for i := range pass.Events {
		ev := &pass.Events[i]
		if ev.Kind != timeline.Hold {
			continue
		}
		for len(steps) > 0 && steps[0].Tick <= ev.End {
			out, steps = append(out, steps[0]), steps[1:]
		}
		at := sort.Search(len(out), func(i int) bool { return out[i].Tick > ev.Tick }) - 1
		out = append(out[:at], r.stretchHold(out[at:], ev, from[i])...)
	}
	return append(out, steps...)
}

// stretchHold slows the tempos from ev.Tick to ev.End down, so that what lies between lasts
// as much longer as ev.Extra ticks would last at the tempo there.
func (r *resolver) stretchHold(steps []timeline.Tempo, ev *timeline.Event, e *event) []timeline.Tempo {
	length := ev.End - ev.Tick
	stretch := func(micros int64) int64 {
		m := rounded(micros*(length+ev.Extra), length)
		if m > maxMicros {
			tenths := (maxMicros - micros) * length * 10 / (micros * meter.TicksPerQuarter)
			r.rep.Errorf(e.rng, "Held too long", "A tempo map cannot go this slow: here the beat can be held for "+
				"%d.%d quarters more, no longer.", tenths/10, tenths%10)
			return maxMicros
		}
		return m
	}
	held := []timeline.Tempo{{Tick: ev.Tick, Micros: stretch(tempoAt(steps, ev.Tick))}}
	for _, s := range steps {
		if s.Tick > ev.Tick && s.Tick < ev.End {
			held = append(held, timeline.Tempo{Tick: s.Tick, Micros: stretch(s.Micros)})
		}
	}
	return withSteps(steps, ev.Tick, ev.End, held)
}

// tempoAt is the tempo in force at a tick, in microseconds a quarter.
func tempoAt(steps []timeline.Tempo, tick int64) int64 {
	i := sort.Search(len(steps), func(i int) bool { return steps[i].Tick > tick })
	return steps[max(0, i-1)].Micros
}

// withSteps has other tempos from a tick to another, and then goes on as before.
func withSteps(steps []timeline.Tempo, from, to int64, in []timeline.Tempo) []timeline.Tempo {
	at := func(tick int64) int { // the first step that is not before the tick
		return sort.Search(len(steps), func(i int) bool { return steps[i].Tick >= tick })
	}
	after := steps[at(to):]
	if len(after) == 0 || after[0].Tick > to {
		in = append(in, timeline.Tempo{Tick: to, Micros: tempoAt(steps, to)})
	}
	return slices.Concat(steps[:at(from)], in, after)
}

// settled leaves out steps that change nothing, steps from the pass's end on, and all but the
// last of several at one tick.
func settled(steps []timeline.Tempo, end int64) []timeline.Tempo {
	out := steps[:0]
	for _, s := range steps {
		if s.Tick >= end {
			break
		}
		if n := len(out); n > 0 && out[n-1].Tick == s.Tick {
			out = out[:n-1]
		}
		if n := len(out); n > 0 && out[n-1].Micros == s.Micros {
			continue
		}
		out = append(out, s)
	}
	return out
}
