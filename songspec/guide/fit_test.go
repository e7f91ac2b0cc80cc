package guide

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// fitOf is what the fit says of a file with the song's vocal as it is: "", "transpose = N",
// "from = N", both, or "no fit".
func fitOf(t testing.TB, tl *timeline.Timeline, src []byte) string {
	t.Helper()
	f, err := Read(src)
	if err != nil {
		t.Fatal(err)
	}
	f.Meters = nil // the art songs' bars have their upbeat as bar 1
	c, err := f.Vocal("")
	if err != nil {
		t.Fatal(err)
	}
	v := &tl.Vocals[0]
	at, _ := BarStart(tl, v.From)
	l := layout{tl: tl, v: v, file: f, at: at}
	problems := l.misplaced(c.Track.Notes)
	if len(problems) == 0 {
		return ""
	}
	var n int
	detail := problems[0].Detail
	if i := strings.Index(detail, "Try from = "); i >= 0 {
		from := 0
		if _, err := fmt.Sscanf(detail[i:], "Try from = %d and transpose = %d.", &from, &n); err == nil {
			return fmt.Sprintf("from = %d, transpose = %d", from, n)
		}
	}
	for _, attr := range []string{"transpose", "from"} {
		for i := range detail {
			if _, err := fmt.Sscanf(detail[i:], "Try "+attr+" = %d.", &n); err == nil {
				return fmt.Sprintf("%s = %d", attr, n)
			}
		}
	}
	return "no fit"
}

// In 30 pop songs and 38 art songs, each with its own chords, no right guide is doubted, nearly
// every wrong one is, and what is offered is right but for a very few. The guide is wrong
// here by the song's transpose or from.
func TestMisplacedInRealSongs(t *testing.T) {
	type set struct {
		name  string
		songs []*timeline.Timeline
		files [][]byte
	}
	pop, art := set{name: "pop909-dev"}, set{name: "lieder-dev"}
	for _, s := range popSongs(t) {
		src, err := fs.ReadFile(s.Files, "guide.mid")
		if err != nil {
			t.Fatal(err)
		}
		pop.songs, pop.files = append(pop.songs, timelineOf(t, s)), append(pop.files, src)
	}
	for _, s := range artSongs(t) {
		art.songs, art.files = append(art.songs, s.tl), append(art.files, s.guide)
	}
	wrong, pieces := 0, 0
	for _, set := range []set{pop, art} {
		for i, tl := range set.songs {
			if got := fitOf(t, inFront(tl), set.files[i]); got != "" {
				t.Errorf("%s: a false alarm in song %d: %s", set.name, i, got)
			}
			doubted, n := doubtedPieces(t, tl, set.files[i])
			wrong, pieces = wrong+doubted, pieces+n
		}
		for _, tt := range []struct{ up, bars, missed, others int }{
			{up: -5, missed: 1}, {up: -3, missed: 1}, {up: -2}, {up: -1}, {up: 1}, {up: 2}, {up: 3}, {up: 5, missed: 1},
			{bars: -2, missed: 3}, {bars: -1, missed: 1}, {bars: 1, missed: 5}, {bars: 2, missed: 4},
			{up: 3, bars: 2, others: 1}, {up: -3, bars: -2, others: 1}, {up: 5, bars: 4, missed: 1, others: 1},
		} {
			noticed, right, want := 0, 0, "transpose = 0"
			switch {
			case tt.up != 0 && tt.bars != 0:
				want = "from = 1, transpose = 0"
			case tt.bars != 0:
				want = "from = 1"
			}
			for i, tl := range set.songs {
				v := &tl.Vocals[0]
				v.Transpose, v.From = tt.up, 1+tt.bars
				got := fitOf(t, inFront(tl), set.files[i])
				v.Transpose, v.From = 0, 1
				if got != "" {
					noticed++
				}
				if got == want {
					right++
				}
			}
			n := len(set.songs)
			t.Logf("%s, %+d semitones, %+d bars: noticed %d of %d, the right one offered %d times", set.name, tt.up,
				tt.bars, noticed, n, right)
			if noticed < n-tt.missed || right < noticed-1-tt.others {
				t.Errorf("noticed %d of %d, and %d may be missed; right %d", noticed, n, tt.missed, right)
			}
		}
	}
	t.Logf("%d of %d pieces of right guides are doubted", wrong, pieces)
	if 200*wrong > pieces {
		t.Errorf("%d of %d pieces are doubted: one in two hundred is too many", wrong, pieces)
	}
}

// doubtedPieces is how many pieces of a right guide, from 16 notes to 96, are doubted, of how many.
func doubtedPieces(t *testing.T, tl *timeline.Timeline, src []byte) (doubted, pieces int) {
	t.Helper()
	f, err := Read(src)
	if err != nil {
		t.Fatal(err)
	}
	f.Meters = nil
	c, err := f.Vocal("")
	if err != nil {
		t.Fatal(err)
	}
	l := layout{tl: tl, v: &tl.Vocals[0], file: f}
	for _, size := range []int{16, 24, 32, 48, 64, 96} {
		for k := 0; k+size <= len(c.Track.Notes); k += size {
			pieces++
			doubted += min(1, len(l.misplaced(c.Track.Notes[k:k+size])))
		}
	}
	return doubted, pieces
}

// inFront is a song with four bars in front of it, so that a guide may begin before bar 1.
func inFront(tl *timeline.Timeline) *timeline.Timeline {
	out := *tl
	out.Passes = append([]timeline.Pass{}, tl.Passes...)
	lead := 4 * out.Passes[0].Bars[0].Meter.BarTicks()
	out.Passes[0].Start += lead
	out.Lead, out.LeadBars, out.End = lead, 4, tl.End+lead
	return &out
}

// A guide that was recorded over another form is found where a section begins, and in another key at
// the same time: the vamp in front was played three times as often.
func TestMisplacedByAVamp(t *testing.T) {
	vamp := part{"vamp", "4/4", strings.Fields("G C G C G C G C G C G C"), nil}
	verse := part{"verse", "4/4", strings.Fields("G D/F# Em7 C G/B Cmaj7 Am7 D7 Eb F Eb D7 G Em7 Am7 D7"), nil}
	var notes [][3]int
	for bar, keys := range [][2]int{{62, 67}, {66, 69}, {67, 71}, {64, 67}, {62, 67}, {64, 71}, {69, 72}, {66, 72},
		{67, 70}, {65, 69}, {67, 75}, {66, 74}, {67, 71}, {67, 64}, {64, 69}, {66, 69}} {
		for half, key := range keys {
			notes = append(notes, [3]int{key - 3, (4+bar)*1920 + half*960, 900}) // a demo in E
		}
	}
	src := file(1, line("Voice", 0, notes...))
	for _, tt := range []struct {
		from, transpose int
		want            string
	}{
		{9, 3, ""},
		{1, 3, "from = 9"},
		{9, 0, "transpose = 3"},
		{1, 0, "from = 9, transpose = 3"},
		{1, -3, "from = 9, transpose = 3"},
	} {
		tl := song(t, "G", 84, 0, vamp, verse)
		tl.Vocals[0].From, tl.Vocals[0].Transpose = tt.from, tt.transpose
		if got := fitOf(t, tl, src); got != tt.want {
			t.Errorf("from = %d, transpose = %d: %q, want %q", tt.from, tt.transpose, got, tt.want)
		}
	}
}
