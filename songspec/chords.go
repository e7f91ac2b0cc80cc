package songspec

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

type chordKey struct {
	text              string
	written, sounding harmony.Key
}

type chordResult struct {
	chord harmony.Chord
	err   error
}

// chord reads one symbol of a section that is written in one key and sounds in another. Letter
// symbols move with the tonic and are spelled for the sounding key; numerals are read in the
// sounding key.
func (r *resolver) chord(text string, written, sounding harmony.Key) chordResult {
	key := chordKey{text, written, sounding}
	if c, ok := r.chords[key]; ok {
		return c
	}
	c, numeral, err := harmony.ParseEither(text, sounding)
	if err == nil && !numeral {
		c = c.Transpose(written, sounding)
	}
	r.chords[key] = chordResult{c, err}
	return r.chords[key]
}

// keys are the key that a bar is written in and the key that it sounds in.
type keys struct{ written, sounding harmony.Key }

// harmonise returns the chords of bars in their keys, and reports symbols that cannot be read.
// keysOf has the keys of each bar; one entry for bars that all have the same. Then passes that
// need the same chords share the result.
func (r *resolver) harmonise(lo *laidOut, keysOf []keys) []timeline.Span {
	key := spanKey{lo, keysOf[0]}
	if s, ok := r.spans[key]; ok && len(keysOf) == 1 {
		return s
	}
	out := make([]timeline.Span, len(lo.spans))
	for i, s := range lo.spans {
		k := keysOf[min(s.bar, len(keysOf)-1)]
		c := r.chord(s.word.text, k.written, k.sounding)
		if c.err != nil {
			if !s.word.bad {
				r.notAChord(s.word, c.err)
			}
			continue
		}
		out[i] = timeline.Span{Start: s.start, End: s.end, Chord: c.chord, Written: s.word.text}
	}
	if len(keysOf) == 1 {
		r.spans[key] = out
	}
	return out
}

// checkSymbols reports the chord symbols of a chart that cannot be read, whether or not
// its bars add up.
func (r *resolver) checkSymbols(c *chart, key harmony.Key) {
	german, solfege := false, false
	for i := range c.written {
		if c.written[i].like >= 0 {
			continue
		}
		for j := range c.written[i].words {
			w := &c.written[i].words[j]
			if w.slash {
				continue
			}
			err := r.chord(w.text, key, key).err
			if w.bad = err != nil; !w.bad || j > 0 && r.oneWord(&c.written[i].words[j-1], w, key) {
				continue
			}
			if j == 0 && meterBefore(c.written[i].words) {
				meter := "(" + strings.Trim(w.text, "[]") + ")"
				r.rep.Errorf(w.rng(), "A meter without its brackets",
					"A bar in another meter says so in round brackets: write %s.", meter).WriteWord(w.rng(), meter)
				continue
			}
			if summary, help, fix := loneSign(w.text, i == 0); summary != "" && c.written[i].lone(j) {
				r.foreignSign(w, summary, help, fix)
				continue
			}
			r.notAChord(w, err)
			var e *harmony.SymbolError
			if errors.As(err, &e) {
				german, solfege = german || e.Tongue == harmony.German, solfege || e.Tongue == harmony.Solfege
			}
		}
	}
	r.falseFriends(c, german, solfege)
}

// oneWord adds an error where before and w are one chord, written as two words: C maj7.
func (r *resolver) oneWord(before, w *chartWord, key harmony.Key) bool {
	if before.slash || before.bad || before.count.N > 0 || strings.ContainsAny(before.text, "/.") ||
		strings.Trim(w.text, "+-–−^°o") == "" {
		return false // a dash between two chords does not make the first minor
	}
	whole := r.chord(before.text+w.text, key, key)
	if whole.err != nil || whole.chord.None {
		return false
	}
	at := w.src.Range(before.lo, w.hi)
	word := before.text + w.text
	r.rep.Errorf(at, "A chord in two words", "A chord is written without a blank: %q.", word).WriteWord(at, word)
	return true
}

// falseFriends warns of symbols that can be read but mean another chord in a chart whose other
// symbols are in another language: B, and Do.
func (r *resolver) falseFriends(c *chart, german, solfege bool) {
	for _, w := range c.writtenChords() {
		rest, isB := strings.CutPrefix(w.text, "B")
		switch {
		case german && isB && strings.IndexAny(rest, "b♭#") != 0:
			r.rep.Warnf(w.rng(), "A B among German names",
				"B is the German H here. If the German B is meant, write %q.", "Bb"+rest)
		case solfege && strings.HasPrefix(w.text, "Do"):
			r.rep.Warnf(w.rng(), "Do among the notes of solfège",
				"This is a diminished D here. If do is meant, write %q.", "C"+w.text[len("Do"):])
		}
	}
}

func (r *resolver) notAChord(w *chartWord, err error) {
	if summary, help, write := certainWord(w.text); summary != "" {
		at := w.rng()
		r.rep.Errorf(at, summary, "%s", help).WriteWord(at, write)
		return
	}
	if summary, help := foreignWord(w.text); summary != "" {
		r.foreignSign(w, summary, help, "")
		return
	}
	summary := fmt.Sprintf("Not a chord: %q", wording.Clip(w.text, 24))
	off := w.lo
	if len(w.text) != w.hi-w.lo {
		off = -1 // blanks were joined, so offsets in the text are not offsets in the file
	}
	at := w.rng()
	e, word := reportSymbol(&r.rep, at, off, summary, err)
	if _, _, err := harmony.ParseEither(word, harmony.Key{}); err == nil {
		e.WriteWord(at, word)
	}
}

// foreignSign reports a word of a chart that cannot be a chord, once a line.
func (r *resolver) foreignSign(w *chartWord, summary, help, fix string) {
	line := w.src.LineOf(w.lo)
	if last, ok := r.foreign[summary]; !ok || last != line {
		at := w.rng()
		r.rep.Errorf(at, summary, "%s", help).WriteWord(at, fix)
	}
	r.foreign[summary] = line
}

// lone reports whether all words of the bar are the word i.
func (b *writtenBar) lone(i int) bool {
	return !slices.ContainsFunc(b.words, func(w chartWord) bool { return w.text != b.words[i].text })
}

// hasLetters reports whether the section's chart has a letter symbol. It looks at first
// letters; of the numerals, only those with a name, such as Cad64, may begin with the same.
func (s *section) hasLetters() bool {
	letter := func(w chartWord) bool {
		return w.text[0] >= 'A' && w.text[0] <= 'G' && !harmony.IsNumeral(w.text)
	}
	return s.chords != nil && slices.ContainsFunc(s.chords.written, func(b writtenBar) bool {
		return slices.ContainsFunc(b.words, letter)
	})
}
