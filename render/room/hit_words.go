package room

import (
	"slices"
	"strings"

	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// hitLine says the hits of one kind in few words: "bars 33-39: 2 4 (drums and
// piano); bar 40: 1 2& 4". The players are named where they are not everybody who plays.
func hitLine(hits []Hit, kind timeline.EventKind, plays timeline.Players) string {
	return strings.Join(hitPlaces(hits, kind, plays), "; ")
}

// hitPlaces returns the parts of a hitLine: one for each bar that has a hit of the kind.
// Neighbouring bars with the same hits share one.
func hitPlaces(hits []Hit, kind timeline.EventKind, plays timeline.Players) []string {
	of := &hitKinds[slices.IndexFunc(hitKinds[:], func(k hitKind) bool { return k.kind == kind })]
	type place struct {
		first, last int
		what        string
	}
	var places []place
	for len(hits) > 0 {
		bar := hits[0].Bar
		n := 1
		for n < len(hits) && hits[n].Bar == bar {
			n++
		}
		what, last := of.barWords(hits[:n], plays), bar
		for _, h := range hits[:n] {
			if h.Kind == kind {
				last = h.LastBar
			}
		}
		hits = hits[n:]
		before := len(places) - 1
		switch {
		case what == "":
		case before >= 0 && places[before].last+1 == bar && places[before].what == what && !kind.MovesTempo():
			places[before].last = last
		default:
			places = append(places, place{bar, last, what})
		}
	}
	var out []string
	for _, p := range places {
		out = append(out, barsWord(p.first, p.last)+of.after+p.what)
	}
	return out
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
