package room

import (
	"fmt"
	"sort"
	"strings"

	"plinth/songspec/meter"
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

// hitsOf are the hits of a pass in order, as they are played: a stop beats what
// is written into it, an accent where a pushed chord would have come is played
// with the push, and a player who keeps out hits nothing.
func hitsOf(p *timeline.Pass) []Hit {
	var out []Hit
	do := doingsOf(p)
	for i := range p.Events {
		e := &p.Events[i]
		if e.Bar < 0 || e.Bar >= len(p.Bars) {
			continue
		}
		b := &p.Bars[e.Bar]
		h := Hit{Kind: e.Kind, Tick: p.Start + e.Tick, End: p.Start + e.Tick, Bar: p.FirstBar + e.Bar, LastBar: p.FirstBar + e.Bar,
			Count: b.Meter.CountAt(e.Tick - b.Start), By: e.By &^ p.Tacet, Weight: e.Weight, Alone: e.Alone}
		switch e.Kind {
		case timeline.Accent:
			if chord, ok := chordOver(p, e.Tick); ok && chord.Chord.None {
				h.By &= timeline.Only(timeline.Drums)
			}
			h.By &^= do.pushers(e.Tick)
			if h.By == 0 || do.stopped(e.Tick) {
				continue
			}
		case timeline.Push:
			h.Chord = chordAt(p, e.Target)
			if h.By == 0 || do.stopped(e.Tick) {
				continue
			}
		case timeline.Stop:
			h.End = p.Start + e.End
			h.Beats = (e.End - e.Tick) * 1000 / p.Meter.TempoTicks()
			h.By = timeline.All &^ p.Tacet
		case timeline.Hold:
			h.By = 0
			h.End = p.Start + e.End
			h.Beats = e.Extra * 1000 / p.Meter.TempoTicks()
		case timeline.Rit:
			h.By = 0
			h.End = p.Start + e.End
			h.To = e.To
			for j := e.Bar; j < len(p.Bars) && p.Bars[j].Start < e.End; j++ {
				h.LastBar = p.FirstBar + j
			}
		default:
			continue
		}
		if n := len(out) - 1; n >= 0 && out[n].Kind == h.Kind && out[n].Tick == h.Tick && (h.Kind == timeline.Accent || h.Kind == timeline.Push) {
			// The section's and the play's word for the same place are one hit.
			out[n].By |= h.By
			out[n].Weight = max(out[n].Weight, h.Weight)
			out[n].Alone = out[n].Alone || h.Alone
			continue
		}
		out = append(out, h)
	}
	return out
}

// doings are a pass's stops and pushes, each in order, so that a song of ten
// thousand bars with a hit on every count is looked through once.
type doings struct {
	stops  []timeline.Event // merged
	pushes []timeline.Event // less those in a stop
	entry  *timeline.Event
}

func doingsOf(p *timeline.Pass) doings {
	d := doings{entry: p.Entry}
	for _, e := range p.Events {
		if e.Kind != timeline.Stop {
			continue
		}
		if n := len(d.stops); n > 0 && e.Tick <= d.stops[n-1].End {
			d.stops[n-1].End = max(d.stops[n-1].End, e.End)
			continue
		}
		d.stops = append(d.stops, e)
	}
	for _, e := range p.Events {
		if e.Kind == timeline.Push && !d.stopped(e.Tick) {
			d.pushes = append(d.pushes, e)
		}
	}
	return d
}

// stopped reports whether the band is silent at a tick of the pass.
func (d *doings) stopped(tick int64) bool {
	i := sort.Search(len(d.stops), func(i int) bool { return d.stops[i].End > tick })
	return i < len(d.stops) && d.stops[i].Tick <= tick
}

// pushers are the players who have struck the chord of that tick already, with a
// push over it. A push reaches no further than the next beat, so that the last few
// before the tick are all that can.
func (d *doings) pushers(tick int64) timeline.Players {
	var who timeline.Players
	i := sort.Search(len(d.pushes), func(i int) bool { return d.pushes[i].Tick >= tick })
	for i--; i >= 0 && d.pushes[i].Tick > tick-4*meter.TicksPerQuarter; i-- {
		if tick <= d.pushes[i].Target {
			who |= d.pushes[i].By
		}
	}
	if d.entry != nil && tick == 0 {
		who |= d.entry.By
	}
	return who
}

// chordOver is the chord in force at a tick of a pass.
func chordOver(p *timeline.Pass, tick int64) (timeline.Span, bool) {
	i := sort.Search(len(p.Chords), func(i int) bool { return p.Chords[i].End > tick })
	if i < len(p.Chords) && p.Chords[i].Start <= tick {
		return p.Chords[i], true
	}
	return timeline.Span{}, false
}

func chordAt(p *timeline.Pass, tick int64) string {
	if s, ok := chordOver(p, tick); ok {
		return s.Chord.String()
	}
	if p.After != nil {
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
