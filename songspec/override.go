package songspec

import (
	"errors"
	"fmt"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"

	"plinth/songspec/hcltext"
)

// Override has values that replace what the top of a song file says, as a command line gives
// them; nil leaves the file's.
type Override struct {
	Looseness *int // per mille
	Take      *int
	Transpose *int // semitones
}

// Set reads a value as it would stand in the file after its name: "looseness", "take" or "transpose". It has
// the file's bounds, and the error is the file's message.
func (o *Override) Set(name, text string) error {
	d := &decoder{s: hcltext.NewSource("", []byte(text))}
	d.rep.Source = d.s
	expr := &hclsyntax.LiteralValueExpr{Val: cty.StringVal(text), SrcRange: d.s.Range(0, len(text))}
	to, read := &o.Looseness, (*decoder).looseness
	switch name {
	case "looseness":
	case "take":
		to, read = &o.Take, (*decoder).take
	case "transpose":
		to, read = &o.Transpose, (*decoder).transpose
	default:
		return fmt.Errorf("nothing replaces %s", name)
	}
	if got := read(d, expr); got != nil {
		*to = &got.v
		return nil
	}
	diags := d.rep.Diags // a warning that the number is in quotes may stand before
	return errors.New(diags[len(diags)-1].Detail)
}

// replaced is the value of an override; where there is none the one that the file states, and
// where that states none the usual one.
func replaced(override *int, stated *said[int], usual int) int {
	if override != nil {
		return *override
	}
	return or(stated, usual)
}

func (d *decoder) looseness(expr hclsyntax.Expression) *said[int] {
	return d.perMille(expr, "the looseness")
}

func (d *decoder) take(expr hclsyntax.Expression) *said[int] {
	return d.whole(expr, "the take", 0, 1000000)
}

func (d *decoder) transpose(expr hclsyntax.Expression) *said[int] {
	return d.whole(expr, "the transposition, in semitones,", -12, 12)
}
