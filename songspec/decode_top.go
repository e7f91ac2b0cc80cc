package songspec

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/timeline"
)

// file decodes the top level.
func (d *decoder) file(f *File, body *hclsyntax.Body) {
	f.bass = timeline.BassSetup{Program: bassSounds[0].program, Strings: 4}
	f.piano = timeline.PianoSetup{Sound: pianoSounds[0].word, Program: pianoSounds[0].program, Span: defaultSpan}
	d.top = body
	for _, a := range d.attrsOf(body, "a song", topAttrs, topBlocks) {
		if !d.setting(&f.settings, a) {
			d.topAttr(f, a)
		}
	}
	readers := map[string]func(*File, *hclsyntax.Block){
		"drums": d.drums, "bass": d.bass, "piano": d.piano, "vocal": d.vocal, "form": d.form, "section": d.section,
	}
	lines := map[string]int{}
	for _, b := range d.blocksOf(body, "a song", topAttrs, topBlocks) {
		if !dialect.Named(b.Type) {
			d.noLabel(b)
		}
		if b.Type == "section" || d.once(b, lines) {
			readers[b.Type](f, b)
		}
	}
	f.hasForm = f.hasForm || d.unread(body, "form")
	f.groovesUnread = d.unread(body, "grooves")
	f.meterUnread = f.meterUnread || d.unread(body, "meter")
	if len(f.sections) == 0 && !d.rep.Diags.HasErrors() {
		d.rep.Errorf(d.s.Range(0, 0), "A song without a section",
			"Write at least one: section \"verse\" { chords = \"| C | F | G | C |\" }.")
	}
}

func (d *decoder) topAttr(f *File, a *hclsyntax.Attribute) {
	switch a.Name {
	case "title":
		f.title = d.text(a.Expr, 200, `The title is text in quotes: title = "Lanterns".`)
	case "by":
		f.by = d.text(a.Expr, 200, `Who wrote the song is text in quotes: by = "A. Writer".`)
	case "looseness":
		f.looseness = d.perMille(a.Expr, "the looseness")
	case "take":
		f.take = d.whole(a.Expr, "the take", 0, 1000000)
	case "count_in":
		f.countIn = d.whole(a.Expr, "the count-in, in bars,", 0, 8)
	case "pickup":
		f.pickup = d.beats(a.Expr, "the pickup", 16, true)
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
			if ref, ok := d.ref(d.text(x, maxPath, help)); ok {
				f.grooves = append(f.grooves, ref)
			}
		}
	}
}

func (d *decoder) drums(f *File, b *hclsyntax.Block) {
	for _, a := range d.valuesOf(b.Body, "the drums block", drumsAttrs) {
		t := d.text(a.Expr, 64, `The kit is a word in quotes: kit = "brushes".`)
		switch {
		case t == nil:
		case slices.Contains(kits, t.v):
			f.drums.Kit = t.v
		default:
			a := offer(t.v, kits, "the kit")
			d.rep.Errorf(t.rng, fmt.Sprintf("No kit %q", t.v), "%s", a.says).WriteText(t.rng, a.word)
		}
	}
}

func (d *decoder) bass(f *File, b *hclsyntax.Block) {
	for _, a := range d.valuesOf(b.Body, "the bass block", bassAttrs) {
		switch a.Name {
		case "sound":
			s := d.sound(a, "bass", bassSounds)
			f.bass.Sound, f.bass.Program = s.word, s.program
		case "strings":
			f.bass.Strings = or(d.whole(a.Expr, "the number of the bass's strings", 4, 5), f.bass.Strings)
		}
	}
}

// The piano's ceiling may lie from C4 to C7: a lower one would leave the comp no room over the
// bass, and no pianist comps above a higher one.
const lowestCeiling, highestCeiling = 60, 96

func (d *decoder) piano(f *File, b *hclsyntax.Block) {
	for _, a := range d.valuesOf(b.Body, "the piano block", pianoAttrs) {
		switch a.Name {
		case "sound":
			s := d.sound(a, "piano", pianoSounds)
			f.piano.Sound, f.piano.Program = s.word, s.program
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
			f.piano.Span = or(d.whole(a.Expr, "the span of a hand, in semitones,", 7, 16), f.piano.Span)
		}
	}
}

// sound reads the name of a player's sound. After an error it returns the first sound.
func (d *decoder) sound(a *hclsyntax.Attribute, player string, sounds []sound) sound {
	t := d.text(a.Expr, 64, fmt.Sprintf("The %s's sound is a word in quotes: sound = %q.", player, sounds[0].word))
	if t == nil {
		return sounds[0]
	}
	words := make([]string, len(sounds))
	for i, s := range sounds {
		words[i] = s.word
		if s.word == t.v {
			return s
		}
	}
	help := offer(t.v, words, "the "+player+"'s sound")
	if n := alsoCalled[strings.ToLower(t.v)]; slices.Contains(words, n) {
		help = advice{fmt.Sprintf("It is called %q here.", n), n}
	}
	d.rep.Errorf(t.rng, fmt.Sprintf("No %s sound %q", player, t.v), "%s", help.says).WriteText(t.rng, help.word)
	return sounds[0]
}

func (d *decoder) vocal(f *File, b *hclsyntax.Block) {
	v := &vocal{line: d.s.LineOf(b.TypeRange.Start.Byte)}
	for _, a := range d.valuesOf(b.Body, "the vocal block", vocalAttrs) {
		switch a.Name {
		case "track":
			const help = `The track of the guide vocal is its name in quotes: track = "Voice".`
			v.track = or(d.text(a.Expr, 200, help), "")
		case "from":
			v.from = d.whole(a.Expr, "the bar of the song where the vocal file starts", -MaxBars, MaxBars)
		case "range":
			v.low, v.high = d.singerRange(a.Expr)
		}
	}
	var ok bool
	if v.ref, ok = d.ref(d.label(b, "a file")); ok {
		f.vocal = v
	}
}
