package room

import (
	"fmt"
	"sort"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// Hit is a place where the band does something together: an accent, a push or a
// stop; or where the time itself gives: a hold or a rit.
type Hit struct {
	Kind    timeline.EventKind
	Tick    int64 // absolute
	End     int64 // of a stop, a hold and a rit; the tick otherwise
	Bar     int
	LastBar int // of a rit; the same bar otherwise
	Count   string
	By      timeline.Players // who plays it: those who keep out are not among them
	Weight  int
	Alone   bool   // of an accent: nothing but the written hits sounds in that bar
	Chord   string // of a push: what comes early
	Beats   int64  // in thousandths: how long a stop lasts, how much longer a hold makes its beat
	To      int    // of a rit: the tempo it reaches
}

// kinds are the hits in the order in which they are told.
var kinds = [...]timeline.EventKind{timeline.Accent, timeline.Push, timeline.Stop, timeline.Hold, timeline.Rit}

// hits are those of a pass in order, as they are played: where they sound, by those who
// strike them. An accent of the next pass that is struck with the push into it sounds
// here.
func (r *Report) hits(i int) []Hit {
	var out []Hit
	add := func(p *timeline.Pass, q *cue.Cue) {
		if h, ok := r.hit(p, q); ok {
			out = append(out, h)
		}
	}
	for k := range r.cues[i].List {
		if q := &r.cues[i].List[k]; q.Event >= 0 && q.At >= 0 {
			add(&r.tl.Passes[i], q)
		}
	}
	for k := 0; i+1 < len(r.cues) && k < len(r.cues[i+1].List) && r.cues[i+1].List[k].At < 0; k++ {
		if q := &r.cues[i+1].List[k]; q.Event >= 0 {
			add(&r.tl.Passes[i+1], q)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Tick != out[j].Tick {
			return out[i].Tick < out[j].Tick
		}
		return out[i].Kind < out[j].Kind
	})
	return joined(out)
}

// hit is a cue as a hit; false for what is none.
func (r *Report) hit(p *timeline.Pass, q *cue.Cue) (Hit, bool) {
	e := &p.Events[q.Event]
	at := p.Start + q.At
	in := &r.tl.Passes[max(0, r.tl.PassAt(at))]
	bar := in.BarAt(at - in.Start)
	b := &in.Bars[bar]
	h := Hit{Kind: e.Kind, Tick: at, End: at, Bar: in.FirstBar + bar, LastBar: in.FirstBar + bar,
		Count: b.Meter.CountAt(at - in.Start - b.Start), By: q.By | q.Out}
	switch q.Kind {
	case cue.Accent:
		h.Weight, h.Alone = int(q.Weight), q.Alone
	case cue.Chord:
		h.Chord = pushedChord(p, q)
	case cue.Stop:
		h.End = p.Start + q.Until
		h.Beats = (q.Until - q.At) * 1000 / p.Meter.TempoTicks()
	case cue.Hold:
		h.By, h.End = 0, p.Start+q.Until
		h.Beats = e.Extra * 1000 / p.Meter.TempoTicks()
	case cue.Rit:
		h.By, h.End, h.To = 0, p.Start+q.Until, e.To
		for j := e.Bar; j < len(p.Bars) && p.Bars[j].Start < q.Until; j++ {
			h.LastBar = p.FirstBar + j
		}
	default:
		return h, false
	}
	return h, true
}

// joined makes one hit of the accents that are struck at one place: of two players
// who answer different words, or of two words that come to one push. hits are in order.
func joined(hits []Hit) []Hit {
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
		out[n].Alone = out[n].Alone || h.Alone
	}
	return out
}

// pushedChord is the chord that a push brings early.
func pushedChord(p *timeline.Pass, q *cue.Cue) string {
	switch {
	case q.Span >= 0:
		return p.Chords[q.Span].Chord.String()
	case p.After != nil:
		return p.After.Chord.String()
	}
	return ""
}

// hitLine says the hits of one kind in few words: "bars 33-39: 2 4 (drums and
// piano); bar 40: 1 2& 4". Neighbouring bars with the same hits are one; the
// players are named when they are not everybody who plays.
func hitLine(hits []Hit, kind timeline.EventKind, plays timeline.Players) string {
	return strings.Join(hitPlaces(hits, kind, plays), "; ")
}

// hitPlaces are the parts of a hitLine, one a bar or a run of bars.
func hitPlaces(hits []Hit, kind timeline.EventKind, plays timeline.Players) []string {
	type group struct {
		first, last int
		what        string
	}
	var merged []group
	for i := 0; i < len(hits); {
		j := i
		for j < len(hits) && hits[j].Bar == hits[i].Bar {
			j++
		}
		what := barHits(hits[i:j], kind, plays)
		g := group{hits[i].Bar, hits[i].Bar, what}
		if kind == timeline.Rit {
			for _, h := range hits[i:j] {
				if h.Kind == kind {
					g.last = h.LastBar
				}
			}
		}
		i = j
		n := len(merged)
		switch {
		case what == "":
		case n > 0 && merged[n-1].last+1 == g.first && merged[n-1].what == what && kind != timeline.Rit:
			merged[n-1].last = g.last
		default:
			merged = append(merged, g)
		}
	}
	var out []string
	for _, m := range merged {
		at := barsWord(m.first, m.last)
		if kind == timeline.Stop || kind == timeline.Hold {
			out = append(out, at+" "+m.what)
			continue
		}
		out = append(out, at+": "+m.what)
	}
	return out
}

// barHits says the hits of one kind in one bar, those of the same players
// together.
func barHits(hits []Hit, kind timeline.EventKind, plays timeline.Players) string {
	type group struct {
		by   timeline.Players
		what []string
	}
	var groups []group
	alone := false
	for _, h := range hits {
		if h.Kind != kind {
			continue
		}
		what := h.Count
		switch kind {
		case timeline.Stop:
			what = fmt.Sprintf("count %s for %s", h.Count, beats(h.Beats))
		case timeline.Push:
			what = fmt.Sprintf("%s %s", h.Count, h.Chord)
		case timeline.Hold:
			what = fmt.Sprintf("count %s, %s longer", h.Count, beats(h.Beats))
		case timeline.Rit:
			what = fmt.Sprintf("to %d", h.To)
		}
		by := h.By
		if kind != timeline.Accent && kind != timeline.Push || by&plays == plays {
			by = 0
		}
		alone = alone || h.Alone
		k := 0
		for k < len(groups) && groups[k].by != by {
			k++
		}
		if k == len(groups) {
			groups = append(groups, group{by: by})
		}
		if n := len(groups[k].what); n == 0 || groups[k].what[n-1] != what {
			groups[k].what = append(groups[k].what, what)
		}
	}
	var out []string
	for _, g := range groups {
		t := strings.Join(g.what, " ")
		if g.by != 0 {
			t += " (" + list(g.by.Names()) + ")"
		}
		out = append(out, t)
	}
	if alone {
		out = append(out, "nothing else")
	}
	return strings.Join(out, ", ")
}
