package outline

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// passWords are the words of a pass and what it says of each. A song says the first of them,
// so many as ruling, once for all of its sections.
var passWords = []struct {
	what string
	of   func(p *timeline.Pass) string
}{
	{"key", func(p *timeline.Pass) string { return p.Key.Transpose(-p.Lift).String() }}, // as it is before the lift
	{"meter", func(p *timeline.Pass) string { return p.Meter.String() }},
	{"tempo", func(p *timeline.Pass) string { return p.Pace().String() }},
	{"feel", func(p *timeline.Pass) string { return p.Feel }},
	{"energy", func(p *timeline.Pass) string { return strings.ReplaceAll(p.EnergyText(), " to ", "-") }},
	{"lead", func(p *timeline.Pass) string {
		if p.Lead {
			return "on"
		}
		return "off"
	}},
	{"players", func(p *timeline.Pass) string { return cmp.Or(playerList(timeline.All&^p.Tacet), "nobody") }},
	{"at", func(p *timeline.Pass) string { return cmp.Or(p.At, "no time") }},
	{"fills", func(p *timeline.Pass) string {
		if p.Fills {
			return "at the end"
		}
		return "none at the end"
	}},
	{"times", func(p *timeline.Pass) string { return fmt.Sprint(len(p.Bars) / round(p)) }},
	{"vamp", func(p *timeline.Pass) string { return cmp.Or(p.Vamp, "none") }},
}

const ruling = 6

const asSong = "as in the song"

// compare lists the differences between two passes that are partners.
func (d *differ) compare(a, b *timeline.Pass) []finding {
	var out []finding
	add := func(c Change) {
		c.Section = b.Section
		out = append(out, finding{c, b.Index})
	}
	for _, w := range passWords {
		if w.what == "key" && a.Lift == b.Lift && a.Key == b.Key {
			continue // before the lift the key may have had either of two names
		}
		if was, is := w.of(a), w.of(b); was != is {
			add(Change{What: w.what, Old: was, New: is})
		}
	}
	was, is := map[string]string{}, map[string]string{}
	for _, w := range d.old.OwnBand(a) {
		was[w[0]] = w[1]
	}
	for _, w := range d.new.OwnBand(b) {
		is[w[0]] = w[1]
	}
	for _, player := range timeline.PlayerNames {
		if was[player] != is[player] {
			add(Change{What: player, Old: cmp.Or(was[player], asSong), New: cmp.Or(is[player], asSong)})
		}
	}
	x, y := barsOf(d.old, a)[:round(a)], barsOf(d.new, b)[:round(b)] // all rounds are alike
	if excerpt(a) != excerpt(b) {
		add(Change{What: "only", Old: excerpt(a), New: excerpt(b)})
		for i := range x {
			for j := range y {
				if a.NumberOf(i) != b.NumberOf(j) {
					continue
				}
				for _, c := range x[i].against(y[j], a.Meter != b.Meter) {
					c.Bar = b.NumberOf(j)
					add(c)
				}
			}
		}
		return out
	}
	pairs := pairBars(x, y)
	i, j := 0, 0
	for _, m := range append(pairs, match{len(x), len(y)}) {
		for ; i < m.old; i++ {
			add(Change{What: "bar", Bar: a.NumberOf(i), Old: x[i].whole()})
		}
		for ; j < m.new; j++ {
			add(Change{What: "bar", Bar: b.NumberOf(j), New: y[j].whole()})
		}
		if i == len(x) && j == len(y) {
			break
		}
		for _, c := range x[i].against(y[j], a.Meter != b.Meter) {
			c.Bar = b.NumberOf(j)
			add(c)
		}
		i, j = i+1, j+1
	}
	return out
}

// round is how many bars the pass has before it begins again, as a vamp does.
func round(p *timeline.Pass) int {
	for i := 1; i < len(p.Bars); i++ {
		if p.NumberOf(i) <= p.NumberOf(i-1) {
			return i
		}
	}
	return len(p.Bars)
}

// excerpt are the bars of a pass that plays a part of its section: one that begins later than
// in bar 1 or leaves some out. Of any other, which may end early, it is "all".
func excerpt(p *timeline.Pass) string {
	var played []int
	for i := range round(p) {
		played = append(played, p.NumberOf(i))
	}
	if n := len(played); played[0] == 1 && played[n-1] == n {
		return "all"
	}
	return "bars " + ranges(played)
}

// barWords is a bar as the texts that are compared.
type barWords struct {
	text     string // its chords as the song file has them
	written  string // the same with their places
	sounding string // the chords that sound, with their places
	meter    string
	events   []eventWords
}

