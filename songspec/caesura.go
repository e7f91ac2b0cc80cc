package songspec

import (
	"sort"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// leastSilence is the fewest ticks of a count that a caesura takes for its silence, a sixty-fourth;
// where the tempo map cannot say it in so few, also if a picture makes it slower, it takes twice as
// many, and so on, up to half the count.
const leastSilence = meter.TicksPerQuarter / 16

// roomMicros is the longest quarter that a tempo map can still say when a picture makes it slower.
const roomMicros = maxMicros * (10000 - mostChange) / 10000

// caesuras puts the silence of every caesura into a pass's tempo map, and sets where it begins. The
// bar keeps its ticks: the last ticks of the count become the silence, and as many before them last
// twice as long, so that the count sounds for all of its time and what stands before them is where
// it was. The silence is measured in plain, the tempos without the holds.
func (r *resolver) caesuras(pass *timeline.Pass, steps, plain []timeline.Tempo, from []*event) []timeline.Tempo {
	end := int64(-1)
	var out []timeline.Tempo // up to the end of the last caesura
	for i := range pass.Events {
		ev := &pass.Events[i]
		if ev.Kind != timeline.Caesura {
			continue
		}
		if ev.End == end {
			r.rep.Errorf(from[i].rng, "Two caesuras after one beat",
				"Another one ends the same beat. Keep one of them.")
			continue
		}
		end = ev.End
		silence := tempoAt(plain, ev.End-1) * ev.Extra // in microseconds times ticks a quarter
		half := (ev.End - ev.Tick) / 2
		ticks := min(int64(leastSilence), half)
		for ticks < half && rounded(silence, ticks) > roomMicros {
			ticks = min(2*ticks, half)
		}
		ev.Cut = ev.End - ticks
		if rounded(silence, ticks) > maxMicros {
			tenths := maxMicros * half * 10 / (tempoAt(plain, ev.End-1) * pass.Meter.TempoTicks())
			rng := from[i].rng
			if from[i].beats != nil {
				rng = from[i].beats.rng
			}
			r.rep.Errorf(rng, "Too long a silence", "A tempo map cannot go this slow: after this count the silence "+
				"can last %d.%d beats, no longer.", tenths/10, tenths%10)
			continue
		}
		for len(steps) > 0 && steps[0].Tick <= ev.End {
			out, steps = append(out, steps[0]), steps[1:]
		}
		at := sort.Search(len(out), func(i int) bool { return out[i].Tick > ev.Tick }) - 1
		beat := out[at:] // from the tempo in force where it begins
		before := ev.Cut - ticks
		sounds := rounded(lasts(beat, before, ev.End), ticks)
		if sounds > roomMicros {
			before = ev.Tick // a beat that is held so long is all stretched alike
			if sounds = rounded(lasts(beat, before, ev.End), ev.Cut-before); sounds > maxMicros {
				r.rep.Errorf(from[i].rng, "Held too long", "A tempo map cannot go this slow: a beat with a hold and a "+
					"caesura lasts %d seconds at most. Hold it for fewer beats.",
					maxMicros*(ev.Cut-before)/(1_000_000*meter.TicksPerQuarter))
				continue
			}
		}
		out = append(out[:at], withSteps(beat, before, ev.End, []timeline.Tempo{{Tick: before, Micros: sounds},
			{Tick: ev.Cut, Micros: rounded(silence, ticks)}})...)
	}
	return append(out, steps...)
}

// lasts is how long the ticks from one to another last, in microseconds times ticks a quarter.
func lasts(steps []timeline.Tempo, from, to int64) int64 {
	sum, micros := int64(0), tempoAt(steps, from)
	for _, s := range steps {
		if s.Tick > from && s.Tick < to {
			sum += (s.Tick - from) * micros
			from, micros = s.Tick, s.Micros
		}
	}
	return sum + (to-from)*micros
}
