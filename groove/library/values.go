package library

import (
	"bytes"
	"cmp"
	"math/big"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// plain is the value of an expression that is written out: a quoted text, a
// number, true, false, null, or a list of these. Anything that would have to be
// worked out is refused, so that no file can make the decoder work.
func plain(expr hclsyntax.Expression) (cty.Value, bool) {
	switch e := expr.(type) {
	case *hclsyntax.LiteralValueExpr, *hclsyntax.TemplateExpr: // the guard lets no template through but text
	case *hclsyntax.ParenthesesExpr:
		return plain(e.Expression)
	case *hclsyntax.UnaryOpExpr:
		v, ok := plain(e.Val)
		if !ok || e.Op != hclsyntax.OpNegate || v.IsNull() || v.Type() != cty.Number {
			return cty.NilVal, false
		}
	case *hclsyntax.TupleConsExpr:
		for _, x := range e.Exprs {
			if _, ok := plain(x); !ok {
				return cty.NilVal, false
			}
		}
	default:
		return cty.NilVal, false
	}
	v, diags := expr.Value(nil)
	return v, !diags.HasErrors()
}

// value reads a plain value or reports what stands there instead.
func (d *decoder) value(a *hclsyntax.Attribute) (cty.Value, bool) {
	v, ok := plain(a.Expr)
	switch {
	case !ok:
		row := d.shortText(a.Expr.Range())
		if !isRow(a.Name) {
			row = ""
		}
		d.rep.Errorf(a.Expr.Range(), "Not a plain value",
			"%s takes a plain value. Words and rows stand in quotes: %s = \"%s\".", a.Name, a.Name, cmp.Or(row, "…")).
			WriteText(a.Expr.Range(), readableRow(a.Name, row))
		return cty.NilVal, false
	case v.IsNull():
		d.rep.Errorf(a.Expr.Range(), "Nothing here", "%s cannot be null. Leave the line out instead.", a.Name)
		return cty.NilVal, false
	}
	return v, true
}

// text reads a quoted text.
func (d *decoder) text(a *hclsyntax.Attribute) (string, bool) {
	v, ok := d.value(a)
	if !ok {
		return "", false
	}
	if v.Type() != cty.String {
		d.rep.Errorf(a.Expr.Range(), "Not a text", "%s takes a text in quotes: %s = \"…\".", a.Name, a.Name)
		return "", false
	}
	return v.AsString(), true
}

// words reads one quoted text or a list of them, each with its range.
func (d *decoder) words(a *hclsyntax.Attribute) (out []string, at []hcl.Range, ok bool) {
	exprs := []hclsyntax.Expression{a.Expr}
	if t, isList := a.Expr.(*hclsyntax.TupleConsExpr); isList {
		exprs = t.Exprs
	}
	for _, e := range exprs {
		v, good := plain(e)
		if !good || v.IsNull() || v.Type() != cty.String {
			help, word := "one or a list: "+a.Name+` = ["…", "…"]`, d.shortText(e.Range())
			if word != "" && len(exprs) == 1 {
				help = a.Name + ` = "` + word + `"`
			}
			d.rep.Errorf(e.Range(), "Not a text", "%s takes texts in quotes: %s.", a.Name, help).
				WriteText(e.Range(), word)
			return nil, nil, false
		}
		out, at = append(out, v.AsString()), append(at, e.Range())
	}
	return out, at, true
}

// shortText is the text at a place, "" when it is long or more than plain words.
func (d *decoder) shortText(r hcl.Range) string {
	lo, hi := r.Start.Byte, r.End.Byte
	if hi-lo > 40 || bytes.ContainsAny(d.src.Src[lo:hi], "\"[]{}()\r\n") {
		return ""
	}
	return string(d.src.Src[lo:hi])
}

// whole reads a whole number from low to high.
func (d *decoder) whole(a *hclsyntax.Attribute, low, high int) (int, bool) {
	v, ok := d.value(a)
	if !ok {
		return 0, false
	}
	n, good := wholeIn(v, low, high)
	if !good {
		d.rep.Errorf(a.Expr.Range(), "Not a number that fits", "%s is a whole number from %d to %d.",
			a.Name, low, high)
	}
	return n, good
}

// pair reads a list of two whole numbers, the first not above the second.
func (d *decoder) pair(a *hclsyntax.Attribute, low, high int) (lo, hi int, ok bool) {
	v, good := plain(a.Expr)
	if good && !v.IsNull() && v.Type().IsTupleType() && v.LengthInt() == 2 {
		var x, y bool
		lo, x = wholeIn(v.Index(cty.NumberIntVal(0)), low, high)
		hi, y = wholeIn(v.Index(cty.NumberIntVal(1)), low, high)
		if x && y && lo <= hi {
			return lo, hi, true
		}
	}
	d.rep.Errorf(a.Expr.Range(), "Not a range",
		"%s is a range of two whole numbers between %d and %d, the lower one first: %s = [%d, %d].", a.Name, low, high,
		a.Name, low, high)
	return 0, 0, false
}

// numberIn is a number from low to high, nil for anything else.
func numberIn(v cty.Value, low, high int) *big.Float {
	if v.IsNull() || v.Type() != cty.Number {
		return nil
	}
	f := v.AsBigFloat()
	if f.Cmp(big.NewFloat(float64(low))) < 0 || f.Cmp(big.NewFloat(float64(high))) > 0 {
		return nil
	}
	return f
}

func wholeIn(v cty.Value, low, high int) (int, bool) {
	f := numberIn(v, low, high)
	if f == nil || !f.IsInt() {
		return 0, false
	}
	n, _ := f.Int64()
	return int(n), true
}

// within is the range of the bytes from, to of a quoted text. A text that does
// not stand in the file as it reads (an escape, a heredoc) has no such places,
// and the whole of it is the range.
func (d *decoder) within(e hclsyntax.Expression, text string, from, to int) hcl.Range {
	r := e.Range()
	begin, end := r.Start.Byte+1, r.End.Byte-1
	if begin > end || string(d.src.Src[begin:end]) != text || r.Start.Line != r.End.Line {
		return r
	}
	return d.src.Range(begin+from, begin+to)
}