// whole is the bar in one line: its chords and, in brackets, its events.
func (b *barWords) whole() string {
	var events []string
	for _, e := range b.events {
		events = append(events, e.text)
	}
	if events == nil {
		return b.text
	}
	return b.text + " (" + strings.Join(events, "; ") + ")"
}

// eventWords is an event in words: its kind, its count, and the whole of it.
type eventWords struct{ kind, at, text string }

// chordWords are the bars of a pass with their chords and meters alone.
func chordWords(p *timeline.Pass) []barWords {
	out := make([]barWords, len(p.Bars))
	for i := range p.Bars {
		bar := &p.Bars[i]
		var written, sounding strings.Builder
		for _, c := range ChordsIn(p, bar) {
			at := max(c.Start-bar.Start, -1) // -1: it goes on from the bar before
			fmt.Fprintf(&written, "%d %s ", at, c.Written)
			fmt.Fprintf(&sounding, "%d %s ", at, c.Chord)
		}
		out[i] = barWords{
			text:    strings.Join(strings.Fields(bar.Text), " "),
			written: written.String(), sounding: sounding.String(),
			meter: bar.Meter.String(),
		}
	}
	return out
}

// barsOf are the bars of a pass with all that is said of them.
func barsOf(t *timeline.Timeline, p *timeline.Pass) []barWords {
	out := chordWords(p)
	for _, c := range t.Inside(p) {
		out[c.Bar].events = append(out[c.Bar].events, eventWords{kind: c.What, text: c.What + " " + c.Is})
	}
	for i, played := range cue.Events(p) {
		e := &p.Events[i]
		if !played.Acts {
			continue // an event that nobody plays makes no difference
		}
		bar := &p.Bars[e.Bar]
		out[e.Bar].events = append(out[e.Bar].events,
			eventWords{e.Kind.String(), bar.Meter.CountAt(e.Tick - bar.Start), Describe(e, played, p, bar)})
	}
	return out
}

// sameChords reports whether two bars have the same chords, as written or as heard.
func (b *barWords) sameChords(c *barWords) bool {
	return b.written == c.written || b.sounding == c.sounding
}

// pairBars pairs the bars of two passes. Between two pairs of equal bars, the others are
// paired in order, as bars that were changed; those left over are new or gone.
func pairBars(x, y []barWords) []match {
	same := align(len(x), len(y), func(i, j int) bool { return x[i].sameChords(&y[j]) && x[i].meter == y[j].meter })
	if len(x) == len(y) {
		// As many bars as before: they are paired by their numbers, unless that finds
		// far fewer equal ones.
		equal := 0
		var byNumber []match
		for i := range x {
			byNumber = append(byNumber, match{i, i})
			if x[i].sameChords(&y[i]) {
				equal++
			}
		}
		if 2*equal >= len(same) {
			return byNumber
		}
	}
	var out []match
	i, j := 0, 0
	for _, m := range append(same, match{len(x), len(y)}) {
		for i < m.old && j < m.new {
			out = append(out, match{i, j})
			i, j = i+1, j+1
		}
		if m.old < len(x) {
			out = append(out, m)
		}
		i, j = m.old+1, m.new+1
	}
	return out
}

// against lists what changed from bar b to bar c. The meter is left out if the whole pass is
// in another one.
func (b barWords) against(c barWords, otherMeter bool) []Change {
	var out []Change
	if b.meter != c.meter && !otherMeter {
		out = append(out, Change{What: "meter", Old: b.meter, New: c.meter})
	}
	if !b.sameChords(&c) {
		out = append(out, Change{What: "chords", Old: b.text, New: c.text})
	}
	was, is := leftOver(b.events, c.events), leftOver(c.events, b.events)
	for _, e := range was {
		now := ""
		k := slices.IndexFunc(is, func(f eventWords) bool { return f.kind == e.kind && f.at == e.at })
		if k >= 0 {
			now = is[k].text
			is = slices.Delete(is, k, k+1)
		}
		out = append(out, Change{What: e.kind, Old: e.text, New: now})
	}
	for _, f := range is {
		out = append(out, Change{What: f.kind, New: f.text})
	}
	return out
}

// leftOver are the events that a has and b has not, or fewer times.
func leftOver(a, b []eventWords) []eventWords {
	count := map[eventWords]int{}
	for _, e := range b {
		count[e]++
	}
	var out []eventWords
	for _, e := range a {
		if count[e]--; count[e] < 0 {
			out = append(out, e)
		}
	}
	return out
}
