package songspec

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// Parse reads a song file. name is its path, for messages and for the default
// title. All mistakes that can be seen without knowing the feels are reported,
// sorted by place: of what is not written as HCL, what is wrong with it, and of all the
// rest, too. The File is nil only when the text could not be read at all;
// with errors it still serves GrooveFiles, VocalFiles and Resolve's messages. A song that borrows
// sections (SectionFiles) is not looked through for names until Lend is called.
func Parse(name string, src []byte) (*File, hcl.Diagnostics) {
	s := hcltext.NewSource(name, src)
	diags, runaway := guard(s)
	if diags.HasErrors() {
		return nil, diags
	}
	d := &decoder{s: s, rep: hcltext.Report{Source: s}, meant: map[*hclsyntax.Body][]string{}}
	f := &File{src: s, byName: map[string]*section{}}
	body, diags := s.Parse()
	if diags.HasErrors() || runaway.HasErrors() {
		d.read, d.rep.Diags = s.Recover(&dialect, runaway)
		body, f.slipped = d.read.Body, true
	}
	d.file(f, body)
	d.land(f)
	if len(f.lenders) > 0 {
		f.waiting = d
	} else {
		d.link(f)
	}
	f.fraction, f.guided = d.fraction, d.guided
	out := d.rep.Sorted()
	f.failed = out.HasErrors()
	return f, out
}

// attrsOf are the known attributes of a body, in source order; others are reported. what is
// the name of the block in words: "a section".
func (d *decoder) attrsOf(body *hclsyntax.Body, what string, known, blocks []string) []*hclsyntax.Attribute {
	var out []*hclsyntax.Attribute
	for _, a := range hcltext.Attributes(body) {
		switch {
		case slices.Contains(known, a.Name):
			out = append(out, a)
		case slices.Contains(blocks, a.Name) && d.silences(a):
			d.rep.Errorf(a.NameRange, "A block written as a value", "Who keeps out is said by %s.", keepOut(a.Name))
		case slices.Contains(blocks, a.Name):
			text, good := d.asBlock(a.Name, a.Expr, d.plainText(a.Expr))
			e := d.rep.Errorf(a.NameRange, "A block written as a value", "Write it without the equals sign: %s.", text)
			switch {
			case stands(body, a.Name):
			case good && d.oneLine(a.SrcRange):
				e.Write(a.SrcRange, text)
			case !dialect.Named(a.Name):
				e.WriteBlock(a)
			}
		default:
			e, near := d.unknown(ofAttribute(a), a.Name, what, known, blocks)
			if t, ok := d.s.Raw(a.Expr); ok && t.Heredoc { // no other text has several lines
				d.meant[body] = append(d.meant[body], "chords")
			}
			d.meant[body] = append(d.meant[body], near)
			if slices.Contains(known, near) && body.Attributes[near] == nil {
				e.WriteWord(a.NameRange, near)
			}
		}
	}
	return out
}

// blocksOf are the known blocks of a body, in source order; others are reported.
func (d *decoder) blocksOf(body *hclsyntax.Body, what string, attrs, known []string) []*hclsyntax.Block {
	out := make([]*hclsyntax.Block, 0, len(body.Blocks))
	for _, b := range body.Blocks {
		switch {
		case slices.Contains(known, b.Type):
			out = append(out, b)
		case slices.Contains(insideAttrs, b.Type) && slices.Contains(known, "bars") && len(b.Labels) == 1:
			d.rep.Errorf(b.TypeRange, "A value for some bars", "What holds in some bars stands in a bars block: "+
				"bars %q { %s }.", wholeBars(d.label(b, "a place").v), d.barsValue(b))
		case slices.Contains(attrs, b.Type):
			d.rep.Errorf(b.TypeRange, "A value written as a block", "Write it with an equals sign: %s = …", b.Type)
			d.meant[body] = append(d.meant[body], b.Type)
		default:
			e, near := d.unknown(ofBlock(b), b.Type, what, attrs, known)
			d.meant[body] = append(d.meant[body], near)
			if body == d.top && near == "" {
				d.meant[body] = append(d.meant[body], "section")
			}
			if slices.Contains(known, near) && dialect.Named(near) == (len(b.Labels) == 1) && !stands(body, near) {
				e.WriteWord(b.TypeRange, near)
			}
		}
	}
	return out
}

