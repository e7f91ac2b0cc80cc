package songspec

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/timeline"
)

// band decodes the block of a player. What the player's hands and instrument can reach holds
// for the whole song and stands in the file's own blocks: f is nil for a block of a section, a
// play or a bars block.
func (d *decoder) band(set *settings, b *hclsyntax.Block, f *File) {
	d.noLabel(b)
	known := map[string][]string{"drums": drumsAttrs, "bass": bassAttrs, "piano": pianoAttrs}[b.Type]
	for _, a := range d.valuesOf(b.Body, "the "+b.Type+" block", known) {
		switch a.Name {
		case "kit":
			set.kit = d.oneOf(a, kits, "the kit", `The kit is a word in quotes: kit = "brushes".`)
		case "line":
			set.bassLine = d.oneOf(a, bassLines, "the bass's line",
				`The bass's line is a word in quotes: line = "two".`)
		case "sound":
			if b.Type == "bass" {
				set.bassSound = d.sound(a, "bass", bassSounds)
			} else {
				set.pianoSound = d.sound(a, "piano", pianoSounds)
			}
		default:
			if f == nil {
				d.rep.Errorf(a.NameRange, fmt.Sprintf("No %q in this %s block", a.Name, b.Type),
					"It holds for the whole song: it belongs in the %s block at the top of the file.", b.Type)
				continue
			}
			d.reach(f, a)
		}
	}
}

// reach reads what a player's hands and instrument can reach.
func (d *decoder) reach(f *File, a *hclsyntax.Attribute) {
	switch a.Name {
	case "strings":
		f.strings = d.whole(a.Expr, "the number of the bass's strings", 4, 5)
	case "span":
		f.span = d.whole(a.Expr, "the span of a hand, in semitones,", 7, 16)
	case "highest":
		if n, ok := d.note(a.Expr, `highest = "A4"`, lowestCeiling, highestCeiling); ok {
			if n < lowestCeiling || n > highestCeiling {
				d.rep.Errorf(a.Expr.Range(), "Out of bounds",
					"The piano's highest note is from C4 to C7; C4 is middle C.")
				return
			}
			f.highest = n
		}
	}
}

// The piano's ceiling may lie from C4 to C7: a lower one would leave the comp no room over the
// bass, and no pianist comps above a higher one.
const lowestCeiling, highestCeiling = 60, 96

// oneOf reads one of some words. what is the thing in words: "the kit".
func (d *decoder) oneOf(a *hclsyntax.Attribute, words []string, what, help string) *said[string] {
	t := d.text(a.Expr, 64, help)
	if t == nil || slices.Contains(words, t.v) {
		return t
	}
	n := offer(t.v, words, what)
	if w := bassLineCalled[plainWord(t.v)]; slices.Contains(words, w) {
		n = isIt(w)
	}
	d.rep.Errorf(t.rng, fmt.Sprintf("No %s %q", a.Name, t.v), "%s", n.says).WriteText(t.rng, n.word)
	return nil
}

// sound reads the name of a player's sound, nil after an error.
func (d *decoder) sound(a *hclsyntax.Attribute, player string, sounds []sound) *said[sound] {
	t := d.text(a.Expr, 64, fmt.Sprintf("The %s's sound is a word in quotes: sound = %q.", player, sounds[0].word))
	if t == nil {
		return nil
	}
	words := make([]string, len(sounds))
	for i, s := range sounds {
		words[i] = s.word
		if s.word == t.v {
			return &said[sound]{s, t.rng}
		}
	}
	help := offer(t.v, words, "the "+player+"'s sound")
	if n := soundCalled[strings.ToLower(t.v)]; slices.Contains(words, n) {
		help = advice{fmt.Sprintf("It is called %q here.", n), n}
	}
	d.rep.Errorf(t.rng, fmt.Sprintf("No %s sound %q", player, t.v), "%s", help.says).WriteText(t.rng, help.word)
	return nil
}

// bandOf is the band as settings have it.
func (f *File) bandOf(set settings) timeline.Band {
	bass, piano := or(set.bassSound, sound{program: bassSounds[0].program}), or(set.pianoSound, pianoSounds[0])
	return timeline.Band{
		Drums: timeline.DrumsSetup{Kit: or(set.kit, "")},
		Bass: timeline.BassSetup{Line: or(set.bassLine, ""), Sound: bass.word, Program: bass.program,
			Strings: or(f.strings, 4)},
		Piano: timeline.PianoSetup{Sound: piano.word, Program: piano.program, Highest: f.highest,
			Span: or(f.span, defaultSpan)},
	}
}
