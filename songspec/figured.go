package songspec

import (
	"fmt"

	"plinth/songspec/harmony"
	"plinth/songspec/wording"
)

// figuredBass is what a song has of figures that are added tones here and inversions in figured
// bass: a 6 or a 2 behind a numeral.
type figuredBass struct {
	beside string // the first numeral with a figure that only figured bass has; "" without one
	doubts []*figureDoubt
	of     map[string]*figureDoubt
	seen   map[*chart]bool // a section that is like another has its chart
}

// figureDoubt is a symbol with such a figure, where it stands first.
type figureDoubt struct {
	word   *chartWord
	key    harmony.Key
	figure harmony.FiguredBass
	times  int
}

// add takes up the figures of a chart in its key.
func (b *figuredBass) add(c *chart, key harmony.Key) {
	if b.seen[c] {
		return
	}
	b.seen[c] = true
	for _, w := range c.writtenChords() {
		if b.beside == "" && harmony.IsFigured(w.text) {
			b.beside = w.text
		}
		if d := b.of[w.text]; d != nil {
			d.times++
		} else if f, ok := harmony.ReadFiguredBass(w.text, key); ok {
			d = &figureDoubt{w, key, f, 1}
			b.doubts, b.of[w.text] = append(b.doubts, d), d
		}
	}
}

// doubtFigures warns of the song's 6 and 2, each symbol once, if the song has other figures of
// figured bass, and of those that hardly anybody means as they are read.
func (r *resolver) doubtFigures() {
	for _, d := range r.figures.doubts {
		why := "A figure behind a numeral is an added tone, as in a letter symbol, and after the slash the bass."
		switch {
		case r.figures.beside != "":
			why = fmt.Sprintf("The song has %q, so this may be a figure of that kind.",
				wording.Clip(r.figures.beside, 24))
		case !d.figure.Always:
			continue
		}
		if d.times > 1 {
			why = fmt.Sprintf("It stands %d times in the song. %s", d.times, why)
		}
		r.rep.Warnf(d.word.rng(), fmt.Sprintf("%q is %s here", wording.Clip(d.word.text, 24),
			r.chord(d.word.text, d.key, d.key).chord),
			"%s If the %s is meant, write %s; if the %s is, %s.", why, d.figure.Inversion, d.figure.Inverted,
			d.figure.Tone, d.figure.Added)
	}
}
