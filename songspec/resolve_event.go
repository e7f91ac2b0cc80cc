package songspec

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// spot is an event at one bar and count that a place names, with its block.
type spot struct {
	timeline.Event
	of *event
}

// spotsOf returns the spots of events, one for every bar and count that is played, and reports
// mistakes in places. by is the play whose bars these are, nil for the section as it stands.
func (r *resolver) spotsOf(lo *laidOut, usual meter.Meter, events []*event, by *play) []spot {
	var out []spot
	for _, e := range events {
		if e.kind.MovesTempo() {
			stretches, err := e.place.Stretches(lo.meters)
			if err != nil {
				r.misplaced(e, by, err)
				continue
			}
			for _, s := range stretches {
				played := lo.runs(s.From.Bar, s.To.Bar)
				if len(played) == 0 {
					r.notPlayed(e, by, s.From.Bar)
				}
				for _, at := range played {
					first, last := lo.bars[at[0]], lo.bars[at[1]]
					ev := timeline.Event{Kind: e.kind, Bar: at[0], Tick: first.Start, End: last.Start + last.Length,
						By: timeline.All, To: e.to.v, Place: stretchPlace(e, s)}
					if slices.Contains(lo.at(s.From.Bar), at[0]) {
						ev.Tick += s.From.Tick
					}
					if slices.Contains(lo.at(s.To.Bar), at[1]) {
						ev.End = last.Start + s.To.Tick
					}
					out = append(out, spot{ev, e})
				}
			}
			continue
		}
		places, err := e.place.Where(lo.meters, usual)
		if err != nil {
			r.misplaced(e, by, err)
			continue
		}
		r.doubtPlace(e, len(lo.all), usual)
		for _, at := range places {
			played := lo.at(at.Bar)
			if len(played) == 0 && len(e.place.Bars) > 0 {
				r.notPlayed(e, by, at.Bar)
			}
			for _, bar := range played {
				out = append(out, spot{r.spot(lo, usual, e, meter.At{Bar: bar, Tick: at.Tick}), e})
			}
		}
		if r.spots+len(out) > MaxSpots {
			break
		}
	}
	return out
}

// misplaced reports a place that is not in its section. An event of the section whose bar a play's
// bars block has taken away is left out with a warning.
func (r *resolver) misplaced(e *event, by *play, err error) {
	if by != nil && !slices.Contains(by.events, e) &&
		r.leftOut(by, wording.Sentence("%s %q of section %q is left out", e.kind, e.place.Text, by.name)) {
		return
	}
	placeError(&r.rep, e, err)
}

// notPlayed reports an event of a play in a bar of the section that the play leaves out. An event
// of the section falls away there without a word.
func (r *resolver) notPlayed(e *event, by *play, bar int) {
	if by != nil && by.only != nil && slices.Contains(by.events, e) {
		r.rep.Errorf(e.rng, fmt.Sprintf("Bar %d is not played here", bar+1),
			"This play has only the bars %q of its section, and they keep their numbers. Write a bar among them.",
			by.only.place.Text)
	}
}

// sectionSpots returns the spots of a section's own events, worked out once for the section as
// it stands in each meter.
func (r *resolver) sectionSpots(s *section, lo *laidOut, m meter.Meter, by *play) []spot {
	if r.plain[measuresKey{s, m}] != lo {
		return r.spotsOf(lo, m, s.events, by)
	}
	got, ok := r.own[lo]
	if !ok {
		got = r.spotsOf(lo, m, s.events, nil)
		r.own[lo] = got
	}
	return got
}

// stretchPlace is one of an event's stretches as a place: "7-8", or "7: 3 - 8: 4".
func stretchPlace(e *event, s meter.Stretch) string {
	from, to := s.From.Bar+1, s.To.Bar+1
	switch {
	case e.place.Through:
		return fmt.Sprintf("%d: %s - %d: %s", from, e.place.Counts[0], to, e.place.Counts[1])
	case from == to:
		return fmt.Sprint(from)
	}
	return fmt.Sprintf("%d-%d", from, to)
}

// spot makes the event of one spot.
func (r *resolver) spot(lo *laidOut, usual meter.Meter, e *event, at meter.At) timeline.Event {
	bar := lo.bars[at.Bar]
	ev := timeline.Event{
		Kind: e.kind, Bar: at.Bar, Tick: bar.Start + at.Tick,
		End:   bar.Start + bar.Length,
		By:    or(e.by, eventRules[e.kind].by),
		Place: strconv.Itoa(bar.Number) + ": " + bar.Meter.CountAt(at.Tick),
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
		ev.Short = or(e.short, false)
	case timeline.Push:
		ev.End = bar.Start + bar.Meter.NextBeat(at.Tick)
		ev.Target = ev.End
	case timeline.Cue:
		ev.End = ev.Tick
		ev.Text = e.text.v
		if e.landing != nil {
			ev.At = e.landing.v
		}
	case timeline.Hold, timeline.Caesura:
		ev.End = bar.Start + bar.Meter.NextBeat(at.Tick)
		ev.Extra = or(e.beats, beatGrid) * usual.TempoTicks() / beatGrid
	}
	return ev
}

// placeEvents gives a pass its events and its tempo map, from the event blocks of the section
// and of the play. It returns false when the song has too many events.
func (r *resolver) placeEvents(pass *timeline.Pass, lo *laidOut, p *play) bool {
	spots := slices.Concat(r.sectionSpots(p.section, lo, pass.Meter, p), r.spotsOf(lo, pass.Meter, p.events, p))
	var moves []spot
	for _, s := range spots {
		if s.Kind.MovesTempo() {
			moves = append(moves, s)
		}
	}
	spots = slices.DeleteFunc(spots, func(s spot) bool {
		return s.of.depth >= 0 && drops(p.without, s.Kind) || s.Kind.MovesTempo() && outer(moves, s)
	})
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
		n := len(out)
		for n > 0 && out[n-1].Tick == ev.Tick && out[n-1].Kind == ev.Kind && out[n-1].Text != ev.Text {
			n-- // other cues at its place
		}
		if n > 0 && out[n-1].Tick == ev.Tick && out[n-1].Kind == ev.Kind {
			if was := from[n-1]; was != s.of && was.depth == s.of.depth && was.id() != s.of.id() {
				r.covered[was.where()] = s.of
			}
			out[n-1], from[n-1] = ev, s.of
			continue
		}
		out, from = append(out, ev), append(from, s.of)
	}
	out, from = firstRound(out, from, len(lo.bars)/or(p.times, 1))
	pass.Events = out
	r.from = append(r.from, from)
	r.unguided(pass, p, from)
	pass.Tempos = r.tempos(pass, basesOf(pass), from)
	return true
}

// firstRound leaves out the cues behind the first round of a pass, which has so many bars: a line
// of dialogue is spoken once, however often the band goes round. Cues that come each time stay.
func firstRound(events []timeline.Event, from []*event, bars int) ([]timeline.Event, []*event) {
	n := 0
	for i, e := range events {
		if e.Kind == timeline.Cue && e.Bar >= bars && !or(from[i].each, false) {
			continue
		}
		events[n], from[n] = e, from[i]
		n++
	}
	return events[:n], from[:n]
}

// outer reports whether another of the rits and accels, said further inside, replaces one of them:
// they overlap.
func outer(moves []spot, s spot) bool {
	return slices.ContainsFunc(moves, func(o spot) bool {
		return o.of.depth < s.of.depth && o.Tick < s.End && s.Tick < o.End
	})
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
