package groove_test

import (
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/songspec/timeline"
)

// A hit that the song file asks for is struck also where all of its chord would rub against what is
// sung: the lowest key alone.
func TestHitUnderAVoiceInTheWay(t *testing.T) {
	struck := func(sung ...uint8) (keys []uint8) {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|C|C|C", Energy: 3, Feel: "ballad-eighths",
			Change: func(p *timeline.Pass) {
				p.Events = []timeline.Event{{Kind: timeline.Accent, Bar: 1, Tick: 3840 + 960, End: 3840 + 960,
					By:     timeline.All,
					Weight: 2, Place: "2: 2"}}
				p.Sung = []timeline.SungNote{}
				for i, key := range sung {
					p.Sung = append(p.Sung, timeline.SungNote{Tick: 3840 + 960, Length: 240, Key: key,
						Singer: uint8(i)})
				}
			}})
		tl.Vocals = make([]timeline.Vocal, max(1, len(sung)))
		for i := range sung {
			tl.Vocals[i].Notes = tl.Passes[0].Sung[i : i+1]
		}
		for _, n := range groove.Perform(tl, library.Builtin()).Passes[0].Score.Parts[timeline.Piano].Notes {
			if n.At == 3840+960 {
				keys = append(keys, n.Key)
			}
		}
		return keys
	}
	// Three voices come in with it, one on each of its keys.
	free := struck()
	if full := struck(free...); len(free) < 3 || len(full) != 1 || full[0] != slices.Min(free) {
		t.Errorf("%d without a voice, %d with one on each of them", free, full)
	}
}
