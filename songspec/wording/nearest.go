package wording

import "strings"

// longest is the longest word that is looked at, in bytes.
const longest = 64

// plain is a word as it is compared: capitals do not count, nor whether its parts are
// joined by a hyphen, an underscore or a blank.
var plain = strings.NewReplacer("-", "_", " ", "_")

// Nearest is the known word that was most likely meant, "" when none is near: the same
// but for capitals and hyphens, or a few letters away, or one that begins like it. A
// word of three letters may differ in one, of nine in two, a longer one in three, and
// something of it must be left.
func Nearest(word string, known []string) string {
	if len(word) > longest {
		return ""
	}
	word = plain.Replace(strings.ToLower(word))
	same := make([]string, len(known))
	for i, k := range known {
		same[i] = plain.Replace(strings.ToLower(k))
	}
	most := 1
	if n := len([]rune(word)); n > 9 {
		most = 3
	} else if n > 3 {
		most = 2
	} else if n < 2 {
		most = 0
	}
	if i := closest(word, same, most); i >= 0 {
		return known[i]
	}
	for i, k := range same {
		if len(word) >= 3 && strings.HasPrefix(k, word) || len(k) >= 3 && strings.HasPrefix(word, k) {
			return known[i]
		}
	}
	return ""
}

// Closest is the known word with the fewest changes from a word, the earliest of
// equals; "" when each takes more than most. A change is a letter put in, left out,
// replaced, or swapped with the next; capitals count.
func Closest(word string, known []string, most int) string {
	if i := closest(word, known, most); i >= 0 {
		return known[i]
	}
	return ""
}

// closest is the index of the closest word, -1 when there is none.
func closest(word string, known []string, most int) int {
	best, at := -1, most+1
	for i, k := range known {
		if len(k) > longest {
			continue
		}
		if d := changes([]rune(word), []rune(k), at); d < at {
			best, at = i, d
		}
	}
	return best
}

// changes counts how many changes part two words; it gives up at limit.
func changes(a, b []rune, limit int) int {
	if d := len(a) - len(b); d >= limit || -d >= limit {
		return limit
	}
	two, one, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range one {
		one[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := one[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, one[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], two[j-2]+1)
			}
		}
		two, one, row = one, row, two
	}
	return min(one[len(b)], limit)
}
