package songspec

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// moving are the steps of a rit or an accel from the tempo in force to the one that it reaches: a
// new tempo where it begins and on each felt beat after that. The last beat has the tempo that it
// reaches, which stays. The curve is an even braking, or the same upward: the square of the tempo
// moves evenly, so that the change is felt early and arrives late (Kronman and Sundberg 1987 and
// Todd 1992 describe final ritards in this way; from memory).
func moving(pass *timeline.Pass, ev *timeline.Event, bpm meter.BPM) []timeline.Tempo {
	ticks := []int64{ev.Tick}
	for _, b := range pass.Bars[ev.Bar:] {
		for _, at := range b.Meter.Beats() {
			if tick := b.Start + at; tick > ev.Tick && tick < ev.End {
				ticks = append(ticks, tick)
			}
		}
		if b.Start >= ev.End {
			break
		}
	}
	out := make([]timeline.Tempo, len(ticks))
	for i, tick := range ticks {
		out[i] = timeline.Tempo{Tick: tick, Micros: braked(bpm, ev.To, i+1, len(ticks), pass.Meter)}
	}
	return out
}

// move is what a block that moves the tempo does in the passes that it stands in: how often it does
// what its word says, and from which tempo it last did not.
type move struct {
	right int
	wrong *said[meter.BPM] // the tempo that it begins with, and the place of the word
	e     *event
}

// oneStretch says how one rit over several bars in a row is written, which in a list would have a rit
// each.
func oneStretch(e *event) string {
	bars := e.place.Bars
	for i, b := range bars {
		if i > 0 && b.From != bars[i-1].To+1 || b.From < 1 || b.To < 1 {
			return ""
		}
	}
	if len(bars) < 2 || e.place.Through {
		return ""
	}
	return fmt.Sprintf(" For one %s over all these bars write \"%d-%d\".", e.kind, bars[0].From, bars[len(bars)-1].To)
}

// noteMove notes from which tempo a rit or an accel moves in a pass.
func (r *resolver) noteMove(e *event, bpm meter.BPM) {
	if e.to.v == bpm {
		word := e.kind.String()
		r.rep.Warnf(e.to.rng, wording.Sentence("%s to the same tempo", withArticle(word)),
			"The tempo is %s already when the %s begins, so nothing moves.%s", bpm, word, oneStretch(e))
		return
	}
	m := r.moves[e.where()]
	m.e = e
	if (e.to.v > bpm) == (e.kind == timeline.Accel) {
		m.right++
	} else {
		m.wrong = &said[meter.BPM]{bpm, e.word}
	}
	r.moves[e.where()] = m
}

// warnMoves warns of a rit that gets faster and an accel that gets slower.
func (r *resolver) warnMoves() {
	for _, at := range slices.SortedFunc(maps.Keys(r.moves), blockAt.compare) {
		m := r.moves[at]
		if m.wrong == nil {
			continue
		}
		is, does, write := "rit", "faster", "accel"
		if m.e.kind == timeline.Accel {
			is, does, write = "accel", "slower", "rit"
		}
		e := r.rep.Warnf(m.wrong.rng, wording.Sentence("%s that gets %s", withArticle(is), does),
			"It goes from %s to %s. Getting %s is written %s.", m.wrong.v, m.e.to.v, does, write)
		if m.right == 0 {
			e.Write(m.wrong.rng, write)
		}
	}
}

// braked is the tempo after i of n beats on the way from one tempo to another, in microseconds
// a quarter. Its square moves evenly. It is worked out in integers and rounded half up.
func braked(from, to meter.BPM, i, n int, m meter.Meter) int64 {
	// micros = K / v with v² = (from²·(n-i) + to²·i) / n, so micros² = K²·n / (…)
	k := big.NewInt(microsPerMinute * meter.TicksPerQuarter / m.TempoTicks())
	num := new(big.Int).Mul(k, k)
	num.Mul(num, big.NewInt(int64(n)))
	den := big.NewInt(int64(from*from)*int64(n-i) + int64(to*to)*int64(i))
	num.Mul(num, big.NewInt(4)).Quo(num, den)
	root := num.Sqrt(num).Int64() // twice the value, rounded down
	return (root + 1) / 2
}
