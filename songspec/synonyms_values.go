package songspec

import (
	"slices"
	"strings"
)

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
	// notInBand are those who may play along and are no player here, in the singular.
	notInBand = map[string]bool{"bras": true, "brass": true, "horn": true, "trumpet": true, "trombone": true,
		"sax": true, "saxe": true, "saxophone": true, "reed": true, "wind": true, "woodwind": true, "flute": true,
		"string": true, "violin": true, "cello": true, "guitar": true, "gtr": true, "organ": true, "orchestra": true,
		"vocal": true, "voice": true, "singer": true, "choir": true, "chorus": true}
	// bassLineCalled are what a bass's line is called elsewhere. Common practice, no single source.
	bassLineCalled = map[string]string{
		"half": "two", "halves": "two", "half notes": "two", "minims": "two", "in two": "two", "2": "two",
		"two-beat": "two", "two beat": "two", "two feel": "two", "two-feel": "two", "in 2": "two",
		"four": "walk", "in four": "walk", "4": "walk", "in 4": "walk", "quarters": "walk", "quarter notes": "walk",
		"crotchets": "walk", "walking": "walk", "walking bass": "walk",
	}
	// energyCalled are words for how strongly a band plays. Common practice, no single source.
	energyCalled = map[string]int{
		"pp": 1, "very soft": 1, "barely there": 1, "whisper": 1,
		"p": 2, "soft": 2, "softly": 2, "quiet": 2, "low": 2, "gentle": 2, "mellow": 2, "mp": 2,
		"medium": 3, "mid": 3, "normal": 3, "moderate": 3, "mf": 3, "half": 3,
		"f": 4, "loud": 4, "high": 4, "strong": 4, "big": 4,
		"ff": 5, "full": 5, "max": 5, "very loud": 5, "everything": 5, "tutti": 5,
	}
)

// soundCalled are names that musicians use for the sounds of the bass and the piano.
var soundCalled = map[string]string{
	"upright": "acoustic", "double": "acoustic", "double bass": "acoustic", "acoustic bass": "acoustic",
	"contrabass":    "acoustic",
	"electric bass": "finger", "fingered": "finger", "finger bass": "finger",
	"picked": "pick", "pick bass": "pick", "fretless bass": "fretless", "slap bass": "slap", "synth bass": "synth",
	"piano": "grand", "grand piano": "grand", "acoustic grand": "grand",
	"bright piano": "bright", "honky tonk": "honky-tonk", "electric piano": "electric", "rhodes": "electric",
}
