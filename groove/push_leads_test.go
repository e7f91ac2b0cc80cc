package groove_test

import (
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// nearBorder plays a song's text and gives what a player strikes from a quarter before
// the border between its first two passes up to the border itself: the pitch classes,
// by the ticks from the border.
func nearBorder(t *testing.T, src string, who timeline.Player) map[int64][]uint8 {
	t.Helper()
	const quarter = 960
	tl := songfiletest.Song(t, src)
	border := tl.Passes[1].Start
	out := map[int64][]uint8{}
	for _, n := range groove.Perform(tl, library.Builtin()).Parts[who] {
		if at := n.Tick - border; at >= -quarter && at <= 0 {
			out[at] = append(out[at], n.Key%12)
		}
	}
	return out
}

// strikesOnly reports whether all that is struck near a border stands at one tick, and
// the bass there plays B flat, the piano D, the third of that chord.
func strikesOnly(struck map[int64][]uint8, at int64, who timeline.Player) bool {
	tone := uint8(10)
	if who == timeline.Piano {
		tone = 2
	}
	return len(struck) == 1 && slices.Contains(struck[at], tone)
}

// pushedTo fails where bass and piano do not strike B flat near a border, so many ticks
// from it, and nothing else.
func pushedTo(t *testing.T, song string, at int64) {
	t.Helper()
	for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
		if struck := nearBorder(t, song, who); !strikesOnly(struck, at, who) {
			t.Errorf("%s: %v is struck near the border, want Bb at %d and nothing else", who, struck, at)
		}
	}
}

// Of two pushes over one border the first brings the next section's chord, and the
// second has nothing left to bring. A listener hears the chord come on 4 and ring over
// the bar line; if the second counted, bass and piano would be silent from 4 to 4&,
// since the chord before ends where the first push stands. Design of the band.
func TestTwoPushesOverTheBorder(t *testing.T) {
	const song = `
looseness = 0
feel      = "backbeat-eighths"
energy    = 3
section "verse" {
  chords = "| C | Am | F | G |"
  push "4: 4 4&" {}
}
section "chorus" {
  chords = "| Bb | F |"
}
`
	pushedTo(t, song, -960)
}

// A section that ends without a chord can be left by a push: the chord that comes early
// is the next section's. A listener hears bass and piano come in on 4& out of the
// silence, and not on the 1 after it. Design of the band.
func TestPushOutOfNoChord(t *testing.T) {
	const song = `
looseness = 0
feel      = "backbeat-eighths"
energy    = 3
section "verse" {
  chords = "| C | Am | F | N.C. |"
  push "4: 4&" {}
}
section "chorus" {
  chords = "| Bb | F |"
}
`
	pushedTo(t, song, -480)
	const kick = 36 % 12
	struck := nearBorder(t, song, timeline.Drums)
	if !slices.Contains(struck[-480], kick) || slices.Contains(struck[0], kick) {
		t.Errorf("drums: %v is struck near the border, want the kick on 4& and not on 1", struck)
	}
}
