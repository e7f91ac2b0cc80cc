package outline_test

import (
	"strings"
	"testing"

	"plinth/songspec"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// weir is the song that the tests change.
const weir = `title = "Lanterns on the Weir"
key   = "Eb major"
tempo = 72
feel  = "ballad-eighths"
section "verse" {
  energy = 2
  chords = "| Eb | Bb/D | Cm7 | Ab / Abm6 / | Eb/Bb | Bb7sus4 Bb7 | Eb | % |"
}
section "chorus" {
  energy = 4
  chords = "| Ab | Bb/Ab | Gm7 | Cm7 |"
  push "4: 4&" {}
}
section "bridge" {
  feel   = "tight-sixteenths"
  energy = 3
  chords = "| vi7 | IVmaj7 | bVI | bVII | iv6 | I/5 | V7sus4 | V7 |"
  accent "2 4" { by = ["drums", "piano"] }
  stop   "8: 3" {}
}
form {
  play "verse" {}
  play "chorus" {}
  play "verse" {}
  play "chorus" {}
  play "bridge" {}
  play "chorus" { lift = 1 }
}
`

func song(t *testing.T, src string) *timeline.Timeline {
	t.Helper()
	f, diags := songspec.Parse("weir.song.hcl", []byte(src))
	if f == nil || diags.HasErrors() {
		t.Fatalf("%v\n%s", diags, src)
	}
	tl, diags := f.Resolve(songspec.Env{})
	if tl == nil {
		t.Fatalf("%v\n%s", diags, src)
	}
	return tl
}

// edit replaces each old by its new; every old must be there.
func edit(t *testing.T, src string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(src, pairs[i]) {
			t.Fatalf("%q is not in the song", pairs[i])
		}
		src = strings.Replace(src, pairs[i], pairs[i+1], 1)
	}
	return src
}

