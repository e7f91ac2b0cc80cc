package songtest_test

import (
	"math/rand"
	"reflect"
	"testing"

	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/songspec/songtest"
)

// builtin are the feels that come with plinth.
func builtin() (feels []songtest.Feel) {
	for _, e := range library.Index() {
		feels = append(feels, songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow,
			TempoHigh: e.TempoHigh})
	}
	return feels
}

func TestRandomIsTheSameAgain(t *testing.T) {
	feels := builtin()
	a, b := rand.New(rand.NewSource(5)), rand.New(rand.NewSource(5))
	first := songtest.Random(a, feels)
	if second := songtest.Random(b, feels); !reflect.DeepEqual(first, second) {
		t.Errorf("two songs of one seed differ:\n%s\n%s", first, second)
	}
	if reflect.DeepEqual(first, songtest.Random(a, feels)) {
		t.Error("the second song of a seed is the first again")
	}
}

// Every song can be read, and what is hard to play together does come together. Each word of the
// language comes in one song of twenty at least.
func TestRandomSongs(t *testing.T) {
	feels := builtin()
	r := rand.New(rand.NewSource(1))
	const songs = 500
	got := mixes{}
	for i := range songs {
		song := songtest.Random(r, feels)
		read := load.Read("t.song.hcl", []byte(song.Text), song.Folder())
		if read.Timeline == nil {
			t.Errorf("song %d cannot be read: %v\n%s", i, read.Diags.Errs(), song.Text)
			continue
		}
		found := mixes{}
		for i := range read.Timeline.Passes {
			found.pass(read.Timeline, i)
		}
		found.song(read.Timeline, song)
		for what, n := range found {
			if n > 0 {
				got[what]++
			}
		}
	}
	t.Logf("of %d songs have each mix: %v", songs, got)
	for _, what := range wanted {
		if got[what] < songs/20 {
			t.Errorf("only %d of %d songs have a %s", got[what], songs, what)
		}
	}
}
