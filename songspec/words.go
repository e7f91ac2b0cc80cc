package songspec

import (
	"slices"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The words of the song file, by the block that they belong in, in the order in which the
// reference lists them.
var (
	topAttrs = []string{"title", "by", "key", "meter", "tempo", "feel", "energy", "lead", "looseness", "take",
		"count_in", "pickup", "transpose", "grooves", "sections"}
	topBlocks = []string{"drums", "bass", "piano", "vocal", "picture", "section", "form"}

	// The first of the attributes of a player stand at the top only.
	drumsAttrs   = []string{"kit"}
	bassAttrs    = []string{"strings", "sound", "line"}
	pianoAttrs   = []string{"highest", "span", "sound"}
	pictureAttrs = []string{"rate", "start"}
	vocalAttrs   = []string{"name", "track", "from", "range", "transpose", "rough", "leads"}

	sectionAttrs = []string{"chords", "like", "without", "key", "meter", "tempo", "feel", "energy", "lead", "tacet",
		"fills"}
	playAttrs = []string{"only", "times", "vamp", "without", "key", "meter", "tempo", "feel", "energy", "lead",
		"tacet", "fills", "lift", "at"}
	insideAttrs = []string{"chords", "key", "meter", "tempo", "feel", "energy", "tacet"}
	eventWords  = timeline.EventNames[:]

	// bandBlocks are the players' blocks, partBlocks the blocks of a section or a play.
	bandBlocks = timeline.PlayerNames[:]
	partBlocks = slices.Concat(eventWords, []string{"bars"}, bandBlocks)
)

// everybodyWord is the word for all players in a tacet.
const everybodyWord = "all"

// eventRule is what the language says about an event word.
type eventRule struct {
	attrs  []string         // its options
	by     timeline.Players // the players that it concerns where the file names none
	struck bool             // it is something to strike, so it does not concern tacet players
	toLine bool             // without beats it lasts to the bar line
}

var eventRules = [...]eventRule{
	timeline.Accent: {attrs: []string{"by", "weight", "alone", "short"}, by: timeline.All, struck: true},
	timeline.Push:   {attrs: []string{"by"}, by: timeline.All, struck: true},
	timeline.Stop:   {attrs: []string{"beats", "by"}, by: timeline.All, toLine: true},
	timeline.Fill:   {attrs: []string{"by"}, by: 1 << timeline.Drums, struck: true},
	timeline.Hold:   {attrs: []string{"beats"}, by: timeline.All},
	timeline.Rit:    {attrs: []string{"to"}, by: timeline.All},
	timeline.Accel:  {attrs: []string{"to"}, by: timeline.All},
	timeline.Space:  {attrs: []string{"beats"}, by: timeline.All, toLine: true},
	timeline.Cue:    {attrs: []string{"text", "at", "each_time"}, by: timeline.All},

	timeline.Caesura: {attrs: []string{"beats"}, by: timeline.All},
}

// partsOfSong are what musicians call the parts of a song.
var partsOfSong = []string{"intro", "verse", "prechorus", "pre_chorus", "pre-chorus", "chorus", "refrain", "bridge",
	"interlude", "solo", "tag", "outro", "coda",
	"ending", "turnaround", "strophe", "vers", "couplet", "hook", "part", "middle_eight", "instrumental", "a",
	"b", "c"}

// partOfSong reports whether a name is the name of a part, perhaps with a number: verse2.
func partOfSong(name string) bool {
	return slices.Contains(partsOfSong, strings.TrimRight(strings.ToLower(name), "0123456789_-"))
}

// kits are the words for what the drummer plays on. General MIDI level 1 has only one kit, so
// these are ways of playing it. "brushes" also selects the brush kit of a synthesizer that has
// one; "sticks" keeps sticks where the feel would take brushes.
var kits = []string{"standard", "brushes", "sticks"}

// bassLines are the lines that a bassist can be asked for instead of the feel's.
var bassLines = []string{timeline.LineTwo, timeline.LineWalk}

// A sound is a General MIDI program by its plain name.
type sound struct {
	word    string
	program uint8 // counted from 0
}

// Programs counted from 0, from the General MIDI level 1 sound set (0 Acoustic
// Grand Piano to 7 Clavinet, 32 Acoustic Bass to 39 Synth Bass 2). The plain
// names are ours.
var bassSounds = []sound{
	{"finger", 33},
	{"pick", 34},
	{"acoustic", 32},
	{"fretless", 35},
	{"slap", 36},
	{"synth", 38},
}

var pianoSounds = []sound{
	{"grand", 0},
	{"bright", 1},
	{"electric grand", 2},
	{"honky-tonk", 3},
	{"electric", 4},
	{"fm electric", 5},
}

// Defaults of the song file.
const (
	defaultTempo     = meter.BPM(96_000)
	defaultFeel      = "ballad-eighths"
	defaultEnergy    = 2
	defaultLooseness = 400 // per mille
	defaultTake      = 1
	defaultSpan      = 14 // semitones: a ninth
)

// usualTempo is the tempo of a song in a meter that says none: 96 quarters, or as fast in halves.
func usualTempo(m meter.Meter) meter.BPM { return defaultTempo / meter.BPM(m.QuartersAsOne()) }

// feelsOfMeters are the feels that meters have when the song names none. Any other meter has
// pulse.
var feelsOfMeters = map[[2]int]string{
	{4, 4}: defaultFeel, {3, 4}: "waltz", {12, 8}: "slow-twelve", {6, 8}: "lilt", {2, 4}: "march",
	{2, 2}: "ballad-in-two", {5, 4}: "five", {7, 8}: "seven",
}
