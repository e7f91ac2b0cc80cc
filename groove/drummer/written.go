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
	// The strokes of the hands, and of the feet, from the tick looked at on: the first and the next.
	type strokes struct{ first, next int64 }
	hands, feet := strokes{d.Pass.Length, d.Pass.Length}, strokes{d.Pass.Length, d.Pass.Length}
	for i := len(notes) - 1; i >= 0; i-- {
		n, stem := &notes[i], &hands
		if n.Roll != 0 {
			continue
		}
		if n.Voice.Limb() != feel.Hand {
			stem = &feet
		}
		if n.At < stem.first {
			*stem = strokes{n.At, stem.first}
		}
		if n.Held <= strokeTicks {
			n.Value = int32(max(min(stem.next, d.nextBeat(n.At))-n.At, 1))
		}
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

// TextureIn says in a word what the drummer has to do in a bar.
func (d *Drummer) TextureIn(bar int) string { return d.Texture(d.Level(bar)) }

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
