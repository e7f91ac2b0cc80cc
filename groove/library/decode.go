package library

import (
	"slices"
	"strings"
	"unicode"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
)

// decoder reads one file and collects everything that is wrong with it.
type decoder struct {
	src      *hcltext.Source
	rep      hcltext.Report
	anyMeter bool            // the groove at hand is for any meter
	clashes  map[string]bool // reported: by what clashes, and where it is written
	// families that a groove of this file may name, built-in ones included.
	families []string
}

// Decode reads a groove file: grooves, and fills in families. Name is the file's
// name as messages give it and as the feels carry it. Every mistake is in diags,
// at its line and column, sorted; where there is an error, feels and fills hold
// what could be read and are not to be played.
func Decode(name string, src []byte) (feels []*feel.Feel, fills []feel.Fill, diags hcl.Diagnostics) {
	s := hcltext.NewSource(name, src)
	if diags := guard(s); diags.HasErrors() {
		return nil, nil, diags
	}
	return decode(s)
}

// decode is Decode without the guard: for the library's own files.
func decode(s *hcltext.Source) (feels []*feel.Feel, fills []feel.Fill, diags hcl.Diagnostics) {
	body, diags := s.Parse()
	if diags.HasErrors() {
		// What follows from a file that does not parse would only be noise.
		return nil, nil, s.Syntax(diags, &dialect)
	}
	d := &decoder{src: s, rep: hcltext.Report{Source: s}, families: Families(),
		clashes: map[string]bool{}}
	for _, a := range hcltext.Attributes(body) {
		d.rep.Errorf(a.NameRange, "Nothing can be set here", "A groove file holds groove and fills blocks, and no "+
			"settings of its own; %s belongs inside one of them.", a.Name)
	}
	if len(body.Blocks) == 0 {
		d.rep.Errorf(s.Range(0, 0), "No groove here",
			"A groove file holds at least one groove \"NAME\" { … } or fills \"FAMILY\" { … }.")
	}
	firstFamily, firstGroove := map[string]hcl.Range{}, map[string]hcl.Range{}
	for _, b := range body.Blocks {
		if b.Type != "fills" {
			continue
		}
		label, ok := d.label(b, "FAMILY")
		if !ok || d.twice(firstFamily, label, b, "fills") {
			continue
		}
		if !slices.Contains(d.families, label) {
			d.families = append(d.families, label)
		}
		fills = append(fills, d.fillFamily(b, label)...)
	}
	for _, b := range body.Blocks {
		switch b.Type {
		case "fills":
		case "groove":
			label, ok := d.label(b, "NAME")
			if !ok || d.twice(firstGroove, label, b, "groove") {
				continue
			}
			if f := d.groove(b, label); f != nil {
				f.File = s.Name
				feels = append(feels, f)
			}
		default:
			d.stray(b, "A groove file", nil, []string{"groove", "fills"})
		}
	}
	return feels, fills, d.rep.Sorted()
}

// label is the one name a block carries.
func (d *decoder) label(b *hclsyntax.Block, what string) (string, bool) {
	switch {
	case len(b.Labels) == 0:
		d.rep.Errorf(b.DefRange(), "A name is missing", "Write one name in quotes: %s %q { … }.", b.Type, what)
		return "", false
	case len(b.Labels) > 1:
		d.rep.Errorf(b.LabelRanges[1], "Too many names", "Write one name, all of it in quotes: %s %q { … }.", b.Type,
			strings.Join(b.Labels, " "))
		return "", false
	}
	name := b.Labels[0]
	if name == "" || len(name) > 40 || strings.IndexFunc(name, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' && r != '_' && r != ' '
	}) >= 0 || strings.TrimSpace(name) != name {
		d.rep.Errorf(b.LabelRanges[0], "Not a name", "A name is 1 to 40 letters, digits, blanks and hyphens.")
		return "", false
	}
	return name, true
}

// twice reports a second block of one name, and where the first is.
func (d *decoder) twice(seen map[string]hcl.Range, name string, b *hclsyntax.Block, what string) bool {
	if first, ok := seen[name]; ok {
		d.rep.Errorf(b.LabelRanges[0], "The same name twice",
			"%s %q stands in line %d already. Give one of them another name.", what, name, first.Start.Line)
		return true
	}
	seen[name] = b.LabelRanges[0]
	return false
}

// unknown reports an attribute that a block does not take.
func (d *decoder) unknown(b *hclsyntax.Block, a *hclsyntax.Attribute, where string, known []string) {
	if form := blockForms[a.Name]; form != "" {
		e := d.rep.Errorf(a.NameRange, "A block written as a value", "Write it without the equals sign: %s.", form)
		again := slices.ContainsFunc(b.Body.Blocks, func(x *hclsyntax.Block) bool { return x.Type == a.Name })
		here := where == "A groove" && a.Name == "lag" || where == "A level" && a.Name == "answer"
		if here && !again {
			e.WriteBlock(a)
		}
		return
	}
	says, word := hint(a.Name, known)
	e := d.rep.Errorf(a.NameRange, "Unknown word", "%s has no %q.%s", where, a.Name, says)
	if b.Body.Attributes[word] == nil {
		e.WriteWord(a.NameRange, word)
	}
}

// oneOf reports a text that is none of those there are; false when it is none.
func (d *decoder) oneOf(known []string, text string, at hcl.Range, summary, thing string) bool {
	if slices.Contains(known, text) {
		return true
	}
	says, word := hint(text, known)
	d.rep.Errorf(at, summary, "There is no %s %q.%s", thing, text, says).WriteText(at, word)
	return false
}
