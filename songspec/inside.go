package songspec

import (
	"cmp"
	"fmt"
	"slices"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// barAttrs are the attributes that may hold for some bars alone. The chords of a bars block are
// no such attribute: they are the bars.
var barAttrs = []barAttr{
	barAttrOf("key", func(s *settings) **said[harmony.Key] { return &s.key }),
	barAttrOf("tempo", func(s *settings) **said[meter.BPM] { return &s.tempo }),
	barAttrOf("feel", func(s *settings) **said[string] { return &s.feel }),
	barAttrOf("energy", func(s *settings) **said[[2]int] { return &s.energy }),
	barAttrOf("tacet", func(s *settings) **said[timeline.Players] { return &s.tacet }),
	barAttrOf("kit", func(s *settings) **said[string] { return &s.kit }),
	barAttrOf("bass sound", func(s *settings) **said[sound] { return &s.bassSound }),
	barAttrOf("bass line", func(s *settings) **said[string] { return &s.bassLine }),
	barAttrOf("piano sound", func(s *settings) **said[sound] { return &s.pianoSound }),
}

// barAttr is an attribute of settings: whether it is said, and how others take it over.
type barAttr struct {
	name string
	said func(s *settings) bool
	take func(to, from *settings)
}

func barAttrOf[T any](name string, in func(*settings) **said[T]) barAttr {
	return barAttr{name, func(s *settings) bool { return *in(s) != nil },
		func(to, from *settings) { *in(to) = *in(from) }}
}

// open reports whether a block holds from a bar on, and not in some bars alone.
func (in *inside) open() bool { return in.place.Bars[len(in.place.Bars)-1].Open }

// until is the last bar, counted from 1, of the last range of a block, in a section of so many.
// An open range holds up to the next open range of its level that says the same.
func until(level []*inside, in *inside, bars int, says func(*inside) bool) int {
	end := in.place.Bars[len(in.place.Bars)-1]
	if !end.Open {
		if end.To > 0 {
			return end.To
		}
		return bars
	}
	out := bars
	for _, o := range level {
		if from := o.place.Bars[len(o.place.Bars)-1].From; o != in && o.open() && says(o) && from > end.From {
			out = min(out, from-1)
		}
	}
	return out
}

// reach is a range of bars, counted from 0, in which a block holds for one attribute.
type reach struct {
	first, last int
	of          *inside
}

// reaches are the ranges in which the blocks of a level hold for one attribute, those of the open
// ranges first: each later one wins over those before it. by is the play whose bars these are.
func (r *resolver) reaches(level []*inside, bars int, by *play, says func(*inside) bool) []reach {
	var opens, closed []reach
	for _, in := range level {
		if !says(in) {
			continue
		}
		for i, run := range r.runsOf(in, bars, by) {
			if in.open() && i == len(in.place.Bars)-1 {
				opens = append(opens, reach{run[0], until(level, in, bars, says) - 1, in})
			} else {
				closed = append(closed, reach{run[0], run[1], in})
			}
		}
	}
	slices.SortStableFunc(opens, func(a, b reach) int { return cmp.Compare(a.first, b.first) })
	return append(opens, closed...)
}

// checkInside reports blocks of a level that say the same of the same bars.
func (r *resolver) checkInside(level []*inside, bars int) {
	check := func(name string, says func(*inside) bool) {
		list := r.reaches(level, bars, nil, says)
		slices.SortStableFunc(list, func(a, b reach) int { return cmp.Compare(a.first, b.first) })
		for i := 1; i < len(list); i++ {
			for _, a := range list[:i] {
				b := &list[i]
				twice := b.first <= a.last
				if a.of.open() != b.of.open() || a.of.open() && a.first != b.first {
					twice = false // a closed range wins, and an open one ends the one before it
				}
				if twice {
					later := b.of
					if a.of.rng.Start.Byte > later.rng.Start.Byte {
						later = a.of
					}
					if later.through != nil { // where it was written nothing is wrong
						r.rep.Warnf(*later.through, wording.Sentence("bars %q of section %q meet others here",
							later.place.Text, later.from), "Bar %d has its %s from two bars blocks that are taken "+
							"over, and the later one counts. In section %q name these bars by their numbers.",
							b.first+1, name, later.from)
						return
					}
					r.rep.Errorf(later.rng, fmt.Sprintf("Bar %d said twice", b.first+1),
						"Two bars blocks say its %s. Give each bar to one of them.", name)
					return
				}
			}
		}
	}
	for _, a := range barAttrs {
		check(a.name, func(in *inside) bool { return a.said(&in.settings) })
	}
	check("chords", func(in *inside) bool { return in.chords != nil })
	check("lift", func(in *inside) bool { return in.lift != nil })
}

// barSettings is what holds in one bar of a section as a play plays it.
type barSettings struct {
	settings
	energyIn reach // where the block that says the energy holds; of is nil for the pass's own
	keyOf    level // who says the key
	lift     int   // what the play's bars lift it by, beyond the pass
}

// level is where something is said.
type level uint8

const (
	ofPass level = iota // the song, the section or the play
	ofSectionBars
	ofPlayBars
)

// settingsOfBars are the settings of every bar of a section of so many bars, for a play in which
// set holds otherwise; nil where no bars block says anything. The bars blocks of the play win over
// those of the section, and those of the section over what it takes over from another.
func (r *resolver) settingsOfBars(p *play, set settings, bars int) []barSettings {
	levels := slices.Clone(p.section.inside)
	if len(p.inside) > 0 {
		levels = append(levels, p.inside)
	}
	if len(levels) == 0 {
		return nil
	}
	out := make([]barSettings, bars)
	for i := range out {
		out[i].settings = set
	}
	for i, blocks := range levels {
		of := ofSectionBars
		if i == len(p.section.inside) {
			of = ofPlayBars
		}
		for _, a := range barAttrs {
			for _, re := range r.reaches(blocks, bars, p, func(in *inside) bool { return a.said(&in.settings) }) {
				for bar := re.first; bar <= re.last; bar++ {
					s := &out[bar]
					a.take(&s.settings, &re.of.settings)
					switch a.name {
					case "energy":
						s.energyIn = re
					case "key":
						s.keyOf = of
					}
				}
			}
		}
		for _, in := range blocks {
			if in.lift != nil {
				for bar := in.place.Bars[0].From - 1; bar < bars; bar++ {
					out[bar].lift += in.lift.v
				}
			}
		}
	}
	return out
}
