package songspec

import (
	"math/big"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
	"github.com/zclconf/go-cty/cty/convert"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// decoder reads values out of HCL's tree.
type decoder struct {
	s   *hcltext.Source
	rep hcltext.Report
}

// show is a value as it stands in the file, cut to a length that fits a message.
func (d *decoder) show(rng hcl.Range) string {
	lo, hi := rng.Start.Byte, rng.End.Byte
	if lo < 0 || hi > len(d.s.Src) || lo >= hi {
		return ""
	}
	b := d.s.Src[lo:hi]
	if i := strings.IndexAny(string(b), "\r\n"); i >= 0 {
		b = b[:i]
	}
	r := []rune(string(b))
	if len(r) > 24 {
		return string(r[:24]) + "…"
	}
	return string(r)
}

// written is what stands in a range of the file.
func (d *decoder) written(rng hcl.Range) string { return string(d.s.Src[rng.Start.Byte:rng.End.Byte]) }

var plainNumber = pattern(`^-?[0-9]+(\.[0-9]+)?$`)

// constant evaluates an expression that is a plain value or a sum of plain
// numbers; anything else is reported with the help that fits the attribute.
func (d *decoder) constant(expr hclsyntax.Expression, help string) (cty.Value, bool) {
	rng := expr.Range()
	switch e := expr.(type) {
	case *hclsyntax.ScopeTraversalExpr:
		d.rep.Errorf(rng, "A word without quotes", "Text stands in quotes: \"%s\". %s", d.show(rng), help).
			WriteText(rng, d.written(rng))
		return cty.NilVal, false
	case *hclsyntax.TupleConsExpr:
		d.rep.Errorf(rng, "A list where one value belongs", "%s", help)
		return cty.NilVal, false
	case *hclsyntax.ObjectConsExpr:
		d.rep.Errorf(rng, "Braces where a value belongs", "%s", help)
		return cty.NilVal, false
	case *hclsyntax.LiteralValueExpr:
		if e.Val.IsNull() {
			d.rep.Errorf(rng, "Null is no value", "Leave the line out instead. %s", help)
			return cty.NilVal, false
		}
		if e.Val.Type() == cty.Number && !handy(e.Val.AsBigFloat()) {
			d.rep.Errorf(rng, "Out of all bounds", "%s", help)
			return cty.NilVal, false
		}
	}
	if !plain(expr) {
		d.rep.Errorf(rng, "Not a plain value",
			"A song file holds plain values only: no names, functions or conditions. %s", help)
		return cty.NilVal, false
	}
	v, diags := expr.Value(nil)
	if diags.HasErrors() || v.IsNull() || !v.IsKnown() {
		d.rep.Errorf(rng, "Not a value", "\"%s\" comes to nothing. %s", d.show(rng), help)
		return cty.NilVal, false
	}
	return v, true
}

// isWord reports a bare word. Where text belongs it wants quotes, elsewhere
// quotes would not help.
func isWord(expr hclsyntax.Expression) bool {
	_, ok := expr.(*hclsyntax.ScopeTraversalExpr)
	return ok
}

// plain reports an expression made of literals, signs and arithmetic alone, with
// numbers of a size that can be reckoned with: HCL would take the gigabytes that
// 1e999999999 + 1 needs.
func plain(expr hclsyntax.Expression) bool {
	switch e := expr.(type) {
	case *hclsyntax.LiteralValueExpr:
		return !e.Val.IsNull() && (e.Val.Type() != cty.Number || handy(e.Val.AsBigFloat()))
	case *hclsyntax.TemplateExpr:
		return e.IsStringLiteral() || len(e.Parts) == 0 || allLiteral(e.Parts)
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

// handy reports a number between 2^-200 and 2^200, or 0.
func handy(f *big.Float) bool {
	e := f.MantExp(nil)
	return !f.IsInf() && e > -200 && e < 200
}

func allLiteral(parts []hclsyntax.Expression) bool {
	for _, p := range parts {
		if _, ok := p.(*hclsyntax.LiteralValueExpr); !ok {
			return false
		}
	}
	return true
}

// text reads quoted text of at most most characters, without line breaks.
func (d *decoder) text(expr hclsyntax.Expression, most int, help string) (*text, bool) {
	rng := expr.Range()
	v, ok := d.constant(expr, help)
	if !ok {
		return nil, false
	}
	if v.Type() != cty.String {
		d.rep.Errorf(rng, "Text needs quotes", "Write \"%s\". %s", d.show(rng), help).WriteText(rng, d.written(rng))
		return nil, false
	}
	raw, ok := d.s.Raw(expr)
	if !ok {
		d.rep.Errorf(rng, "Not a plain text", "%s", help)
		return nil, false
	}
	s := d.s.TextOf(raw)
	if raw.Heredoc {
		s = strings.TrimSpace(s)
	}
	if n := len([]rune(s)); n > most {
		d.rep.Errorf(rng, "Text too long", "At most %d characters may stand here; these are %d.", most, n)
		return nil, false
	}
	for _, r := range s {
		if r < 0x20 || r >= 0x7f && r < 0xa0 {
			d.rep.Errorf(rng, "Control character in a text",
				"Line breaks and other control characters cannot stand here. %s", help)
			return nil, false
		}
	}
	return &text{s, rng}, true
}

// number reads a finite number. A number in quotes is taken, with a warning.
func (d *decoder) number(expr hclsyntax.Expression, help string) (*big.Float, bool) {
	rng := expr.Range()
	if isWord(expr) {
		d.rep.Errorf(rng, "Not a number", "%s", help)
		return nil, false
	}
	v, ok := d.constant(expr, help)
	if !ok {
		return nil, false
	}
	if v.Type() == cty.String {
		n, err := convert.Convert(cty.StringVal(strings.TrimSpace(v.AsString())), cty.Number)
		if err != nil || !handy(n.AsBigFloat()) {
			d.rep.Errorf(rng, "Not a number", "%s", help)
			return nil, false
		}
		e := d.rep.Warnf(rng, "A number in quotes", "It is taken as the number; write it without quotes.")
		if digits := strings.Trim(d.written(rng), "\" "); plainNumber().MatchString(digits) {
			e.Write(rng, digits)
		}
		v = n
	}
	if v.Type() != cty.Number {
		d.rep.Errorf(rng, "Not a number", "%s", help)
		return nil, false
	}
	f := v.AsBigFloat()
	if f.IsInf() {
		d.rep.Errorf(rng, "Not a finite number", "\"%s\" has no end, as a division by zero has none. %s", d.show(rng),
			help)
		return nil, false
	}
	return f, true
}

// whole reads a whole number from lo to hi. name is the thing in words, with its
// article: "the tempo".
func (d *decoder) whole(expr hclsyntax.Expression, name string, lo, hi int) (*whole, bool) {
	rng := expr.Range()
	f, ok := d.number(expr, wording.Sentence("%s is a whole number from %d to %d.", name, lo, hi))
	if !ok {
		return nil, false
	}
	if f.Cmp(big.NewFloat(float64(lo))) < 0 || f.Cmp(big.NewFloat(float64(hi))) > 0 {
		d.rep.Errorf(rng, "Out of bounds", "%s",
			wording.Sentence("%s is a whole number from %d to %d, not %s.", name, lo, hi, d.show(rng)))
		return nil, false
	}
	if !f.IsInt() {
		n, _ := f.Int64()
		d.rep.Errorf(rng, "Not a whole number", "%s",
			wording.Sentence("%s is a whole number: %d, or %d.", name, n, min(n+1, int64(hi))))
		return nil, false
	}
	n, _ := f.Int64()
	return &whole{int(n), rng}, true
}

// perMille reads a number from 0 to 1 in thousandths, rounded half up.
func (d *decoder) perMille(expr hclsyntax.Expression, name string) (*whole, bool) {
	rng := expr.Range()
	f, ok := d.number(expr, wording.Sentence("%s is a number from 0 to 1, like 0.4.", name))
	if !ok {
		return nil, false
	}
	if f.Sign() < 0 || f.Cmp(big.NewFloat(1)) > 0 {
		d.rep.Errorf(rng, "Out of bounds", "%s",
			wording.Sentence("%s is a number from 0 to 1, like 0.4, not %s.", name, d.show(rng)))
		return nil, false
	}
	r := ratio(f)
	r.Mul(r, big.NewRat(1000, 1)).Add(r, big.NewRat(1, 2))
	return &whole{int(new(big.Int).Quo(r.Num(), r.Denom()).Int64()), rng}, true
}

// beatGrid is what beats may be divided into: 960 ticks, or 1440 in compound
// meters, hold 48ths of a beat evenly.
const beatGrid = 48

// beats reads a number of beats over 0 (or from 0 with zero) to most. It need
// not be whole, but a whole number of 48ths.
func (d *decoder) beats(expr hclsyntax.Expression, name string, most int, zero bool) (*fraction, bool) {
	rng := expr.Range()
	over := "over 0 up to"
	if zero {
		over = "from 0 to"
	}
	f, ok := d.number(expr, wording.Sentence("%s is a number of beats %s %d.", name, over, most))
	if !ok {
		return nil, false
	}
	if f.Sign() < 0 || f.Sign() == 0 && !zero || f.Cmp(big.NewFloat(float64(most))) > 0 {
		d.rep.Errorf(rng, "Out of bounds", "%s",
			wording.Sentence("%s is a number of beats %s %d, not %s.", name, over, most, d.show(rng)))
		return nil, false
	}
	r := ratio(f)
	r.Mul(r, big.NewRat(beatGrid, 1)).Add(r, big.NewRat(1, 2))
	n := new(big.Int).Quo(r.Num(), r.Denom())
	// 1/3 has no end as a decimal, so a thousandth of a 48th is forgiven.
	off := new(big.Rat).Sub(r, new(big.Rat).Add(new(big.Rat).SetInt(n), big.NewRat(1, 2)))
	if off.Abs(off).Cmp(big.NewRat(1, 1000)) > 0 {
		d.rep.Errorf(rng, "A beat cut too fine", "%s",
			wording.Sentence("%s is in whole beats or even parts of one: 2, 1.5, 0.25, 1/3.", name))
		return nil, false
	}
	return &fraction{n.Int64(), beatGrid, rng}, true
}

// ratio is f as a fraction of bounded size: f has been found to be small, but
// could still be 1e-1000000.
func ratio(f *big.Float) *big.Rat {
	g := new(big.Float).SetPrec(200).Set(f)
	if g.MantExp(nil) < -200 {
		return new(big.Rat)
	}
	r, _ := g.Rat(nil)
	return r
}

// flag reads true or false.
func (d *decoder) flag(expr hclsyntax.Expression, name string) (*boolean, bool) {
	rng := expr.Range()
	help := name + " is true or false, without quotes."
	if isWord(expr) {
		d.rep.Errorf(rng, "Neither true nor false", "%s", help)
		return nil, false
	}
	v, ok := d.constant(expr, help)
	if !ok {
		return nil, false
	}
	if v.Type() != cty.Bool {
		e := d.rep.Errorf(rng, "Neither true nor false", "%s", help)
		if word := strings.Trim(d.written(rng), "\" "); word == "true" || word == "false" {
			e.Write(rng, word)
		}
		return nil, false
	}
	return &boolean{v.True(), rng}, true
}

// list takes [a, b] apart.
func (d *decoder) list(expr hclsyntax.Expression, help string) ([]hclsyntax.Expression, bool) {
	t, ok := expr.(*hclsyntax.TupleConsExpr)
	if !ok {
		e := d.rep.Errorf(expr.Range(), "A list belongs here", "%s", help)
		if _, ok := d.s.Raw(expr); ok && !strings.ContainsAny(d.written(expr.Range()), "<, ") {
			e.Write(expr.Range(), "["+d.written(expr.Range())+"]")
		}
		return nil, false
	}
	return t.Exprs, true
}
