package library

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/wording"
)

// tab is one row as it is written: its steps, and where each stands.
type tab struct {
	word    string
	steps   []byte
	at      []int // byte of each step in text
	text    string
	expr    hclsyntax.Expression
	figures []handTabs // of the comp: the first has the steps above
}

// handTabs are the rows of the hands in one figure of the comp; left has no steps where the
// figure is one row for both.
type handTabs struct{ right, left tab }

// maxFigures is how many figures a level of the comp may have.
const maxFigures = 12

// The characters of the three kinds of row.
const (
	drumSigns = "-xXgsfd"
	bassSigns = "-=13578acwg"
	compSigns = "-=xXs12345lurmo"
)

// signs are the characters a row may hold, and what they are called in a message.
func signs(word string) (set, names string) {
	switch word {
	case "bass":
		return bassSigns, "- rest, = held, 1 3 5 7 8 a tone of the chord, a an approach, c one that may be " +
			"chromatic, w walking, g a dead note"
	case "comp":
		return compSigns, "- rest, = held, x X s the chord (X strong, s soft), 1 to 5 one voice of it, l lower " +
			"half, u upper half, r rolled, m the inner voice moves, o the lowest voice in octaves"
	case "sweep":
		return drumSigns + "~", "- rest, x X s g a stroke (X strong, s soft, g ghost), ~ sweeping on"
	}
	return drumSigns, "- rest, x X s g a stroke (X strong, s soft, g ghost), f a flam, d a drag"
}

// readTab reads a row. Bars is how many steps a bar has and the bar lines must
// agree with; 0 leaves length and bar lines unchecked (fills). ok is false when
// something was reported.
func (d *decoder) readTab(a *hclsyntax.Attribute, bar int) (tab, bool) {
	text, ok := d.text(a)
	if !ok {
		return tab{}, false
	}
	return d.readRow(a.Name, a.Expr, text, 0, len(text), bar)
}

// readFigures reads the comp: one figure, or a list of figures of a bar each. In a figure the
// right hand may stand over the left: "x===u===/1=======".
func (d *decoder) readFigures(a *hclsyntax.Attribute, grid int) (tab, bool) {
	exprs := []hclsyntax.Expression{a.Expr}
	list, isList := a.Expr.(*hclsyntax.TupleConsExpr)
	if isList {
		exprs = list.Exprs
	}
	if n := len(exprs); n == 0 || n > maxFigures {
		d.rep.Errorf(a.Expr.Range(), "Not a list of figures", "A list of the comp has 1 to %d figures.", maxFigures)
		return tab{}, false
	}
	var all []handTabs
	for _, x := range exprs {
		one := *a
		one.Expr = x
		text, ok := d.text(&one)
		if !ok {
			return tab{}, false
		}
		var hands handTabs
		over, _, two := strings.Cut(text, "/")
		hands.right, ok = d.readRow(a.Name, x, text, 0, len(over), grid)
		if ok && two {
			hands.left, ok = d.readRow(a.Name, x, text, len(over)+1, len(text), grid)
		}
		if !ok || !d.fits(hands.right, grid) || two && !d.fits(hands.left, grid) {
			return tab{}, false
		}
		most := len(hands.right.steps)
		if isList && len(exprs) > 1 && !d.anyMeter {
			most = grid
		}
		if n := len(hands.right.steps); n > most || two && len(hands.left.steps) != n {
			d.rep.Errorf(x.Range(), "Wrong number of steps", "A figure in a list is a bar long, and both hands of a "+
				"figure are of one length. Here a bar has %s.", wording.Count(grid, "step"))
			return tab{}, false
		}
		all = append(all, hands)
	}
	t := all[0].right
	t.figures = all
	return t, true
}

// readRow reads a row that stands in a text from a byte to another.
func (d *decoder) readRow(word string, expr hclsyntax.Expression, text string, from, to, bar int) (tab, bool) {
	t := tab{word: word, text: text, expr: expr}
	set, names := signs(word)
	if d.anyMeter {
		bar = 0
	}
	var wrong []int
	for i, r := range text[:to] {
		switch {
		case i < from:
		case r == ' ':
		case r == '|':
			if bar > 0 && len(t.steps)%bar != 0 {
				d.rep.Errorf(d.within(expr, text, i, i+1), "Bar line in the wrong place",
					"This bar line stands after %s; a bar of this groove has %d (grid = %d).",
					wording.Count(len(t.steps)%bar, "step"), bar, bar)
				return t, false
			}
		case r < utf8.RuneSelf && strings.IndexByte(set, byte(r)) >= 0:
			t.steps, t.at = append(t.steps, byte(r)), append(t.at, i)
		case r == '\n' || r == '\r':
			d.rep.Errorf(expr.Range(), "A row on several lines",
				"A row stands on one line, in quotes: %s = \"x---x---\". Its bars may be parted by |.", word)
			return t, false
		default:
			wrong = append(wrong, i)
			t.steps, t.at = append(t.steps, '-'), append(t.at, i)
		}
	}
	if len(wrong) > 0 {
		at := wrong[0]
		r, n := utf8.DecodeRuneInString(text[at:])
		more := ""
		if len(wrong) > 1 {
			more = fmt.Sprintf(" (and %d more in this row)", len(wrong)-1)
		}
		d.rep.Errorf(d.within(expr, text, at, at+n), "Not a sign of this row",
			"%q means nothing in the row %s%s. Write %s.", string(r), word, more, names)
		return t, false
	}
	return t, d.checkHolds(t)
}

// checkHolds reports a sign that holds on what does not sound.
func (d *decoder) checkHolds(t tab) bool {
	for i, c := range t.steps {
		if c != '=' && c != '~' {
			continue
		}
		if i == 0 || t.steps[i-1] == '-' {
			d.rep.Errorf(d.place(t, i), "Nothing to hold",
				"%q holds on what sounds in the step before, and nothing does. Write a stroke there, or - here.",
				string(c))
			return false
		}
	}
	return true
}

// place is where step i of a row stands.
func (d *decoder) place(t tab, i int) hcl.Range {
	return d.within(t.expr, t.text, t.at[i], t.at[i]+1)
}

// fits checks a row's length: 1, 2 or 4 bars, or the two steps of a groove of
// any meter.
func (d *decoder) fits(t tab, grid int) bool {
	n := len(t.steps)
	r := t.expr.Range()
	if d.anyMeter {
		if n == 2 {
			return true
		}
		d.rep.Errorf(r, "Wrong number of steps",
			"%s has %s. In a groove of any meter a row has 2: what happens on the bar's first beat, and on each "+
				"other beat (\"x|-\").",
			t.word, wording.Count(n, "step"))
		return false
	}
	if n == grid || n == 2*grid || n == 4*grid {
		return true
	}
	d.rep.Errorf(r, "Wrong number of steps",
		"%s has %s. A bar of this groove has %d (grid = %d), and a row is 1, 2 or 4 bars long: %d, %d or %d steps.",
		t.word, wording.Count(n, "step"), grid, grid, grid, 2*grid, 4*grid)
	return false
}
