package songspec

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// pattern is a regular expression that is compiled when it is first used.
var pattern = hcltext.Pattern

// advice is what to say about a wrong word, and the right word where it is known.
type advice struct{ says, word string }

// isIt offers a word.
func isIt(word string) advice { return advice{fmt.Sprintf("Is it %q?", word), word} }

// offer is the nearest word, or all of them when there are few.
func offer(s string, known []string, what string) advice {
	if n := wording.Nearest(s, known); n != "" {
		return isIt(n)
	}
	if len(known) == 0 {
		return advice{says: fmt.Sprintf("There is no %s here.", what)}
	}
	if len(known) > 30 {
		return advice{}
	}
	return advice{says: wording.Sentence("%s can be %s.", what, wording.Or(wording.Quoted(known)))}
}

func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K {
	return slices.Sorted(maps.Keys(m))
}
