package library

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/wording"
)

// alsoCalled are names and short forms that drummers use for these rows. Common
// practice, no single source.
var alsoCalled = map[string]string{
	"bd": "kick", "bass_drum": "kick", "bassdrum": "kick", "kick_drum": "kick",
	"sd": "snare", "sn": "snare", "snare_drum": "snare", "rimshot": "snare", "rim_shot": "snare",
	"rim": "cross_stick", "rimclick": "cross_stick", "rim_click": "cross_stick", "sidestick": "cross_stick",
	"side_stick": "cross_stick", "xstick": "cross_stick", "stick": "cross_stick",
	"hh": "hat", "ch": "hat", "chh": "hat", "hihat": "hat", "hi_hat": "hat", "closed_hat": "hat", "hat_closed": "hat",
	"oh": "hat_open", "ohh": "hat_open", "open_hat": "hat_open",
	"pedal": "hat_foot", "hat_pedal": "hat_foot", "pedal_hat": "hat_foot", "foot": "hat_foot", "foot_hat": "hat_foot",
	"rd": "ride", "rc": "ride", "cymbal": "ride", "bell": "ride_bell", "cup": "ride_bell",
	"ht": "tom_high", "high_tom": "tom_high", "tom1": "tom_high", "mt": "tom_mid", "mid_tom": "tom_mid",
	"tom2": "tom_mid",
	"lt":   "tom_low", "ft": "tom_low", "low_tom": "tom_low", "floor": "tom_low", "floor_tom": "tom_low",
	"tom3":   "tom_low",
	"shaker": "maracas", "piano": "comp", "keys": "comp", "chords": "comp",
}

// nearest is the word closest to what was written, or "" when none is close.
func nearest(written string, words []string) string {
	if w := alsoCalled[strings.ReplaceAll(strings.ToLower(written), "-", "_")]; slices.Contains(words, w) {
		return w
	}
	return wording.Nearest(written, words)
}

// hint is " Did you mean …?" with the word that was perhaps meant, or a list of what
// there is.
func hint(written string, words []string) (says, word string) {
	if n := nearest(written, words); n != "" {
		return fmt.Sprintf(" Did you mean %q?", n), n
	}
	return " There is " + wording.And(words) + ".", ""
}
