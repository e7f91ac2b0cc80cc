package songspec

import (
	"slices"
	"strings"
)

// What is said of words that mean nothing here.
const (
	behindSign = "Words that nobody plays stand behind a #."
	howLong    = "How long it lasts is said in beats: beats = 2."
)

// calledThere are words that musicians use for things in one kind of block, with how those are
// written there. Common practice, no single source.
var calledThere = []struct {
	in    []string // as messages name the blocks
	forms map[string]string
}{
	{[]string{"a play"}, map[string]string{
		"repeat": timesOrVamp, "repeats": timesOrVamp, "loop": timesOrVamp, "loops": "times = 2", "time": "times = 2",
		"x": "times = 2", "rounds": "times = 2", "until": `vamp = "till the door opens"`,
		"till": `vamp = "till the door opens"`, "part": `only = "1-6"`, "excerpt": `only = "1-6"`,

		"skip":      `A play says which bars it plays: only = "1-4, 7-8".`,
		"except":    `A play says which bars it plays: only = "1-4, 7-8".`,
		"from":      `A play says which bars it plays: only = "5-".`,
		"transpose": "lift = 1", "modulate": newKey,
		"modulation": newKey, "key_change": newKey,
		"to": `only = "5-8"`, "start": `only = "5-8"`, "end": `only = "5-8"`,
	}},
	{[]string{"the form"}, map[string]string{
		"segno": wayBack, "dc": wayBack, "ds": wayBack, "da_capo": wayBack, "dal_segno": wayBack, "fine": wayBack,
		"dc_al_coda": wayBack, "ds_al_coda": wayBack, "dc_al_fine": wayBack, "ds_al_fine": wayBack,
		"to_coda": wayBack, "goto": wayBack, "al_coda": wayBack,
		"repeat": `play "verse" { times = 2 }`, "loop": `play "verse" { times = 2 }`,
		"vamp": `play "verse" { vamp = "till the door opens" }`, "section": `play "verse" {}`,
	}},
	{[]string{"a section"}, map[string]string{
		"repeat":    `play "verse" { times = 2 }, in the form, or |: and :| round the bars`,
		"repeats":   `play "verse" { times = 2 }, in the form, or |: and :| round the bars`,
		"transpose": "lift = 1, in a play", "measures": `bars "5-8" { energy = 4 }`,
		"name":   `section "verse" { … }, with the name behind the word`,
		"ending": `a second ending, |: Am7 | D7 |1. Gmaj7 :|2. G6 |, in chords`,
	}},
	{[]string{"a bars block"}, map[string]string{
		"measures": `bars "5-8" { energy = 4 }`,
	}},
	{[]string{"a rit", "an accel"}, map[string]string{
		"tempo": "to = 56", "bpm": "to = 56", "target": "to = 56", "until": "to = 56", "end": "to = 56",
		"from": "It begins with the tempo that the band has. Only where it goes is said: to = 56.",
	}},
	{[]string{"a stop"}, map[string]string{
		"except":  `It names those who stop: by = ["bass", "piano"].`,
		"without": `It names those who stop: by = ["bass", "piano"].`,
	}},
	{[]string{"a stop", "a hold", "a space", "a caesura"}, map[string]string{
		"bars": howLong, "length": howLong, "duration": howLong, "for": howLong, "until": howLong, "long": howLong,
	}},
	{[]string{"an accent", "a push", "a stop", "a fill"}, map[string]string{
		"players": `by = ["drums"]`, "who": `by = ["drums"]`, "for": `by = ["drums"]`, "only": `by = ["drums"]`,
		"with":    `by = ["drums"]`,
		"except":  `It names those who play it: by = ["bass", "piano"].`,
		"without": `It names those who play it: by = ["bass", "piano"].`,
	}},
	{[]string{"an accent"}, map[string]string{
		"staccato": "short = true", "dry": "short = true", "length": "short = true", "secco": "short = true",
		"strength": "weight = 3", "level": "weight = 3", "velocity": "weight = 3", "volume": "weight = 3",
		"dynamics": "weight = 3", "loud": "weight = 3",
	}},
	{[]string{"a cue"}, map[string]string{
		"name": `text = "lights"`, "label": `text = "lights"`, "title": `text = "lights"`, "what": `text = "lights"`,
		"time": `at = "1:24.5"`, "timecode": `at = "1:24.5"`,
		"every": "each_time = true", "each": "each_time = true", "every_time": "each_time = true",
		"always": "each_time = true", "times": "each_time = true",
	}},
	{[]string{"the picture block"}, map[string]string{
		"fps": "rate = 24", "frames": "rate = 24", "frame_rate": "rate = 24", "framerate": "rate = 24",
		"offset": `start = "01:00:00:00"`, "timecode": `start = "01:00:00:00"`, "from": `start = "01:00:00:00"`,
		"begin": `start = "01:00:00:00"`, "tc": `start = "01:00:00:00"`, "at": `start = "01:00:00:00"`,
	}},
	{[]string{"the vocal block"}, map[string]string{
		"singer": `name = "Nell"`, "who": `name = "Nell"`, "voice": `track = "Voice"`, "channel": `track = "Voice"`,
		"file": `vocal "FILE.mid" {}, with the file behind the word`, "start": "from = 1", "bar": "from = 1",
		"at": "from = 1", "offset": "from = 1", "key": "transpose = 2, by so many semitones the file goes up",
		"instrument": `track = "Voice"`, "part": `track = "Voice"`,
	}},
	{[]string{"the drums block"}, map[string]string{"sound": `kit = "brushes"`}},
	{[]string{"the drums block"}, map[string]string{
		"tacet": keepOut("drums"), "mute": keepOut("drums"), "off": keepOut("drums"),
	}},
	{[]string{"the bass block"}, map[string]string{
		"tacet": keepOut("bass"), "mute": keepOut("bass"), "off": keepOut("bass"),
	}},
	{[]string{"the piano block"}, map[string]string{
		"tacet": keepOut("piano"), "mute": keepOut("piano"), "off": keepOut("piano"),
	}},
	{[]string{"the bass block"}, map[string]string{
		"walk": `line = "walk"`, "style": `line = "walk"`, "feel": `line = "walk"`,
	}},
	{[]string{"an accent", "a stop"}, map[string]string{
		"at": `A time belongs to a cue at the same place: cue "3: 1" { text = "lights" }, with at = "1:24.5" in it.`,
	}},
	{[]string{"a song"}, map[string]string{
		"import": `sections = ["harbour.song.hcl"]`, "include": `sections = ["harbour.song.hcl"]`,
		"guide": `vocal "FILE.mid" {}`, "vocals": `vocal "FILE.mid" {}`, "movie": "picture { … }",
		"film": "picture { … }", "video": "picture { … }", "transposition": "transpose = 2",
		"capo": "transpose = 2, where the chords are those of the shapes",
		"name": `title = "…"`, "keys": "piano { … }", "keyboard": "piano { … }", "measures": `chords = "| C | F |"`,
		"walk": `bass { line = "walk" }`, "fps": "rate = 24, in a picture block",
		"a_tempo": `bars "5-" { tempo = "a tempo" }, in a section`,
	}},
}

