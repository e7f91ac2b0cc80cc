package page

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// weir is the song that the tests change. Its bridge has bars in 7/8 and a rit, so that what follows
// begins between two microseconds.
const weir = `title = "Weir"
key = "C"
tempo = 97
looseness = 0.3
section "verse" {
  energy = 2
  chords = "| C | Am | F | G |"
}
section "bridge" {
  energy = 3
  meter = "7/8"
  chords = "| Am | F | C | G | F | G | C | C |"
  rit "8" { to = 61 }
}
section "chorus" {
  energy = 4
  chords = "| F | G | C | Am |"
}
form {
  play "verse" {}
  play "bridge" {}
  play "chorus" {}
  play "verse" {}
  play "chorus" {}
}
`

func edit(t *testing.T, src string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(src, pairs[i]) {
			t.Fatalf("no %q in the song", pairs[i])
		}
		src = strings.Replace(src, pairs[i], pairs[i+1], 1)
	}
	return src
}

// Where the passes and bars go in an edit, and which passes are marked. Those beside a pass that changed may
// change with it, where they lead to it.
func TestChanges(t *testing.T) {
	for name, row := range map[string]struct {
		pairs   []string
		went    string
		changed string
	}{
		"a comment": {[]string{"title", "# slower?\ntitle"}, "0:0123 1:01234567 2:0123 3:0123 4:0123", "[]"},
		"a chord": {[]string{"| F | G | C | Am |", "| F | G | Em | Am |"},
			"0:0123 1:01234567 2:0123 3:0123 4:0123", "[2 4]"},
		"a title": {[]string{`"Weir"`, `"Sluice"`}, "0:0123 1:01234567 2:0123 3:0123 4:0123", "[0 3]"}, // its fills
		"bars in front": {[]string{"| C | Am | F | G |", "| C | C | C | Am | F | G |"},
			"0:0345 1:01234567 2:0123 3:0345 4:0123", "[0 3]"},
		"section moved": {[]string{"  play \"bridge\" {}\n", "", "form {\n", "form {\n  play \"bridge\" {}\n"},
			"1:0123 0:01234567 2:0123 3:0123 4:0123", "[0 1 2]"},
		"pass taken out": {[]string{"  play \"bridge\" {}\n", ""},
			"0:0123 -1:-1-1-1-1-1-1-1-1 1:0123 2:0123 3:0123", "[0 1]"},
		"pass repeated": {[]string{"  play \"bridge\" {}\n", "  play \"bridge\" {}\n  play \"bridge\" {}\n"},
			"0:0123 1:01234567 3:0123 4:0123 5:0123", "[1 2 4]"},
		"count-in": {[]string{"key =", "count_in = 2\nkey ="}, "1:0123 2:01234567 3:0123 4:0123 5:0123", "[0]"},
		"key named": {[]string{`section "chorus" {`, "section \"chorus\" {\n  key = \"D\""},
			"0:0123 1:01234567 2:0123 3:0123 4:0123", "[2 4]"},
	} {
		old, now := bedOf(t, weir), bedOf(t, edit(t, weir, row.pairs...))
		went, changed := Changes(old, now)
		var got []string
		for _, w := range went {
			text := fmt.Sprintf("%d:", w.Chunk)
			for _, b := range w.Bars {
				text += fmt.Sprint(b)
			}
			got = append(got, text)
		}
		if strings.Join(got, " ") != row.went {
			t.Errorf("%s: %s instead of %s", name, strings.Join(got, " "), row.went)
		}
		if fmt.Sprint(changed) != row.changed {
			t.Errorf("%s: changed %v instead of %s", name, changed, row.changed)
		}
	}
}

// A pass that was only moved is the same chunk, also where it begins between two microseconds.
func TestMovedPassesAreTheSame(t *testing.T) {
	old := bedOf(t, weir)
	now := bedOf(t, edit(t, weir, "| C | Am | F | G |", "| C | Am | F | F | F | G |", "97", "97"))
	if old.Chunks[2].Hash != now.Chunks[2].Hash || old.Chunks[4].Hash != now.Chunks[4].Hash ||
		string(old.Chunks[2].JSON) != string(now.Chunks[2].JSON) {
		t.Error("a chorus behind longer verses is another chunk")
	}
	if old.Chunks[0].Hash == now.Chunks[0].Hash {
		t.Error("another verse is the same chunk")
	}
}

// plainClick is a bank that plays every click alike.
type plainClick struct{ tones }

func (b plainClick) Note(p bank.Patch, key, velocity uint8) bank.Note {
	n := b.tones.Note(p, key, velocity)
	if p.Program == 115 {
		n.Layer = 7
	}
	return n
}

