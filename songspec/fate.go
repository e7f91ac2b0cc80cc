package songspec

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// fate is what happened to an event block in all passes that it stands in. There is a warning
// about a block that does nothing in any of them, as hardly anybody means that.
type fate struct {
	acts   bool
	why    whys
	spots  map[string]*fate // by place, where the block names single bars; nil otherwise
	struck string           // where an accent between a push and its beat is struck; "": no such accent
}

// whys are the reasons why an event did nothing, by cue.Reason.
type whys [cue.NumReasons]bool

// fate returns the fate of an event block, a new one the first time.
func (r *resolver) fate(e *event) *fate {
	at := e.where()
	f := r.fates[at]
	if f == nil {
		f = &fate{}
		if singleBars(e) {
			f.spots = map[string]*fate{}
		}
		r.fates[at] = f
	}
	return f
}

// blockAt is where an event block stands, its file and its byte: the same for a section that takes
// the block over. It sorts as the blocks stand.
type blockAt string

func (e *event) where() blockAt {
	return blockAt(fmt.Sprintf("%s\x00%09d", e.rng.Filename, e.rng.Start.Byte))
}

// singleBars reports whether a place names its bars one by one. Where it names a range of bars,
// or no bars, nobody is surprised when a stop silences one of its counts.
func singleBars(e *event) bool {
	run := func(b meter.BarRange) bool { return b.From != b.To }
	return len(e.place.Bars) > 0 && !slices.ContainsFunc(e.place.Bars, run)
}

// add notes what happened to a block at one place.
func (f *fate) add(place string, acts bool, why cue.Reason) {
	note := func(f *fate) {
		f.acts = f.acts || acts
		f.why[why] = f.why[why] || !acts
	}
	note(f)
	if f.spots == nil {
		return
	}
	if f.spots[place] == nil {
		f.spots[place] = &fate{}
	}
	note(f.spots[place])
}

// noteFates notes what happens to the events of all passes.
func (r *resolver) noteFates() {
	for i := range r.tl.Passes {
		p := &r.tl.Passes[i]
		if len(p.Events) == 0 {
			continue
		}
		for k, played := range cue.Events(p) {
			e, f := &p.Events[k], r.fate(r.from[i][k])
			f.add(e.Place, played.Acts, played.Why)
			if e.Kind == timeline.Accent && played.At < e.Tick && e.Tick < played.Target {
				at := &p.Bars[p.BarAt(played.At)]
				f.struck = at.Meter.CountAt(played.At - at.Start)
			}
		}
	}
}

// warnIdleEvents warns of events that do nothing in any pass, and of accents that are struck
// at another place than expected.
func (r *resolver) warnIdleEvents() {
	for _, p := range r.f.form {
		var blocks []*event
		if p.section != nil {
			blocks = append(blocks, p.section.events...)
		}
		for _, e := range append(blocks, p.events...) {
			f := r.fates[e.where()]
			switch {
			case f == nil:
			case !f.acts:
				r.rep.Warnf(e.rng, fmt.Sprintf("The %s does nothing", e.kind), "Wherever it is played, %s.",
					f.why.words())
			default:
				for _, place := range sortedKeys(f.spots) {
					if spot := f.spots[place]; !spot.acts {
						what := fmt.Sprintf("The %s at %s does nothing", e.kind, place)
						r.rep.Warnf(e.rng, what, "Wherever it is played, %s.", spot.why.words())
					}
				}
				if f.struck != "" {
					r.rep.Warnf(e.rng, "The accent moves to the push",
						"Between a push and its beat nothing is struck. "+
							"The accent is played with the push, on %s: write it there, or on the beat.", f.struck)
				}
			}
		}
	}
}

// words joins the reasons to a clause.
func (w whys) words() string {
	var out []string
	for i, is := range w {
		if is {
			out = append(out, cue.Reason(i).Clause())
		}
	}
	return strings.Join(out, ", or ")
}
