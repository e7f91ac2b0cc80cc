package groove_test

import (
	"os"
	"path/filepath"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// sungLine is what the singer sings in a section. Of each note: where it begins and how
// long it lasts, in eighths, and its MIDI number.
type sungLine [][3]int64

// sings lays a line over a pass.
func sings(p *timeline.Pass, line sungLine) {
	const eighth = meter.TicksPerQuarter / 2
	p.Sung = []timeline.SungNote{}
	for _, n := range line {
		p.Sung = append(p.Sung, timeline.SungNote{Tick: n[0] * eighth, Length: n[1] * eighth, Key: uint8(n[2])})
	}
}

// What the band plays round a singer: the first verse and the last chorus of an
// example with its guide vocal, and lines that are asked of it here.
func TestPlayedVocal(t *testing.T) {
	const lanterns = "../examples/lanterns.song.hcl"
	_, tl, set := songfiletest.Example(t, lanterns)
	voice, err := os.ReadFile(filepath.Join(filepath.Dir(lanterns), filepath.FromSlash(tl.Vocals[0].Path)))
	if err != nil {
		t.Fatal(err)
	}
	file, err := guide.Read(voice)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range guide.Place(tl, 0, file) {
		t.Fatalf("%s: %s", p.Summary, p.Detail)
	}
	const verse, chorus = 1, 6
	text := playedText(tl, set, groove.Perform(tl, set), verse, chorus)

	// Phrases of a bar and a half, with held notes that rub, and rests after them; once
	// in the middle, once so low that the comp stays under C4, once at energy 2.
	line := sungLine{{0, 1, 67}, {1, 1, 69}, {2, 6, 72}, {8, 2, 71}, {10, 1, 69}, {16, 3, 65}, {19, 1, 67},
		{20, 8, 72}, {40, 4, 76}, {44, 2, 74}}
	low, busy := sungLine{}, sungLine{}
	for _, n := range line {
		low = append(low, [3]int64{n[0], n[1], n[2] - 12})
	}
	for i := int64(0); i < 16; i++ {
		busy = append(busy, [3]int64{i, 1, 76 - i%3})
	}
	chords := "| Cmaj7 | F | Dm7 | C/G | G7 | Am7 | F | C |"
	title := "A line over the band: energy 3, an octave lower, energy 2, busy at energy 5, silent, an upbeat"
	sung := songfiletest.Song(t, sketch(title, ballad,
		part("line", 3, chords), part("low", 3, chords), part("soft", 2, "| Cmaj7 | F | Dm7 | C/G |"),
		part("busy", 5, "| C | F |"), part("silent", 4, "| G7 |", "fills = true"),
		part("upbeat", 4, "| G7 |", "fills = true"), part("end", 4, "| C | C |")))
	for i, l := range []sungLine{line, low, line[:8], busy, {}, {{7, 1, 71}, {8, 4, 72}}, {}} {
		sings(&sung.Passes[i], l)
	}
	text += "\n" + playedText(sung, library.Builtin(), groove.Perform(sung, library.Builtin()))
	checkPlayed(t, vocalGolden, text)
}

const vocalGolden = "vocal"
