package songspec

import (
	"fmt"
	"sort"
	"strconv"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// spotsOf writes events out: one timeline event for every bar and count that a
// place names. Mistakes in places are reported. written[i] is the event block
// that out[i] comes from.
func (r *resolver) spotsOf(lo *laidOut, usual meter.Meter, events []*event) (out []timeline.Event, written []*event) {
	for _, e := range events {
		if e.kind == timeline.Rit {
			runs, err := e.place.Runs(len(lo.bars))
			if err != nil {
				placeError(&r.rep, e, err)
				continue
			}
			for _, run := range runs {
				last := lo.bars[run[1]]
				out = append(out, timeline.Event{
					Kind: timeline.Rit, Bar: run[0], Tick: lo.bars[run[0]].Start, End: last.Start + last.Length,
					By: timeline.All, To: e.to.v, Place: barRun(run),
				})
				written = append(written, e)
			}
			continue
		}
		spots, err := e.place.Where(lo.meters, usual)
		if err != nil {
			placeError(&r.rep, e, err)
			continue
		}
		r.doubtPlace(e, len(lo.bars))
		for _, at := range spots {
			out = append(out, r.spot(lo, usual, e, at))
			written = append(written, e)
		}
		if r.spots+len(out) > MaxSpots {
			return out, written
		}
	}
	return out, written
}

// spots are a section's own events, written out for one meter.
type spots struct {
	events  []timeline.Event
	written []*event
}

type spotsKey struct {
	section *section
	meter   meter.Meter
}

// sectionSpots writes a section's events out, once a meter.
func (r *resolver) sectionSpots(s *section, lo *laidOut, m meter.Meter) spots {
	key := spotsKey{s, m}
	got, ok := r.own[key]
	if !ok {
		got.events, got.written = r.spotsOf(lo, m, s.events)
		r.own[key] = got
	}
	return got
}

func barRun(run [2]int) string {
	if run[0] == run[1] {
		return fmt.Sprint(run[0] + 1)
	}
	return fmt.Sprintf("%d-%d", run[0]+1, run[1]+1)
}

// spot is one event at one place.
func (r *resolver) spot(lo *laidOut, usual meter.Meter, e *event, at meter.At) timeline.Event {
	bar := lo.bars[at.Bar]
	ev := timeline.Event{
		Kind: e.kind, Bar: at.Bar, Tick: bar.Start + at.Tick,
		End:   bar.Start + bar.Length,
		By:    or(e.by, eventRules[e.kind].by),
		Place: strconv.Itoa(at.Bar+1) + ": " + bar.Meter.CountAt(at.Tick),
	}
	// A beat in the sense of "beats = 2" is the one that the tempo counts, also in an
	// odd bar in between: one of 3/8 among 6/8 goes on in dotted quarters.
	long := or(e.beats, 0) * usual.TempoTicks() / beatGrid
	if eventRules[e.kind].toLine && e.beats != nil {
		ev.End = ev.Tick + long
		if ev.End > lo.length {
			r.rep.Warnf(e.beats.rng, "Longer than the section", "The %s ends with its section; it cannot reach into the next one.", e.kind)
			ev.End = lo.length
		}
	}
	switch e.kind {
	case timeline.Accent:
		ev.End = ev.Tick
		ev.Weight = or(e.weight, 2)
		ev.Alone = or(e.alone, false)
	case timeline.Push:
		ev.End = bar.Start + bar.Meter.NextBeat(at.Tick)
		ev.Target = ev.End
	case timeline.Hold:
		ev.End = bar.Start + bar.Meter.NextBeat(at.Tick)
		ev.Extra = or(e.beats, beatGrid) * usual.TempoTicks() / beatGrid
	}
	return ev
}

// events fills a pass's events and its tempo map from the section's and the
// play's own event blocks; false when the song has become too full of events.
func (r *resolver) events(pass *timeline.Pass, lo *laidOut, sec *section, p *play) bool {
	own := r.sectionSpots(sec, lo, pass.Meter)
	events, written := own.events, own.written
	if len(p.events) > 0 {
		more, from := r.spotsOf(lo, pass.Meter, p.events)
		events = append(append([]timeline.Event{}, events...), more...)
		written = append(append([]*event{}, written...), from...)
	}
	if r.spots += len(events); r.spots > MaxSpots {
		r.rep.Errorf(p.rng, "Too many events", "A song has at most %d events, every bar and count written out.", MaxSpots)
		return false
	}
	order := make([]int, len(events))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool {
		a, b := &events[order[i]], &events[order[j]]
		if a.Tick != b.Tick {
			return a.Tick < b.Tick
		}
		return a.Kind < b.Kind
	})
	out := make([]timeline.Event, 0, len(events))
	from := make([]*event, 0, len(events))
	for _, i := range order {
		ev := events[i]
		if eventRules[ev.Kind].struck {
			ev.By &^= pass.Tacet
		}
		if why := nobody(&ev); why != cue.Unsaid {
			r.fate(written[i]).met(ev.Place, false, why)
			continue
		}
		// Of two events of one word at one tick the inner, later one counts.
		if n := len(out); n > 0 && out[n-1].Tick == ev.Tick && out[n-1].Kind == ev.Kind {
			out[n-1], from[n-1] = ev, written[i]
			continue
		}
		out, from = append(out, ev), append(from, written[i])
	}
	pass.Events = out
	r.from = append(r.from, from)
	pass.Tempos = r.tempos(pass, from)
	return true
}

// nobody says why an event is nobody's in its pass.
func nobody(e *timeline.Event) cue.Reason {
	switch {
	case e.Kind == timeline.Fill && !e.By.Has(timeline.Drums):
		return cue.NoDrummer
	case e.By == 0:
		return cue.Tacet
	}
	return cue.Unsaid
}
