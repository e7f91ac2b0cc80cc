package songspec

import (
	"slices"
	"strings"
)

// calledElsewhere are words of the vocal block that musicians use for other things elsewhere.
var calledElsewhere = map[string]string{"name": `title = "…"`, "transpose": "lift = 1, in a play"}

// calledHere are words that musicians use for things that have other names in a song file, with
// how those are written. Common practice, no single source.
var calledHere = map[string]string{
	"bpm": "tempo = 96", "speed": "tempo = 96",
	"time": `meter = "4/4"`, "time_signature": `meter = "4/4"`, "timesig": `meter = "4/4"`,
	"signature": `meter = "4/4"`, "takt": `meter = "4/4"`,
	"style": `feel = "waltz"`, "groove": `feel = "waltz"`, "rhythm": `feel = "waltz"`, "swing": `feel = "swing"`,
	"tonart": `key = "Eb major"`, "tonality": `key = "Eb major"`,
	"composer": `by = "…"`, "author": `by = "…"`,
	"artist": `by = "…"`, "writer": `by = "…"`,
	"music":    `by = "…"`,
	"dynamics": "energy = 3, from 1 to 5", "dynamic": "energy = 3, from 1 to 5", "volume": "energy = 3, from 1 to 5",
	"intensity": "energy = 3, from 1 to 5", "level": "energy = 3, from 1 to 5",
	"build": "energy = [2, 4]", "crescendo": "energy = [2, 4]", "cresc": "energy = [2, 4]",
	"diminuendo": "energy = [4, 2]", "decrescendo": "energy = [4, 2]",
	"leading": "lead = false", "transition": "lead = false", "transitions": "lead = false",
	"lead_in": "pickup = 1", "leadin": "pickup = 1",
	"measures": `chords = "| C | F |"`, "changes": `chords = "| C | F |"`,
	"progression": `chords = "| C | F |"`, "harmony": `chords = "| C | F |"`, "chord": `chords = "| C | F |"`,
	"fermata": `hold "8: 1" {}`, "fermate": `hold "8: 1" {}`, "pause": `hold "8: 1" {}`,
	"cesura": `caesura "8: 4" {}`, "zaesur": `caesura "8: 4" {}`, "tracks": `caesura "8: 4" {}`,
	"railroad": `caesura "8: 4" {}`, "railroad_tracks": `caesura "8: 4" {}`, "gp": `caesura "8: 4" {}`,
	"grand_pause": `caesura "8: 4" {}`, "general_pause": `caesura "8: 4" {}`, "breath": `caesura "8: 4" {}`,
	"ritardando": `rit "7-8" { to = 64 }`, "ritard": `rit "7-8" { to = 64 }`, "rall": `rit "7-8" { to = 64 }`,
	"rallentando": `rit "7-8" { to = 64 }`, "slower": `rit "7-8" { to = 64 }`,
	"accelerando": `accel "7-8" { to = 96 }`, "stringendo": `accel "7-8" { to = 96 }`,
	"string": `accel "7-8" { to = 96 }`, "faster": `accel "7-8" { to = 96 }`,
	"break": `stop "8: 3" {}`, "cut": `stop "8: 3" {}`, "cutoff": `stop "8: 3" {}`, "choke": `stop "8: 3" {}`,
	"hit": `accent "4: 1" {}`, "hits": `accent "4: 1" {}`, "stab": `accent "4: 1" {}`, "kick": `accent "4: 1" {}`,
	"kicks":    `accent "4: 1" {}`,
	"button":   `accent "last: 1" { short = true }`,
	"staccato": "short = true, in an accent", "dry": "short = true, in an accent",
	"anticipation": `push "4: 4&" {}`, "anticipate": `push "4: 4&" {}`,
	"a_tempo": `bars "5-" { tempo = "a tempo" }`, "atempo": `bars "5-" { tempo = "a tempo" }`,
	"cues": `cue "3: 1" { text = "lights" }`, "marker": `cue "3: 1" { text = "lights" }`,
	"cue_point": `cue "3: 1" { text = "lights" }`,
	"mute":      `tacet = ["drums"]`, "silent": `tacet = ["drums"]`,
	"modulation": "lift = 1, in a play", "modulate": "lift = 1, in a play",
	"key_change":  "lift = 1, in a play",
	"order":       `form { … }, with play "verse" {} in it for each section in turn`,
	"structure":   `form { … }, with play "verse" {} in it for each section in turn`,
	"arrangement": `form { … }, with play "verse" {} in it for each section in turn`,
	"countin":     "count_in = 1", "upbeat": "pickup = 1", "anacrusis": "pickup = 1", "humanize": "looseness = 0.4",
	"singer": `vocal "FILE.mid" { name = "Nell" }`,
	"voice":  `vocal "FILE.mid" {}`, "melody": `vocal "FILE.mid" {}`,
	"repeat":  "another play of it in the form, or |: and :| round the bars",
	"repeats": "another play of it in the form, or |: and :| round the bars",
	"lyrics":  "a comment: words stand behind a #", "lyric": "a comment: words stand behind a #",
	"comment": "a comment: words stand behind a #",
	"notes":   "a comment: words stand behind a #",
}

