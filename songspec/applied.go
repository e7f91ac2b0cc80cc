package songspec

import (
	"fmt"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/wording"
)

// A numeral after a slash is the key that the first chord belongs to: V7/V. Authors who are
// used to letter symbols write IV/V for F over G, and get C. So there is a warning about an
// applied chord that does not do what applied chords do.
//
// A dominant (V, vii°) of a chord is an applied chord almost wherever it stands. A ii or iv
// is one when it comes before such a dominant. Any other numeral is one only in a passage in
// another key, which has a dominant of that key in it. A plagal IV is one when its target
// follows, but not before V: there F/G G7 is far more often meant. Common practice, no single
// source.

// applied warns of the doubtful applied chords of a chart in its own key.
func (r *resolver) applied(c *chart, key harmony.Key) {
	words := c.writtenChords()
	read := make([]harmony.Applied, len(words)) // Target is "" for a word that is no applied chord
	for i, w := range words {
		read[i], _ = harmony.ReadApplied(w.text, key)
	}
	// before[i] says that chord i leads to a dominant of its target: the dominant follows,
	// with only chords of that target in between.
	before := make([]bool, len(words))
	for i := len(words) - 2; i >= 0; i-- {
		if a, next := &read[i], &read[i+1]; a.Target != "" && a.Target == next.Target {
			before[i] = next.Leads == harmony.Leading || before[i+1]
		}
	}
	for i := range read {
		a := &read[i]
		if a.Target == "" || a.OverWritten == "" || r.keepsPromise(words, a, i, before[i], key) {
			continue
		}
		w := words[i]
		got := r.chord(w.text, key, key)
		if got.err != nil {
			continue
		}
		r.rep.Warnf(w.rng(), fmt.Sprintf("%q is %s here", wording.Clip(w.text, 24), got.chord),
			"A numeral after the slash is the chord it leads to: this is read as %s of %s. If %s is meant, the bass "+
				"is a figure: write %s, or %s.",
			w.text[:len(w.text)-len(a.Target)-1], a.Target, a.Over, a.OverWritten, a.Over)
	}
}

// ownRoots warns of figures that put a chord's own root in the bass, where the author may mean
// the key's tonic in the bass.
func (r *resolver) ownRoots(c *chart, key harmony.Key) {
	words := c.writtenChords()
	for i, w := range words {
		over, written, ok := harmony.OverTonic(w.text, key)
		if !ok {
			continue
		}
		// In V/3 V/1 the figures are a bass line.
		line := func(j int) bool {
			return j >= 0 && j < len(words) && words[j].text != w.text &&
				strings.HasPrefix(words[j].text, strings.TrimSuffix(w.text, "1"))
		}
		if line(i-1) || line(i+1) {
			continue
		}
		r.rep.Warnf(w.rng(), fmt.Sprintf("%q is %s here", wording.Clip(w.text, 24),
			r.chord(w.text, key, key).chord),
			"The figure is counted in the chord itself, and its 1 is the root. If %s is meant, over the key's own "+
				"1, write %s, or %s.", over, written, over)
	}
}

// keepsPromise reports whether word i, an applied chord, goes where applied chords go.
func (r *resolver) keepsPromise(words []*chartWord, a *harmony.Applied, i int, before bool, key harmony.Key) bool {
	on := func(j, above int) bool { // the root of word j is so far above the target's root
		if j < 0 || j >= len(words) {
			return false
		}
		c := r.chord(words[j].text, key, key)
		return c.err == nil && !c.chord.None && c.chord.Root.PC() == (a.Tonic.PC()+above)%12
	}
	switch {
	case a.Home:
		return false // V of I is V, and nobody writes V/I for it
	case a.Leads != harmony.Leading:
	case key.Minor:
		return true
	case a.Bare() == 4:
		// Without a seventh, V of IV is I. After an F, G over F is a pedal or part of a line
		// down, unless F follows, or Dm as a deceptive ending.
		return on(i+1, 0) || a.Over.Suffix != "" && (!on(i-1, 0) || on(i+1, 9))
	case a.Bare() != 7:
		return true
	}
	// In a major key no chord leads to the chord on the leading note, and G/B is the most
	// common inversion of all.
	if before {
		return true
	}
	return a.Bare() != 5 && (a.Leads != harmony.Passing || a.Plagal) && on(i+1, 0)
}

// writtenChords are the chart's chords in the order in which they are written. A repeated
// bar counts once.
func (c *chart) writtenChords() []*chartWord {
	var out []*chartWord
	for i := range c.written {
		bar := &c.written[i]
		if bar.like >= 0 {
			continue
		}
		for j := range bar.words {
			if w := &bar.words[j]; !w.slash && !w.bad {
				out = append(out, w)
			}
		}
	}
	return out
}
