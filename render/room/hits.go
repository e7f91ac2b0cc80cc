package room

import (
	"cmp"
	"slices"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Hit is a place where the band does something together (an accent, a push, a stop), or
// where the tempo gives way (a hold, a caesura, a rit, an accel).
type Hit struct {
	Kind    timeline.EventKind
	Tick    int64 // absolute
	End     int64 // of a stop, a hold, a caesura, a rit and an accel; the tick otherwise
	Bar     int
	LastBar int // of a rit and an accel; the same bar otherwise
	Count   string
	// LastCount is the count that a rit or an accel ends with; "" where it goes over whole bars.
	LastCount string
	Text      string           // of a cue: what it says
	By        timeline.Players // who plays it
	Weight    int
	Alone     bool      // of an accent: nothing but the written hits sounds in that bar
	Short     bool      // of an accent: it is cut off dry
	Chord     string    // of a push: what comes early
	Beats     int64     // in thousandths: how long a stop or a caesura is, how much a hold adds
	To        meter.BPM // of a rit and an accel: the tempo it reaches
}

// hitsOf returns the hits that sound in pass i, in order, each with those who strike it. An
// accent of the next pass that is struck with the push into that pass is among them.
func (r *Report) hitsOf(i int) []Hit {
	var out []Hit
	for j := i; j <= i+1 && j < len(r.cues); j++ {
		for k := range r.cues[j].List {
			if q := &r.cues[j].List[k]; q.Event >= 0 && (q.At < 0) == (j > i) {
				out = r.addHit(out, &r.tl.Passes[j], q)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Hit) int {
		return cmp.Or(cmp.Compare(a.Tick, b.Tick), cmp.Compare(a.Kind, b.Kind))
	})
	return joinAccents(out)
}

// addHit adds what a cue of the pass p is as a hit; nothing for a cue that is none.
func (r *Report) addHit(hits []Hit, p *timeline.Pass, q *cue.Cue) []Hit {
	k := slices.IndexFunc(hitKinds[:], func(k hitKind) bool { return k.cue == q.Kind })
	if k < 0 {
		return hits
	}
	at := p.Start + q.At
	in := &r.tl.Passes[max(0, r.tl.PassAt(at))] // where it sounds
	bar := in.BarAt(at - in.Start)
	b := &in.Bars[bar]
	h := Hit{Kind: p.Events[q.Event].Kind, Tick: at, End: at, Bar: in.FirstBar + bar, LastBar: in.FirstBar + bar,
		Count: b.Meter.CountAt(at - in.Start - b.Start), By: q.By | q.Out}
	hitKinds[k].read(&h, p, q)
	return append(hits, h)
}

// joinAccents makes one hit of the accents that are struck at the same tick: two events may
// name different players, and two may move to one push. The hits are in order.
func joinAccents(hits []Hit) []Hit {
	var out []Hit
	for _, h := range hits {
		n := len(out) - 1
		for n >= 0 && out[n].Tick == h.Tick && out[n].Kind != h.Kind {
			n--
		}
		if n < 0 || out[n].Tick != h.Tick || h.Kind != timeline.Accent {
			out = append(out, h)
			continue
		}
		out[n].By |= h.By
		out[n].Weight = max(out[n].Weight, h.Weight)
		out[n].Alone, out[n].Short = out[n].Alone || h.Alone, out[n].Short && h.Short
	}
	return out
}