// TestDiff changes the song as an arranger does, and reads what Diff says about it.
func TestDiff(t *testing.T) {
	for _, c := range []struct {
		name, why string
		edits     []string
		text      string // of WriteDiff, lines trimmed
		summary   string
	}{
		{"nothing", "the same song", nil, "", ""},
		{"a comment and the layout", "what is not music is not shown",
			[]string{"tempo = 72", "# slow\n\ntempo    =    72"}, "", ""},
		{"the same chords in numerals", "another way of writing sounds the same",
			[]string{"| Ab | Bb/Ab |", "| IV | V/b7 |"}, "", ""},
		{"chord and energy of the bridge", "the line of the watch",
			[]string{"iv6 |", "iv7 |", "energy = 3", "energy = 4"},
			"bridge\nenergy     3 to 4\nbar 5      iv6 to iv7", "bridge: chords of bar 5, energy 3 to 4"},
		{"a chord of a chorus that is lifted later",
			"one thought, one line, though it sounds twice in Eb and once in E",
			[]string{"Gm7 |", "G7 |"}, "chorus\nbar 3      Gm7 to G7", "chorus: chords of bar 3"},
		{"a bar that is repeated by %", "both bars change",
			[]string{"| Eb | % |", "| Ebmaj7 | % |"}, "verse\nbars 7-8   Eb to Ebmaj7", "verse: chords of bars 7-8"},
		{"two bars more", "bars that are new, and not six that changed",
			[]string{"| Cm7 | Ab / Abm6 / |", "| F7 | Bb7 | Cm7 | Ab / Abm6 / |"},
			"verse\nbar 3      + F7\nbar 4      + Bb7", "verse: bars 3-4 new"},
		{"a bar less", "it counts in the old song",
			[]string{"| bVI | bVII |", "| bVII |", `"8: 3"`, `"7: 3"`},
			"bridge\nbar 3      - bVI (accent 2 by drums, piano; accent 4 by drums, piano)", "bridge: bar 3 gone"},
		{"tempo of the song", "once, and not for every section", []string{"tempo = 72", "tempo = 76"},
			"song\ntempo      72 to 76", "tempo 72 to 76"},
		{"key of the song", "numerals and the lift follow by themselves; letters stay",
			[]string{`"Eb major"`, `"F major"`}, "song\nkey        Eb major to F major", "key Eb major to F major"},
		{"title, take, looseness", "what is said once",
			[]string{"tempo = 72", "tempo = 72\ntake = 3\nlooseness = 0.25", "the Weir", "the Mill"},
			"song\ntitle      Lanterns on the Weir to Lanterns on the Mill\nlooseness  0.400 to 0.250\n" +
				"take       1 to 3",
			"title Lanterns on the Weir to Lanterns on the Mill, looseness 0.400 to 0.250; 1 more"},
		{"an accent on every bar goes", "one line for seven bars; in bar 8 the stop has it",
			[]string{`accent "2 4" {`, `accent "2" {`}, "bridge\nbars 1-7   - accent 4 by drums, piano",
			"bridge: no more accent in bars 1-7"},
		{"an accent weighs more", "changed, not one gone and one new",
			[]string{`by = ["drums", "piano"] }`, "\n weight = 3\n by = [\"drums\", \"piano\"]\n}"},
			"bridge\nbars 1-8   accent 2 by drums, piano to accent 2, weight 3 by drums, piano\n" +
				"bars 1-7   accent 4 by drums, piano to accent 4, weight 3 by drums, piano",
			"bridge: accent in bars 1-8"},
		{"a fill in one play", "the play is named",
			[]string{`play "verse" {}`, "play \"verse\" {\n  fill \"8: 3\" {}\n}"},
			"verse (1)\nbar 8      + fill 3", "verse (1): new fill in bar 8"},
		{"one play's energy", "of three playings the last alone",
			[]string{"{ lift = 1 }", "{\n lift = 1\n energy = 5\n}"}, "chorus (3)\nenergy     4 to 5",
			"chorus (3): energy 4 to 5"},
		{"a lift more", "where it happens, and nothing about the chords",
			[]string{"{ lift = 1 }", "{ lift = 2 }"}, "chorus (3)\nlift       +1 to +2", "chorus (3): lift +1 to +2"},
		{"tacet", "who plays", []string{`play "verse" {}`, `play "verse" { tacet = ["drums", "bass"] }`},
			"verse (1)\nplayers    drums, bass, piano to piano", "verse (1): players drums, bass, piano to piano"},
		{"a play more", "in the middle", []string{`  play "bridge" {}`, "  play \"bridge\" {}\n  play \"verse\" {}"},
			"form\nverse (3)  new, at place 6", "form: verse (3) new, at place 6"},
		{"the play that lifts goes", "its lift is named, for it carries what follows",
			[]string{"  play \"chorus\" { lift = 1 }\n", ""}, "form\nchorus (3)  gone from place 6, lift +1",
			"form: chorus (3) gone from place 6, lift +1"},
		{"a play moves", "one line", []string{`  play "bridge" {}` + "\n", "", "form {\n",
			"form {\n  play \"bridge\" {}\n"},
			"form\nbridge (1)  from place 5 to place 1", "form: bridge (1) from place 5 to place 1"},
		{"a section gets another name", "its name is part of how it is played, so it is said",
			[]string{`section "bridge"`, `section "middle"`, `play "bridge"`, `play "middle"`},
			"form\nbridge     is now called middle", "form: bridge is now called middle"},
		{"a vamp goes round more often", "the bars are the same",
			[]string{`play "bridge" {}`, "play \"bridge\" {\n  times = 3\n  vamp = \"till Nell turns\"\n}"},
			"bridge\ntimes      1 to 3\nvamp       none to till Nell turns",
			"bridge: times 1 to 3, vamp none to till Nell turns"},
		{"a part of a section", "not bars that are gone",
			[]string{"  play \"bridge\" {}", "  play \"bridge\" { only = \"3-4, 7-8\" }"},
			"bridge\nonly       all to bars 3-4, 7-8", "bridge: only all to bars 3-4, 7-8"},
		{"a bar in another meter", "bar by bar", []string{"| Gm7 |", "| (2/4) Gm7 |"},
			"chorus\nbar 3      meter 4/4 to 2/4", "chorus: meter of bar 3"},
		{"rit", "an event without counts", []string{`stop   "8: 3" {}`,
			`stop "8: 3" {}` + "\n" + `rit "7-8" { to = 64 }`},
			"bridge\nbar 7      + rit over 2 bars to 64", "bridge: new rit in bar 7"},
		{"rit from count to count", "in its first bar", []string{`stop   "8: 3" {}`,
			`stop "8: 3" {}` + "\n" + `rit "7: 3 - 8: 2" { to = 64 }`},
			"bridge\nbar 7      + rit over 2 bars from 3 to 2, reaching 64", "bridge: new rit in bar 7"},
		{"cue", "what it says", []string{`stop   "8: 3" {}`,
			`stop "8: 3" {}` + "\n" + `cue "7: 1" { text = "lights" }`},
			"bridge\nbar 7      + cue 1 \"lights\"", "bridge: new cue in bar 7"},
		{"accel in a bar", "by its own word", []string{`stop   "8: 3" {}`,
			`stop "8: 3" {}` + "\n" + `accel "7:3-7:4" { to = 80.5 }`},
			"bridge\nbar 7      + accel from 3 to 4, reaching 80.5", "bridge: new accel in bar 7"},
		{"no leading anywhere", "a line at the top", []string{"tempo = 72", "tempo = 72\nlead = false"},
			"song\nlead       on to off", "lead on to off"},
		{"no leading out of one section", "in the section", []string{"energy = 4", "energy = 4\n lead = false"},
			"chorus\nlead       on to off", "chorus: lead on to off"},
		{"the feel of one section", "in the section", []string{"tight-sixteenths", "half-time"},
			"bridge\nfeel       tight-sixteenths to half-time", "bridge: feel tight-sixteenths to half-time"},
	} {
		t.Run(c.name, func(t *testing.T) {
			old := song(t, weir)
			changes := outline.Diff(old, song(t, edit(t, weir, c.edits...)))
			var b strings.Builder
			if err := outline.WriteDiff(&b, changes); err != nil {
				t.Fatal(err)
			}
			var lines []string
			for _, l := range strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n") {
				lines = append(lines, strings.TrimSpace(l))
			}
			if got := strings.Join(lines, "\n"); got != c.text {
				t.Errorf("%s\ngot:\n%s\nwant:\n%s", c.why, got, c.text)
			}
			if got := outline.Summary(changes); got != c.summary {
				t.Errorf("%s\nsummary %q, want %q", c.why, got, c.summary)
			}
		})
	}
}

