package groove_test

import (
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

var update = flag.Bool("update", false, "rewrite the goldens of what the band plays")

const playedDir = "testdata/played"

// playedSong is what the band plays of a song file's text, as text.
func playedSong(t testing.TB, src string) string {
	t.Helper()
	tl := songfiletest.Song(t, src)
	return playedText(tl, library.Builtin(), groove.Perform(tl, library.Builtin()))
}

// checkPlayed holds what is played, as text, against its golden.
func checkPlayed(t *testing.T, name, got string) {
	t.Helper()
	checkGolden(t, filepath.Join(playedDir, name+".txt"), got)
}

// checkGolden holds a text against its golden, or writes it.
func checkGolden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: the band plays something else (go test ./groove -update rewrites it):\n%s", path,
			firstDifference(string(want), got))
	}
}

// firstDifference shows the first line that differs, under the song's title and the
// head of its bar, with two lines before it and two after it.
func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	at := 0
	for at < len(w) && at < len(g) && w[at] == g[at] {
		at++
	}
	title, bar := "", ""
	for _, line := range w[:at] {
		switch {
		case strings.HasPrefix(line, "# "):
			title, bar = line, ""
		case strings.Contains(line, ", bar "):
			bar = line
		}
	}
	var b strings.Builder
	fmt.Fprintf(&b, "line %d (- the golden, + what is played now)\n%s\n%s\n…\n", at+1, title, bar)
	show := func(sign string, lines []string, from, to int) {
		for _, line := range lines[min(from, len(lines)):min(to, len(lines))] {
			b.WriteString(sign + " " + line + "\n")
		}
	}
	show(" ", w, max(0, at-2), at)
	show("-", w, at, at+3)
	show("+", g, at, at+3)
	return b.String()
}

// Every feel of the library and every word of an event has a golden, which has the
// event in it, and there is no golden that nothing is held against.
func TestPlayedIsComplete(t *testing.T) {
	if *update {
		t.Skip("the goldens are being written")
	}
	owned := map[string]bool{vocalGolden: true, voicingSongs().name: true, bassSongs().name: true,
		ruleSongs().name: true}
	for _, name := range library.Names() {
		owned[feelGolden(name)] = true
	}
	for _, g := range append(append(eventSongs(), bandSongs()...), insideSongs()) {
		owned[g.name] = true
	}
	for _, word := range timeline.EventNames {
		text, err := os.ReadFile(filepath.Join(playedDir, word+".txt"))
		if err != nil || !strings.Contains(string(text), "; "+word+" ") {
			t.Errorf("the event %s has no golden (%v)", word, err)
		}
		if !owned[word] {
			t.Errorf("no song asks for the event %s", word)
		}
	}
	files, err := os.ReadDir(playedDir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name := strings.TrimSuffix(f.Name(), ".txt")
		if !owned[name] {
			t.Errorf("%s: no test plays this golden", f.Name())
		}
		delete(owned, name)
	}
	for _, name := range slices.Sorted(maps.Keys(owned)) {
		t.Errorf("%s has no golden", name)
	}
}

// Whatever is changed in a note shows in the text.
func TestPlayedShowsEveryChange(t *testing.T) {
	tl := songfiletest.Song(t, sketch("Every change shows", swinging, part("verse", 4, "| C6 | A7 |"),
		part("end", 2, "| Dm7 | G7 |")))
	perf := groove.Perform(tl, library.Builtin())
	was := playedText(tl, library.Builtin(), perf)
	changes := map[string]func(n *groove.Note){
		"tick":     func(n *groove.Note) { n.Tick++ },
		"length":   func(n *groove.Note) { n.Length++ },
		"key":      func(n *groove.Note) { n.Key++ },
		"velocity": func(n *groove.Note) { n.Velocity++ },
	}
	for who := range perf.Parts {
		for i := range perf.Parts[who] {
			n := &perf.Parts[who][i]
			for what, change := range changes {
				as := *n
				change(n)
				if playedText(tl, library.Builtin(), perf) == was {
					t.Errorf("%s, note %d: the text does not show another %s", timeline.Player(who), i, what)
				}
				*n = as
			}
		}
	}
}
