// Package songtest is for tests. Random takes a source of chance and the feels there are, and
// returns a song as nobody would write it: with every word of the language,
// and events crowded where the players' tasks meet. LeastMotion measures voice leading.
package songtest

import (
	"fmt"
	"io/fs"
	"math/rand"
	"slices"
	"strings"
	"testing/fstest"

	"plinth/songspec/meter"
)

// Song is the text of a song file, and the files that it names.
type Song struct {
	Text  string
	Files map[string]string // by the names that the song gives them
}

// Folder is the folder with the files that the song names.
func (s Song) Folder() fs.FS {
	folder := fstest.MapFS{}
	for name, text := range s.Files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return folder
}

// Feel is what a song needs to know of a feel that it names.
type Feel struct {
	Name                string
	Meters              []meter.Meter // empty: any meter
	TempoLow, TempoHigh int
}

// Random is a song of two to four sections in any of the feels, and perhaps some that another song
// lends, with four to eight plays. The same r gives the same song. Every song can be read.
func Random(r *rand.Rand, feels []Feel) Song {
	w := &writer{r: r, more: rand.New(rand.NewSource(r.Int63())), feels: feels, files: map[string]string{}}
	return w.free(w.toPicture(Song{w.write(), w.files}))
}

// Old is the text of a song in words that every plinth has had, for comparing one with an older
// one. In a few of these songs a held beat is longer than a tempo map can say.
func Old(r *rand.Rand, feels []Feel) string { return (&writer{r: r, feels: feels}).write() }

func (w *writer) write() string {
	w.settings()
	for n := len(w.sections) + 2 + w.r.Intn(3); len(w.sections) < n; {
		w.section()
	}
	w.form()
	return w.b.String()
}

// writer writes one song.
type writer struct {
	r        *rand.Rand
	more     *rand.Rand // decides on words that came later; nil: there are none
	b        strings.Builder
	feels    []Feel
	files    map[string]string
	sections []*section
	lends    bool // its sections are lent to another song
	picture  *framing
}

// section is what events and plays depend on in a section, or in a play of it.
type section struct {
	name  string
	feel  Feel
	meter meter.Meter
	tempo int
	bars  []meter.Meter // its repeats written out
	hot   []int         // bars at whose ends most events stand; a bar may be in it twice
	rit   bool          // it has a rit; two must not overlap

	caesura bool               // it has one; two must not end one beat
	said    []string           // the words of its events
	rits    [][2]int           // bars in which its rits and accels move the tempo
	turns   []int              // bars with which a bars block changes the tempo
	held    map[meter.At]*held // its holds and caesuras, by where their beats end
	played  [][2]int           // the runs of bars that a play plays; nil: all
}

// later is true once in n times, and never where words that came later are left out.
func (w *writer) later(n int) bool { return w.more != nil && w.more.Intn(n) == 0 }

// suits reports whether a feel is written for a meter.
func (f Feel) suits(m meter.Meter) bool {
	return len(f.Meters) == 0 || slices.Contains(f.Meters, m)
}

// suiting is a feel that is written for a meter.
func (w *writer) suiting(m meter.Meter) Feel {
	var out []Feel
	for _, f := range w.feels {
		if f.suits(m) {
			out = append(out, f)
		}
	}
	return pick(w, out...)
}

func pick[T any](w *writer, from ...T) T { return from[w.r.Intn(len(from))] }

// chance is true once in n times.
func (w *writer) chance(n int) bool { return w.r.Intn(n) == 0 }

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

// Random words of the song file.
var (
	keys   = []string{"C", "Eb minor", "F# major", "A minor", "Bb", "Dm", "E major", "Ab"}
	chords = []string{
		"C", "Am7", "F#m7b5", "B7b9", "Em", "G/B", "Dm9", "G13", "Dbmaj7#11", "E7#9", "Abdim7", "Faug", "Bb6/D",
		"Gsus4", "A7alt", "Cm(maj7)", "C/G", "Eb/F", "Db/C", "D5", "F", "Cmaj7/E", "G11", "Bbadd9", "N.C.", "N.C.",
		"I", "iv6", "bVII", "V7/V", "IVadd9", "V7/3", "IV/2", "ii7", "viio7/ii", "bVI",
	}
	kits    = []string{"standard", "brushes", "sticks"}
	players = []string{
		`["drums"]`, `["bass"]`, `["piano"]`, `["drums", "bass"]`, `["drums", "piano"]`, `["bass", "piano"]`,
	}
	tacets = append([]string{"[]", `["drums", "bass", "piano"]`}, players...)
	meters = []string{
		"4/4", "3/4", "6/8", "7/8", "7/8 3+2+2", "5/4", "12/8", "2/4", "2/2", "5/8", "9/8", "3/8", "4/4 3+1",
	}
	oddBars = []string{"2/4", "2/4", "3/4", "1/4", "3/8", "5/8", "7/8", "6/8", "4/4", "5/4"}
)

