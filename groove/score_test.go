package groove_test

import (
	"math/rand"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unsafe"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/groove/score"
	"plinth/groove/songfiletest"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// randomFeels are the library's feels for songtest.
func randomFeels() []songtest.Feel {
	var out []songtest.Feel
	for _, e := range library.Index() {
		out = append(out, songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow,
			TempoHigh: e.TempoHigh})
	}
	return out
}

// randomSong is the text of a random song, with its timeline.
func randomSong(t *testing.T, r *rand.Rand, feels []songtest.Feel) (string, *timeline.Timeline) {
	t.Helper()
	song := songtest.Random(r, feels)
	read := load.Read("t.song.hcl", []byte(song.Text), song.Folder())
	if read.Timeline == nil {
		t.Fatalf("%v\n%s", read.Diags.Errs(), song.Text)
	}
	return song.Text, read.Timeline
}

// The score says what is meant, so that looseness has no part in it; and of each played
// note it has the one that is played: the same key, near its place, no note twice.
func TestScoreOfRandomSongs(t *testing.T) {
	rounds := 150
	if testing.Short() {
		rounds = 30
	}
	r := rand.New(rand.NewSource(11))
	feels, set := randomFeels(), library.Builtin()
	notes, unplayed := 0, 0
	for round := 0; round < rounds; round++ {
		src, tl := randomSong(t, r, feels)
		var first []groove.PassPart
		for _, looseness := range []int{0, 400, 1000} {
			tl.Looseness = looseness
			passes := groove.Perform(tl, set).Passes
			if first == nil {
				first = passes
			}
			for i := range passes {
				if !reflect.DeepEqual(passes[i].Score, first[i].Score) {
					t.Fatalf("round %d: the score of pass %d has changed with looseness %d\n%s", round, i, looseness,
						src)
				}
				n, u := checkMeant(t, &tl.Passes[i], &passes[i])
				if t.Failed() {
					t.Fatalf("round %d, looseness %d, pass %d\n%s", round, looseness, i, src)
				}
				notes, unplayed = notes+n, unplayed+u
			}
		}
	}
	t.Logf("%d notes, %d of them played by none", notes, unplayed)
	if notes < 100_000 || unplayed*20 > notes {
		t.Errorf("%d notes looked at, %d of them played by none", notes, unplayed)
	}
}

// checkMeant looks at what each played note of a pass is meant to be. It counts the notes
// of the score, and those that nobody plays.
func checkMeant(t *testing.T, pass *timeline.Pass, part *groove.PassPart) (notes, unplayed int) {
	t.Helper()
	const near = int64(960/2 + 100) // a swung eighth, a roll, and what a player strays
	for who := range part.Notes {
		meant := part.Score.Parts[who].Notes
		played := make([]bool, len(meant))
		for _, n := range part.Notes[who] {
			if int(n.Meant) >= len(meant) {
				t.Errorf("%s at %d: note %d of %d", timeline.Player(who), n.Tick, n.Meant, len(meant))
				continue
			}
			m, near := &meant[n.Meant], near
			if m.Art.Has(score.Rolled) { // a roll takes half a beat at most
				near += max(0, pass.Bars[pass.BarAt(m.At)].Meter.PlayedBeat()/2-quarter/2)
			}
			if m.Key != n.Key || m.At-n.Tick > near || n.Tick-m.At > near || played[n.Meant] {
				t.Errorf("%s: key %d at %d plays %+v", timeline.Player(who), n.Key, n.Tick, *m)
			}
			played[n.Meant] = true
		}
		checkScore(t, pass, timeline.Player(who), &part.Score)
		for _, is := range played {
			notes++
			if !is {
				unplayed++
			}
		}
	}
	return notes, unplayed
}

// checkScore looks for what a part of a score must hold to: in order, each note with a
// length, a bar and a voice that is its player's, accents and pushes with their cue.
func checkScore(t *testing.T, pass *timeline.Pass, who timeline.Player, s *score.Pass) {
	t.Helper()
	part := &s.Parts[who]
	for i := range part.Notes {
		n := &part.Notes[i]
		wrong := ""
		switch {
		case i > 0 && n.At < part.Notes[i-1].At:
			wrong = "out of order"
		case n.Held <= 0 || n.Value < 0 || n.Value == 0 && !n.Art.Has(score.Grace):
			wrong = "no length"
		case n.Held > n.Value && !n.Voice.OnKit():
			wrong = "held over its written length"
		case n.Bar < 0 || int(n.Bar) > len(pass.Bars) || int(n.Group) > len(part.Groups):
			wrong = "no such bar or group"
		case n.Voice.OnKit() != (who == timeline.Drums) || n.Voice == score.String != (who == timeline.Bass):
			wrong = "another player's voice"
		case n.Cue >= int32(len(s.Cues.List)):
			wrong = "no such cue"
		case n.Art.Has(score.Accent) && (n.Cue < 0 || s.Cues.List[n.Cue].Weight == 0):
			wrong = "an accent without its cue"
		case n.Cue >= 0 && !s.Cues.List[n.Cue].By.Has(who) && s.Cues.List[n.Cue].Span < 0:
			wrong = "a cue that does not name the player"
		}
		if wrong != "" {
			t.Errorf("%s: %s: %+v", who, wrong, *n)
		}
	}
}

// A song is made of thousands of notes.
func TestScoreNoteIsSmall(t *testing.T) {
	if size := unsafe.Sizeof(score.Note{}); size != 32 {
		t.Errorf("a note of the score has %d bytes, not 32", size)
	}
}

// scoreSongs show what a score says and a played note does not: written lengths, hands,
// groups, the cue behind an accent, the bar that owns a pushed chord.
var scoreSongs = []string{
	sketch("A push over the border into a lift, with an accent on it", backbeat,
		part("verse", 3, "| C | F G7 |", at("push", "last: 4&"), at("accent", "last: 4a")),
		part("chorus", 4, "| C | F | G7 | C |", at("accent", "2: 2& 4"), at("stop", "4: 2")),
		form(`play "verse" {}`, "play \"chorus\" {\n    lift = 1\n  }")),
	sketch("Swing at 5: spread chords, a walking bass, a fill in triplets", swinging,
		part("swung", 5, "| Dm7 | G7 | Cmaj7 | A7 |", at("accent", "2: 2& 4", "weight = 3"), at("fill", "4: 3"))),
	sketch("The left hand has the bass, and the song comes to rest", backbeat,
		part("alone", 2, "| C | G/B | Am7 | C |", tacet("bass"), at("hold", "3: 3"))),
	sketch("A bar of written hits, N.C., and a last hit", backbeat,
		part("hits", 4, "| C | F | N.C. | C |", at("accent", "2: 1 2&", "alone = true"), at("stop", "last: 2"))),
}

// What a score says, as text. The golden is written with -update.
func TestScoreAsText(t *testing.T) {
	set := library.Builtin()
	var b strings.Builder
	for _, src := range scoreSongs {
		tl := songfiletest.Song(t, src)
		title, _, _ := strings.Cut(src, "\n")
		b.WriteString(title + "\n")
		for i, part := range groove.Perform(tl, set).Passes {
			if err := score.Write(&b, &tl.Passes[i], &part.Score); err != nil {
				t.Fatal(err)
			}
		}
		b.WriteString("\n")
	}
	checkGolden(t, filepath.Join("testdata", "score.txt"), b.String())
}
