package library

import "strings"

// alsoCalled are names and short forms that drummers use for these rows. Common
// practice, no single source.
var alsoCalled = map[string]string{
	"bd": "kick", "bass_drum": "kick", "bassdrum": "kick", "kick_drum": "kick",
	"sd": "snare", "sn": "snare", "snare_drum": "snare", "rimshot": "snare", "rim_shot": "snare",
	"rim": "cross_stick", "rimclick": "cross_stick", "rim_click": "cross_stick", "sidestick": "cross_stick", "side_stick": "cross_stick", "xstick": "cross_stick", "stick": "cross_stick",
	"hh": "hat", "ch": "hat", "chh": "hat", "hihat": "hat", "hi_hat": "hat", "closed_hat": "hat", "hat_closed": "hat",
	"oh": "hat_open", "ohh": "hat_open", "open_hat": "hat_open",
	"pedal": "hat_foot", "hat_pedal": "hat_foot", "pedal_hat": "hat_foot", "foot": "hat_foot", "foot_hat": "hat_foot",
	"rd": "ride", "rc": "ride", "cymbal": "ride", "bell": "ride_bell", "cup": "ride_bell",
	"ht": "tom_high", "high_tom": "tom_high", "tom1": "tom_high", "mt": "tom_mid", "mid_tom": "tom_mid", "tom2": "tom_mid",
	"lt": "tom_low", "ft": "tom_low", "low_tom": "tom_low", "floor": "tom_low", "floor_tom": "tom_low", "tom3": "tom_low",
	"shaker": "maracas", "piano": "comp", "keys": "comp", "chords": "comp",
}

// nearest is the word closest to what was written, or "" when none is close: at
// most a third of the letters differ, two at least being allowed.
func nearest(written string, words []string) string {
	if len(written) > 60 {
		return ""
	}
	written = strings.ToLower(strings.NewReplacer("-", "_", " ", "_").Replace(written))
	for _, w := range words {
		if w == alsoCalled[written] {
			return w
		}
	}
	best, bestAt := "", max(2, len(written)/3)+1
	for _, w := range words {
		plain := strings.ReplaceAll(strings.ToLower(w), "-", "_")
		if d := distance(written, plain); d < bestAt {
			best, bestAt = w, d
		}
	}
	if bestAt >= len(written) {
		return ""
	}
	return best
}

// distance counts the letters to insert, delete, replace or swap with their
// neighbour that turn a into b.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			d := min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, rows[i-2][j-2]+1)
			}
			rows[i][j] = d
		}
	}
	return rows[len(x)][len(y)]
}

// hint is " Did you mean …?" or a list of what there is.
func hint(written string, words []string) string {
	if n := nearest(written, words); n != "" {
		return ` Did you mean "` + n + `"?`
	}
	return " There is " + list(words) + "."
}

// list joins words: a, b and c.
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
