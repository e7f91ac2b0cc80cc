package guide

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// timelineOf is a song as a timeline of one pass, with the reviewed chords where they have a
// symbol. Its vocal is placed.
func timelineOf(t testing.TB, song *realsongs.PopSong) *timeline.Timeline {
	t.Helper()
	m, err := meter.Parse(song.Meter)
	if err != nil {
		t.Fatal(err)
	}
	p := timeline.Pass{Section: "song", Meter: m, FirstBar: 1, EnergyFrom: 2, EnergyTo: 2}
	for _, b := range song.Bars {
		for _, c := range b.Chords {
			chord := harmony.NoChord()
			if symbol, ok := c.Symbol(); ok {
				if chord, err = harmony.ParseChord(symbol); err != nil {
					t.Fatal(err)
				}
			}
			start := p.Length + int64((c.Beat-1)*float64(m.UnitTicks()))
			p.Chords = append(p.Chords, timeline.Span{Start: start,
				End: start + int64(c.Beats*float64(m.UnitTicks())), Chord: chord})
		}
		p.Bars = append(p.Bars, timeline.Bar{Start: p.Length, Length: m.BarTicks(), Meter: m})
		p.Length += m.BarTicks()
	}
	tl := &timeline.Timeline{Passes: []timeline.Pass{p}, End: p.Length,
		Vocals: []timeline.Vocal{{Path: "guide.mid", From: 1}},
		Tempos: []timeline.Tempo{{Micros: int64(60e6 / song.Tempo)}}}
	src, err := fs.ReadFile(song.Files, "guide.mid")
	if err != nil {
		t.Fatal(err)
	}
	place(t, tl, src)
	return tl
}

func popSongs(t testing.TB) []*realsongs.PopSong {
	t.Helper()
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	songs, err := realsongs.PopSongs(os.DirFS(data))
	if err != nil || len(songs) != 30 {
		t.Fatalf("%d songs in pop909-dev, %v", len(songs), err)
	}
	return songs
}

// On 30 real vocals (POP909, MIT) the windows are those that .ci/vocal-windows.py
// finds with mido, and the voice is found among vocal, bridge and piano.
func TestWindowsAgainstMido(t *testing.T) {
	songs := popSongs(t)
	const python = "/usr/bin/python3"
	if err := exec.Command(python, "-c", "import mido").Run(); err != nil {
		t.Skipf("%s has no mido: %v", python, err)
	}
	script, err := filepath.Abs("../../.ci/vocal-windows.py")
	if err != nil {
		t.Fatal(err)
	}
	total := 0
	for _, song := range songs {
		t.Run(song.ID, func(t *testing.T) {
			tl := timelineOf(t, song)
			if tl.Vocals[0].TrackResolved != "Vocal" {
				t.Errorf("took %q for the voice", tl.Vocals[0].TrackResolved)
			}
			file := filepath.Join(os.Getenv("PLINTH_DATA"), "pop909-dev", song.ID, "guide.mid")
			out, err := exec.Command(python, script, file, "Vocal",
				strconv.Itoa(len(tl.Passes[0].Bars))).Output()
			if err != nil {
				t.Fatal(err)
			}
			var want [][2]int64
			if err := json.Unmarshal(out, &want); err != nil {
				t.Fatal(err)
			}
			got := Windows(tl)
			if len(got) != len(want) {
				t.Fatalf("%d windows, mido finds %d", len(got), len(want))
			}
			for i, w := range got {
				if w.Start != want[i][0] || w.End != want[i][1] {
					t.Errorf("window %d is %d to %d, mido finds %d to %d", i, w.Start, w.End, want[i][0], want[i][1])
				}
			}
			total += len(got)
		})
	}
	t.Logf("%d windows in %d songs", total, len(songs))
}

// Clashes are few in songs that people accept: of their long notes on the beat about 2 in 100 lie a
// semitone above a chord tone (in the median song 0; published with the data set's statistics,
// lead_vs_chord_stats.json).
func TestClashesOnAcceptedSongs(t *testing.T) {
	long, onBeats, listed, resolved := 0, 0, 0, 0
	for _, song := range popSongs(t) {
		tl := timelineOf(t, song)
		beat := beatAt(tl, 0)
		for _, n := range tl.Vocals[0].Notes {
			if n.Length >= beat && onBeat(tl, n.Tick) {
				long++
			}
		}
		clashes, suspensions := Clashes(tl, 0)
		listed, resolved = listed+len(clashes), resolved+len(suspensions)
		for _, c := range append(clashes, suspensions...) {
			if onBeat(tl, c.At.Tick) {
				onBeats++
			}
		}
	}
	t.Logf("%d long notes on the beat, %d lie so; of all %d are clashes and %d suspensions", long, onBeats, listed,
		resolved)
	if long < 500 || 100*onBeats > 5*long || onBeats == 0 || resolved == 0 {
		t.Errorf("%d of %d: the published share is 2.2 in 100", onBeats, long)
	}
}