// feelCalled are names of styles, each with the feels that come nearest, the
// likeliest first. Common practice, no single source.
var feelCalled = []struct {
	Words []string
	Feels []string
}{
	{[]string{"pop ballad", "rock ballad", "power ballad", "slow rock", "slow"},
		[]string{"ballad-eighths", "slow-twelve"}},
	{[]string{"jazz ballad"}, []string{"brushes-ballad"}},
	{[]string{"jazz waltz"}, []string{"jazz-waltz"}},
	{[]string{"bossa nova", "bossanova"}, []string{"bossa"}},
	{[]string{"rock", "pop", "8th", "eighth", "eighths", "8ths", "straight"},
		[]string{"backbeat-eighths", "ballad-eighths"}},
	{[]string{"funk", "16th", "sixteenth", "sixteenths", "16ths", "rnb", "r&b"},
		[]string{"tight-sixteenths", "ballad-sixteenths"}},
	{[]string{"reggae"}, []string{"one-drop"}},
	{[]string{"disco", "dance", "house"}, []string{"four-on-the-floor"}},
	{[]string{"soul"}, []string{"snare-on-four", "slow-twelve"}},
	{[]string{"gospel"}, []string{"slow-twelve", "gospel-six"}},
	{[]string{"blues"}, []string{"shuffle", "slow-twelve"}},
	{[]string{"country", "polka", "foxtrot", "boom-chick"}, []string{"two-beat", "train"}},
	{[]string{"show tune", "showtune", "soft shoe", "vaudeville", "cut time", "alla breve"},
		[]string{"show-two", "ballad-in-two"}},
	{[]string{"jazz", "walking", "big band"}, []string{"swing", "two-beat"}},
	{[]string{"latin", "rumba"}, []string{"bossa", "samba"}},
	{[]string{"new orleans"}, []string{"second-line"}},
	{[]string{"walzer", "valse", "vals"}, []string{"waltz", "jazz-waltz"}},
	{[]string{"marsch", "marcia", "marche"}, []string{"march"}},
	{[]string{"ballad"}, []string{"ballad-eighths", "ballad-sixteenths", "brushes-ballad"}},
	{[]string{"pad", "none", "free", "rubato", "colla voce"}, []string{"sustain"}},
	{[]string{"click", "metronome"}, []string{"pulse"}},
}

// feelsLike are those of the known feels that come nearest to a style.
func feelsLike(name string, known []string) []string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" -_/", r) })
	low := " " + strings.Join(words, " ") + " "
	said := func(w string) bool { return strings.Contains(low, " "+strings.ReplaceAll(w, "-", " ")+" ") }
	if i := slices.IndexFunc(known, said); i >= 0 { // medium swing
		return known[i : i+1]
	}
	for _, c := range feelCalled {
		missing := func(f string) bool { return !slices.Contains(known, f) }
		there := slices.DeleteFunc(slices.Clone(c.Feels), missing)
		if len(there) > 0 && slices.ContainsFunc(c.Words, said) {
			return there
		}
	}
	return nil
}

// meterCalled are the meters that have a sign or a name.
var meterCalled = map[string]string{
	"c": "4/4", "common": "4/4", "common time": "4/4", "four": "4/4", "4": "4/4",
	"𝄴": "4/4", "c|": "2/2", "¢": "2/2",
	"𝄵": "2/2", "cut": "2/2", "cut time": "2/2", "alla breve": "2/2",
	"3": "3/4", "waltz": "3/4", "walzer": "3/4", "2": "2/4", "6": "6/8",
}

// What the players are called elsewhere.
var (
	// everybody are the words for all players.
	everybody = map[string]bool{"all": true, "tutti": true, "band": true, "everybody": true, "everyone": true,
		"*": true}
	playerCalled = map[string]string{
		"kit": "drums", "percussion": "drums", "drummer": "drums", "dr": "drums", "schlagzeug": "drums",
		"keys": "piano", "keyboard": "piano", "keyboards": "piano", "comp": "piano", "pianist": "piano", "pno": "piano",
		"klavier": "piano",
		"bassist": "bass", "contrabass": "bass", "upright": "bass",
	}
)
