package songspec

import (
	"slices"
	"testing"
)

// TestDialectKnowsAllValues: the messages about syntax know of each value whether it is text.
func TestDialectKnowsAllValues(t *testing.T) {
	values := [][]string{topAttrs, sectionAttrs, playAttrs, insideAttrs, drumsAttrs, bassAttrs, pianoAttrs,
		vocalAttrs, pictureAttrs}
	for _, rule := range eventRules {
		values = append(values, rule.attrs)
	}
	for _, w := range slices.Concat(values...) {
		if !slices.Contains(dialect.Texts, w) && !slices.Contains(dialect.Others, w) {
			t.Errorf("%q is neither among the texts nor among the others", w)
		}
	}
	for _, w := range slices.Concat(dialect.Truths, dialect.Decimals, dialect.Parts) {
		if !slices.Contains(dialect.Others, w) {
			t.Errorf("%q is not among the others", w)
		}
	}
}
