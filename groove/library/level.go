package library

import (
	"cmp"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
)

// rawLevel is a level as it is written, before "from" is followed.
type rawLevel struct {
	block   *hclsyntax.Block
	from    int // energy; 0: from nothing
	fromAt  hcl.Range
	without map[string]bool
	rows    map[string]tab
	voices  int
	centre  int
	answer  *rawLevel
	broken  bool // something in it was reported
	done    bool
	busy    bool // being resolved: a second visit is a circle
}

var levelWords = []string{"from", "without", "voices", "centre", "bass", "comp"}

// levels reads the level blocks and fills f.Levels: a level that is not written
// is the nearest lower one that is, and below the lowest the lowest.
func (d *decoder) levels(f *feel.Feel, blocks []*hclsyntax.Block, groove hcl.Range) {
	var raw [6]*rawLevel
	first := map[string]hcl.Range{}
	for _, b := range blocks {
		if len(b.Labels) != 1 || energyNamed(b.Labels[0]) == 0 {
			d.rep.Errorf(b.DefRange(), "Not a level",
				`A level is named by its energy in quotes, "1" to "5": level "3" { … }.`)
			continue
		}
		if d.twice(first, b.Labels[0], b, "level") {
			continue
		}
		raw[energyNamed(b.Labels[0])] = d.readLevel(b, f, false)
	}
	at := 0 // the lowest
	for e := 5; e >= 1; e-- {
		if raw[e] != nil {
			at = e
		}
	}
	if at == 0 {
		if len(blocks) == 0 {
			d.rep.Errorf(groove, "No level", `A groove has at least one level: level "1" { … }, up to "5".`)
		}
		return
	}
	for e := range raw {
		if raw[e] != nil {
			d.resolve(&raw, e)
		}
	}
	for e := 1; e <= 5; e++ {
		if raw[e] != nil {
			at = e
		}
		f.Levels[e-1] = d.build(f, raw[at], e, e == at)
	}
}

// readLevel reads one level block, or an answer block inside one.
func (d *decoder) readLevel(b *hclsyntax.Block, f *feel.Feel, answer bool) *rawLevel {
	l := &rawLevel{block: b, without: map[string]bool{}, rows: map[string]tab{}}
	where, known := "A level", slices.Concat(levelWords, voiceWords())
	if answer {
		where, known = "An answer", append([]string{"without", "bass", "comp"}, voiceWords()...)
	}
	for _, a := range hcltext.Attributes(b.Body) {
		if !slices.Contains(known, a.Name) {
			d.unknown(b, a, where, known)
			l.broken = true
			continue
		}
		l.broken = !d.levelWord(l, a, f) || l.broken
	}
	for _, x := range b.Body.Blocks {
		switch {
		case answer:
			d.stray(x, where, known, nil)
		case x.Type != "answer":
			d.stray(x, where, known, []string{"answer"})
		case len(x.Labels) > 0:
			d.rep.Errorf(x.DefRange(), "An answer has no name", "Write answer { … }.")
		case l.answer != nil:
			d.rep.Errorf(x.TypeRange, "A second answer", "A level has one answer at most.")
		default:
			l.answer = d.readLevel(x, f, true)
		}
	}
	return l
}

// levelWord reads one line of a level; false when something was reported.
func (d *decoder) levelWord(l *rawLevel, a *hclsyntax.Attribute, f *feel.Feel) bool {
	at := a.Expr.Range()
	switch a.Name {
	case "from":
		s, ok := d.text(a)
		l.from, l.fromAt = energyNamed(s), at
		if ok && l.from == 0 {
			d.rep.Errorf(at, "Not a level", `from names another level of this groove: from = "1".`)
		}
		return l.from != 0
	case "without":
		words, places, ok := d.words(a)
		for i, w := range words {
			ok = d.oneOf(append(voiceWords(), "bass", "comp"), w, places[i], "Unknown row", "row") && ok
			l.without[w] = true
		}
		return ok
	case "voices":
		var ok bool
		l.voices, ok = d.whole(a, 2, 4)
		return ok
	case "centre":
		s, ok := d.text(a)
		l.centre = centreNamed(s)
		if ok && l.centre == 0 {
			d.rep.Errorf(at, "Not a note",
				`centre is the note that the chords gather round, from C3 to C5 (C4 is middle C): centre = "C4".`)
		}
		return l.centre != 0
	}
	if v, drum := feel.VoiceNamed(a.Name); drum && v.Brush() && f.Kit != "brushes" {
		d.rep.Errorf(a.NameRange, "Needs brushes",
			`%s is played with brushes. Write kit = "brushes" in the groove.`, a.Name)
		return false
	}
	if a.Name == "comp" {
		t, ok := d.readFigures(a, f.Grid)
		if ok {
			l.rows[a.Name] = t
		}
		return ok
	}
	t, ok := d.readTab(a, f.Grid)
	if ok = ok && d.fits(t, f.Grid); ok {
		l.rows[a.Name] = t
	}
	return ok
}

// energyNamed is the energy that names a level, 1 to 5; 0 for any other text.
func energyNamed(name string) int { return slices.Index([]string{"1", "2", "3", "4", "5"}, name) + 1 }

var notes = hcltext.Pattern(`^([A-G])(?:(#)|(b))?([0-9])$`)

// centreNamed is a note from C3 to C5 as a MIDI number, C4 = 60; 0 for any other text.
func centreNamed(note string) int {
	m := notes().FindStringSubmatch(note)
	if m == nil {
		return 0
	}
	n := strings.Index("C D EF G A B", m[1]) + len(m[2]) - len(m[3]) + 12*int(m[4][0]-'0'+1)
	if n < 48 || n > 72 {
		return 0
	}
	return n
}

// resolve lays a level over the one it starts from.
func (d *decoder) resolve(raw *[6]*rawLevel, e int) {
	l := raw[e]
	if l.done || l.busy {
		return
	}
	l.busy = true
	defer func() { l.busy, l.done = false, true }()
	base := &rawLevel{rows: map[string]tab{}}
	if l.from != 0 {
		switch src := raw[l.from]; {
		case src == nil:
			d.rep.Errorf(l.fromAt, "No such level", "This groove writes no level %d to start from.", l.from)
			l.broken = true
		case src.busy:
			d.rep.Errorf(l.fromAt, "Levels in a circle",
				"Level %d starts, over others or at once, from itself. One of them must start from nothing.", l.from)
			l.broken = true
		default:
			d.resolve(raw, l.from)
			base = src
			l.broken = l.broken || src.broken
		}
	}
	for word := range l.without {
		_, below := base.rows[word]
		if _, own := l.rows[word]; own || (l.from != 0 && !below && !l.broken) {
			d.rep.Errorf(l.block.Body.Attributes["without"].Expr.Range(), "Nothing to leave out",
				"without names %s, which this level writes itself or does not get from level %d.", word, l.from)
			l.broken = true
		}
	}
	for word, t := range base.rows {
		if _, own := l.rows[word]; !own && !l.without[word] {
			l.rows[word] = t
		}
	}
	l.voices, l.centre = cmp.Or(l.voices, base.voices), cmp.Or(l.centre, base.centre)
}
