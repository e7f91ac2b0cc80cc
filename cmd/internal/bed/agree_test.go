package bed

import (
	"errors"
	"fmt"
	"maps"
	"math/rand"
	"os"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// agreement is one song under test.
type agreement struct {
	*rules
	song  songtest.Song
	res   *Result
	whole *timeline.Timeline // the song where each play plays all of its section once

	steady *timeline.Clock // of the song without holds, caesuras and picture
	perf   *groove.Performance
	clock  *timeline.Clock

	notes          [][]heardNote // by player
	asked, accents [][]int64     // by player: where he is asked to strike; accents alone

	counts map[string]int
	faults []string
}

func (a *agreement) failf(format string, args ...any) {
	a.faults = append(a.faults, fmt.Sprintf(format, args...))
}

func (a *agreement) count(what string) { a.counts[what]++ }

// sensible is how many checks of each kind a hundred songs make at least.
var sensible = map[string]int{
	"caesura": 60, "accent short": 100, "landing": 60, "outline of bars": 400,
	"stop": 800, "alone": 250, "push struck": 350, "push tied over": 450, "accent struck": 700, "accent louder": 550,
	"together": 100, "outline": 2000, "room": 700, "idle block": 200, "block that acts": 650,
}

var loosenessLine = regexp.MustCompile(`(?m)^looseness = .*$`)

// agreeSong is the song of a seed. Three of four are played on the grid, so that each
// note is where it is meant.
func agreeSong(seed int64, feels []songtest.Feel) songtest.Song {
	song := songtest.Random(rand.New(rand.NewSource(seed)), feels)
	if seed%4 != 0 {
		song.Text = loosenessLine.ReplaceAllString(song.Text, "looseness = 0")
	}
	return song
}

// randomFeels are the library's feels for songtest.
func randomFeels() (feels []songtest.Feel) {
	for _, e := range library.Index() {
		feels = append(feels, songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow,
			TempoHigh: e.TempoHigh})
	}
	return feels
}

// randomRequest is a Request for a random song.
func randomRequest(song songtest.Song) Request {
	files := map[string]string{"agree.song.hcl": song.Text}
	maps.Copy(files, song.Files)
	return memory("agree.song.hcl", files)
}

// agree checks a song by the rules. A song that cannot be read has no performance.
func agree(song songtest.Song) (*agreement, error) {
	res, err := Build(randomRequest(song))
	if res.Timeline == nil {
		return &agreement{rules: &rules{}, res: res}, err
	}
	r := rulesOf(res.Timeline)
	if err != nil {
		return &agreement{rules: r}, err
	}
	a := &agreement{rules: r, song: song, res: res, perf: res.Performance,
		clock: timeline.NewClock(res.Timeline.Tempos), counts: map[string]int{}}
	players := len(timeline.PlayerNames)
	a.notes, a.asked, a.accents = make([][]heardNote, players), make([][]int64, players), make([][]int64, players)
	steady := without(song, landingLine, holdLine)
	if a.whole = without(song, partLines); a.whole == nil || steady == nil {
		return a, errors.New("the song cannot be read without its parts or its holds")
	}
	a.steady = timeline.NewClock(steady.Tempos)
	a.readMIDI(res.Outputs[0].Data)
	a.checkPlayed()
	a.checkTold()
	return a, nil
}

var holdLine = regexp.MustCompile(`(?m)^  (hold|caesura) ".*\n`)

// without is a song without some lines; nil where it cannot be read.
func without(song songtest.Song, lines ...*regexp.Regexp) *timeline.Timeline {
	for _, l := range lines {
		song.Text = l.ReplaceAllString(song.Text, "")
		if lender := song.Files["lender.song.hcl"]; lender != "" {
			song.Files = maps.Clone(song.Files)
			song.Files["lender.song.hcl"] = l.ReplaceAllString(lender, "")
		}
	}
	return load.Read("agree.song.hcl", []byte(song.Text), song.Folder()).Timeline
}

// The band plays what the song file asks for, and outline, room and check say the same.
// Room and band read the same cues and would be wrong together, so the rules are worked out
// anew from the events (see rulesOf) and the notes are read from the MIDI file.
func TestAllAgree(t *testing.T) {
	songs := 300
	if testing.Short() {
		songs = 60
	}
	if text := os.Getenv("PLINTH_SONGS"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			t.Fatal(err)
		}
		songs = n
	}
	feels := randomFeels()
	var mu sync.Mutex
	var all sync.WaitGroup
	counts, wrong := map[string]int{}, 0
	seeds := make(chan int64)
	for range runtime.GOMAXPROCS(0) {
		all.Add(1)
		go func() {
			defer all.Done()
			for seed := range seeds {
				song := agreeSong(seed, feels)
				a, err := agree(song)
				mu.Lock()
				switch {
				case err != nil || a.perf == nil:
					wrong++
					t.Errorf("seed %d: %v %v\n%s", seed, err, a.res.Diags, song.Text)
				default:
					for what, n := range a.counts {
						counts[what] += n
					}
					if len(a.faults) > 0 {
						wrong++
						faults := strings.Join(a.faults[:min(8, len(a.faults))], "\n  ")
						if wrong <= 5 {
							t.Errorf("seed %d:\n  %s\n%s", seed, faults, song.Text)
						}
					}
				}
				mu.Unlock()
			}
		}()
	}
	for seed := range int64(songs) {
		seeds <- seed
	}
	close(seeds)
	all.Wait()
	t.Logf("%d of %d songs are wrong; checks: %v", wrong, songs, counts)
	for what, n := range sensible {
		if counts[what] < n*songs/100 {
			t.Errorf("only %d checks of %q", counts[what], what)
		}
	}
}
