package drummer

import (
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/score"
)

// A fill that strikes once, with both hands, is struck with a flam in the first way; a
// kick under it in the second. Design of the band.
func TestVariedSingleStroke(t *testing.T) {
	tom := feel.Voice{Word: "tom_low", Key: 45, Limb: feel.Hand}
	fill := func() []score.Note {
		var out []score.Note
		for _, v := range []feel.Voice{snareVoice, tom} {
			out = append(out, newStroke(v, quarter, quarter+strokeTicks, feel.Normal))
		}
		return out
	}
	for how, want := range []struct{ graces, kicks int }{{0, 0}, {1, 0}, {0, 1}} {
		graces, kicks := 0, 0
		for _, n := range varied(fill(), how) {
			if n.Art.Has(score.Grace) {
				graces++
			}
			if n.Voice.Limb() == feel.RightFoot {
				kicks++
			}
		}
		if graces != want.graces || kicks != want.kicks {
			t.Errorf("way %d: %d grace strokes and %d kicks, want %+v", how, graces, kicks, want)
		}
	}
}

// A fill of the kick alone is varied, too: a soft snare stands over its first stroke or its
// last. Design of the band.
func TestVariedKickFill(t *testing.T) {
	for how, want := range []int64{-1, 0, quarter} {
		notes := []score.Note{newStroke(kickVoice, 0, strokeTicks, feel.Normal),
			newStroke(kickVoice, quarter, quarter+strokeTicks, feel.Normal)}
		at := int64(-1)
		for _, n := range varied(notes, how) {
			if n.Key == snareVoice.Key {
				at = n.At
			}
		}
		if at != want {
			t.Errorf("way %d: a snare at %d, want %d", how, at, want)
		}
	}
}

// The backbeat's voice is the snare where a bar's level has one, else the first of the
// rows that can mark it; a level without any has a snare from energy 3 up and a
// cross-stick under it.
func TestVoiceOfTheBackbeat(t *testing.T) {
	for _, row := range []struct {
		energy int
		rows   []string
		want   string
	}{
		{4, []string{"cross_stick", "tap", "snare"}, "snare"},
		{4, []string{"cross_stick", "tap"}, "cross_stick"},
		{4, []string{"tap", "cross_stick"}, "tap"},
		{3, []string{"hat"}, "snare"},
		{2, []string{"hat"}, "cross_stick"},
	} {
		set := groovetest.Set(func(f *feel.Feel) {
			var drums []string
			for _, word := range row.rows {
				drums = append(drums, word, "----x-------x---")
			}
			f.Levels[row.energy-1].Drums = groovetest.Rows(drums...)
		})
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F", Energy: row.energy})
		if v := drummerOf(tl, 0, set).backbeat(0); v.Word != row.want {
			t.Errorf("%v at energy %d: %s instead of %s", row.rows, row.energy, v.Word, row.want)
		}
	}
}

// A fill that begins with a ghost stroke has its kick under the first stroke that is heard: a
// kick as soft as a ghost is lost in the time. Common practice, no single source.
func TestVariedFillAfterAGhost(t *testing.T) {
	notes := []score.Note{newStroke(snareVoice, 0, strokeTicks, feel.Ghost),
		newStroke(snareVoice, quarter, quarter+strokeTicks, feel.Soft),
		newStroke(snareVoice, 2*quarter, 2*quarter+strokeTicks, feel.Normal)}
	var kicks []int64
	for _, n := range varied(notes, 1) {
		if n.Voice.Limb() == feel.RightFoot {
			kicks = append(kicks, n.At)
		}
	}
	if len(kicks) != 1 || kicks[0] != quarter {
		t.Errorf("kicks at %v, want one at %d", kicks, quarter)
	}
}
