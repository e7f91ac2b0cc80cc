package page

import (
	"fmt"
	"math/rand"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/songspec/songtest"
)

// Songs as nobody would write them: their chunks are what is heard, and from any one to any other each
// bar goes to one place of its own or nowhere.
func TestRandomSongs(t *testing.T) {
	var feels []songtest.Feel
	for _, e := range library.Index() {
		feels = append(feels, songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow,
			TempoHigh: e.TempoHigh})
	}
	var last *Bed
	for seed := range int64(60) {
		name := fmt.Sprintf("seed %d", seed)
		random := songtest.Random(rand.New(rand.NewSource(seed)), feels)
		song := load.Read("t.song.hcl", []byte(random.Text), random.Folder())
		if song.Timeline == nil || song.Diags.HasErrors() {
			continue
		}
		bed := checkChunks(t, name, song.Timeline, groove.Perform(song.Timeline, song.Feels))
		checkWent(t, name+" to itself", bed, bed)
		if went, changed := Changes(bed, bed); fmt.Sprint(went) != fmt.Sprint(Stayed(bed)) || changed != nil {
			t.Errorf("%s to itself: %v, changed %v", name, went, changed)
		}
		if last != nil {
			checkWent(t, name, last, bed)
		}
		last = bed
	}
	if last == nil {
		t.Error("no song can be read")
	}
}

func checkWent(t *testing.T, name string, old, now *Bed) {
	went, _ := Changes(old, now)
	if len(went) != len(old.Chunks) {
		t.Fatalf("%s: %d of %d chunks", name, len(went), len(old.Chunks))
	}
	taken := map[[2]int]bool{}
	for i, w := range went {
		if w.Chunk >= len(now.Chunks) || len(w.Bars) != old.bars(i) {
			t.Fatalf("%s: chunk %d went to %+v", name, i, w)
		}
		for _, bar := range w.Bars {
			at := [2]int{w.Chunk, bar}
			if bar >= 0 && (w.Chunk < 0 || bar >= now.bars(w.Chunk) || taken[at]) {
				t.Fatalf("%s: chunk %d went to %+v", name, i, w)
			}
			taken[at] = true
		}
	}
}
