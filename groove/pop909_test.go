package groove

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// popSong is the truth.json of one song of the POP909 data set (MIT licence),
// as kept in PLINTH_DATA/pop909-dev: reviewed chords by bar.
type popSong struct {
	ID    string  `json:"id"`
	PPQ   int64   `json:"ppq"`
	Meter string  `json:"meter"`
	Tempo float64 `json:"tempo_bpm"`
	Bars  []struct {
		Bar    int `json:"bar"`
		Chords []struct {
			Beat    float64 `json:"beat"`
			Beats   float64 `json:"beats"`
			Root    string  `json:"root"`
			Quality string  `json:"quality"`
			Bass    string  `json:"bass"`
		} `json:"chords"`
	} `json:"bars"`
}

// popQualities are the data set's words for chord qualities as symbols.
var popQualities = map[string]string{"maj": "", "min": "m", "7": "7", "maj7": "maj7", "min7": "m7",
	"sus2": "sus2", "sus4": "sus4", "dim": "dim", "dim7": "dim7", "hdim7": "m7b5", "aug": "aug",
	"minmaj7": "m(maj7)", "maj6": "6", "min6": "m6"}

// popSongs reads the data set's songs, in order.
func popSongs(t testing.TB) map[string]*popSong {
	t.Helper()
	root := os.Getenv("PLINTH_DATA")
	if root == "" {
		t.Skip("PLINTH_DATA is not set: no data to measure on")
	}
	files, err := filepath.Glob(filepath.Join(root, "pop909-dev", "*", "truth.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no songs in %s/pop909-dev (%v)", root, err)
	}
	out := map[string]*popSong{}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		s := &popSong{}
		if err := json.Unmarshal(data, s); err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		out[filepath.Dir(f)] = s
	}
	return out
}

// pass lays the song out as one pass.
func (s *popSong) pass(t testing.TB, energy int) *timeline.Pass {
	t.Helper()
	m, err := meter.Parse(s.Meter)
	if err != nil {
		t.Fatal(err)
	}
	none := harmony.Chord{None: true}
	p := &timeline.Pass{Section: "song", Feel: "test", EnergyFrom: energy, EnergyTo: energy, Meter: m,
		Tempos: []timeline.Tempo{{Micros: int64(60e6 / s.Tempo)}}, After: &timeline.Neighbour{Chord: none}}
	for i, b := range s.Bars {
		start := int64(i) * m.BarTicks()
		p.Bars = append(p.Bars, timeline.Bar{Start: start, Length: m.BarTicks(), Meter: m})
		p.Length = start + m.BarTicks()
		at := start
		add := func(end int64, c harmony.Chord) {
			if end > at {
				p.Chords = append(p.Chords, timeline.Span{Start: at, End: end, Chord: c})
				at = end
			}
		}
		for _, c := range b.Chords {
			from := start + int64((c.Beat-1)*float64(m.UnitTicks()))
			add(from, none)
			suffix, ok := popQualities[c.Quality]
			chord := none
			if ok && c.Root != "" {
				sym := c.Root + suffix
				if c.Bass != c.Root && c.Bass != "" {
					sym += "/" + c.Bass
				}
				chord = chordOf(t, sym)
			}
			add(min(p.Length, from+int64(c.Beats*float64(m.UnitTicks()))), chord)
		}
		add(p.Length, none)
	}
	return p
}

func TestPopScratch(t *testing.T) {
	for e := 1; e <= 5; e++ {
		var n, top2, motion2, common, voicesN int
		for _, s := range popSongs(t) {
			p := planOf(s.pass(t, e), compFeel("c==============="))
			ch := p.changes(timeline.Piano)
			vs := chordsOf(p)
			for i := 1; i < len(vs); i++ {
				if ch[i].Same || vs[i].n == 0 || vs[i-1].n == 0 {
					continue
				}
				n++
				if absInt(vs[i].top()-vs[i-1].top()) <= 2 {
					top2++
				}
				for k := int8(0); k < vs[i].n; k++ {
					best := 99
					for l := int8(0); l < vs[i-1].n; l++ {
						best = min(best, absInt(int(vs[i].notes[k])-int(vs[i-1].notes[l])))
					}
					motion2 += best
					voicesN++
					if best == 0 {
						common++
					}
				}
			}
		}
		fmt.Printf("energy %d: %d changes, top<=2 %.3f, nearest %.3f, common %.3f\n", e, n, float64(top2)/float64(n), float64(motion2)/float64(voicesN), float64(common)/float64(voicesN))
	}
}
