package room

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// popText writes a song of pop909-dev as a song file: reviewed chords, the
// human section labels, one energy.
func popText(t testing.TB, dir string, energy int) string {
	t.Helper()
	var truth struct {
		Meter string
		Tempo float64 `json:"tempo_bpm"`
		Bars  []struct {
			Chords []struct {
				Beat, Beats         float64
				Root, Quality, Bass string
			}
		}
		Sections map[string][]struct {
			Label string
			Bar   int
		}
	}
	raw, err := os.ReadFile(filepath.Join(dir, "truth.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &truth); err != nil {
		t.Fatal(err)
	}
	suffix := map[string]string{"maj": "", "min": "m", "min7": "m7", "sus2": "sus2", "maj7": "maj7", "sus4": "sus4", "7": "7",
		"dim": "dim", "hdim7": "m7b5", "7sus4": "7sus4", "minmaj7": "mmaj7"}
	feel := map[string]string{"4/4": "ballad-eighths", "3/4": "waltz", "3/8": "sustain"}[truth.Meter]
	beats := int(truth.Meter[0] - '0')
	starts := map[int]string{1: "front"}
	for i, s := range truth.Sections["human_label1"] {
		starts[s.Bar] = fmt.Sprintf("%s %d", s.Label, i+1)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "meter = %q\ntempo = %d\nfeel = %q\nenergy = %d\nlooseness = 0\n", truth.Meter, int(truth.Tempo+0.5), feel, energy)
	b.WriteString("vocal \"guide.mid\" {\n  track = \"Vocal\"\n}\n")
	open, now := false, "N.C."
	for i, bar := range truth.Bars {
		if name, ok := starts[i+1]; ok {
			if open {
				b.WriteString("|\nEOT\n}\n")
			}
			fmt.Fprintf(&b, "section %q {\n  chords = <<-EOT\n", name)
			open = true
		}
		at := map[int]string{}
		for _, c := range bar.Chords {
			sym := "N.C."
			if s, ok := suffix[c.Quality]; ok {
				sym = c.Root + s
				if c.Bass != c.Root {
					sym += "/" + c.Bass
				}
			}
			at[int(c.Beat+0.5)-1] = sym
		}
		b.WriteString("| ")
		for beat := 0; beat < beats; beat++ {
			sym, ok := at[beat]
			if ok {
				now = sym
			}
			if ok || beat == 0 {
				b.WriteString(now + " ")
			} else {
				b.WriteString("/ ")
			}
		}
	}
	b.WriteString("|\nEOT\n}\n")
	return b.String()
}

// rubbing counts the held sung notes (a beat or more) over which something
// sounds a semitone, or that and octaves, away for a thirty-second or more.
func rubbing(tl *timeline.Timeline, comp []groove.Note) (held, rubbed int) {
	for _, s := range tl.Vocal.Notes {
		if s.Length < 960 {
			continue
		}
		held++
		for _, c := range comp {
			d := int(c.Key) - int(s.Key)
			if d < 0 {
				d = -d
			}
			if d%12 == 1 && min(c.Tick+c.Length, s.Tick+s.Length)-max(c.Tick, s.Tick) >= together {
				rubbed++
				break
			}
		}
	}
	return held, rubbed
}

// On 30 real vocals (POP909, MIT): the comp rubs against held sung notes at most
// a quarter as often as the pianist of the recording did over the same vocal, and
// stays under the ceiling that the design gives it: A4, or a third (four
// semitones) under the lower quartile of what is sung in the pass.
func TestCompAgainstPop909(t *testing.T) {
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	dirs, err := filepath.Glob(filepath.Join(data, "pop909-dev", "*"))
	if err != nil || len(dirs) != 30 {
		t.Fatalf("%d songs, %v", len(dirs), err)
	}
	held, ours, theirs, passes, over := 0, 0, 0, 0, 0
	for _, dir := range dirs {
		name := filepath.Base(dir)
		src, err := os.ReadFile(filepath.Join(dir, "guide.mid"))
		if err != nil {
			t.Fatal(err)
		}
		file, err := guide.Read(src)
		if err != nil {
			t.Fatal(err)
		}
		tl := resolve(t, name, []byte(popText(t, dir, 3)))
		for _, p := range guide.Place(tl, file) {
			if p.Error {
				t.Fatalf("%s: %s", name, p.Detail)
			}
		}
		human, err := file.Vocal("Piano")
		if err != nil {
			t.Fatal(err)
		}
		var piano []groove.Note
		for _, x := range human.Track.Notes { // 480 a quarter, placed at bar 1
			piano = append(piano, groove.Note{Tick: x.Tick * 960 / int64(file.Division), Length: x.Length * 960 / int64(file.Division), Key: x.Key})
		}
		perf := groove.Perform(tl, library.Builtin())
		h, a := rubbing(tl, perf.Parts[timeline.Piano])
		_, b := rubbing(tl, piano)
		held, ours, theirs = held+h, ours+a, theirs+b
		t.Logf("%s: %d held notes, the comp rubs on %d, the pianist on %d", name, h, a, b)
		r := Analyze(tl, perf)
		for i := range r.Passes {
			s := &r.Passes[i]
			if s.Voice == nil || s.Piano == nil {
				continue
			}
			passes++
			if ceiling := min(69, s.Voice.Quarter-4); s.Piano.High > ceiling {
				over++
				t.Logf("%s, %s: the comp reaches %d, the ceiling is %d", name, s.Name, s.Piano.High, ceiling)
			}
		}
	}
	t.Logf("%d held notes: the comp rubs on %d, the pianist on %d; over the ceiling in %d of %d passes", held, ours, theirs, over, passes)
	if held < 1000 || theirs == 0 || 4*ours > theirs {
		t.Errorf("the comp rubs on %d held notes, the pianist on %d", ours, theirs)
	}
	if over > 0 {
		t.Errorf("the comp is over the ceiling in %d of %d passes", over, passes)
	}
}
