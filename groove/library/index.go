package library

import (
	"slices"

	"plinth/songspec/meter"
)

// Entry is what is known of a groove without reading its file.
type Entry struct {
	Name      string
	Meters    string // as in the groove file: "4/4", or "any"
	TempoLow  int    // beats a minute, the meter's own beat
	TempoHigh int
	About     string
}

// entries are kept by hand, beside the files, so that names can be checked and
// offered without decoding anything; a test holds them against the files. The
// order is the order of all listings.
var entries = [...]Entry{
	{"ballad-eighths", "4/4", 56, 88, "a slow song in eighths: cross-stick in the verse, a backbeat when it opens up"},
	{"ballad-sixteenths", "4/4", 56, 80, "a slow song with sixteenths running quietly underneath"},
	{"brushes-ballad", "4/4", 50, 76, "brushes sweeping, the foot on 2 and 4, a bass in two that comes to walk"},
	{"backbeat-eighths", "4/4", 84, 138, "the plain song beat: eighths on the hat, snare on 2 and 4"},
	{"tight-sixteenths", "4/4", 60, 112, "short notes in sixteenths, everybody in a gap the others leave"},
	{"half-time", "4/4", 112, 168, "quick eighths with one backbeat a bar, on 3: twice as wide"},
	{"four-on-the-floor", "4/4", 104, 132, "the kick on every beat, the hat between"},
	{"snare-on-four", "4/4", 104, 130, "the snare on every beat, the bass talking underneath"},
	{"shuffle", "4/4", 84, 132, "long and short in triplets, a bass that strolls up the chord"},
	{"swing", "4/4", 108, 184, "ride and foot, a bass in two that comes to walk, few and short chords"},
	{"two-beat", "4/4", 96, 132, "quick: bass on the beats, snare and chords between them"},
	{"train", "4/4", 88, 126, "sixteenths murmuring on the snare, accents between the beats"},
	{"bossa", "4/4", 104, 152, "a quiet clave in cross-stick, root and fifth, chords that lean over the beat"},
	{"samba", "4/4", 84, 112, "two to the bar, the low drum on 2, sixteenths all the way"},
	{"one-drop", "4/4", 116, 160, "1 left empty, kick and cross-stick on 3, chords on 2 and 4"},
	{"second-line", "4/4", 84, 108, "a street parade held down: rolling snare, a little late in its sixteenths"},
	{"slow-twelve", "12/8", 44, 72, "slow triplets written out: soul and gospel ballads"},
	{"gospel-six", "6/8", 40, 66, "a slow six with the snare on 4 and a pickup into 1"},
	{"lilt", "6/8", 60, 108, "a quick six that sways: long, short, long, short"},
	{"waltz", "3/4", 84, 144, "bass on 1, chords on 2 and 3"},
	{"jazz-waltz", "3/4", 100, 172, "three that swings: the foot on 2, a bass that comes to walk"},
	{"ballad-in-two", "2/2", 40, 72, "a slow song in two: quarters moving under a long line, one backbeat a bar"},
	{"show-two", "2/2", 72, 132, "bright, in cut time: root and fifth on the beats, chord and snare between"},
	{"march", "2/4", 92, 126, "in step: bass on the beats, chords between, the snare rolling"},
	{"five", "5/4", 96, 160, "three and two"},
	{"seven", "7/8", 96, 168, "two, two and three: a bar of four with its last half beat cut off"},
	{"sustain", "any", 40, 200, "no drums: each bar one chord, held"},
	{"pulse", "any", 50, 160, "the beat and nothing else, in any meter"},
}

// Index lists the built-in grooves in their order.
func Index() []Entry { return append([]Entry(nil), entries[:]...) }

// Names lists the names of the built-in grooves in their order.
func Names() []string {
	out := make([]string, len(entries))
	for i, e := range entries {
		out[i] = e.Name
	}
	return out
}

// entryNamed finds a built-in groove's entry; nil when there is none.
func entryNamed(name string) *Entry {
	if i := slices.IndexFunc(entries[:], func(e Entry) bool { return e.Name == name }); i >= 0 {
		return &entries[i]
	}
	return nil
}

// families are the built-in fill families, each a file of that name.
var families = [...]string{"straight", "ballad", "triplet", "swing", "compound", "brushes", "bossa", "latin", "march",
	"two"}

// Families lists the names of the built-in fill families.
func Families() []string { return append([]string(nil), families[:]...) }

// kits are the words that a groove may name as its kit.
var kits = [...]string{"standard", "brushes", "sticks"}

// basses are the words that a groove may name as its bass: electric, played with the fingers, or
// acoustic. The song file knows more.
var basses = [...]string{"finger", "acoustic"}

// ParsedMeters are the meters the groove is written for; none means any meter.
func (e Entry) ParsedMeters() []meter.Meter {
	if e.Meters == "any" {
		return nil
	}
	m, err := meter.Parse(e.Meters)
	if err != nil {
		panic("library: index: " + e.Name + ": " + err.Error())
	}
	return []meter.Meter{m}
}
