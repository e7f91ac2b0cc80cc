package songspec

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/harmony"
)

// A ^ behind a root, as in F^, is the triangle of the major seventh: common in chord charts for jazz.
// Behind a figure or a word it may be the roof of a marcato, which belongs to no chord. Common practice,
// no single source.
var beforeRoof = pattern(`(?:[0-9)]|sus|dim|aug|°)$`)

// doubtRoofs warns of such a sign, once for each symbol.
func (r *resolver) doubtRoofs(c *chart, key harmony.Key) {
	for i := range c.written {
		for j := range c.written[i].words {
			w := &c.written[i].words[j]
			text, roof := strings.CutSuffix(w.text, "^")
			if !roof || c.written[i].like >= 0 || r.roofs[w.text] || !beforeRoof().MatchString(text) {
				continue
			}
			with, without := r.chord(w.text, key, key), r.chord(text, key, key)
			if with.err != nil || without.err != nil {
				continue
			}
			r.roofs[w.text] = true
			place := "4: 3"
			if j == 0 {
				place = fmt.Sprintf("%d: 1", slices.Index(c.order, int32(i))+1)
			}
			r.rep.Warnf(w.rng(), fmt.Sprintf("%q is %s here", w.text, with.chord), "The ^ is read as the triangle of "+
				"the major seventh. If a short hit is meant, write %s, and beside the chords accent %q { short = "+
				"true }; if the chord is meant as it is read, %s.", text, place, with.chord)
		}
	}
}
