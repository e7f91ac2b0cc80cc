package bed

import (
	"fmt"
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
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// agreement is one song under test.
type agreement struct {
	*rules
	src   string
	res   *Result
	perf  *groove.Performance
	clock *timeline.Clock

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
	"caesura": 60, "accent short": 100,
	"stop": 800, "alone": 250, "push struck": 350, "push tied over": 450, "accent struck": 700, "accent louder": 550,
	"together": 100, "outline": 2000, "room": 700, "idle block": 200, "block that acts": 650,
}

var loosenessLine = regexp.MustCompile(`(?m)^looseness = .*$`)

// agreeSong is the song of a seed. Three of four are played on the grid, so that each
// note is where it is meant. One of three has endings, and chords that say their counts.
func agreeSong(seed int64, feels []songtest.Feel) string {
	src := songtest.Random(rand.New(rand.NewSource(seed)), feels)
	if seed%3 == 1 {
		src = songtest.RandomCharts(rand.New(rand.NewSource(seed)), rand.New(rand.NewSource(seed+1)), feels)
	}
	if seed%4 != 0 {
		src = loosenessLine.ReplaceAllString(src, "looseness = 0")
	}
	return src
}

// agree checks a song by the rules. A song that cannot be read has no performance.
func agree(src string) (*agreement, error) {
	res, err := Build(memory("agree.song.hcl", map[string]string{"agree.song.hcl": src}))
	if res.Timeline == nil {
		return &agreement{rules: &rules{}}, err
	}
	r := rulesOf(res.Timeline)
	if err != nil {
		return &agreement{rules: r}, err
	}
	a := &agreement{rules: r, src: src, res: res, perf: res.Performance,
		clock: timeline.NewClock(res.Timeline.Tempos), counts: map[string]int{}}
	players := len(timeline.PlayerNames)
	a.notes, a.asked, a.accents = make([][]heardNote, players), make([][]int64, players), make([][]int64, players)
	a.readMIDI(res.Outputs[0].Data)
	a.checkPlayed()
	a.checkTold()
	return a, nil
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
	var feels []songtest.Feel
	for _, e := range library.Index() {
		f := songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
		feels = append(feels, f)
	}
	var mu sync.Mutex
	var all sync.WaitGroup
	counts, read, wrong := map[string]int{}, 0, 0
	seeds := make(chan int64)
	for range runtime.GOMAXPROCS(0) {
		all.Add(1)
		go func() {
			defer all.Done()
			for seed := range seeds {
				src := agreeSong(seed, feels)
				a, err := agree(src)
				mu.Lock()
				switch {
				case err != nil:
					t.Errorf("seed %d: %v\n%s", seed, err, src)
				case a.perf != nil:
					read++
					for what, n := range a.counts {
						counts[what] += n
					}
					if len(a.faults) > 0 {
						wrong++
						faults := strings.Join(a.faults[:min(8, len(a.faults))], "\n  ")
						if wrong <= 5 {
							t.Errorf("seed %d:\n  %s\n%s", seed, faults, src)
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
	t.Logf("%d of %d songs can be read, %d are wrong; checks: %v", read, songs, wrong, counts)
	if read < songs*9/10 {
		t.Errorf("only %d of %d songs can be read", read, songs)
	}
	for what, n := range sensible {
		if counts[what] < n*songs/100 {
			t.Errorf("only %d checks of %q", counts[what], what)
		}
	}
}
