package groove_test

import (
	"fmt"
	"os"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// TestArtSongsOffTheBeat: nearly all that art songs change off the beat can be written, and the
// band plays it.
func TestArtSongsOffTheBeat(t *testing.T) {
	dir := os.Getenv("PLINTH_DATA")
	if dir == "" {
		t.Skip("PLINTH_DATA is not set: the folder with lieder-dev")
	}
	songs, err := realsongs.ArtSongs(os.DirFS(dir))
	if err != nil {
		t.Fatal(err)
	}
	changes, off, unsaid, heard := 0, 0, 0, 0
	for i, s := range songs {
		chart, err := s.Chart()
		if err != nil {
			t.Fatal(err)
		}
		changes, off, unsaid = changes+chart.Changes, off+chart.Off, unsaid+chart.Unsaid
		tl := songfiletest.Song(t, fmt.Sprintf("key = %q\nmeter = %q\nlooseness = 0\nsection \"a\" {\n  chords = "+
			"<<-EOT\n%s  EOT\n}\n", s.Home, chart.Meter, chart.Lines))
		heard += hearChanges(t, fmt.Sprintf("song %d", i), tl)
	}
	t.Logf("%d songs with %d changes: %d off the beat, %d that no count names; the band plays %d", len(songs), changes,
		off, unsaid, heard)
	if off < 300 || unsaid*50 > changes || heard < changes-unsaid-len(songs) {
		t.Errorf("%d of %d changes cannot be written, %d are heard", unsaid, changes, heard)
	}
}

// TestOffBeatChangesInEveryFeel: a chord that says its count is played there, in straight and
// in swung feels, and in each meter.
func TestOffBeatChangesInEveryFeel(t *testing.T) {
	for _, e := range library.Index() {
		for _, m := range e.ParsedMeters() {
			if m.Num < 3 {
				continue
			}
			src := fmt.Sprintf("meter = %q\nfeel = %q\ntempo = %d\nlooseness = 0\nsection \"a\" {\n  chords = \"| Am "+
				"| Dm7 G7@2& C@%d | F@2& | Bb@2 | %% | Em7b5 A7@%[4]d& | Dm |\"\n}\n", m, e.Name,
				(e.TempoLow+e.TempoHigh)/2, m.Num)
			if n := hearChanges(t, e.Name+" "+m.String(), songfiletest.Song(t, src)); n != 9 {
				t.Errorf("%s in %s: %d changes", e.Name, m, n)
			}
		}
	}
}

// hearChanges plays the first pass of a song and looks for every change of chord: the bass has
// the chord's bass there, and the piano strikes the chord within a beat and a half (five thirds
// where the feel is in triplets), as at any change, or on the off-beat before it where the feel is
// ahead. Off the beat both strike it where it comes, the piano two voices of it at least: it is a
// figure of the chart. It returns how many there are.
func hearChanges(t *testing.T, name string, tl *timeline.Timeline) int {
	t.Helper()
	pass := &tl.Passes[0]
	parts := groove.Perform(tl, library.Builtin()).Passes[0].Score.Parts
	chords, ahead := timeline.Joined(pass.Chords), library.Builtin().Feels[pass.Feel].Changes == feel.Ahead
	for k := range chords {
		s := &chords[k]
		bar := pass.Bars[pass.BarAt(s.Start)]
		bass, piano := s.Chord.None, s.Chord.None
		for _, n := range parts[timeline.Bass].Notes {
			bass = bass || n.At == s.Start && int(n.Key)%12 == s.Chord.Bass.PC()
		}
		from, until := s.Start, min(s.End-1, s.Start+bar.Meter.TempoTicks()*5/3)
		least := 1
		switch off := !slices.Contains(bar.Meter.Beats(), s.Start-bar.Start); {
		case off:
			until, least = from, 2
		case ahead:
			from -= bar.Meter.TempoTicks() / 2
		}
		voices := 0
		for _, n := range parts[timeline.Piano].Notes {
			if n.At >= from && n.At <= until && s.Chord.PCSet()>>(n.Key%12)&1 == 1 {
				voices++
			}
		}
		piano = piano || voices >= least
		if !bass || !piano {
			t.Errorf("%s, %s: %s on %s of bar %d for %d ticks: the bass plays it %v, the piano %v", name, pass.Feel,
				s.Chord, bar.Meter.CountAt(s.Start-bar.Start), pass.BarAt(s.Start)+1, s.End-s.Start, bass, piano)
		}
	}
	return len(chords)
}
