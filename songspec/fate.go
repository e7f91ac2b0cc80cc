package songspec

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// fate is what happened to an event block in all passes that it stands in. There is a warning
// about a block that does nothing in any of them, as hardly anybody means that.
type fate struct {
	acts   bool
	why    whys
	change bool             // a push brings another chord than the one before it
	chord  string           // what a push brings that brings no other
	spots  map[string]*fate // by place, where the block names bars; nil where it stands in every bar
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
		if len(e.place.Bars) > 0 { // in every bar nobody is surprised when a stop silences one of them
			f.spots = map[string]*fate{}
		}
		r.fates[at] = f
	}
	return f
}

// blockAt is where an event block stands: the same for a section that takes the block over.
type blockAt struct {
	file string
	at   int
}

func (e *event) where() blockAt { return blockAt{e.rng.Filename, e.rng.Start.Byte} }

func (b blockAt) compare(c blockAt) int {
	return cmp.Or(cmp.Compare(b.file, c.file), cmp.Compare(b.at, c.at))
}

// singleBars reports whether a place names its bars one by one.
func singleBars(e *event) bool {
	run := func(b meter.BarRange) bool { return b.From != b.To }
	return len(e.place.Bars) > 0 && !slices.ContainsFunc(e.place.Bars, run)
}

// at are the fate of a block and that of one of its places, where its places have fates.
func (f *fate) at(place string) []*fate {
	if f.spots == nil {
		return []*fate{f}
	}
	if f.spots[place] == nil {
		f.spots[place] = &fate{}
	}
	return []*fate{f, f.spots[place]}
}

// add notes what happened to a block at one place.
func (f *fate) add(place string, acts bool, why cue.Reason) {
	for _, f := range f.at(place) {
		f.acts = f.acts || acts
		f.why[why] = f.why[why] || !acts
	}
}

// addPush notes whether a push that is played at a place brings another chord.
func (f *fate) addPush(place string, p *timeline.Pass, e *timeline.Event) {
	was, is := chordsRound(p, e)
	for _, f := range f.at(place) {
		f.change, f.chord = f.change || was != is, is.String()
	}
}

// chordsRound are the chord before a push and the one that it brings.
func chordsRound(p *timeline.Pass, e *timeline.Event) (was, is harmony.Chord) {
	in := func(tick int64) harmony.Chord { return p.Chords[p.SpanAt(tick)].Chord }
	switch {
	case e.Tick > 0:
		was = in(e.Tick - 1)
	case p.Before != nil:
		was = p.Before.Chord
	}
	if e.Target < p.Length {
		return was, in(e.Target)
	}
	return was, p.After.Chord
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
			if e.Kind == timeline.Push && played.Acts {
				f.addPush(e.Place, p, e)
			}
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
			switch by := r.covered[e.where()]; {
			case f == nil && by != nil:
				r.rep.Warnf(e.rng, fmt.Sprintf("The %s is replaced", e.kind),
					"The %s of line %d stands at all its places, too, and counts instead. Keep one of them.", e.kind,
					r.rep.In(by.rng).LineOf(by.rng.Start.Byte))
			case f == nil:
			case !f.acts:
				r.rep.Warnf(e.rng, fmt.Sprintf("The %s does nothing", e.kind), "Wherever it is played, %s.",
					f.why.words())
			default:
				for _, idle := range f.idlePlaces() {
					what := fmt.Sprintf("The %s at %s does nothing", e.kind, placeList(idle.places))
					r.rep.Warnf(e.rng, what, "Wherever it is played, %s.", idle.why)
				}
				if e.kind == timeline.Push {
					r.warnUnchanged(e, f)
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

// warnUnchanged warns of a push that brings no other chord: at a single bar that it names, or
// wherever it stands.
func (r *resolver) warnUnchanged(e *event, f *fate) {
	var places []string
	chord := f.chord
	if singleBars(e) {
		for _, place := range placesOf(f.spots) {
			if spot := f.spots[place]; spot.acts && !spot.change {
				places, chord = append(places, place), spot.chord
			}
		}
	} else if !f.change {
		places = []string{e.place.Text}
	}
	if len(places) > 0 {
		r.rep.Warnf(e.rng, "A push without a change of chord", "At %s the chord does not change: %s is struck early, "+
			"and not again on its beat. For a hit alone write accent %q {}.", placeList(places), chord, places[0])
	}
}

// idle are places of a block at which it does nothing, for the same reasons.
type idle struct {
	places []string
	why    string
}

// idlePlaces are the places at which a block does nothing, by their reasons.
func (f *fate) idlePlaces() []idle {
	var out []idle
	for _, place := range placesOf(f.spots) {
		if f.spots[place].acts {
			continue
		}
		why := f.spots[place].why.words()
		k := slices.IndexFunc(out, func(i idle) bool { return i.why == why })
		if k < 0 {
			k, out = len(out), append(out, idle{why: why})
		}
		out[k].places = append(out[k].places, place)
	}
	return out
}

// placesOf are the places of fates in the order of their bars.
func placesOf(spots map[string]*fate) []string {
	out := sortedKeys(spots)
	bar := func(place string) int {
		number, _, _ := strings.Cut(place, ":")
		n, _ := strconv.Atoi(number)
		return n
	}
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(bar(a), bar(b)) })
	return out
}

// mostPlaces is how many places a warning names.
const mostPlaces = 6

// placeList names places, the first of them if they are many.
func placeList(places []string) string {
	if n := len(places) - mostPlaces; n > 1 {
		places = append(slices.Clone(places[:mostPlaces]), fmt.Sprintf("%d more", n))
	}
	return wording.And(places)
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
