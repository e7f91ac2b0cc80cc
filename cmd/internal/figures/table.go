package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"
)

// table is the figures on their way to print.
type table struct{ rows []row }

// valuesInLine is how many values stand side by side: the five energies.
const valuesInLine = 5

// row is one figure: where values has several, each must be within its aim.
type row struct {
	figure string
	values []value
	note   string // printed instead of values
}

// value is one value of a figure. within is its aim.
type value struct {
	of     string // the energy or the feel; empty where there is one value
	number float64
	within aim
}

// aim is a range, its ends included.
type aim struct{ low, high float64 }

// noAim is the aim of a figure to look at.
var noAim = aim{math.Inf(-1), math.Inf(1)}

func between(low, high float64) aim { return aim{low, high} }
func atMost(high float64) aim       { return aim{math.Inf(-1), high} }
func atLeast(low float64) aim       { return aim{low, math.Inf(1)} }

// has reports whether a number, as it is printed, is within the aim.
func (a aim) has(x float64) bool {
	x = math.Round(x*1000) / 1000
	return a.low <= x && x <= a.high
}

func (a aim) String() string {
	low, high := !math.IsInf(a.low, -1), !math.IsInf(a.high, 1)
	switch {
	case low && high && a.low == a.high:
		return number(a.low)
	case low && high:
		return number(a.low) + "-" + number(a.high)
	case low:
		return ">= " + number(a.low)
	case high:
		return "<= " + number(a.high)
	}
	return "-"
}

// number writes a number with up to three decimals, and at least two where it has any.
func number(x float64) string {
	s := strings.TrimSuffix(fmt.Sprintf("%.3f", x), "0")
	s = strings.TrimSuffix(s, ".00")
	if s == "-0" {
		return "0"
	}
	if at := strings.Index(s, "0."); at == 0 || at == 1 && s[0] == '-' {
		return s[:at] + s[at+1:]
	}
	return s
}

// add adds a figure of one value. A figure that was measured on nothing is not a number.
func (t *table) add(figure string, within aim, x float64) {
	t.addAll(figure, []value{{number: x, within: within}})
}

func (t *table) addAll(figure string, values []value) {
	t.rows = append(t.rows, row{figure: figure, values: values})
}

// title begins a part of the table.
func (t *table) title(words string) { t.say(words, "") }

func (t *table) say(figure, note string) { t.rows = append(t.rows, row{figure: figure, note: note}) }

func (t *table) write(w io.Writer) error {
	var text strings.Builder
	out := tabwriter.NewWriter(&text, 0, 8, 2, ' ', 0)
	fmt.Fprintln(out, "figure\taim\tvalue\twithin")
	for _, r := range t.rows {
		if len(r.values) == 0 {
			fmt.Fprintf(out, "%s\t\t%s\t\n", r.figure, r.note)
			continue
		}
		aims, values, verdict := r.columns()
		fmt.Fprintf(out, "%s\t%s\t%s\t%s\n", r.figure, aims, values[0], verdict)
		for _, line := range values[1:] {
			fmt.Fprintf(out, "\t\t%s\t\n", line)
		}
	}
	if err := out.Flush(); err != nil {
		return err
	}
	for line := range strings.Lines(text.String()) {
		if _, err := fmt.Fprintln(w, strings.TrimRight(line, " \n")); err != nil {
			return err
		}
	}
	return nil
}

// columns are the aims, the values and the verdict of a figure. Many values take more than one
// line.
func (r *row) columns() (aims string, values []string, verdict string) {
	var as, vs []string
	same := true
	for _, v := range r.values {
		same = same && v.within == r.values[0].within
		as = append(as, v.within.String())
		text := "none"
		if !math.IsNaN(v.number) {
			text = number(v.number)
		}
		vs = append(vs, strings.TrimSpace(v.of+" "+text))
		switch {
		case verdict == "no" || v.within == noAim || math.IsNaN(v.number):
		case v.within.has(v.number):
			verdict = "yes"
		default:
			verdict = "no"
		}
	}
	if same {
		as = as[:1]
	}
	for line := range slices.Chunk(vs, valuesInLine) {
		values = append(values, strings.Join(line, ", "))
	}
	return strings.Join(as, ", "), values, verdict
}
