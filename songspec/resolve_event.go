package songspec

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// spot is an event at one bar and count that a place names, with its block.
type spot struct {
	timeline.Event
	of *event
}

// spotsOf returns the spots of events, one for every bar and count, and reports mistakes in
// places.
func (r *resolver) spotsOf(lo *laidOut, usual meter.Meter, events []*event) []spot {
	var out []spot
	for _, e := range events {
		if e.kind == timeline.Rit {
			runs, err := e.place.Runs(len(lo.bars))
			if err != nil {
				placeError(&r.rep, e, err)
				continue
			}
			for _, run := range runs {
				last := lo.bars[run[1]]
				out = append(out, spot{timeline.Event{
					Kind: timeline.Rit, Bar: run[0], Tick: lo.bars[run[0]].Start, End: last.Start + last.Length,
					By: timeline.All, To: e.to.v, Place: barRun(run),
				}, e})
			}
			continue
		}
		places, err := e.place.Where(lo.meters, usual)
		if err != nil {
			placeError(&r.rep, e, err)
			continue
		}
		r.doubtPlace(e, len(lo.bars))
		for _, at := range places {
			out = append(out, spot{r.spot(lo, usual, e, at), e})
		}
		if r.spots+len(out) > MaxSpots {
			break
		}
	}
	return out
}

type spotsKey struct {
	section *section
	meter   meter.Meter
}

// sectionSpots returns the spots of a section's own events, worked out once for each meter.
func (r *resolver) sectionSpots(s *section, lo *laidOut, m meter.Meter) []spot {
	key := spotsKey{s, m}
	got, ok := r.own[key]
	if !ok {
		got = r.spotsOf(lo, m, s.events)
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

// spot makes the event of one spot.
func (r *resolver) spot(lo *laidOut, usual meter.Meter, e *event, at meter.At) timeline.Event {
	bar := lo.bars[at.Bar]
	ev := timeline.Event{
		Kind: e.kind, Bar: at.Bar, Tick: bar.Start + at.Tick,
		End:   bar.Start + bar.Length,
		By:    or(e.by, eventRules[e.kind].by),
		Place: strconv.Itoa(at.Bar+1) + ": " + bar.Meter.CountAt(at.Tick),
	}
	// "beats = 2" counts the beats of the tempo in the pass's meter, also in a bar of another
	// meter: in a bar of 3/8 among 6/8 they are dotted quarters.
	long := or(e.beats, 0) * usual.TempoTicks() / beatGrid
	if eventRules[e.kind].toLine && e.beats != nil {
		ev.End = ev.Tick + long
		if ev.End > lo.length {
			r.rep.Warnf(e.beats.rng, "Longer than the section",
				"The %s ends with its section; it cannot reach into the next one.", e.kind)
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

// placeEvents gives a pass its events and its tempo map, from the event blocks of the section
// and of the play. It returns false when the song has too many events.
func (r *resolver) placeEvents(pass *timeline.Pass, lo *laidOut, sec *section, p *play) bool {
	spots := slices.Concat(r.sectionSpots(sec, lo, pass.Meter), r.spotsOf(lo, pass.Meter, p.events))
	if r.spots += len(spots); r.spots > MaxSpots {
		r.rep.Errorf(p.rng, "Too many events", "A song has at most %d events, every bar and count written out.",
			MaxSpots)
		return false
	}
	slices.SortStableFunc(spots, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.Tick, b.Tick), cmp.Compare(a.Kind, b.Kind))
	})
	out := make([]timeline.Event, 0, len(spots))
	from := make([]*event, 0, len(spots))
	for _, s := range spots {
		ev := s.Event
		if eventRules[ev.Kind].struck {
			ev.By &^= pass.Tacet
		}
		if why := nobody(&ev); why != cue.Unsaid {
			r.fate(s.of).add(ev.Place, false, why)
			continue
		}
		// If two events with one word are at one tick, the later counts: it is the inner one.
		if n := len(out); n > 0 && out[n-1].Tick == ev.Tick && out[n-1].Kind == ev.Kind {
			out[n-1], from[n-1] = ev, s.of
			continue
		}
		out, from = append(out, ev), append(from, s.of)
	}
	pass.Events = out
	r.from = append(r.from, from)
	pass.Tempos = r.tempos(pass, from)
	return true
}

// nobody says why no player plays an event in its pass; Unsaid when somebody does.
func nobody(e *timeline.Event) cue.Reason {
	switch {
	case e.Kind == timeline.Fill && !e.By.Has(timeline.Drums):
		return cue.NoDrummer
	case e.By == 0:
		return cue.Tacet
	}
	return cue.Unsaid
}
