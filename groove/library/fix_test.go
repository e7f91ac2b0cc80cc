package library

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/hcltext"
	"plinth/songspec/hcltext/sliptest"
)

// mended is the text with a fix in it, and the first message that has come with it or
// has not gone; nil when there is none.
func mended(src string, before hcl.Diagnostics, d *hcl.Diagnostic, fix hcltext.Fix) (string, *hcl.Diagnostic) {
	left := map[string]int{}
	for _, b := range before {
		left[b.Summary+b.Detail]++
	}
	left[d.Summary+d.Detail]--
	after := fix.Apply([]byte(src))
	_, _, diags := Decode("f.hcl", after)
	for _, a := range diags {
		if left[a.Summary+a.Detail]--; left[a.Summary+a.Detail] < 0 {
			return string(after), a
		}
	}
	return string(after), nil
}

// secondMistakes are mistakes with another behind them, which shows only when the first
// is mended: what it is.
var secondMistakes = map[string]string{
	"answer as a value":   "Wrong number of steps",
	"word without quotes": "No grid in any meter",
}

// TestFixes: what each fix does to the text stands in testdata/fixes.txt, and it mends
// what it is a fix of.
func TestFixes(t *testing.T) {
	var b strings.Builder
	second := map[string]bool{}
	for _, m := range slices.Concat(mistakes, writingMistakes) {
		src := strings.Replace(small, m.old, m.new, 1)
		_, _, diags := Decode("f.hcl", []byte(src))
		for _, d := range diags {
			fix, ok := hcltext.FixOf(d)
			if !ok {
				continue
			}
			after, worse := mended(src, diags, d, fix)
			if worse != nil && secondMistakes[m.name] == worse.Summary {
				second[m.name] = true
			} else if worse != nil {
				t.Errorf("%s: %q makes\n%s\n%v", m.name, fix.Title, after, worse)
			}
			lo, hi := fix.Range.Start.Byte, fix.Range.End.Byte
			from, to := strings.LastIndexByte(src[:lo], '\n')+1, hi+strings.IndexByte(src[hi:]+"\n", '\n')
			fmt.Fprintf(&b, "=== %s: %s\n%s: %s\n", m.name, m.reason, d.Summary, fix.Title)
			fmt.Fprintf(&b, "- %s\n+ %s%s%s\n", src[from:to], src[from:lo], fix.Text, src[hi:to])
		}
	}
	if len(second) != len(secondMistakes) {
		t.Errorf("of the second mistakes only %v are left", second)
	}
	const golden = "testdata/fixes.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got := b.String(); got != string(want) {
		t.Errorf("the fixes are\n%s", got)
	}
}

// TestFixesOfSlips: every fix of a single slip mends it.
func TestFixesOfSlips(t *testing.T) {
	n := 0
	sliptest.Mutants(slipped, func(m string) {
		_, _, diags := Decode("f.hcl", []byte(m))
		for _, d := range diags {
			if fix, ok := hcltext.FixOf(d); ok {
				n++
				if after, worse := mended(m, diags, d, fix); worse != nil {
					t.Errorf("%s: %q makes\n%s\n%v", d.Summary, fix.Title, after, worse)
				}
			}
		}
	})
	if n < 300 {
		t.Errorf("only %d fixes were tried", n)
	}
}