// TestDiffBothWays compares any two edits of the song: there must be no change between a song
// and itself, some change between songs with different outlines, and the other way round as
// many changes of each kind, with old and new exchanged.
func TestDiffBothWays(t *testing.T) {
	edits := [][]string{
		nil, {"Gm7 |", "G7 |"}, {"iv6 |", "iv7 |"}, {"energy = 3", "energy = 4"}, {"tempo = 72", "tempo = 90"},
		{"| bVI | bVII |", "| bVI | bVI | bVII |"}, {"| Bb/D |", "|"}, {`stop   "8: 3" {}`, ""}, {"{ lift = 1 }", "{}"},
		{`play "bridge" {}`, `play "verse" {}`}, {`"2 4" {`, `"1 2& 4" {`}, {"half-time", "half-time"},
		{"  play \"chorus\" { lift = 1 }\n", ""}, {"form {\n", "form {\n play \"bridge\" {}\n"},
		{`"Eb major"`, `"C minor"`},
	}
	var songs []*timeline.Timeline
	for _, e := range edits {
		if len(e) > 0 && !strings.Contains(weir, e[0]) {
			continue
		}
		songs = append(songs, song(t, edit(t, weir, e...)))
	}
	if len(songs) < 13 {
		t.Fatalf("only %d songs", len(songs))
	}
	text := func(tl *timeline.Timeline) string {
		var b strings.Builder
		if err := outline.Write(&b, tl); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	kinds := func(changes []outline.Change, back bool) map[string]int {
		out := map[string]int{}
		for _, c := range changes {
			if back {
				c.Old, c.New = c.New, c.Old
			}
			out[c.What+"\x00"+c.Old+"\x00"+c.New]++
		}
		return out
	}
	for i, a := range songs {
		for j, b := range songs {
			there, back := outline.Diff(a, b), outline.Diff(b, a)
			if same := text(a) == text(b); same != (len(there) == 0) {
				t.Errorf("songs %d and %d: the outlines are equal: %v; changes: %v", i, j, same, there)
			}
			if len(there) != len(back) {
				t.Errorf("songs %d and %d: %d changes there and %d back\n%v\n%v", i, j, len(there), len(back), there,
					back)
			}
			for k, n := range kinds(there, false) {
				if m := kinds(back, true)[k]; m != n && !strings.HasPrefix(k, "play") {
					t.Errorf("songs %d and %d: %q %d times there and %d times back", i, j, k, n, m)
				}
			}
		}
	}
}

// TestSummaryFits: the summary is one line, however much changed.
func TestSummaryFits(t *testing.T) {
	old := song(t, weir)
	now := song(t, edit(t, weir, "tempo = 72", "tempo = 90\ntake = 7", "energy = 2", "energy = 1", "Gm7 |", "G7 |",
		"iv6 |", "iv7 |",
		`stop   "8: 3" {}`, "", `  play "bridge" {}`, "  play \"bridge\" {}\n  play \"verse\" {}"))
	s := outline.Summary(outline.Diff(old, now))
	if n := len([]rune(s)); n > 110 || !strings.Contains(s, " more") || !strings.HasPrefix(s, "take 1 to 7") {
		t.Errorf("%d characters: %s", n, s)
	}
}
