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

// Thousandths is a number of thousandths as a decimal without trailing zeros: 6000 is "6", 1500
// is "1.5", 667 is "0.667".
func Thousandths(n int64) string {
	if n < 0 {
		return "-" + Thousandths(-n)
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%d.%03d", n/1000, n%1000), "0"), ".")
}

// Beats is a number of thousandths of a beat in words: "1 beat", "2.5 beats".
func Beats(thousandths int64) string {
	if thousandths == 1000 {
		return "1 beat"
	}
	return Thousandths(thousandths) + " beats"
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

// Wrap is s in lines of at most 80 columns, broken at blanks. The first line begins with
// first blanks, the others with rest.
func Wrap(s string, first, rest int) string {
	out, line := "", strings.Repeat(" ", first)
	for i, word := range strings.SplitAfter(s, " ") {
		if i > 0 && len([]rune(line))+len([]rune(strings.TrimRight(word, " "))) > 80 {
			out += strings.TrimRight(line, " ") + "\n"
			line = strings.Repeat(" ", rest)
		}
		line += word
	}
	return out + strings.TrimRight(line, " ") + "\n"
}
