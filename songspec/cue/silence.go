package cue

import (
	"cmp"
	"slices"

	"plinth/songspec/timeline"
)

// findSilences finds where each player is silent: in the stops that are theirs, in the silence of a
// caesura, and in the bars of the pass that they keep out of.
func (w *work) findSilences() {
	var lists [len(timeline.PlayerNames)][]Stretch
	add := func(by timeline.Players, s Stretch) {
		for who := range lists {
			if by.Has(timeline.Player(who)) {
				lists[who] = append(lists[who], s)
			}
		}
	}
	for _, events := range [][]timeline.Event{w.pass.Joint, w.pass.Events} {
		for i := range events {
			switch e := &events[i]; e.Kind {
			case timeline.Stop:
				add(e.By, Stretch{e.Tick, e.End})
			case timeline.Caesura:
				add(timeline.All, Stretch{e.Cut, e.End})
				w.out.caesuras = w.out.caesuras.with(e.Cut, e.End)
			}
		}
	}
	for i := range w.pass.Bars {
		b := &w.pass.Bars[i]
		by := b.Tacet &^ w.pass.Tacet
		add(by, Stretch{b.Start, b.Start + b.Length})
		for who := range w.out.of {
			if by.Has(timeline.Player(who)) {
				w.out.of[who].tacet = w.out.of[who].tacet.with(b.Start, b.Start+b.Length)
			}
		}
	}
	for who, list := range lists {
		slices.SortStableFunc(list, func(a, b Stretch) int { return cmp.Compare(a.Start, b.Start) })
		for _, s := range list {
			w.out.of[who].silences = w.out.of[who].silences.with(s.Start, s.End)
		}
	}
}

// whySilent is why a player is silent at a tick; Unsaid where the player is not.
func (w *work) whySilent(who timeline.Player, tick int64) Reason {
	switch of := &w.out.of[who]; {
	case of.tacet.Has(tick):
		return Tacet
	case w.out.caesuras.Has(tick):
		return AtCaesura
	case of.silences.Has(tick):
		return InStop
	}
	return Unsaid
}

// playsAt are the players who do not keep out of a bar.
func (w *work) playsAt(bar int) timeline.Players { return timeline.All &^ w.pass.TacetAt(bar) }

// Caesuras are the silences of the pass's caesuras, in order.
func (c *Cues) Caesuras() Stretches { return c.caesuras }

// Entries are where a player comes in again inside the pass, in order: on the bar lines after
// bars that the player has kept out of, and after caesuras.
func (c *Cues) Entries(who timeline.Player) []int64 {
	var out []int64
	for _, list := range [...]Stretches{c.of[who].tacet, c.caesuras} {
		for _, s := range list {
			if s.End < c.length && !c.of[who].silences.Has(s.End) {
				out = append(out, s.End)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
