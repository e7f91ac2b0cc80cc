package room

import (
	"slices"
	"strings"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// hitPlace is hits of one kind in a bar, or the same ones in neighbouring bars.
type hitPlace struct {
	kind        timeline.EventKind
	tick        int64 // of the first
	first, last int   // bars
	what        string
}

// String is "bars 33-39: 2 4 (drums and piano)". The players are named where they are not everybody
// who plays.
func (p hitPlace) String() string { return barsWord(p.first, p.last) + kindOf(p.kind).after + p.what }

// hitPlaces returns the places with hits of a kind, in order.
func hitPlaces(hits []Hit, kind timeline.EventKind, plays timeline.Players) (places []hitPlace) {
	of := kindOf(kind)
	for len(hits) > 0 {
		bar := hits[0].Bar
		n := 1
		for n < len(hits) && hits[n].Bar == bar {
			n++
		}
		place := hitPlace{kind: kind, first: bar, last: bar, what: of.barWords(hits[:n], plays)}
		for k := n - 1; k >= 0; k-- {
			if hits[k].Kind == kind {
				place.tick, place.last = hits[k].Tick, max(place.last, hits[k].LastBar)
			}
		}
		hits = hits[n:]
		before := len(places) - 1
		switch {
		case place.what == "":
		case before >= 0 && places[before].last+1 == bar && places[before].what == place.what && !kind.MovesTempo():
			places[before].last = place.last
		default:
			places = append(places, place)
		}
	}
	return places
}

// barWords says the hits of this kind among those of one bar. Hits of the same players
// stand together.
func (k *hitKind) barWords(hits []Hit, plays timeline.Players) string {
	type group struct {
		by   timeline.Players
		what []string
	}
	var groups []group
	alone := false
	for i := range hits {
		h := &hits[i]
		if h.Kind != k.kind {
			continue
		}
		by := h.By
		if !k.named || by&plays == plays {
			by = 0
		}
		alone = alone || h.Alone
		at := slices.IndexFunc(groups, func(g group) bool { return g.by == by })
		if at < 0 {
			at, groups = len(groups), append(groups, group{by: by})
		}
		g, what := &groups[at], k.words(h)
		if n := len(g.what); n == 0 || g.what[n-1] != what {
			g.what = append(g.what, what)
		}
	}
	var out []string
	for _, g := range groups {
		t := strings.Join(g.what, " ")
		if g.by != 0 {
			t += " (" + wording.And(g.by.Names()) + ")"
		}
		out = append(out, t)
	}
	if alone {
		out = append(out, "nothing else")
	}
	return strings.Join(out, ", ")
}
