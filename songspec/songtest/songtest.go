// Package songtest is for tests. Random takes a source of chance and the feels there are, and
// returns the text of a song file as nobody would write it: with every word of the language,
// and events crowded where the players' tasks meet. LeastMotion measures voice leading, and PopSongs reads a
// data set of songs that people have played.
package songtest

import (
	"fmt"
	"math/rand"
	"strings"

	"plinth/songspec/meter"
)

// Feel is what a song needs to know of a feel that it names.
type Feel struct {
	Name                string
	Meters              []meter.Meter // empty: any meter
	TempoLow, TempoHigh int
}

// Random is the text of a song of two to four sections in any of the feels, with four to
// eight plays. The same r gives the same song. Nearly all songs can be read; in a few, a held
// beat is longer than a tempo map can say.
func Random(r *rand.Rand, feels []Feel) string { return write(&writer{r: r, feels: feels}) }

// Old is as Random, in words that every plinth has had, for comparing one with an older one.
func Old(r *rand.Rand, feels []Feel) string { return write(&writer{r: r, feels: feels, old: true}) }

// RandomCharts is Random with charts that have endings, and chords that say their counts. more is
// the chance of those, so that all else in the song is as in the song of r.
func RandomCharts(r, more *rand.Rand, feels []Feel) string {
	return write(&writer{r: r, more: more, feels: feels})
}

func write(w *writer) string {
	w.settings()
	for n := 2 + w.r.Intn(3); len(w.sections) < n; {
		w.section()
	}
	w.form()
	return w.b.String()
}

// writer writes one song.
type writer struct {
	r, more  *rand.Rand // more is nil where charts are plain
	b        strings.Builder
	feels    []Feel
	sections []*section
	old      bool // without words that came later
}

// section is what events and plays depend on in a section.
type section struct {
	name  string
	feel  Feel
	meter meter.Meter
	tempo int
	bars  []meter.Meter // its repeats written out
	hot   []int         // bars at whose ends most events stand; a bar may be in it twice
	rit   bool          // it has a rit, with which one of a play might overlap

	caesura bool // it has one, likewise
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
		w.line("drums {\n  kit = %q\n}", pick(w, "standard", "brushes", "sticks"))
	}
}

func (w *writer) section() {
	s := &section{name: fmt.Sprintf("s%d", len(w.sections))}
	w.line("section %q {", s.name)
	if n := len(w.sections); n > 0 && w.chance(8) {
		// It keeps the bars and meters, since the other section's places need them.
		like := w.sections[w.r.Intn(n)]
		name := s.name
		*s = *like
		s.name = name
		w.line("  like = %q", like.name)
	} else {
		s.feel = pick(w, w.feels...)
		s.meter = w.meter(meters)
		if len(s.feel.Meters) > 0 {
			s.meter = pick(w, s.feel.Meters...)
		}
		w.line("  meter = %q\n  feel = %q", s.meter, s.feel.Name)
		w.chart(s)
	}
	s.tempo = w.tempo(s.feel)
	w.line("  tempo = %d\n  energy = %s", s.tempo, w.energy())
	if w.chance(5) {
		w.line("  key = %q", pick(w, keys...))
	}
	if w.chance(5) {
		w.line("  tacet = %s", pick(w, players...))
	}
	if w.chance(6) {
		w.line("  fills = false")
	}
	if w.chance(6) {
		w.line("  lead = false")
	}
	if !w.old && w.chance(4) {
		w.line("  bars %q {\n    tacet = %s\n  }", w.bars(s), pick(w, append(tacets, `["all"]`)...))
	}
	w.events(s, w.r.Intn(11))
	w.line("}")
	w.sections = append(w.sections, s)
}

// tempo is a tempo in the range of a feel, or up to a quarter outside.
func (w *writer) tempo(f Feel) int {
	low, high := f.TempoLow*3/4, f.TempoHigh*5/4
	return min(max(low+w.r.Intn(max(1, high-low)), 20), 400)
}

func (w *writer) energy() string {
	if w.chance(2) {
		return fmt.Sprint(1 + w.r.Intn(5))
	}
	return fmt.Sprintf("[%d, %d]", 1+w.r.Intn(5), 1+w.r.Intn(5))
}

// chart writes the bars of a section and chooses where its events will crowd.
func (w *writer) chart(s *section) {
	n := 1 + w.r.Intn(6)
	for i := w.r.Intn(2); i >= 0; i-- {
		s.hot = append(s.hot, w.r.Intn(n))
	}
	s.hot = append(s.hot, n-1)
	twice := w.chance(8)
	var b strings.Builder
	b.WriteString("|")
	if twice {
		b.WriteString(":")
	}
	odd := false // the bar before has a meter of its own
	for i := range n {
		m := s.meter
		if i > 0 && !odd && w.chance(8) {
			b.WriteString(" % |")
			s.bars = append(s.bars, m)
			continue
		}
		if odd = w.chance(8); odd {
			m = w.meter(oddBars)
			fmt.Fprintf(&b, " (%s)", m)
		}
		s.bars = append(s.bars, m)
		b.WriteString(w.withCounts(w.bar(m, i == 0 || s.hot[0] == i-1), m, i == 0))
		b.WriteString(" |")
	}
	text := b.String()
	if twice {
		text = w.withEndings(strings.TrimSuffix(text, "|")+":|", n)
		s.bars = append(s.bars, s.bars...)
		s.hot = append(s.hot, 2*n-1)
	}
	w.line("  chords = %q", text)
}

// bar is the chords of one bar. After a crowded bar line, and at the beginning of the section,
// it often begins with N.C., so that a push over the line has no chord to play.
func (w *writer) bar(m meter.Meter, crowded bool) string {
	beats := len(m.Beats())
	n := pick(w, 1, 1, 1, beats)
	if beats%2 == 0 && w.chance(3) {
		n = 2
	}
	var b strings.Builder
	for i := range n {
		c := pick(w, chords...)
		if i == 0 && crowded && w.chance(4) {
			c = "N.C."
		}
		b.WriteString(" " + c)
	}
	return b.String()
}

func (w *writer) form() {
	w.line("form {")
	var last *section
	for i := 4 + w.r.Intn(5); i > 0; i-- {
		s := pick(w, w.sections...)
		if last != nil && w.chance(4) {
			s = last // twice running: a push over its end meets its own bar 1
		}
		last = s
		w.play(s)
	}
	w.line("}")
}

func (w *writer) play(s *section) {
	w.line("  play %q {", s.name)
	switch w.r.Intn(8) {
	case 0:
		w.line("  lift = %d", pick(w, 1, 2, -1, -3))
	case 1:
		w.line("  key = %q", pick(w, keys...))
	}
	if w.chance(4) {
		w.line("  tacet = %s", pick(w, tacets...))
	}
	if w.chance(4) {
		w.line("  energy = %s", w.energy())
	}
	if w.chance(8) {
		w.line("  tempo = %d", w.tempo(s.feel))
	}
	if w.chance(8) {
		w.line("  fills = %t", w.chance(2))
	}
	rit, caesura := s.rit, s.caesura
	w.events(s, max(0, w.r.Intn(6)-2))
	s.rit, s.caesura = rit, caesura
	w.line("  }")
}