// valuesOf are the attributes of a body that has no blocks.
func (d *decoder) valuesOf(body *hclsyntax.Body, what string, known []string) []*hclsyntax.Attribute {
	d.blocksOf(body, what, known, nil)
	return d.attrsOf(body, what, known, nil)
}

// stands reports whether a block that is allowed only once is already there.
func stands(body *hclsyntax.Body, word string) bool {
	return word != "section" && word != "vocal" && slices.Contains(topBlocks, word) &&
		slices.ContainsFunc(body.Blocks, func(b *hclsyntax.Block) bool { return b.Type == word })
}

// unknown adds an error for a name that does not belong where it stands. It offers the word that
// such a thing has there, or the nearest name that does, or says which block the name belongs in.
func (d *decoder) unknown(t thing, name, what string, attrs, blocks []string) (e hcltext.Entry, near string) {
	summary := fmt.Sprintf("No %q in %s", name, what)
	if what == "a song" && name == "groove" && t.value == nil {
		return d.rep.Errorf(t.name, "A groove in a song file",
			"A groove stands in a file of its own, which the song names: grooves = [\"my.groove.hcl\"]."), ""
	}
	if (name == "break" || name == "drum_break" || name == "breakdown") && !strings.Contains(t.label, ":") {
		return d.rep.Errorf(t.name, summary, "%s", breakMeant(t.label)), ""
	}
	if form := calledIn(what, strings.ToLower(name)); form != "" {
		return d.perhaps(summary, form, t), ""
	}
	aside := map[string]string{
		"a section": "A section of that name is a block of its own, beside this one",
		"a song":    "A part of the song is a section of that name",
	}[what]
	if aside != "" && partOfSong(name) {
		return d.rep.Errorf(t.name, summary, "%s: section %q { … }.", aside, strings.ToLower(name)), ""
	}
	if what == "the form" && partOfSong(name) {
		return d.rep.Errorf(t.name, summary, "What is played stands behind play: play %q {}.", name), ""
	}
	if where := home(name); where != "" {
		return d.rep.Errorf(t.name, summary, "It belongs %s.", where), ""
	}
	known := slices.Concat(attrs, blocks)
	if n := wording.Nearest(name, known); n != "" {
		a := isIt(n)
		return d.rep.Errorf(t.name, summary, "%s", a.says), a.word
	}
	if len(known) == 0 {
		return d.rep.Errorf(t.name, summary, "Nothing may stand here."), ""
	}
	return d.rep.Errorf(t.name, summary, "What may stand here: %s.", strings.Join(known, ", ")), ""
}

// blockForm shows how a block is written.
func blockForm(name string) string {
	switch {
	case name == "section", name == "play":
		return name + ` "NAME" { … }`
	case name == "vocal":
		return `vocal "FILE.mid" { … }`
	case name == "bars":
		return `bars "5-8" { … }`
	case name == "rit":
		return `rit "7-8" { to = 64 }`
	case name == "accel":
		return `accel "7-8" { to = 96 }`
	case name == "cue":
		return `cue "3: 1" { text = "lights" }`
	case slices.Contains(eventWords, name):
		return name + ` "4: 3" { … }`
	}
	return name + " { … }"
}

// breakMeant says how a break is written at some bars: all stop, or the drums go on alone.
func breakMeant(label string) string {
	bars := wholeBars(label)
	return fmt.Sprintf("Where the drums go on alone it is bars %q { tacet = [\"bass\", \"piano\"] }, and where all "+
		"stop, stop \"%s: 1\" {}.", bars, strings.TrimSuffix(bars, "-"))
}