// A pass whose click is another note of the bank is another chunk: a browser keeps chunks for long.
func TestClickOfAnotherBank(t *testing.T) {
	_, tl, set := songfiletest.Example(t, filepath.Join("..", "..", "examples", "millers-clock.song.hcl"))
	perf := groove.Perform(tl, set)
	a, b := NewBed(tl, perf, sounds), NewBed(tl, perf, Sounds{Bank: plainClick{}})
	for i := range a.Chunks {
		if string(a.Chunks[i].JSON) == string(b.Chunks[i].JSON) || a.Chunks[i].Hash == b.Chunks[i].Hash {
			t.Errorf("chunk %d is the same", i)
		}
	}
}

// Two steps in one are the two one after the other.
func TestThen(t *testing.T) {
	a := bedOf(t, weir)
	b := bedOf(t, edit(t, weir, "| C | Am | F | G |", "| C | C | Am | F | G |"))
	c := bedOf(t, edit(t, weir, "| C | Am | F | G |", "| C | C | Am | G |", "  play \"bridge\" {}\n", ""))
	first, _ := Changes(a, b)
	second, _ := Changes(b, c)
	if got := fmt.Sprint(Then(first, second)); got != "[{0 [0 2 -1 3]} {-1 [-1 -1 -1 -1 -1 -1 -1 -1]} {1 [0 1 2 3]} "+
		"{2 [0 2 -1 3]} {3 [0 1 2 3]}]" {
		t.Error(got)
	}
	if got := fmt.Sprint(Then(first, Stayed(b))); got != fmt.Sprint(first) {
		t.Error(got)
	}
}

// In front of bar 1 bars are counted back from it.
func TestFront(t *testing.T) {
	two, three := bedOf(t, "count_in = 2\n"+weir), bedOf(t, "count_in = 3\n"+weir)
	went, _ := Changes(two, three)
	if got := fmt.Sprint(went[:2]); got != "[{0 [1 2]} {1 [0 1 2 3]}]" {
		t.Error(got)
	}
	went, _ = Changes(three, two)
	if got := fmt.Sprint(went[0]); got != "{0 [-1 0 1]}" {
		t.Error(got)
	}
	went, _ = Changes(two, bedOf(t, weir))
	if got := fmt.Sprint(went[:2]); got != "[{-1 [-1 -1]} {0 [0 1 2 3]}]" {
		t.Error(got)
	}
}

// A part of a song is a bed as a song is one, with what is sung in it.
func TestExcerpt(t *testing.T) {
	_, tl, set := songfiletest.Example(t, filepath.Join("..", "..", "examples", "lanterns.song.hcl"))
	cut, perf := groove.Excerpt(tl, groove.Perform(tl, set), tl.Named("chorus (2)"))
	bed := NewBed(cut, perf, sounds)
	places, chunks := chunksOf(t, bed)
	if len(chunks) != 1 || places[0].First != 29 || places[0].At != 0 || len(chunks[0].Parts) != 4 {
		t.Errorf("%+v", places)
	}
	room := read[roomJSON](t, Room(bed))
	if len(room.Chunks) != 1 || len(room.Chunks[0].Free) != 2 {
		t.Errorf("%+v", room)
	}
	// What is free there is free of nine in ten of the notes that are played.
	for _, f := range room.Chunks[0].Free {
		for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
			in := 0
			for _, n := range perf.Parts[who] {
				if int(n.Key) >= f.Low && int(n.Key) <= f.High {
					in++
				}
			}
			if 10*in > len(perf.Parts[who]) {
				t.Errorf("%q is called free: %d of %d notes of the %s lie there", f.Names, in, len(perf.Parts[who]),
					who)
			}
		}
	}
}

// The room has the chunks of the state, and its windows lie in them.
func TestRoom(t *testing.T) {
	for _, path := range songfiletest.Examples(t, filepath.Join("..", "..", "examples")) {
		_, tl, set := songfiletest.Example(t, path)
		bed := NewBed(tl, groove.Perform(tl, set), sounds)
		places, _ := chunksOf(t, bed)
		text := RoomOf(7, Room(bed))
		room := read[roomJSON](t, text)
		if !strings.HasPrefix(string(text), `{"rev":7,"low":`) || len(room.Chunks) != len(places) ||
			room.Low >= room.High {
			t.Fatalf("%s: %.80s", path, text)
		}
		windows := 0
		for i, c := range room.Chunks {
			for _, w := range c.Windows {
				windows++
				if w.From < 0 || w.From >= w.To || w.To > places[i].End-places[i].At {
					t.Errorf("%s: %+v in %+v", path, w, places[i])
				}
			}
			for _, f := range c.Free { // the report spells them so
				key := tl.Passes[places[i].Pass].Key
				if want := [2]string{guide.PitchName(f.Low, key), guide.PitchName(f.High, key)}; f.Names != want {
					t.Errorf("%s: %q is free, not %q", path, f.Names, want)
				}
			}
		}
		if len(tl.Vocals) > 0 && windows == 0 {
			t.Errorf("%s: the singer never rests", path)
		}
	}
}
