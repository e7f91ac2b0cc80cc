package songspec

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// thing is an attribute or a block of a file, as it is written.
type thing struct {
	name  hcl.Range
	whole hcl.Range
	value hclsyntax.Expression // of an attribute
	label string               // of a block with one
	body  *hclsyntax.Body      // of a block
	inner hcl.Range            // of a block, its braces with what is between them
}

func ofAttribute(a *hclsyntax.Attribute) thing {
	return thing{name: a.NameRange, whole: a.SrcRange, value: a.Expr}
}

func ofBlock(b *hclsyntax.Block) thing {
	t := thing{name: b.TypeRange, whole: b.TypeRange, body: b.Body}
	if b.CloseBraceRange.End.Byte > 0 { // there is none where the head alone could be read
		t.whole = hcl.RangeBetween(b.TypeRange, b.CloseBraceRange)
		t.inner = hcl.RangeBetween(b.OpenBraceRange, b.CloseBraceRange)
	}
	if len(b.Labels) == 1 {
		t.label = b.Labels[0]
	}
	return t
}

// A form may have a remark after it: lift = 1, in a play.
var (
	valueForm = pattern(`^([a-z_]+) = ("[^"]*"|\[[^\]]*\]|[^ ",\[]+)(.*)$`)
	figure    = pattern(`^[0-9]+$`)
	blockLine = pattern(`^([a-z_]+) "[^"]*" (\{[^}]*\})(.*)$`)
)

// inWordsOf is a thing as it is written in the words of a form, such as tempo = 96 or
// hold "8: 1" {}: with its own value, place and options where those are good there, or else those of
// the form. own says that nothing but the form's word is to be written, and remark is what the form
// says after it.
func (d *decoder) inWordsOf(form string, t thing) (text, remark string, own bool) {
	if m := valueForm().FindStringSubmatch(form); m != nil {
		text, remark = m[1]+" = "+m[2], m[3]
		if t.value == nil || !d.accepts(m[1], t.value) {
			return text, remark, false
		}
		if strings.HasPrefix(remark, ", from ") { // the bounds of the value
			remark = ""
		}
		return m[1] + " = " + d.show(t.value.Range()), remark, remark == "" && d.oneLine(t.whole)
	}
	m := blockLine().FindStringSubmatch(form)
	if m == nil {
		return form, "", false
	}
	text, remark = strings.TrimSuffix(form, m[3]), m[3]
	label := t.label
	if t.value != nil {
		label = d.plainText(t.value)
	}
	if strings.Contains(form, `-" `) && figure().MatchString(label) { // from there on
		label += "-"
	}
	if !goodLabel(m[1], label) {
		return text, remark, false
	}
	options, good := m[2], t.body == nil || len(t.body.Attributes)+len(t.body.Blocks) == 0
	if !good && t.inner.End.Byte > 0 && d.oneLine(t.whole) && d.optionsOf(m[1], t.body) {
		options, good = d.written(t.inner), true
	}
	return fmt.Sprintf("%s %s %s", m[1], hcltext.Quote(label), options), remark,
		good && remark == "" && (options != m[2] || options == "{}")
}

// oneLine reports a range that has no line break, and is short enough to be shown.
func (d *decoder) oneLine(rng hcl.Range) bool {
	text := d.written(rng)
	return len(text) <= 100 && !strings.ContainsAny(text, "\r\n")
}

// plainText is what a text in quotes says; "" for anything else.
func (d *decoder) plainText(expr hclsyntax.Expression) string {
	if raw, ok := d.s.Raw(expr); ok && !raw.Heredoc {
		return d.s.TextOf(raw)
	}
	return ""
}

// goodLabel reports whether a text may be the name, or the place, of a block.
func goodLabel(word, label string) bool {
	var err error
	kind := slices.Index(eventWords, word)
	switch {
	case label == "":
		return false
	case word == "bars":
		_, err = meter.ParseRanges(label)
	case kind >= 0:
		_, err = placeOf(timeline.EventKind(kind), label)
	case word == "vocal":
		return strings.HasSuffix(strings.ToLower(label), ".mid")
	}
	return err == nil
}

// trial is a decoder for the same file whose reports nobody reads.
func (d *decoder) trial() *decoder {
	try := *d
	try.rep, try.meant = hcltext.Report{Source: d.s}, map[*hclsyntax.Body][]string{}
	return &try
}

// accepts reports whether an attribute may have a value.
func (d *decoder) accepts(name string, value hclsyntax.Expression) bool {
	try := d.trial()
	a := &hclsyntax.Attribute{Name: name, Expr: value, SrcRange: value.Range(), NameRange: value.Range()}
	_, list := value.(*hclsyntax.TupleConsExpr)
	switch {
	case name == "by" && list: // the song's writer is no list
		return d.acceptsOption(timeline.Accent, name, value)
	case try.setting(&settings{}, a):
	case slices.Contains(topAttrs, name):
		try.topAttr(&File{}, a)
	case name == "rate":
		try.frameRate(value)
	case name == "name":
		try.singerName(value)
	case slices.Contains(playAttrs, name):
		try.playAttr(&play{}, a)
	case name == "chords", name == "like", name == "start":
		return d.plainText(value) != ""
	default:
		kind := slices.IndexFunc(eventRules[:], func(r eventRule) bool { return slices.Contains(r.attrs, name) })
		return kind >= 0 && d.acceptsOption(timeline.EventKind(kind), name, value)
	}
	return len(try.rep.Diags) == 0
}

// acceptsOption reports whether an option of an event may have a value.
func (d *decoder) acceptsOption(kind timeline.EventKind, name string, value hclsyntax.Expression) bool {
	try := d.trial()
	return try.option(&event{kind: kind}, &hclsyntax.Attribute{Name: name, Expr: value}) && len(try.rep.Diags) == 0
}

// optionsOf reports whether a body may be that of an event, or of a bars block.
func (d *decoder) optionsOf(word string, body *hclsyntax.Body) bool {
	kind := slices.Index(eventWords, word)
	for name, a := range body.Attributes {
		if kind >= 0 {
			of := timeline.EventKind(kind)
			if !slices.Contains(eventRules[kind].attrs, name) || !d.acceptsOption(of, name, a.Expr) {
				return false
			}
		} else if !slices.Contains(insideAttrs, name) || !d.accepts(name, a.Expr) {
			return false
		}
	}
	return len(body.Blocks) == 0
}

// perhaps adds an error that offers another form for a thing, which is a fix where all that the
// thing says is good in that form. A form may also be a sentence that says what to do.
func (d *decoder) perhaps(summary, form string, t thing) hcltext.Entry {
	if first, _ := utf8.DecodeRuneInString(form); unicode.IsUpper(first) {
		return d.rep.Errorf(t.name, summary, "%s", form)
	}
	text, remark, own := d.inWordsOf(form, t)
	if own {
		e := d.rep.Errorf(t.name, summary, "Write %s.", text)
		e.Write(t.whole, text)
		return e
	}
	return d.rep.Errorf(t.name, summary, "Perhaps %s is meant%s.", text, remark)
}
