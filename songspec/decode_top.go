package songspec

import (
	"fmt"
	"slices"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/timeline"
)

// file decodes the top level.
func (d *decoder) file(f *File, body *hclsyntax.Body) {
	f.bass = timeline.BassSetup{Sound: bassSounds[0].word, Program: bassSounds[0].program, Strings: 4}
	f.piano = timeline.PianoSetup{Sound: pianoSounds[0].word, Program: pianoSounds[0].program, Span: defaultSpan}
	for _, a := range d.attrsOf(body, "a song", topAttrs, topBlocks) {
		if !d.setting(&f.settings, a) {
			d.topAttr(f, a)
		}
	}
	var drums, bass, piano, vocal, form hcl.Range
	for _, b := range d.blocksOf(body, "a song", topAttrs, topBlocks) {
		switch b.Type {
		case "drums":
			if d.noLabel(b); d.once(b, &drums) {
				d.drums(f, b)
			}
		case "bass":
			if d.noLabel(b); d.once(b, &bass) {
				d.bass(f, b)
			}
		case "piano":
			if d.noLabel(b); d.once(b, &piano) {
				d.piano(f, b)
			}
		case "vocal":
			if d.once(b, &vocal) {
				d.vocal(f, b)
			}
		case "form":
			if d.noLabel(b); d.once(b, &form) {
				d.form(f, b)
			}
		case "section":
			d.section(f, b)
		}
	}
	if len(f.sections) == 0 && !d.rep.Diags.HasErrors() {
		d.rep.Errorf(d.s.Range(0, 0), "A song without a section",
			"Write at least one: section \"verse\" { chords = \"| C | F | G | C |\" }.")
	}
}

func (d *decoder) topAttr(f *File, a *hclsyntax.Attribute) {
	switch a.Name {
	case "title":
		f.title, _ = d.text(a.Expr, 200, `The title is text in quotes: title = "Lanterns".`)
	case "by":
		f.by, _ = d.text(a.Expr, 200, `Who wrote the song is text in quotes: by = "A. Writer".`)
	case "looseness":
		f.looseness, _ = d.perMille(a.Expr, "the looseness")
	case "take":
		f.take, _ = d.whole(a.Expr, "the take", 0, 1000000)
	case "count_in":
		f.countIn, _ = d.whole(a.Expr, "the count-in, in bars,", 0, 8)
	case "pickup":
		f.pickup, _ = d.beats(a.Expr, "the pickup", 16, true)
	case "grooves":
		const help = `The song's own grooves are a list of files: grooves = ["mine.groove.hcl"].`
		items, ok := d.list(a.Expr, help)
		if !ok {
			return
		}
		if len(items) > maxGrooves {
			d.rep.Errorf(a.Expr.Range(), "Too many groove files", "A song may name %d of them.", maxGrooves)
			return
		}
		for _, x := range items {
			if t, ok := d.text(x, maxPath, help); ok {
				if ref, ok := d.ref(*t); ok {
					f.grooves = append(f.grooves, ref)
				}
			}
		}
	}
}

func (d *decoder) drums(f *File, b *hclsyntax.Block) {
	d.blocksOf(b.Body, "the drums block", drumsAttrs, nil)
	for _, a := range d.attrsOf(b.Body, "the drums block", drumsAttrs, nil) {
		t, ok := d.text(a.Expr, 64, `The kit is a word in quotes: kit = "brushes".`)
		if !ok {
			continue
		}
		if !slices.Contains(kits, t.s) {
			a := offer(t.s, kits, "the kit")
			d.rep.Errorf(t.rng, fmt.Sprintf("No kit %q", t.s), "%s", a.says).WriteText(t.rng, a.word)
			continue
		}
		f.drums.Kit = t.s
	}
}

func (d *decoder) bass(f *File, b *hclsyntax.Block) {
	d.blocksOf(b.Body, "the bass block", bassAttrs, nil)
	for _, a := range d.attrsOf(b.Body, "the bass block", bassAttrs, nil) {
		switch a.Name {
		case "sound":
			if s, ok := d.sound(a, "bass", bassSounds); ok {
				f.bass.Sound, f.bass.Program = s.word, s.program
			}
		case "strings":
			if n, ok := d.whole(a.Expr, "the number of the bass's strings", 4, 5); ok {
				f.bass.Strings = n.n
			}
		}
	}
}

// The piano's ceiling may lie from C4 to C7: under it the comp would have no
// room over the bass, over it no piano comps.
const lowestCeiling, highestCeiling = 60, 96

func (d *decoder) piano(f *File, b *hclsyntax.Block) {
	d.blocksOf(b.Body, "the piano block", pianoAttrs, nil)
	for _, a := range d.attrsOf(b.Body, "the piano block", pianoAttrs, nil) {
		switch a.Name {
		case "sound":
			if s, ok := d.sound(a, "piano", pianoSounds); ok {
				f.piano.Sound, f.piano.Program = s.word, s.program
			}
		case "highest":
			if n, ok := d.note(a.Expr, `highest = "A4"`, lowestCeiling, highestCeiling); ok {
				if n < lowestCeiling || n > highestCeiling {
					d.rep.Errorf(a.Expr.Range(), "Out of bounds",
						"The piano's highest note is from C4 to C7; C4 is middle C.")
				} else {
					f.piano.Highest = n
				}
			}
		case "span":
			if n, ok := d.whole(a.Expr, "the span of a hand, in semitones,", 7, 16); ok {
				f.piano.Span = n.n
			}
		}
	}
}

func (d *decoder) sound(a *hclsyntax.Attribute, player string, sounds []sound) (sound, bool) {
	t, ok := d.text(a.Expr, 64, fmt.Sprintf("The %s's sound is a word in quotes: sound = %q.", player, sounds[0].word))
	if !ok {
		return sound{}, false
	}
	word := t.s
	words := make([]string, len(sounds))
	for i, s := range sounds {
		words[i] = s.word
		if s.word == word {
			return s, true
		}
	}
	help := offer(word, words, "the "+player+"'s sound")
	if n := alsoCalled[lower(word)]; n != "" && slices.Contains(words, n) {
		help = advice{fmt.Sprintf("It is called %q here.", n), n}
	}
	d.rep.Errorf(t.rng, fmt.Sprintf("No %s sound %q", player, word), "%s", help.says).WriteText(t.rng, help.word)
	return sound{}, false
}

func (d *decoder) vocal(f *File, b *hclsyntax.Block) {
	v := &vocal{line: d.s.LineOf(b.TypeRange.Start.Byte)}
	t, ok := d.label(b, "a file")
	if ok {
		v.ref, ok = d.ref(t)
	}
	d.blocksOf(b.Body, "the vocal block", vocalAttrs, nil)
	for _, a := range d.attrsOf(b.Body, "the vocal block", vocalAttrs, nil) {
		switch a.Name {
		case "track":
			const help = `The track of the guide vocal is its name in quotes: track = "Voice".`
			if t, ok := d.text(a.Expr, 200, help); ok {
				v.track = t.s
			}
		case "from":
			v.from, _ = d.whole(a.Expr, "the bar of the song where the vocal file starts", -MaxBars, MaxBars)
		case "range":
			v.low, v.high, _ = d.singerRange(a.Expr)
		}
	}
	if ok {
		f.vocal = v
	}
}
