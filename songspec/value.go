package songspec

import (
	"math/big"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// decoder reads values out of HCL's tree.
type decoder struct {
	s    *hcltext.Source
	rep  hcltext.Report
	read *hcltext.Recovered // nil where the parser read everything

	// meant are, by body, words that stand there misspelt, or in a way that cannot be used.
	meant map[*hclsyntax.Body][]string
	top   *hclsyntax.Body

	landings   []*landing // in the order of reading
	badPicture bool       // its picture block has a mistake

	fraction *said[meter.BPM] // the first tempo that is not of whole beats
	guided   *said[meter.BPM] // the first tempo that is the guide's
}

// unread reports whether one of the words stands in a body in a way that could not be read: then
// nothing follows from its absence.
func (d *decoder) unread(body *hclsyntax.Body, words ...string) bool {
	return d.read.Cut(body, words...) ||
		slices.ContainsFunc(d.meant[body], func(w string) bool { return slices.Contains(words, w) })
}

// show is a value as it stands in the file, cut to a length that fits a message.
func (d *decoder) show(rng hcl.Range) string {
	text := d.written(rng)
	if end := strings.IndexAny(text, "\r\n"); end >= 0 {
		text = text[:end]
	}
	return wording.Clip(text, 24)
}

// written is the text in a range of the file.
func (d *decoder) written(rng hcl.Range) string { return string(d.s.Src[rng.Start.Byte:rng.End.Byte]) }

// unquoted is a value as it stands in the file, without quotes and the blanks beside them.
func (d *decoder) unquoted(expr hclsyntax.Expression) string {
	return strings.Trim(d.written(expr.Range()), "\" \t")
}

var plainNumber = pattern(`^-?[0-9]+(\.[0-9]+)?$`)

var nameBefore = pattern(`([a-z_]+)[ \t]*=[ \t]*$`)

// nameOf is the name of the value that stands in a range; "" for a value in a list.
func (d *decoder) nameOf(rng hcl.Range) string {
	before := d.s.Src[max(0, rng.Start.Byte-32):rng.Start.Byte]
	if m := nameBefore().FindSubmatch(before); m != nil {
		return string(m[1])
	}
	return ""
}

// set shows how a value is written that is to stand in a range, with its name where it has one.
func (d *decoder) set(rng hcl.Range, value string) string {
	if name := d.nameOf(rng); name != "" {
		return name + " = " + value
	}
	return value
}

// freeTexts are the values that any text may be.
var freeTexts = []string{"title", "by", "name", "track", "vamp", "text", "only", "like"}

// joined is a list of texts, or of bars, as the one text that was perhaps meant.
func (d *decoder) joined(list *hclsyntax.TupleConsExpr) (one string, ok bool) {
	var items []string
	for _, x := range list.Exprs {
		text := d.plainText(x)
		if text == "" {
			text = d.show(x.Range())
			if !figure().MatchString(text) {
				return "", false
			}
		}
		items = append(items, text)
	}
	one = strings.Join(items, ", ")
	switch name := d.nameOf(list.Range()); name {
	case "only":
		ok = goodLabel("bars", one)
	case "by":
		ok = len(items) < 6
	default:
		ok = len(items) == 1 && d.accepts(name, list.Exprs[0])
	}
	return hcltext.Quote(one), ok
}

// constant evaluates an expression that is a plain value or a sum of plain
// numbers; anything else is reported with help, which fits the attribute. word is the message
// about a word without quotes; "" where text is expected, and the message asks for quotes.
func (d *decoder) constant(expr hclsyntax.Expression, word, help string) (v cty.Value, ok bool) {
	rng := expr.Range()
	refuse := func(summary, detail string, args ...any) (cty.Value, bool) {
		d.rep.Errorf(rng, summary, detail, args...)
		return cty.NilVal, false
	}
	switch e := expr.(type) {
	case *hclsyntax.ScopeTraversalExpr:
		if word != "" {
			return refuse(word, "%s", help)
		}
		d.rep.Errorf(rng, "A word without quotes", "Text stands in quotes. Write %s.",
			d.set(rng, "\""+d.show(rng)+"\"")).WriteText(rng, d.written(rng))
		return cty.NilVal, false
	case *hclsyntax.TupleConsExpr:
		if one, ok := d.joined(e); ok && word == "" {
			d.rep.Errorf(rng, "A list where one value belongs", "Write %s.", d.set(rng, one)).Write(rng, one)
			return cty.NilVal, false
		}
		return refuse("A list where one value belongs", "%s", help)
	case *hclsyntax.ObjectConsExpr:
		return refuse("Braces where a value belongs", "%s", help)
	case *hclsyntax.LiteralValueExpr:
		if e.Val.IsNull() {
			return refuse("Null is no value", "Leave the line out instead. %s", help)
		}
		if !plain(e) {
			return refuse("Out of all bounds", "%s", help)
		}
	}
	if !plain(expr) {
		return refuse("Not a plain value", "Only numbers, text in quotes, true, false and lists stand here. %s",
			help)
	}
	v, diags := expr.Value(nil)
	if diags.HasErrors() {
		return refuse("Not a value", "\"%s\" comes to nothing. %s", d.show(rng), help)
	}
	return v, true
}

// plain reports whether an expression has only literals, signs and arithmetic, and numbers of
// a reasonable size: HCL would use the gigabytes that 1e999999999 + 1 needs.
func plain(expr hclsyntax.Expression) bool {
	switch e := expr.(type) {
	case *hclsyntax.LiteralValueExpr:
		return !e.Val.IsNull() && (e.Val.Type() != cty.Number || handy(e.Val.AsBigFloat()))
	case *hclsyntax.TemplateExpr:
		return !slices.ContainsFunc(e.Parts, func(part hclsyntax.Expression) bool {
			_, literal := part.(*hclsyntax.LiteralValueExpr)
			return !literal
		})
	case *hclsyntax.ParenthesesExpr:
		return plain(e.Expression)
	case *hclsyntax.UnaryOpExpr:
		return plain(e.Val)
	case *hclsyntax.BinaryOpExpr:
		switch e.Op {
		case hclsyntax.OpAdd, hclsyntax.OpSubtract, hclsyntax.OpMultiply, hclsyntax.OpDivide:
			return plain(e.LHS) && plain(e.RHS)
		}
	}
	return false
}

// handy reports whether a number is between 2^-200 and 2^200, or 0.
func handy(f *big.Float) bool {
	e := f.MantExp(nil)
	return !f.IsInf() && e > -200 && e < 200
}

// text reads quoted text of at most most characters, without line breaks.
func (d *decoder) text(expr hclsyntax.Expression, most int, help string) *said[string] {
	rng := expr.Range()
	v, ok := d.constant(expr, "", help)
	if !ok {
		return nil
	}
	if v.Type() == cty.Number && slices.Contains(freeTexts, d.nameOf(rng)) {
		d.rep.Errorf(rng, "Text needs quotes", "Write %s.", d.set(rng, "\""+d.show(rng)+"\"")).
			WriteText(rng, d.written(rng))
		return nil
	} else if v.Type() != cty.String {
		d.rep.Errorf(rng, "No text in quotes", "%s", help)
		return nil
	}
	raw, ok := d.s.Raw(expr)
	if !ok {
		d.rep.Errorf(rng, "Not a plain text", "%s", help)
		return nil
	}
	s := d.s.TextOf(raw)
	if raw.Heredoc {
		s = strings.TrimSpace(s)
	}
	if n := utf8.RuneCountInString(s); n > most {
		d.rep.Errorf(rng, "Text too long", "At most %d characters may stand here; these are %d.", most, n)
		return nil
	}
	if hasControl(s) {
		d.rep.Errorf(rng, "Control character in a text",
			"Line breaks and other control characters cannot stand here. %s", help)
		return nil
	}
	return &said[string]{s, rng}
}

func hasControl(s string) bool { return strings.ContainsFunc(s, unicode.IsControl) }

// truths are the words for true and false.
var truths = map[string]string{"true": "true", "yes": "true", "on": "true", "1": "true",
	"false": "false", "no": "false", "off": "false", "none": "false", "0": "false"}

// flag reads true or false.
func (d *decoder) flag(expr hclsyntax.Expression, name string) *said[bool] {
	rng := expr.Range()
	if word, ok := truths[strings.ToLower(d.unquoted(expr))]; ok && d.written(rng) != word {
		summary := "Neither true nor false"
		if d.written(rng) == "\""+word+"\"" {
			summary = wording.Sentence("%s in quotes", word)
		}
		d.rep.Errorf(rng, summary, "Write %s.", d.set(rng, word)).Write(rng, word)
		return nil
	}
	help := name + " is true or false, without quotes."
	v, ok := d.constant(expr, "Neither true nor false", help)
	if !ok {
		return nil
	}
	if v.Type() != cty.Bool {
		d.rep.Errorf(rng, "Neither true nor false", "%s", help)
		return nil
	}
	return &said[bool]{v.True(), rng}
}

// list returns the elements of a list such as [a, b].
func (d *decoder) list(expr hclsyntax.Expression, help string) ([]hclsyntax.Expression, bool) {
	t, ok := expr.(*hclsyntax.TupleConsExpr)
	if !ok {
		rng := expr.Range()
		items := strings.FieldsFunc(d.plainText(expr), func(r rune) bool { return r == ',' || r == ';' })
		if _, bare := expr.(*hclsyntax.ScopeTraversalExpr); bare {
			items = []string{d.written(rng)}
		}
		for i, x := range items {
			items[i] = hcltext.Quote(strings.TrimSpace(x))
		}
		if list := "[" + strings.Join(items, ", ") + "]"; len(items) > 0 && len(list) < 60 {
			d.rep.Errorf(rng, "A list belongs here", "Write %s.", d.set(rng, list)).Write(rng, list)
			return nil, false
		}
		d.rep.Errorf(rng, "A list belongs here", "%s", help)
		return nil, false
	}
	return t.Exprs, true
}
