// Package wording joins, counts and shortens words for messages, and finds the right
// word that is nearest to a wrong one.
package wording

import (
	"fmt"
	"strings"
)

// And joins words: "a", "a and b", "a, b and c".
func And(words []string) string { return join(words, " and ") }

// Or joins words: "a", "a or b", "a, b or c".
func Or(words []string) string { return join(words, " or ") }

func join(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + last + words[len(words)-1]
}

// Quoted are the words in quotes.
func Quoted(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
	}
	return out
}

// Count is a number of things: "1 beat", "3 beats", "2 slashes".
func Count(n int, thing string) string { return fmt.Sprintf("%d %s", n, Plural(n, thing)) }

// Plural is a thing as its number wants it: "beat", "beats", "slashes".
func Plural(n int, thing string) string {
	switch {
	case n == 1:
		return thing
	case strings.HasSuffix(thing, "sh"), strings.HasSuffix(thing, "ss"):
		return thing + "es"
	}
	return thing + "s"
}

// Sentence formats, and begins with a capital.
func Sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// Clip is the first n characters of a text, with … after them where there are more.
func Clip(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n]) + "…"
	}
	return s
}
