package songspec_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/groove/library"
	"plinth/songspec"
)

// libraryEnv is what a song without grooves of its own has.
func libraryEnv() songspec.Env {
	feels := map[string]songspec.FeelInfo{}
	for _, e := range library.Index() {
		feels[e.Name] = songspec.FeelInfo{Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	return songspec.Env{Feels: feels}
}

// tempoDoubt is what is said of a feel at a tempo, "" for nothing.
func tempoDoubt(t *testing.T, e library.Entry, bpm int) string {
	t.Helper()
	meter := e.Meters
	if meter == "any" {
		meter = "4/4"
	}
	f, diags := songspec.Parse("t", []byte(fmt.Sprintf("feel = %q\nmeter = %q\ntempo = %d\nsection \"a\" {\n  "+
		"chords = \"| C |\"\n}\n", e.Name, meter, bpm)))
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	_, diags = f.Resolve(libraryEnv())
	switch {
	case len(diags) == 0:
		return ""
	case len(diags) > 1 || diags.HasErrors() || diags[0].Subject.Start.Line != 3:
		t.Fatalf("%s at %d: %v", e.Name, bpm, diags)
	}
	return diags[0].Detail
}

// TestTempoOfFeels: at every tempo of every feel that ships, something is said just
// outside its range, and what is offered instead sits well there, too.
func TestTempoOfFeels(t *testing.T) {
	feels := map[string]library.Entry{}
	for _, e := range library.Index() {
		feels[e.Name] = e
	}
	offered := 0
	for _, e := range library.Index() {
		for bpm := 20; bpm <= 400; bpm += 3 {
			said := tempoDoubt(t, e, bpm)
			if inside := bpm >= e.TempoLow && bpm <= e.TempoHigh || e.Meters == "any"; (said == "") != inside {
				t.Errorf("%s at %d: %q", e.Name, bpm, said)
			}
			_, rest, ok := strings.Cut(said, fmt.Sprintf("At %d write ", bpm))
			if !ok {
				continue
			}
			if 4*bpm <= 5*e.TempoHigh && 4*bpm >= 3*e.TempoLow {
				t.Errorf("%s at %d, not far from its range: %q", e.Name, bpm, said)
			}
			var other string
			var tempo int
			if _, err := fmt.Sscanf(rest, "feel = %q", &other); err == nil {
				offered++
				o, known := feels[other]
				if !known || bpm < o.TempoLow || bpm > o.TempoHigh || o.Meters != e.Meters {
					t.Errorf("%s at %d: %q does not suit", e.Name, bpm, other)
				}
			} else if _, err := fmt.Sscanf(rest, "tempo = %d", &tempo); err != nil || tempo < e.TempoLow ||
				tempo > e.TempoHigh {
				t.Errorf("%s at %d: %q", e.Name, bpm, said)
			}
		}
	}
	if offered < 50 {
		t.Errorf("another feel was offered only %d times", offered)
	}
}

// TestTempoOffers: what a musical director would say to these. Common practice, no
// single source.
func TestTempoOffers(t *testing.T) {
	feels := map[string]library.Entry{}
	for _, e := range library.Index() {
		feels[e.Name] = e
	}
	for _, c := range []struct {
		feel string
		bpm  int
		says string
	}{
		{"ballad-eighths", 140, `feel = "half-time", or tempo = 70 and two bars in one.`},
		{"brushes-ballad", 140, `feel = "swing", or tempo = 70 and two bars in one.`},
		{"swing", 66, `feel = "brushes-ballad", or tempo = 132 and each bar as two.`},
		{"backbeat-eighths", 60, `feel = "ballad-eighths", or tempo = 120 and each bar as two.`},
		{"one-drop", 70, `tempo = 140 and each bar as two.`},
		{"half-time", 60, `feel = "ballad-eighths", or tempo = 120 and each bar as two.`},
		{"half-time", 61, `feel = "ballad-eighths", or tempo = 122 and each bar as two.`},
		{"gospel-six", 90, `feel = "lilt".`},
		{"ballad-in-two", 100, `feel = "show-two". In 2/2 the tempo counts halves: for 100 quarters write tempo = 50.`},
		{"show-two", 48, `feel = "ballad-in-two".`},
	} {
		if got := tempoDoubt(t, feels[c.feel], c.bpm); !strings.HasSuffix(got,
			fmt.Sprintf(" At %d write %s", c.bpm, c.says)) {
			t.Errorf("%s at %d: %q, want %q", c.feel, c.bpm, got, c.says)
		}
	}
	// Half-time is a backbeat on 3 in quick beats: 61 of the wide beat is no slow half-time but 122.
	if got := tempoDoubt(t, feels["half-time"], 61); !strings.Contains(got, "the one backbeat of the bar on 3") ||
		!strings.Contains(got, "from 112 to 168 beats a minute, which is 56 to 84 of the wide beat that is felt.") {
		t.Errorf("half-time at 61: %q", got)
	}
	if got := tempoDoubt(t, feels["waltz"], 200); strings.Contains(got, "write") {
		t.Errorf("waltz at 200: %q; nothing there is plays it", got)
	}
}

// TestDefaultTempo: a song that says no tempo is told so where the feel that it has,
// named or the meter's own, is far from the default.
func TestDefaultTempo(t *testing.T) {
	for head, want := range map[string]string{
		"":                       "",
		"meter = \"3/4\"\n":      "",
		"meter = \"6/8\"\n":      "",
		"meter = \"2/4\"\n":      "",
		"meter = \"2/2\"\n":      "",
		"meter = \"5/4\"\n":      "",
		"meter = \"7/8\"\n":      "",
		"meter = \"12/8\"\n":     "Write for example tempo = 58.",
		"feel = \"half-time\"\n": "", // a little slow
		"feel = \"one-drop\"\n":  "", // likewise
		"feel = \"gospel-six\"\n" + "meter = \"6/8\"\n": "Write for example tempo = 53.",
	} {
		f, diags := songspec.Parse("t", []byte(head+"section \"a\" {\n  chords = \"| C |\"\n}\n"))
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		_, diags = f.Resolve(libraryEnv())
		if want == "" && len(diags) > 0 || want != "" &&
			(len(diags) != 1 || diags[0].Subject.Start.Line != 1 || !strings.HasSuffix(diags[0].Detail, want)) {
			t.Errorf("%q: %v, want %q", head, diags, want)
		}
	}
}

// TestTempoOfDefault: who has named no feel is told which one the meter has, and which
// suits the tempo. Common practice, no single source.
func TestTempoOfDefault(t *testing.T) {
	for head, want := range map[string]string{
		"meter = \"6/8\"\ntempo = 54\n": `Where no feel is named 6/8 has "lilt", which sits well from 60 to 108 ` +
			`beats a minute. At 54 write feel = "gospel-six".`,
		"meter = \"4/4\"\ntempo = 110\n": `At 110 write feel = "backbeat-eighths".`,
		"meter = \"4/4\"\ntempo = 140\n": `At 140 write feel = "half-time", or tempo = 70 and two bars in one.`,
		"meter = \"4/4\"\ntempo = 40\n":  `At 40 write tempo = 80 and each bar as two.`,
		"meter = \"2/2\"\ntempo = 100\n": `which sits well from 40 to 72 halves a minute. ` +
			`At 100 write feel = "show-two". ` +
			`In 2/2 the tempo counts halves: for 100 quarters write tempo = 50.`,
		"meter = \"2/2\"\ntempo = 81\n": `In 2/2 the tempo counts halves: for 81 quarters write tempo = 40.5.`,
		"meter = \"3/4\"\ntempo = 76\n": `144 beats a minute.`, // nothing there is plays it
	} {
		f, diags := songspec.Parse("t", []byte(head+"section \"a\" {\n  chords = \"| C |\"\n}\n"))
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		_, diags = f.Resolve(libraryEnv())
		if len(diags) != 1 || diags[0].Subject.Start.Line != 2 || !strings.HasSuffix(diags[0].Detail, want) {
			t.Errorf("%q: %v, want %q", head, diags, want)
		}
	}
}

// TestFeelTables: the feels that the tables name are those of the library, and no
// name of a style is one of them.
func TestFeelTables(t *testing.T) {
	known := libraryEnv().Feels
	named := func(what string, feels ...string) {
		for _, f := range feels {
			if _, ok := known[f]; !ok {
				t.Errorf("%s: no feel %q", what, f)
			}
		}
	}
	for from, n := range songspec.Neighbours {
		named("neighbours", from)
		named(from, n.Quicker...)
		named(from, n.Slower...)
	}
	for _, c := range songspec.FeelCalled {
		named(c.Words[0], c.Feels...)
		for _, w := range c.Words {
			if _, ok := known[w]; ok {
				t.Errorf("%q is a feel of its own", w)
			}
		}
	}
}

// TestFeelOfAPart: where the tempo is the whole song's, the doubt stands at the feel of the part.
func TestFeelOfAPart(t *testing.T) {
	const chords = "  chords = \"| C |\"\n}\n"
	for src, line := range map[string]int{
		"tempo = 61.5\nfeel = \"brushes-ballad\"\nsection \"a\" {\n  feel = \"half-time\"\n": 4,
		"tempo = 61.5\nfeel = \"half-time\"\nsection \"a\" {\n":                              1,
		"feel = \"half-time\"\nsection \"a\" {\n  tempo = 61.5\n":                            3,
		"section \"a\" {\n  tempo = 61.5\n  feel = \"half-time\"\n":                          2,
	} {
		f, diags := songspec.Parse("t", []byte(src+chords))
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		_, diags = f.Resolve(libraryEnv())
		n := 0
		for _, d := range diags {
			if strings.HasPrefix(d.Summary, "Tempo 61.5 for") {
				if n++; d.Subject.Start.Line != line {
					t.Errorf("%s: line %d, want %d", src, d.Subject.Start.Line, line)
				}
			}
		}
		if n != 1 {
			t.Errorf("%s: %d doubts", src, n)
		}
	}
}
