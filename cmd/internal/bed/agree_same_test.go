package bed

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gitlab.com/gomidi/midi/v2/smf"

	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// sameAs are other ways to write a song. Each makes the same file, or the same notes of the players in
// it: what follows from the reference alone. A way returns the text as it is where it has nothing to say.
var sameAs = []struct {
	name  string
	bytes bool // of the whole file; else of the players' tracks
	write func(text string, tl *timeline.Timeline) string
}{
	{"all bars are those that are played", true, inPlays(func(p *timeline.Pass, block string) string {
		return unless(block, "  only = ", "\n  only = \"1-last\"")
	})},
	{"once", true, inPlays(func(p *timeline.Pass, block string) string {
		return unless(block, "  times = ", "\n  times = 1")
	})},
	{"nothing is left out", true, inPlays(func(p *timeline.Pass, block string) string {
		return unless(block, "  without = ", "\n  without = []")
	})},
	{"the energy of the pass in bars", true, inPlays(func(p *timeline.Pass, block string) string {
		own := slices.ContainsFunc(p.Bars, func(b timeline.Bar) bool { return b.Energy != timeline.Energy{} })
		if own || p.EnergyFrom != p.EnergyTo {
			return ""
		}
		return unless(block, "    energy", fmt.Sprintf("\n  bars \"1-\" { energy = %d }", p.EnergyFrom))
	})},
	{"the feel of the pass in bars", true, inPlays(func(p *timeline.Pass, block string) string {
		if !slices.Equal(p.Feels(), []string{p.Feel}) {
			return ""
		}
		return unless(block, "    feel", fmt.Sprintf("\n  bars \"1-\" { feel = %q }", p.Feel))
	})},
	{"nobody keeps out of bars", true, inPlays(func(p *timeline.Pass, block string) string {
		if slices.ContainsFunc(p.Bars, func(b timeline.Bar) bool { return b.Tacet|p.Tacet != 0 }) {
			return ""
		}
		return unless(block, "    tacet", "\n  bars \"1-\" { tacet = [] }")
	})},
	{"what keeps a lead is the default", true, inPlays(func(p *timeline.Pass, block string) string {
		if !p.Lead {
			return ""
		}
		return unless(block, "  lead = ", "\n  lead = true")
	})},
	{"all by their names", true, replacing(`\["all"\]`, `["piano", "bass", "drums"]`)},
	{"a stop of all by their names", true, replacing(`(?m)^(  stop "[^"]*") \{  \}`,
		`$1 { by = ["drums", "bass", "piano"] }`)},
	{"an accent of weight 2", true, replacing(`(?m)^(  accent "[^"]*") \{  \}`, `$1 { weight = 2 }`)},
	{"tempos with three decimals", true, replacing(`(?m)^( +tempo = [0-9]+)$`, `$1.000`)},
	{"not transposed", true, func(text string, tl *timeline.Timeline) string {
		if tl.Transpose == 0 {
			return "transpose = 0\n" + text
		}
		return text
	}},
	{"without vamps", false, replacing(`(?m)^  vamp = .*\n`, "")},
	{"without cues", false, func(text string, _ *timeline.Timeline) string {
		if strings.Contains(text, " at = ") {
			return text
		}
		return regexp.MustCompile(`(?m)^  cue [^{]*\{[^}]*\}\n`).ReplaceAllString(text, "")
	}},
}

// replacing is a way to write a song that replaces all that a pattern matches.
func replacing(pattern, by string) func(string, *timeline.Timeline) string {
	re := regexp.MustCompile(pattern)
	return func(text string, _ *timeline.Timeline) string { return re.ReplaceAllString(text, by) }
}

// inPlays is a way to write a song that adds lines to its plays. more is given the pass, and the play as
// it is written.
func inPlays(more func(*timeline.Pass, string) string) func(string, *timeline.Timeline) string {
	return func(text string, tl *timeline.Timeline) string {
		plays := strings.Split(text, "\n  play ")
		for i, play := range plays[1:] {
			head, rest, _ := strings.Cut(play, "\n")
			plays[i+1] = head + more(&tl.Passes[i], play) + "\n" + rest
		}
		return strings.Join(plays, "\n  play ")
	}
}

// unless is a text where a block does not have a word yet.
func unless(block, word, text string) string {
	if strings.Contains(block, "\n"+word) {
		return ""
	}
	return text
}

// playersTracks are the tracks of the players in a file.
func playersTracks(t *testing.T, data []byte) []smf.Track {
	t.Helper()
	song, err := smf.ReadFrom(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return song.Tracks[1 : 1+len(timeline.PlayerNames)]
}

// A song that says the same in another way is the same song.
func TestSameInOtherWords(t *testing.T) {
	songs := 40
	if text := os.Getenv("PLINTH_SONGS"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		songs = n
	}
	feels, said := randomFeels(), map[string]int{}
	for seed := range int64(songs) {
		song := songtest.Random(rand.New(rand.NewSource(1_000_000+seed)), feels)
		res, err := Build(randomRequest(song))
		if err != nil || res.Failed() {
			t.Fatalf("seed %d: %v %v\n%s", seed, err, res.Diags.Errs(), song.Text)
		}
		for _, way := range sameAs {
			other := songtest.Song{Text: way.write(song.Text, res.Timeline), Files: maps.Clone(song.Files)}
			if other.Text == song.Text {
				continue
			}
			said[way.name]++
			again, err := Build(randomRequest(other))
			switch {
			case err != nil || again.Failed():
				t.Errorf("seed %d, %s: %v %v\n%s", seed, way.name, err, again.Diags.Errs(), other.Text)
			case way.bytes && !bytes.Equal(again.Outputs[0].Data, res.Outputs[0].Data):
				t.Errorf("seed %d, %s: other bytes\n%s", seed, way.name, other.Text)
			case !way.bytes && !reflect.DeepEqual(playersTracks(t, again.Outputs[0].Data),
				playersTracks(t, res.Outputs[0].Data)):
				t.Errorf("seed %d, %s: other notes\n%s", seed, way.name, other.Text)
			}
		}
	}
	t.Log(said)
	for _, way := range sameAs {
		if said[way.name] < songs/20 {
			t.Errorf("only %d songs say %q", said[way.name], way.name)
		}
	}
}
