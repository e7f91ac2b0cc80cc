package songspec

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/harmony"
)

// 7+ is the seventh with a raised fifth here. In Brazil and its neighbours it is the major seventh, as
// 7M is. Common practice, no single source. Likewise I7 is a dominant seventh here, and in figured bass
// the key's own seventh, which is major. Both are doubted where a major seventh is the key's own and
// the chord does not go where dominants go: then hardly anybody means the dominant.

// seventhDoubt is a symbol that may be meant with a major seventh, where it stands first.
type seventhDoubt struct {
	word    *chartWord
	chord   harmony.Chord
	numeral bool
	meant   string // with a major seventh
}

var (
	letterAlone = pattern(`^[A-G][b#♭♯]?$`)
	ownSevenths = []string{"I7", "IV7", "III7", "VI7"}
)

// addSevenths takes up the sevenths of a chart in its key.
func (r *resolver) addSevenths(c *chart, key harmony.Key) {
	words := c.writtenChords()
	for i, w := range words {
		meant, numeral := "", false
		if root, raised := strings.CutSuffix(w.text, "7+"); raised && letterAlone().MatchString(root) {
			meant = root + "maj7"
		} else if slices.Contains(ownSevenths, w.text) {
			meant, numeral = strings.TrimSuffix(w.text, "7")+"maj7", true
		} else {
			continue
		}
		here := r.chord(w.text, key, key)
		if here.err != nil || !majorSeventhIn(key, here.chord.Root) {
			continue
		}
		if i+1 < len(words) {
			next := r.chord(words[i+1].text, key, key)
			if next.err != nil || next.chord.None || resolves(here.chord.Root, next.chord.Root) {
				continue
			}
		}
		if _, seen := r.sevenths.of[w.text]; !seen {
			d := &seventhDoubt{w, here.chord, numeral, meant}
			r.sevenths.of[w.text] = d
			r.sevenths.doubts = append(r.sevenths.doubts, d)
		}
	}
}

// majorSeventhIn reports whether the key's own seventh over a root is major: over I and IV of a major
// key, and over III and VI of a minor one.
func majorSeventhIn(key harmony.Key, root harmony.Name) bool {
	up := (root.PC() - key.Tonic.PC() + 12) % 12
	if key.Minor {
		return up == 3 || up == 8
	}
	return up == 0 || up == 5
}

// resolves reports whether a dominant goes to a root: a fifth or a half step down, or nowhere yet.
func resolves(from, to harmony.Name) bool {
	up := (to.PC() - from.PC() + 12) % 12
	return up == 0 || up == 5 || up == 11
}

// doubtSevenths warns of each symbol once. Numerals are doubted beside figured bass alone.
func (r *resolver) doubtSevenths() {
	for _, d := range r.sevenths.doubts {
		why := "In some countries this is the major seventh."
		if d.numeral {
			if r.figures.beside == "" {
				continue
			}
			why = fmt.Sprintf("The song has %q, and in figured bass this is the key's own seventh.", r.figures.beside)
		}
		r.rep.Warnf(d.word.rng(), fmt.Sprintf("%q is %s here", d.word.text, d.chord), "%s If that is meant, write %s; "+
			"if the chord is meant as it is read, %s.", why, d.meant, d.chord)
	}
}
