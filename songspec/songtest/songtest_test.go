package songtest_test

import (
	"math/rand"
	"regexp"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// builtin are the feels that come with plinth, for songs and for reading them.
func builtin() ([]songtest.Feel, songspec.Env) {
	var feels []songtest.Feel
	env := songspec.Env{Feels: map[string]songspec.FeelInfo{}}
	for _, e := range library.Index() {
		meters := e.ParsedMeters()
		f := songtest.Feel{Name: e.Name, Meters: meters, TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
		feels = append(feels, f)
		env.Feels[e.Name] = songspec.FeelInfo{Meters: meters, TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	return feels, env
}

func resolve(src string, env songspec.Env) (*timeline.Timeline, hcl.Diagnostics) {
	file, diags := songspec.Parse("t.song.hcl", []byte(src))
	if file == nil {
		return nil, diags
	}
	tl, more := file.Resolve(env)
	return tl, append(diags, more...)
}

func TestRandomIsTheSameAgain(t *testing.T) {
	feels, _ := builtin()
	a, b := rand.New(rand.NewSource(5)), rand.New(rand.NewSource(5))
	first := songtest.Random(a, feels)
	if second := songtest.Random(b, feels); first != second {
		t.Errorf("two songs of one seed differ:\n%s\n%s", first, second)
	}
	if first == songtest.Random(a, feels) {
		t.Error("the second song of a seed is the first again")
	}
}

// The songs can be read, and what is hard to play together does come together.
func TestRandomSongs(t *testing.T) {
	feels, env := builtin()
	r := rand.New(rand.NewSource(1))
	const songs = 500
	read, got, refused := 0, mixes{}, map[string]int{}
	for range songs {
		src := songtest.Random(r, feels)
		tl, diags := resolve(src, env)
		if diags.HasErrors() {
			for _, d := range diags {
				if d.Severity == hcl.DiagError {
					refused[d.Summary]++
				}
			}
			continue
		}
		read++
		found := mixes{}
		for i := range tl.Passes {
			found.pass(tl, i)
		}
		found.words(tl, src)
		for what, n := range found {
			if n > 0 {
				got[what]++
			}
		}
	}
	t.Logf("%d of %d songs can be read; songs with each mix: %v; refused: %v", read, songs, got, refused)
	if read < songs*9/10 {
		t.Errorf("%d of %d songs can be read", read, songs)
	}
	for _, what := range wanted {
		if got[what] < songs/20 {
			t.Errorf("only %d of %d songs have a %s", got[what], songs, what)
		}
	}
}

// TestRandomCharts: the songs with endings and counts can be read as well, and but for their
// charts they are the same.
func TestRandomCharts(t *testing.T) {
	feels, env := builtin()
	chords := regexp.MustCompile(`(?m)^  chords = .*$`)
	read, endings, counts := 0, 0, 0
	const songs = 300
	for seed := range int64(songs) {
		plain := songtest.Random(rand.New(rand.NewSource(seed)), feels)
		src := songtest.RandomCharts(rand.New(rand.NewSource(seed)), rand.New(rand.NewSource(seed+1)), feels)
		if chords.ReplaceAllString(plain, "") != chords.ReplaceAllString(src, "") {
			t.Fatalf("seed %d: more than the charts differs", seed)
		}
		if tl, _ := resolve(src, env); tl == nil {
			continue
		}
		read++
		if strings.Contains(src, ":|2.") {
			endings++
		}
		if strings.Contains(src, "@") {
			counts++
		}
	}
	t.Logf("%d of %d songs can be read, %d with endings, %d with counts", read, songs, endings, counts)
	if read < songs*9/10 || endings < songs/20 || counts < songs/2 {
		t.Errorf("%d of %d songs can be read, %d with endings, %d with counts", read, songs, endings, counts)
	}
}
