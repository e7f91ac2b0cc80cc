package songspec

import (
	"fmt"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// measuresKey is what the bars of a section depend on before a play changes them.
type measuresKey struct {
	section *section
	meter   meter.Meter
}

// measures are the bars of a section in a meter, with what its bars blocks put in place of some,
// worked out once; nil when there is a mistake in them.
func (r *resolver) measures(s *section, m meter.Meter) []measure {
	key := measuresKey{s, m}
	if ms, ok := r.sections[key]; ok {
		return ms
	}
	r.sections[key] = nil
	ms := r.layout(s.chords, m)
	if ms == nil {
		return nil
	}
	for _, level := range s.inside {
		if ms = r.splice(ms, level, m); ms == nil {
			return nil
		}
	}
	ms = r.numbered(ms)
	r.sections[key] = ms
	return ms
}

// numbered are measures of a section with their numbers; nil when a word needs a chord before it
// and has none.
func (r *resolver) numbered(ms []measure) []measure {
	ms = slices.Clone(ms)
	if w := giveNumbers(ms); w != nil {
		r.noChordBefore(w)
		return nil
	}
	return ms
}

// measuresOf are the bars that a play plays, and all those of its section among which they are:
// those of the section, with what the play puts in place of some. nil when there is a mistake.
func (r *resolver) measuresOf(p *play, m meter.Meter) (played, all []measure) {
	all = r.measures(p.section, m)
	if all == nil {
		return nil, nil
	}
	if slices.ContainsFunc(p.inside, func(in *inside) bool { return in.chords != nil }) {
		if all = r.splice(all, p.inside, m); all == nil {
			return nil, nil
		}
		if all = r.numbered(all); all == nil {
			return nil, nil
		}
	}
	played = all
	if p.last > 0 {
		text := fmt.Sprintf("%d-", max(1, len(all)+1-p.last))
		r.rep.Errorf(p.only.rng, "Bars in words", "The section has %s: the last %d are only = %q.",
			wording.Count(len(all), "bar"), min(p.last, len(all)), text).WriteText(p.only.rng, text)
		return nil, nil
	}
	if p.only != nil {
		runs, err := p.only.place.Runs(len(all))
		if err != nil {
			barsError(&r.rep, *p.only, err)
			return nil, nil
		}
		played = nil
		for _, run := range runs {
			played = append(played, all[run[0]:run[1]+1]...)
		}
		r.doubtOnly(p, runs, all)
	}
	if n := or(p.times, 1); n > 1 {
		if len(played)*n > MaxBars {
			r.rep.Errorf(p.times.rng, "Too many bars", "A song has at most %d bars; these times have more.", MaxBars)
			return nil, nil
		}
		played = slices.Repeat(played, n)
	}
	return played, all
}

// splice puts the charts of the bars blocks of a level in the place of the bars that they name:
// first the open ones, then the closed ones. Blocks that have a mistake go to the report, and
// nil is returned.
func (r *resolver) splice(ms []measure, level []*inside, m meter.Meter) []measure {
	chords := func(in *inside) bool { return in.chords != nil }
	if !slices.ContainsFunc(level, chords) {
		return ms
	}
	ok := true
	for _, open := range []bool{true, false} {
		for _, in := range level {
			if in.broken != nil {
				ok = false
			}
			if !chords(in) || in.open() != open {
				continue
			}
			now := r.spliceOne(ms, in, until(level, in, len(ms), chords), m)
			if now == nil {
				ok = false
				continue
			}
			ms = now
		}
	}
	if !ok {
		return nil
	}
	return ms
}

// spliceOne puts the chart of one block in the place of its bars, the last of which is last,
// counted from 1.
func (r *resolver) spliceOne(ms []measure, in *inside, last int, m meter.Meter) []measure {
	usual := m
	if in.meter != nil {
		usual = in.meter.v
	}
	chart := r.layout(in.chords, usual)
	runs := r.runsOf(in, len(ms), nil)
	if chart == nil || runs == nil {
		return nil
	}
	if in.open() {
		runs[len(runs)-1][1] = last - 1
	}
	end := &runs[len(runs)-1]
	named := 0
	for _, run := range runs {
		named += run[1] - run[0] + 1
	}
	before := named - (end[1] - end[0] + 1) // in the ranges before the last one
	if len(chart) != named && (end[1] != len(ms)-1 || len(chart) <= before) {
		help := "Only bars that reach the section's end may become more or fewer."
		if end[1] == len(ms)-1 {
			help = "The bars before the last range need one each, and the last range at least one."
		}
		r.rep.Errorf(in.rng, "Another number of bars", "%s, and the chords here are %s. %s",
			wording.Sentence("%q is %s", in.place.Text, wording.Count(named, "bar")),
			wording.Count(len(chart), "bar"), help)
		return nil
	}
	out := slices.Clone(ms)
	for _, run := range runs[:len(runs)-1] {
		n := copy(out[run[0]:run[1]+1], chart)
		chart = chart[n:]
	}
	r.ends[in] = [2]int{end[0], end[0] + len(chart) - 1}
	return slices.Concat(out[:end[0]], chart, out[end[1]+1:])
}

// runsOf are the bars of a block in a section of so many bars, as pairs counted from 0. Where
// the block has put its own chart at the end, the last range is as long as that. After an error
// it returns nil. A block that is not the play's own, or that is taken over from another section,
// is left out with a warning where its bars are gone.
func (r *resolver) runsOf(in *inside, bars int, by *play) [][2]int {
	place := in.place
	end, ownEnd := r.ends[in]
	if ownEnd {
		place.Bars = slices.Clone(place.Bars)
		last := &place.Bars[len(place.Bars)-1]
		last.From, last.To = end[0]+1, min(end[1]+1, bars)
		if in.open() {
			last.To = bars
		}
	}
	runs, err := place.Runs(bars)
	switch {
	case err == nil:
		return runs
	case in.through != nil:
		r.rep.Warnf(*in.through, wording.Sentence("bars %q of section %q are left out", in.place.Text, in.from),
			"This section has %s, so what holds in those bars is not taken over.", wording.Count(bars, "bar"))
	case by != nil && !slices.Contains(by.inside, in):
		r.leftOut(by, wording.Sentence("bars %q of section %q are left out", in.place.Text, by.name))
	default:
		barsError(&r.rep, in.placed, err)
	}
	return nil
}

// leftOut warns, at the bars block with which a play takes bars of its section away, of what went
// with them. It returns false where the play has no such block.
func (r *resolver) leftOut(by *play, what string) bool {
	for _, in := range by.inside {
		if in.chords != nil {
			r.rep.Warnf(in.rng, what, "It names a bar or a count that this play does not have.")
			return true
		}
	}
	return false
}
