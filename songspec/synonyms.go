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

// called is how a thing is written, with the words, parted by blanks, that musicians have for it.
type called struct{ form, words string }

// calledHere are things that have other names in a song file, by the blocks in which those words mean
// them. Of two the first counts. Common practice, no single source.
var calledHere = []struct {
	in    []string // as messages name the blocks; nil for any of them
	forms []called
}{
	{[]string{"a play"}, []called{
		{timesOrVamp, "repeat repeats loop"},
		{"times = 2", "loops time x rounds"},
		{`vamp = "till the door opens"`, "until till"},
		{`only = "1-6"`, "part excerpt"},
		{`A play says which bars it plays: only = "1-4, 7-8".`, "skip except"},
		{`A play says which bars it plays: only = "5-".`, "from"},
		{"lift = 1", "transpose"},
		{newKey, "modulate modulation key_change"},
		{`only = "5-8"`, "to start end"},
	}},
	{[]string{"the form"}, []called{
		{wayBack,
			"segno dc ds da_capo dal_segno fine dc_al_coda ds_al_coda dc_al_fine ds_al_fine to_coda goto al_coda"},
		{`play "verse" { times = 2 }`, "repeat loop"},
		{`play "verse" { vamp = "till the door opens" }`, "vamp"},
		{`play "verse" {}`, "section"},
	}},
	{[]string{"a section"}, []called{
		{`play "verse" { times = 2 }, in the form, or |: and :| round the bars`, "repeat repeats"},
		{"lift = 1, in a play", "transpose"},
		{`section "verse" { … }, with the name behind the word`, "name"},
		{`a second ending, |: Am7 | D7 |1. Gmaj7 :|2. G6 |, in chords`, "ending"},
	}},
	{[]string{"a section", "a bars block"}, []called{
		{`bars "5-8" { energy = 4 }`, "measures"},
	}},
	{[]string{"a rit", "an accel"}, []called{
		{"to = 56", "tempo bpm target until end"},
		{"It begins with the tempo that the band has. Only where it goes is said: to = 56.", "from"},
	}},
	{[]string{"a stop"}, []called{
		{`It names those who stop: by = ["bass", "piano"].`, "except without"},
	}},
	{[]string{"a stop", "a hold", "a space", "a caesura"}, []called{
		{howLong, "bars length duration for until long"},
	}},
	{[]string{"an accent", "a push", "a stop", "a fill"}, []called{
		{`by = ["drums"]`, "players who for only with"},
		{`It names those who play it: by = ["bass", "piano"].`, "except without"},
	}},
	{[]string{"an accent"}, []called{
		{"short = true", "staccato dry length secco"},
		{"weight = 3", "strength level velocity volume dynamics loud"},
	}},
	{[]string{"a cue"}, []called{
		{`text = "lights"`, "name label title what"},
		{`at = "1:24.5"`, "time timecode"},
		{"each_time = true", "every each every_time always times"},
	}},
	{[]string{"the picture block"}, []called{
		{"rate = 24", "fps frames frame_rate framerate"},
		{`start = "01:00:00:00"`, "offset timecode from begin tc at"},
	}},
	{[]string{"the vocal block"}, []called{
		{`name = "Nell"`, "singer who"},
		{`track = "Voice"`, "voice channel instrument part"},
		{`vocal "FILE.mid" {}, with the file behind the word`, "file"},
		{"from = 1", "start bar at offset"},
		{"transpose = 2, by so many semitones the file goes up", "key"},
	}},
	{[]string{"the drums block"}, []called{
		{`kit = "brushes"`, "sound"},
		{keepOut("drums"), "tacet mute off"},
	}},
	{[]string{"the bass block"}, []called{
		{keepOut("bass"), "tacet mute off"},
		{`line = "walk"`, "walk style feel"},
	}},
	{[]string{"the piano block"}, []called{
		{keepOut("piano"), "tacet mute off"},
	}},
	{[]string{"an accent", "a stop"}, []called{
		{`A time belongs to a cue at the same place: cue "3: 1" { text = "lights" }, with at = "1:24.5" in it.`,
			"at"},
	}},
	{[]string{"a song"}, []called{
		{`sections = ["harbour.song.hcl"]`, "import include"},
		{`vocal "FILE.mid" {}`, "guide vocals"},
		{"picture { … }", "movie film video"},
		{"transpose = 2", "transposition"},
		{"transpose = 2, where the chords are those of the shapes", "capo"},
		{`title = "…"`, "name"},
		{"piano { … }", "keys keyboard"},
		{`chords = "| C | F |"`, "measures"},
		{`bass { line = "walk" }`, "walk"},
		{"rate = 24, in a picture block", "fps"},
		{`bars "5-" { tempo = "a tempo" }, in a section`, "a_tempo"},
	}},
	{nil, []called{
		{"tempo = 96", "bpm speed"},
		{`meter = "4/4"`, "time time_signature timesig signature takt"},
		{`feel = "waltz"`, "style groove rhythm"},
		{`feel = "swing"`, "swing"},
		{`key = "Eb major"`, "tonart tonality"},
		{`by = "…"`, "composer author artist writer music"},
		{"energy = 3, from 1 to 5", "dynamics dynamic volume intensity level"},
		{"energy = [2, 4]", "build crescendo cresc"},
		{"energy = [4, 2]", "diminuendo decrescendo"},
		{"lead = false", "leading transition transitions"},
		{"pickup = 1", "lead_in leadin upbeat anacrusis"},
		{`chords = "| C | F |"`, "changes progression harmony chord"},
		{`hold "8: 1" {}`, "fermata fermate"},
		{`hold "8: 1" {}, or a caesura for a silence`, "pause"},
		{`caesura "8: 4" {}`, "cesura zaesur tracks railroad railroad_tracks gp grand_pause general_pause breath"},
		{`rit "7-8" { to = 64 }`, "ritardando ritard rall rallentando slower"},
		{`accel "7-8" { to = 96 }`, "accelerando stringendo string faster"},
		{`stop "8: 3" {}`, "break cut cutoff choke"},
		{`accent "4: 1" {}`, "hit hits stab kick kicks"},
		{`accent "4: 1" { short = true }`, "staccato dry secco"},
		{`push "4: 4&" {}`, "anticipation anticipate"},
		{`bars "5-" { tempo = "a tempo" }`, "a_tempo atempo"},
		{`cue "3: 1" { text = "lights" }`, "cues marker cue_point"},
		{`tacet = ["drums"]`, "mute silent"},
		{"lift = 1, in a play", "modulation modulate key_change"},
		{`form { … }, with play "verse" {} in it for each section in turn`, "order structure arrangement"},
		{"count_in = 1", "countin"},
		{"looseness = 0.4", "humanize"},
		{whoSings, "singer singers sings who"},
		{`vocal "FILE.mid" {}`, "voice melody"},
		{`play "verse" { times = 2 }, in the form`, "repeat repeats"},
		{`vamp = "till Nell turns", in a play`, "safety until"},
		{byHand, "rubato freely colla_voce ad_lib adlib"},
		{`feel = "half-time"`, "half_time halftime"},
		{`accent "last: 1" { short = true }`, "button"},
		{`tacet = ["drums"]: who keeps out`, "players instruments"},
		{"an ending, |: Am7 | D7 |1. Gmaj7 :|2. G6 |, in chords", "volta endings"},
		{behindSign, "mood note notes lyrics lyric comment"},
	}},
}

// calledIn is how a thing is written that musicians call by another word, in a block that messages
// call what; "" for a word that nobody knows.
func calledIn(what, name string) string {
	for _, here := range calledHere {
		if here.in != nil && !slices.Contains(here.in, what) {
			continue
		}
		for _, c := range here.forms {
			if strings.Contains(c.words, name) && slices.Contains(strings.Fields(c.words), name) {
				return c.form
			}
		}
	}
	return ""
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