// barsValue shows how an attribute is written in a bars block, with the value that a block of its
// name has under another word, as in tempo "7-8" { to = 50 }.
func (d *decoder) barsValue(b *hclsyntax.Block) string {
	for _, a := range b.Body.Attributes {
		if len(b.Body.Attributes) == 1 && d.oneLine(a.SrcRange) && d.accepts(b.Type, a.Expr) {
			return b.Type + " = " + d.show(a.Expr.Range())
		}
	}
	return map[string]string{"chords": `chords = "| C | F |"`, "key": `key = "Eb"`, "tempo": "tempo = 58",
		"feel": `feel = "swing"`, "energy": "energy = 4", "tacet": `tacet = ["drums"]`,
		"meter": `meter = "3/4", and chords on the next line`}[b.Type]
}

// wholeBars are the bars of a place without its counts, or bars to show where it has none.
func wholeBars(place string) string {
	bars, _, _ := strings.Cut(place, ":")
	if bars = strings.TrimSpace(bars); goodLabel("bars", bars) {
		return bars
	}
	return "5-8"
}

// label is the only label of a block, nil after an error. missing is what a message calls it.
func (d *decoder) label(b *hclsyntax.Block, missing string) *said[string] {
	switch {
	case len(b.Labels) == 0:
		d.rep.Errorf(b.TypeRange, wording.Sentence("%s without %s", b.Type, missing), "Write it in quotes: %s.",
			blockForm(b.Type))
		return nil
	case len(b.Labels) > 1:
		d.rep.Errorf(b.LabelRanges[1], "Too many names", "Only one text stands here: %s.", blockForm(b.Type))
		return nil
	}
	rng := b.LabelRanges[0]
	t := hcltext.RawText{Lo: rng.Start.Byte, Hi: rng.End.Byte}
	if t.Hi-t.Lo >= 2 && d.s.Src[t.Lo] == '"' {
		t.Lo, t.Hi = t.Lo+1, t.Hi-1
	}
	return &said[string]{d.s.TextOf(t), rng}
}

// noLabel reports the labels of a block that must not have any.
func (d *decoder) noLabel(b *hclsyntax.Block) {
	if len(b.Labels) > 0 {
		if slices.Contains(bandBlocks, b.Type) && silence[strings.ToLower(b.Labels[0])] {
			d.rep.Errorf(b.LabelRanges[0], "A name too many", "Who keeps out is said by %s.", keepOut(b.Type))
			return
		}
		form, good := d.asBlock(b.Type, nil, b.Labels[0])
		if good && len(b.Labels) == 1 && len(b.Body.Attributes)+len(b.Body.Blocks) == 0 {
			d.rep.Errorf(b.LabelRanges[0], "A name too many", "Write %s.", form).Write(ofBlock(b).whole, form)
			return
		}
		e := d.rep.Errorf(b.LabelRanges[0], "A name too many", "Write it without: %s.", blockForm(b.Type))
		if len(b.Labels) == 1 {
			e.Write(hcl.RangeBetween(b.TypeRange, b.LabelRanges[0]), b.Type)
		}
	}
}

// once reports the second of a block that is allowed only once. lines has the line of each
// block before.
func (d *decoder) once(b *hclsyntax.Block, lines map[string]int) bool {
	line, again := lines[b.Type]
	if again {
		d.rep.Errorf(b.TypeRange, fmt.Sprintf("A second %s block", b.Type),
			"The first stands on line %d; put everything into one.", line)
	} else {
		lines[b.Type] = d.s.LineOf(b.TypeRange.Start.Byte)
	}
	return !again
}

// baseName is a path's last part without .song.hcl or .hcl.
func baseName(path string) string {
	base := filepath.Base(filepath.ToSlash(path))
	for _, ext := range []string{".song.hcl", ".hcl"} {
		if name, cut := strings.CutSuffix(base, ext); cut && name != "" {
			return name
		}
	}
	return base
}
