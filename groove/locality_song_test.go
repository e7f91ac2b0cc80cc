package groove_test

import (
	"fmt"
	"math/rand"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// An edit in one section moves no note in another. What a pass may know of its
// neighbours is the chord before and after it and the energy there, so that there
// are two exceptions, both over a border: a push over the end of a section belongs
// to the passes on both sides, and a pass beside an edited first or last chord may
// lead to it another way.

// block is a section of a song file's text.
type block struct {
	name     string
	from, to int
	like     string
}

var (
	sectionHead = regexp.MustCompile(`(?m)^section "([^"]+)" \{\n`)
	likeLine    = regexp.MustCompile(`(?m)^  like += "([^"]+)"`)
	feelLine    = regexp.MustCompile(`(?m)^  feel += .*\n`)
	eventLine   = regexp.MustCompile(`(?m)^  (accent|push|stop|fill|hold) .*\{\}\n`)
	// A chord of a chart: letters or numerals between blanks.
	chordWord = regexp.MustCompile(`[ |]((?:[A-G][b#]?|[b#]?(?:[IV]+|[iv]+))[a-z0-9#/A-G]*)[ |]`)
)

func blocks(src string) []block {
	var out []block
	for _, m := range sectionHead.FindAllStringSubmatchIndex(src, -1) {
		b := block{name: src[m[2]:m[3]], from: m[1], to: m[1] + strings.Index(src[m[1]:], "\n}\n") + 1}
		if l := likeLine.FindStringSubmatch(src[b.from:b.to]); l != nil {
			b.like = l[1]
		}
		out = append(out, b)
	}
	return out
}

// edit changes one thing of a section; ends says that its first or last chord may
// have changed. The text may be one that does not resolve.
func edit(r *rand.Rand, src string, b block) (out, what string, ends bool) {
	body := src[b.from:b.to]
	meters := strings.Contains(src, `meter     = "3/4"`)
	switch r.Intn(4) {
	case 0, 1:
		at := strings.Index(body, "chords = ")
		if at < 0 {
			return src, "", false
		}
		words := chordWord.FindAllStringSubmatchIndex(body[at:], -1)
		if len(words) == 0 {
			return src, "", false
		}
		i := r.Intn(len(words))
		chord := []string{"Dbmaj7", "E7#9", "F#m7b5", "bVII", "iv6", "V7/ii", "C/G", "N.C.", "Bb13"}[r.Intn(9)]
		lo, hi := at+words[i][2], at+words[i][3]
		// What begins or ends the chart, with its repeats, is not told from the text.
		return src[:b.from] + body[:lo] + chord + body[hi:] + src[b.to:], "chord " + chord, true
	case 2:
		feels := []string{"half-time", "shuffle", "bossa", "train", "sustain", "four-on-the-floor"}
		if meters {
			feels = []string{"jazz-waltz", "waltz", "pulse", "sustain"}
		}
		name := feels[r.Intn(len(feels))]
		body = feelLine.ReplaceAllString(body, "")
		return src[:b.from] + fmt.Sprintf("  feel = %q\n", name) + body + src[b.to:], "feel " + name, false
	}
	if old := eventLine.FindAllStringIndex(body, -1); len(old) > 0 && r.Intn(2) == 0 {
		m := old[r.Intn(len(old))]
		return src[:b.from] + body[:m[0]] + body[m[1]:] + src[b.to:], "without " + body[m[0]:m[1]], false
	}
	bar := 1 + r.Intn(8)
	event := []string{
		"accent \"%d: 1 2\" {}", "accent \"%d: 2&\" { weight = 3 }", "accent \"%d: 1 3\" { alone = true }",
		"push \"%d: 3&\" {}", "push \"last: 4&\" {}", "push \"last: 3&\" {}", "stop \"%d: 2\" {}", "fill \"%d: 2\" {}",
		"fill \"last: 1\" {}", "hold \"%d: 3\" { beats = 2 }",
	}[r.Intn(10)]
	if strings.Contains(event, "%d") {
		event = fmt.Sprintf(event, bar)
	}
	return src[:b.from] + "  " + event + "\n" + body + src[b.to:], event, false
}

func TestEditingASongFileMovesNoOtherSection(t *testing.T) {
	rounds := 100
	if testing.Short() {
		rounds = 20
	}
	for _, path := range songfiletest.Examples(t, "../examples") {
		src, tl, own := songfiletest.Example(t, path)
		r := rand.New(rand.NewSource(11))
		done, moved := 0, 0
		for round := 0; round < rounds; round++ {
			songfiletest.Again(tl, 1+r.Intn(30), r.Intn(3)*500)
			bs := blocks(src)
			b := bs[r.Intn(len(bs))]
			text, what, ends := edit(r, src, b)
			if what == "" {
				continue
			}
			after, _, err := songfiletest.ExampleText(path, text)
			if err != nil {
				continue
			}
			songfiletest.Again(after, tl.Take, tl.Looseness)
			done++
			was, is := groove.Perform(tl, own), groove.Perform(after, own)
			mine := ownPasses(bs, b, tl)
			for i := range tl.Passes {
				same := reflect.DeepEqual(was.Passes[i], is.Passes[i])
				switch {
				case mine[i] && !same:
					moved++
				case !same && !overBorder(tl, after, mine, i, ends):
					t.Fatalf("%s, round %d: %s in %q moved pass %d, %q", path, round, what, b.name, i,
						tl.Passes[i].Section)
				}
			}
			for _, f := range audit.Song(after, is, own).Findings {
				if f.Severity == audit.Fault {
					t.Errorf("%s, round %d: %s in %q: the %s in bar %d of the song: %s", path, round, what, b.name,
						f.Player, f.SongBar, f.Text)
				}
			}
		}
		t.Logf("%s: %d edits, %d passes moved", path, done, moved)
		if done < rounds/3 || moved < done/2 {
			t.Errorf("%s: %d edits moved %d passes: too few to show anything", path, done, moved)
		}
	}
}

// ownPasses are the passes of a section and of those that are like it.
func ownPasses(bs []block, b block, tl *timeline.Timeline) map[int]bool {
	names := map[string]bool{b.name: true}
	for range bs {
		for _, other := range bs {
			if names[other.like] {
				names[other.name] = true
			}
		}
	}
	out := map[int]bool{}
	for i := range tl.Passes {
		out[i] = names[tl.Passes[i].Section]
	}
	return out
}

// overBorder reports whether pass i may have moved, being none of the edited: a
// push reaches it, or an edited chord stands beside it.
func overBorder(was, is *timeline.Timeline, mine map[int]bool, i int, ends bool) bool {
	a, b := &was.Passes[i], &is.Passes[i]
	if !reflect.DeepEqual(a.Entry, b.Entry) || a.Entry != nil && mine[i-1] {
		return true
	}
	chord := func(n *timeline.Neighbour) any {
		if n == nil {
			return nil
		}
		return n.Chord
	}
	return ends && (mine[i-1] && chord(a.Before) != chord(b.Before) || mine[i+1] && chord(a.After) != chord(b.After))
}