func (w *writer) meter(from []string) meter.Meter {
	m, err := meter.Parse(pick(w, from...))
	if err != nil {
		panic("songtest: " + err.Error())
	}
	return m
}

func (w *writer) settings() {
	w.line("key = %q\nlooseness = %s", pick(w, keys...), pick(w, "0", "0.4", "0.4", "1"))
	w.line("take = %d", 1+w.r.Intn(50))
	if w.chance(3) {
		w.line("count_in = %d", 1+w.r.Intn(2))
	}
	if w.chance(3) {
		w.line("pickup = %s", pick(w, "0.5", "1", "1.5", "2"))
	}
	if w.chance(3) {
		w.line("piano {\n  highest = %q\n}", pick(w, "C4", "G4", "C5", "G5"))
	}
	if w.chance(3) {
		w.line("bass {\n  strings = 5\n}")
	}
	if w.chance(3) {
		w.line("drums {\n  kit = %q\n}", pick(w, kits...))
	}
	if w.more != nil {
		w.laterSettings()
	}
}

func (w *writer) section() {
	s := &section{name: fmt.Sprintf("s%d", len(w.sections)), held: map[meter.At]*held{}}
	if w.lends {
		s.name = "lent" + s.name
	}
	w.line("section %q {", s.name)
	if n := len(w.sections); n > 0 && w.chance(8) {
		w.like(s, w.sections[w.r.Intn(n)])
	} else {
		s.feel = pick(w, w.feels...)
		s.meter = w.meter(meters)
		if len(s.feel.Meters) > 0 {
			s.meter = pick(w, s.feel.Meters...)
		}
		w.line("  meter = %q", s.meter)
		if w.lends && w.later(3) { // it has the usual feel of its meter
			s.feel = w.suiting(s.meter)
		} else {
			w.line("  feel = %q", s.feel.Name)
		}
		w.chart(s)
	}
	if s.tempo = w.tempo(s.feel); w.lends && w.later(3) {
		s.tempo = 96 / int(s.meter.QuartersAsOne())
	} else {
		w.line("  tempo = %s\n  energy = %s", w.decimal(s.tempo), w.energy())
	}
	if w.chance(5) {
		w.line("  key = %q", pick(w, keys...))
	}
	if w.chance(5) {
		w.line("  tacet = %s", w.tacet(players))
	}
	if w.chance(6) {
		w.line("  fills = false")
	}
	if w.chance(6) {
		w.line("  lead = false")
	}
	if w.more != nil {
		w.band(s, 8, nil)
		w.insides(s, false)
	}
	w.events(s, w.r.Intn(11))
	w.line("}")
	w.sections = append(w.sections, s)
}

// like begins a section as another.
func (w *writer) like(s, other *section) {
	// It keeps the bars and meters, since the other section's places need them.
	name := s.name
	*s = other.copy()
	s.name = name
	w.line("  like = %q", other.name)
	if w.more == nil {
		return
	}
	s.rit = false // one of its own replaces those that it overlaps
	w.without(s)
	if len(s.held)+len(s.turns) == 0 && !w.later(4) {
		s.bars, s.hot = nil, nil
		w.line("  meter = %q", s.meter)
		w.chart(s)
	}
}

// copy is the section with what a play or a section like it may change.
func (s *section) copy() section {
	out := *s
	out.said, out.rits, out.turns = slices.Clone(s.said), slices.Clone(s.rits), slices.Clone(s.turns)
	out.held = map[meter.At]*held{}
	for at, h := range s.held {
		c := *h
		out.held[at] = &c
	}
	return out
}

// tempo is a tempo in the range of a feel, or up to a quarter outside.
func (w *writer) tempo(f Feel) int {
	low, high := f.TempoLow*3/4, f.TempoHigh*5/4
	return min(max(low+w.r.Intn(max(1, high-low)), 20), 400)
}

// decimal is a tempo as it is written, now and then with decimals.
func (w *writer) decimal(tempo int) string {
	if tempo < 400 && w.later(4) {
		return fmt.Sprintf("%d%s", tempo, []string{".5", ".25", ".125", ".9"}[w.more.Intn(4)])
	}
	return fmt.Sprint(tempo)
}

// tacet is one of some lists of players, now and then all of them in a word.
func (w *writer) tacet(from []string) string {
	if w.later(6) {
		return `["all"]`
	}
	return pick(w, from...)
}

func (w *writer) energy() string {
	if w.chance(2) {
		return fmt.Sprint(1 + w.r.Intn(5))
	}
	return fmt.Sprintf("[%d, %d]", 1+w.r.Intn(5), 1+w.r.Intn(5))
}
