package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// strokeValues gives strokes the written lengths that a drummer reads. Hands and feet are
// written apart: each stroke lasts until the next of the hands, or of the feet, but not
// longer than the beat. A grace stroke has no length of its own, and the sweep of a brush
// keeps its length. Common practice, no single source. notes are in order.
func (d *Drummer) strokeValues(notes []score.Note) {
	next := [2]int64{d.Pass.Length, d.Pass.Length} // the next stroke of the hands, of the feet
	for end := len(notes); end > 0; {
		at, from := notes[end-1].At, end-1
		for from > 0 && notes[from-1].At == at {
			from--
		}
		beat := d.nextBeat(at)
		struck := [2]bool{}
		for i := from; i < end; i++ {
			n := &notes[i]
			stem := 0
			if n.Voice.Limb() != feel.Hand {
				stem = 1
			}
			switch {
			case n.Roll != 0:
				n.Value = 0
				continue
			case n.Held <= strokeTicks:
				n.Value = int32(max(min(next[stem], beat)-at, 1))
			}
			struck[stem] = true
		}
		for stem := range next {
			if struck[stem] {
				next[stem] = at
			}
		}
		end = from
	}
}

// nextBeat is the felt beat after a tick, or the bar line.
func (d *Drummer) nextBeat(tick int64) int64 {
	bar := d.BarAt(tick)
	start := d.Pass.Bars[bar].Start
	for _, at := range d.BeatStarts(bar) {
		if start+at > tick {
			return start + at
		}
	}
	return d.BarEnd(bar)
}

// Texture says in a word what the drummer plays in a level: the instrument that keeps the
// time, which is the hands' instrument with the most strokes, the backbeat left out.
func (d *Drummer) Texture(lv *feel.Level) string {
	best, most := "silent", 0
	for _, r := range lv.Drums {
		n := 0
		for _, s := range r.Steps {
			if s.Touch > feel.Sound {
				n++
			}
		}
		if r.Voice.Limb == feel.Hand && (!r.Voice.Backbeat() || best == "silent") && n > most {
			best, most = r.Voice.Word, n
		}
	}
	return best
}
