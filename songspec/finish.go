package songspec

import (
	"fmt"

	"plinth/songspec/timeline"
)

// finish puts the passes one after another: absolute times, neighbours, pushes
// over a border, and the three maps.
func (r *resolver) finish() {
	t := r.tl
	if len(t.Passes) == 0 {
		return
	}
	r.lead()
	at := t.Lead
	seen := map[string]int{}
	for i := range t.Passes {
		p := &t.Passes[i]
		p.Start = at
		p.Ordinal = seen[p.Section]
		seen[p.Section]++
		at += p.Length
	}
	t.End = at
	r.neighbours()
	r.entries()
	timeline.VaryFills(t.Passes, t.Take)
	r.maps()
	r.idle()
	r.unplayed()
	if v := r.f.vocal; v != nil && v.from != nil && v.from.n > r.bars {
		r.rep.errorf(v.from.rng, "The vocal starts after the song", "The song has %s; from is the bar of the song where the vocal file begins.", count(r.bars, "bar"))
	}
}

// lead makes the whole bars in front of bar 1: the count-in and what the pickup
// needs, in the meter of the first pass.
func (r *resolver) lead() {
	t := r.tl
	m := t.Passes[0].Meter
	if p := r.f.pickup; p != nil {
		t.Pickup = p.num * m.TempoTicks() / p.den
	}
	bar := m.BarTicks()
	t.LeadBars = t.CountIn + int((t.Pickup+bar-1)/bar)
	t.Lead = int64(t.LeadBars) * bar
}

func (r *resolver) neighbours() {
	ps := r.tl.Passes
	for i := range ps {
		if i > 0 {
			b := &ps[i-1]
			ps[i].Before = &timeline.Neighbour{
				Section: b.Section, Ordinal: b.Ordinal,
				Chord: b.Chords[len(b.Chords)-1].Chord, Energy: b.EnergyTo, Feel: b.Feel, Tacet: b.Tacet,
			}
		}
		if i+1 < len(ps) {
			a := &ps[i+1]
			ps[i].After = &timeline.Neighbour{
				Section: a.Section, Ordinal: a.Ordinal,
				Chord: a.Chords[0].Chord, Energy: a.EnergyFrom, Feel: a.Feel, Tacet: a.Tacet,
			}
		}
	}
}

// entries hands a push over a pass's end to the next pass. At the end of the
// song, or into a bar without a chord, there is nothing to push, and in a stop
// nobody would hear it: then the event goes.
func (r *resolver) entries() {
	ps := r.tl.Passes
	for i := range ps {
		p := &ps[i]
		kept := make([]timeline.Event, 0, len(p.Events))
		for _, ev := range p.Events {
			if ev.Kind != timeline.Push || ev.Target < p.Length {
				kept = append(kept, ev)
				continue
			}
			if i+1 == len(ps) || stopped(ps[i].Events, ev.Tick) {
				continue
			}
			next := &ps[i+1]
			by := ev.By &^ next.Tacet
			if by == 0 || next.Chords[0].Chord.None {
				continue
			}
			kept = append(kept, ev)
			// Of several pushes over one border the first to sound counts for the
			// next pass: events are in order.
			if next.Entry == nil {
				entry := ev
				entry.Bar, entry.Tick, entry.End, entry.Target, entry.By = -1, ev.Tick-p.Length, 0, 0, by
				next.Entry = &entry
			}
		}
		p.Events = kept
	}
}

// stopped reports whether a tick of a pass lies in one of its stops.
func stopped(events []timeline.Event, tick int64) bool {
	for i := range events {
		if e := &events[i]; e.Kind == timeline.Stop && e.Tick <= tick && tick < e.End {
			return true
		}
	}
	return false
}

// maps makes the song's tempo, meter and key maps, each with its first entry at
// tick 0 and no entry that repeats the one before.
func (r *resolver) maps() {
	t := r.tl
	first := &t.Passes[0]
	t.Tempos = append(t.Tempos, timeline.Tempo{Tick: 0, Micros: first.Tempos[0].Micros})
	t.Meters = append(t.Meters, timeline.MeterChange{Tick: 0, Meter: first.Meter})
	t.Keys = append(t.Keys, timeline.KeyChange{Tick: 0, Key: first.Key})
	for i := range t.Passes {
		p := &t.Passes[i]
		for _, s := range p.Tempos {
			if s.Micros != t.Tempos[len(t.Tempos)-1].Micros {
				t.Tempos = append(t.Tempos, timeline.Tempo{Tick: p.Start + s.Tick, Micros: s.Micros})
			}
		}
		for _, b := range p.Bars {
			last := &t.Meters[len(t.Meters)-1]
			switch {
			case b.Meter == last.Meter:
			case last.Tick == p.Start+b.Start: // the song begins with a bar of another meter
				last.Meter = b.Meter
			default:
				t.Meters = append(t.Meters, timeline.MeterChange{Tick: p.Start + b.Start, Meter: b.Meter})
			}
		}
		if p.Key != t.Keys[len(t.Keys)-1].Key {
			t.Keys = append(t.Keys, timeline.KeyChange{Tick: p.Start, Key: p.Key})
		}
	}
}

// idle warns of events that do nothing in any pass.
func (r *resolver) idle() {
	for _, e := range r.waiting {
		r.dropped[e] = true
	}
	for _, p := range r.f.form {
		var blocks []*event
		if p.section != nil {
			blocks = append(blocks, p.section.events...)
		}
		for _, e := range append(blocks, p.events...) {
			if r.dropped[e] && !r.active[e] {
				why := "Wherever it is played, those it names are tacet, or there is no chord there to play."
				if e.kind == timeline.Fill {
					why = "A fill is the drummer's, and wherever this one is played the drums are tacet, or its by leaves them out."
				}
				r.rep.warnf(e.rng, fmt.Sprintf("The %s does nothing", e.kind), "%s", why)
			}
		}
	}
}
