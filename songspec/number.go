package songspec

import (
	"math/big"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
	"github.com/zclconf/go-cty/cty/convert"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// number reads a number, nil for anything else. A number in quotes is taken, with
// a warning.
func (d *decoder) number(expr hclsyntax.Expression, help string) *big.Float {
	rng := expr.Range()
	v, ok := d.constant(expr, "Not a number", help)
	if !ok {
		return nil
	}
	if v.Type() == cty.String {
		n, err := convert.Convert(cty.StringVal(strings.TrimSpace(v.AsString())), cty.Number)
		if err == nil && handy(n.AsBigFloat()) {
			e := d.rep.Warnf(rng, "A number in quotes", "It is taken as the number; write it without quotes.")
			if digits := d.unquoted(expr); plainNumber().MatchString(digits) {
				e.Write(rng, digits)
			}
			v = n
		}
	}
	if v.Type() != cty.Number {
		d.rep.Errorf(rng, "Not a number", "%s", help)
		return nil
	}
	f := v.AsBigFloat()
	if f.IsInf() {
		d.rep.Errorf(rng, "Not a number", "Nothing can be divided by 0, as in \"%s\". %s", d.show(rng), help)
		return nil
	}
	return f
}

// bounded reads a number from lo to hi, nil for anything else. rule says what the number is, as
// a sentence without its full stop.
func (d *decoder) bounded(expr hclsyntax.Expression, lo, hi int, rule string, args ...any) *big.Float {
	rule = wording.Sentence(rule, args...)
	f := d.number(expr, rule+".")
	if f != nil && (f.Cmp(big.NewFloat(float64(lo))) < 0 || f.Cmp(big.NewFloat(float64(hi))) > 0) {
		d.rep.Errorf(expr.Range(), "Out of bounds", "%s, not %s.", rule, d.show(expr.Range()))
		return nil
	}
	return f
}

// whole reads a whole number from lo to hi. name is the thing in words, with its
// article: "the tempo".
func (d *decoder) whole(expr hclsyntax.Expression, name string, lo, hi int) *said[int] {
	f := d.bounded(expr, lo, hi, "%s is a whole number from %d to %d", name, lo, hi)
	if f == nil {
		return nil
	}
	n, _ := f.Int64()
	if !f.IsInt() {
		d.rep.Errorf(expr.Range(), "Not a whole number", "%s",
			wording.Sentence("%s is a whole number: %d, or %d.", name, n, min(n+1, int64(hi))))
		return nil
	}
	return &said[int]{int(n), expr.Range()}
}

// metronomeMark is a tempo with its note in front, as in print.
var metronomeMark = pattern(`^[^=]*[^=\s][^=]*=\s*(\d+(?:\.\d+)?)\s*$`)

// tempo reads a tempo in thousandths of a beat a minute. name is the thing in words, with its
// article.
func (d *decoder) tempo(expr hclsyntax.Expression, name string) *said[meter.BPM] {
	if raw, ok := d.s.Raw(expr); ok {
		if m := metronomeMark().FindStringSubmatch(d.s.TextOf(raw)); m != nil {
			d.rep.Errorf(expr.Range(), "Not a number", "A tempo is the number alone, %s: it counts halves in 2/2, "+
				"3/2 and 4/2, dotted quarters in 6/8, 9/8 and 12/8, and quarters in all other meters.", m[1])
			return nil
		}
	}
	f := d.bounded(expr, MinTempo, MaxTempo, "%s is a number from %d to %d", name, MinTempo, MaxTempo)
	if f == nil {
		return nil
	}
	n, off := parts(f, 1000)
	t := &said[meter.BPM]{meter.BPM(n), expr.Range()}
	if off.Cmp(big.NewRat(1, 1000)) > 0 { // a decimal is not exact in binary, and off by less
		d.rep.Errorf(t.rng, "A tempo cut too fine", "A tempo has at most three decimals. Write %s.", t.v).
			Write(t.rng, t.v.String())
		return nil
	}
	if !t.v.IsWhole() && (d.fraction == nil || t.rng.Start.Byte < d.fraction.rng.Start.Byte) {
		d.fraction = t
	}
	return t
}

// perMille reads a number from 0 to 1 in thousandths, rounded half up.
func (d *decoder) perMille(expr hclsyntax.Expression, name string) *said[int] {
	f := d.bounded(expr, 0, 1, "%s is a number from 0 to 1, like 0.4", name)
	if f == nil {
		return nil
	}
	n, _ := parts(f, 1000)
	return &said[int]{int(n), expr.Range()}
}

// beatGrid is the number of parts that a beat may be divided into: a beat has 960,
// 1440, 1920 or 3840 ticks, and all can be divided by 48.
const beatGrid = 48

// beats reads a number of beats, up to most and over 0 (or 0, with zero), and returns it in
// parts of a beat, see beatGrid. The number of parts must be whole.
func (d *decoder) beats(expr hclsyntax.Expression, name string, most int, zero bool) *said[int64] {
	over := "over 0 up to"
	if zero {
		over = "from 0 to"
	}
	const rule = "%s is a number of beats %s %d"
	f := d.bounded(expr, 0, most, rule, name, over, most)
	if f == nil {
		return nil
	}
	if f.Sign() == 0 && !zero {
		d.rep.Errorf(expr.Range(), "Out of bounds", "%s, not %s.", wording.Sentence(rule, name, over, most),
			d.show(expr.Range()))
		return nil
	}
	n, off := parts(f, beatGrid)
	// 1/3 cannot be written as a decimal, so an error of a thousandth of a part is allowed.
	if off.Cmp(big.NewRat(1, 1000)) > 0 {
		d.rep.Errorf(expr.Range(), "A beat cut too fine", "%s",
			wording.Sentence("%s is in whole beats or even parts of one: 2, 1.5, 0.25, 1/3.", name))
		return nil
	}
	return &said[int64]{n, expr.Range()}
}

// parts is a number in parts of one, rounded half up, and the error of the rounding. The
// number is not great, but it may be as small as 1e-1000000.
func parts(f *big.Float, of int64) (n int64, off *big.Rat) {
	r := new(big.Rat)
	if g := new(big.Float).SetPrec(200).Set(f); g.MantExp(nil) >= -200 {
		g.Rat(r)
	}
	r.Mul(r, big.NewRat(of, 1))
	half := new(big.Rat).Add(r, big.NewRat(1, 2))
	n = new(big.Int).Quo(half.Num(), half.Denom()).Int64()
	r.Sub(r, big.NewRat(n, 1))
	return n, r.Abs(r)
}
