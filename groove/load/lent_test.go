package load_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"plinth/groove/load"
)

// lent reads a song beside which a song lies that lends its sections.
func lent(song, lender string) *load.Song {
	folder := fstest.MapFS{"harbour.song.hcl": {Data: []byte(lender)}}
	return load.Read("reprise.song.hcl", []byte("sections = [\"harbour.song.hcl\"]\n"+song), folder)
}

const harbour = `
key    = "F"
meter  = "3/4"
tempo  = 120
feel   = "jazz-waltz"
energy = 5
transpose = 3
section "chorus" {
  chords = "| F | Bb | C7 | I |"
  push "2: 3&" {}
}
section "dance" {
  like = "chorus"
  key  = "Dm"
  feel = "jazz-waltz"
  bars "4" { chords = "| F |" }
}
form {
  play "chorus" { lift = 1 }
}
`

// A lent section brings its chords, events and bars, its key and meter; its letters move as far
// as the key of its song is from the key of this one. It has tempo, feel and energy of this song
// unless it names its own. What else stands in its song does not count.
func TestLentSections(t *testing.T) {
	s := lent(`
key       = "G"
tempo     = 90
energy    = 3
section "verse" { chords = "| G | C |" }
section "slow" {
  like   = "chorus"
  tempo  = 84
}
section "own" {
  like   = "chorus"
  chords = "| G | C |"
}
form {
  play "verse" {}
  play "chorus" {}
  play "dance" { lift = 1 }
  play "slow" { key = "C" }
  play "chorus" {}
  play "own" {}
}
`, harbour)
	if s.Timeline == nil {
		t.Fatal(s.Diags)
	}
	var got []string
	for _, p := range s.Timeline.Passes {
		var chords []string
		for _, c := range p.Chords {
			chords = append(chords, c.Chord.String())
		}
		got = append(got, fmt.Sprintf("%s %s %s %s %s %d %s %d", p.Section, p.Key, p.Meter, p.BPM, p.Feel, p.EnergyFrom,
			strings.Join(chords, " "), len(p.Events)))
	}
	want := []string{
		"verse G major 4/4 90 ballad-eighths 3 G C 0",
		"chorus G major 3/4 90 waltz 3 G C D7 G 1",
		"dance F minor 3/4 90 jazz-waltz 3 Ab Db Eb7 Ab 1",
		"slow C major 3/4 84 waltz 3 C F G7 C 1",
		"chorus C major 3/4 90 waltz 3 C F G7 C 1",
		"own C major 4/4 90 ballad-eighths 3 C F 1",
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got  %s\nwant %s", got[i], want[i])
		}
	}
}

func TestLendingGoesWrong(t *testing.T) {
	const own = "section \"verse\" { chords = \"| C |\" }\n"
	for _, row := range []struct{ name, song, lender, want string }{
		{"a name twice", "section \"chorus\" { chords = \"| C |\" }\n", harbour, "like = \"chorus\""},
		{"a name that neither has", own + "form {\n  play \"chorus 2\" {}\n}\n", harbour, "Is it \"chorus\"?"},
		{"a mistake in the lender", own, "section \"b\" { chords = \"| C | Y |\" }\n", "Not a chord: \"Y\""},
		{"a slip in the lender", own, "section \"b\" { chords = \"| C |\n", "harbour.song.hcl:1"},
		{"no form", "", harbour, "They are played where the form names them"},
		{"what the lender borrows itself", own, "sections = [\"x.song.hcl\"]\nsection \"b\" { like = \"c\" }\n",
			"No section named \"c\""},
	} {
		s := lent(row.song, row.lender)
		if said := fmt.Sprint(s.Diags); s.Timeline != nil || !strings.Contains(said, row.want) {
			t.Errorf("%s: %s", row.name, said)
		}
	}
	alone := load.Read("a.song.hcl", []byte("sections = [\"harbour.song.hcl\"]\n"+own), fstest.MapFS{})
	if said := fmt.Sprint(alone.Diags); !strings.Contains(said, "No song file of that name") {
		t.Errorf("a lender that is not there: %s", said)
	}
}

// A mistake in a lent section stands in its own file, at its own place.
func TestMistakeOfALender(t *testing.T) {
	s := lent("section \"verse\" { chords = \"| C |\" }\n", "# harbour\nsection \"b\" { chords = \"| C | Y |\" }\n")
	if len(s.Diags) != 1 || s.Diags[0].Subject.Filename != "harbour.song.hcl" || s.Diags[0].Subject.Start.Line != 2 ||
		s.Diags[0].Subject.Start.Column != 31 || s.Sources["harbour.song.hcl"] == nil {
		t.Errorf("got %v", s.Diags)
	}
}

// Transposing moves the guide with the song, and not what the singer can reach.
func TestTransposeMovesTheGuide(t *testing.T) {
	song := "key = \"C\"\nsection \"a\" { chords = \"| C | F | G7 | C |\" }\n" +
		"vocal \"v.mid\" { range = [\"C4\", \"C5\"] }\n"
	folder := fstest.MapFS{"v.mid": {Data: sungFile()}}
	plain := load.Read("a.song.hcl", []byte(song), folder).Timeline
	up := load.Read("a.song.hcl", []byte("transpose = 3\n"+song), folder).Timeline
	v, w := plain.Vocals[0], up.Vocals[0]
	if len(v.Notes) != 2 || len(w.Notes) != 2 || w.Notes[0].Key != v.Notes[0].Key+3 || w.RangeLow != v.RangeLow {
		t.Errorf("got %v and %v", v.Notes, w.Notes)
	}
	if got := up.Passes[0].Key.String() + " " + up.Passes[0].Chords[1].Chord.String(); got != "Eb major Ab" {
		t.Errorf("the song is in %s", got)
	}
}

// sungFile is a Standard MIDI File 1.0 of format 0: two quarters, E4 and G4.
func sungFile() []byte {
	track := []byte{0, 0x90, 64, 80, 96, 0x80, 64, 0, 0, 0x90, 67, 80, 96, 0x80, 67, 0, 0, 0xff, 0x2f, 0}
	head := []byte{'M', 'T', 'h', 'd', 0, 0, 0, 6, 0, 0, 0, 1, 0, 96, 'M', 'T', 'r', 'k', 0, 0, 0, byte(len(track))}
	return append(head, track...)
}
