package songspec

import (
	"fmt"
	"sort"
	"strings"

	"github.com/agext/levenshtein"
)

// nearest is the known word most like s, "" when none is near enough: the same
// but for capitals, the beginning of just that word, or a few letters away.
func nearest(s string, known []string) string {
	low := strings.ToLower(s)
	if len(low) > 64 {
		return ""
	}
	for _, k := range known {
		if strings.ToLower(k) == low {
			return k
		}
	}
	most := 1
	if n := len([]rune(low)); n > 3 {
		most = 2
		if n > 9 {
			most = 3
		}
	}
	best, at := "", most+1
	for _, k := range known {
		if len(k) > 64 {
			continue
		}
		if d := levenshtein.Distance(low, strings.ToLower(k), nil); d < at {
			best, at = k, d
		}
	}
	if best != "" {
		return best
	}
	if len(low) >= 3 {
		for _, k := range known {
			if strings.HasPrefix(strings.ToLower(k), low) || len(k) >= 3 && strings.HasPrefix(low, strings.ToLower(k)) {
				return k
			}
		}
	}
	return ""
}

// offer is a sentence: the nearest word, or all of them when there are few.
func offer(s string, known []string, what string) string {
	if n := nearest(s, known); n != "" {
		return fmt.Sprintf("Is it %q?", n)
	}
	if len(known) == 0 {
		return fmt.Sprintf("There is no %s here.", what)
	}
	if len(known) > 30 {
		return ""
	}
	return sentence("%s can be %s.", what, orList(quoted(known)))
}

func quoted(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = fmt.Sprintf("%q", w)
	}
	return out
}

// sentence formats and begins with a capital.
func sentence(format string, args ...any) string {
	s := fmt.Sprintf(format, args...)
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

func sortedKeys[V any](m map[string]V) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