// calledIn is how a thing is written that musicians call by another word, in a block that messages
// call what; "" for a word that nobody knows.
func calledIn(what, name string) string {
	for _, c := range calledThere {
		if form := c.forms[name]; form != "" && slices.Contains(c.in, what) {
			return form
		}
	}
	if home(name) != "" {
		return ""
	}
	return calledHere[name]
}

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
	"changes":     `chords = "| C | F |"`,
	"progression": `chords = "| C | F |"`, "harmony": `chords = "| C | F |"`, "chord": `chords = "| C | F |"`,
	"fermata": `hold "8: 1" {}`, "fermate": `hold "8: 1" {}`, "pause": `hold "8: 1" {}, or a caesura for a silence`,
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
	"staccato": `accent "4: 1" { short = true }`, "dry": `accent "4: 1" { short = true }`,
	"secco":        `accent "4: 1" { short = true }`,
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
	"singer": whoSings, "singers": whoSings, "sings": whoSings, "who": whoSings,
	"voice": `vocal "FILE.mid" {}`, "melody": `vocal "FILE.mid" {}`,
	"repeat": `play "verse" { times = 2 }, in the form`, "repeats": `play "verse" { times = 2 }, in the form`,
	"safety": `vamp = "till Nell turns", in a play`, "until": `vamp = "till Nell turns", in a play`,
	"rubato": byHand, "freely": byHand, "colla_voce": byHand, "ad_lib": byHand, "adlib": byHand,
	"half_time": `feel = "half-time"`, "halftime": `feel = "half-time"`,
	"button":  `accent "last: 1" { short = true }`,
	"players": `tacet = ["drums"]: who keeps out`, "instruments": `tacet = ["drums"]: who keeps out`,
	"volta":   "an ending, |: Am7 | D7 |1. Gmaj7 :|2. G6 |, in chords",
	"endings": "an ending, |: Am7 | D7 |1. Gmaj7 :|2. G6 |, in chords",
	"mood":    behindSign, "note": behindSign, "notes": behindSign, "lyrics": behindSign, "lyric": behindSign,
	"comment": behindSign,
}

const (
	whoSings = `vocal "FILE.mid" { name = "Nell" }, at the top of the file; who sings in a play follows ` +
		`from the notes, and where there is no guide a cue says it: cue "1: 1" { text = "Nell" }`
	wayBack = `The way back is written out: play "verse" { only = "5-" } goes back to bar 5 of the verse, and the ` +
		`coda is a section of its own, play "coda" {}.`
	newKey      = `lift = 1, or key = "Ab major"`
	timesOrVamp = `times = 2, or vamp = "till Nell turns"`
	byHand      = `tempo = "guide", which follows the singer's MIDI file, or bars "5-6" { tempo = 54 }`
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
