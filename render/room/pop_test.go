package room

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/library"
	"plinth/songspec/guide"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// popText writes a song of pop909-dev as a song file: reviewed chords, the
// human section labels, one energy.
func popText(song *realsongs.PopSong, energy int) string {
	feel := map[string]string{"4/4": "ballad-eighths", "3/4": "waltz", "3/8": "sustain"}[song.Meter]
	beats := int(song.Meter[0] - '0')
	starts := map[int]string{1: "front"}
	for i, s := range song.Sections.Labels {
		starts[s.Bar] = fmt.Sprintf("%s %d", s.Label, i+1)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "meter = %q\ntempo = %d\nfeel = %q\nenergy = %d\nlooseness = 0\n", song.Meter,
		int(song.Tempo+0.5), feel, energy)
	b.WriteString("vocal \"guide.mid\" {\n  track = \"Vocal\"\n}\n")
	open, now := false, "N.C."
	for i, bar := range song.Bars {
		if name, ok := starts[i+1]; ok {
			if open {
				b.WriteString("|\nEOT\n}\n")
			}
			fmt.Fprintf(&b, "section %q {\n  chords = <<-EOT\n", name)
			open = true
		}
		at := map[int]string{}
		for _, c := range bar.Chords {
			symbol, ok := c.Symbol()
			if !ok {
				symbol = "N.C."
			}
			at[int(c.Beat+0.5)-1] = symbol
		}
		b.WriteString("| ")
		for beat := 0; beat < beats; beat++ {
			symbol, ok := at[beat]
			if ok {
				now = symbol
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

// semitoneClashes counts the sung notes of a beat or more, and those of them that have a
// note a semitone away, in any octave, for a thirty-second or more.
func semitoneClashes(tl *timeline.Timeline, comp []groove.Note) (held, rubbed int) {
	for _, s := range tl.Vocals[0].Notes {
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

// popSong is one song of the data set, played with its vocal in front of it.
type popSong struct {
	name   string
	report *Report
	deaf   []groove.Note // the comp of a band that was given no vocal
	human  []groove.Note // the accompaniment of the recording, on the same ticks
}

func popSongs(t testing.TB) []popSong {
	t.Helper()
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	songs, err := realsongs.PopSongs(os.DirFS(data))
	if err != nil || len(songs) != 30 {
		t.Fatalf("%d songs, %v", len(songs), err)
	}
	var out []popSong
	for _, of := range songs {
		song := popSong{name: of.ID}
		src, err := fs.ReadFile(of.Files, "guide.mid")
		if err != nil {
			t.Fatal(err)
		}
		file, err := guide.Read(src)
		if err != nil {
			t.Fatal(err)
		}
		tl := resolve(t, song.name, []byte(popText(of, 3)))
		song.deaf = groove.Perform(tl, library.Builtin()).Parts[timeline.Piano]
		for _, p := range guide.Place(tl, 0, file) {
			if p.Error {
				t.Fatalf("%s: %s", song.name, p.Detail)
			}
		}
		piano, err := file.Vocal("Piano")
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range piano.Track.Notes { // 480 a quarter, from bar 1
			song.human = append(song.human, groove.Note{Tick: x.Tick * 960 / int64(file.Division),
				Length: x.Length * 960 / int64(file.Division), Key: x.Key})
		}
		song.report = Analyze(tl, groove.Perform(tl, library.Builtin()))
		out = append(out, song)
	}
	return out
}

// On 30 real vocals (POP909, MIT) the comp rubs against held sung notes at most
// a quarter as often as the pianist of the recording did over the same vocal.
func TestCompRubsLess(t *testing.T) {
	held, ours, theirs, deaf := 0, 0, 0, 0
	for _, s := range popSongs(t) {
		_, d := semitoneClashes(s.report.tl, s.deaf)
		deaf += d
		h, a := semitoneClashes(s.report.tl, s.report.perf.Parts[timeline.Piano])
		_, b := semitoneClashes(s.report.tl, s.human)
		held, ours, theirs = held+h, ours+a, theirs+b
		if a+b > 0 {
			t.Logf("%s: of %d held notes the comp rubs on %d, the pianist on %d", s.name, h, a, b)
		}
	}
	t.Logf("of %d held notes the comp rubs on %d, on %d when it does not hear the voice; the pianist on %d", held, ours,
		deaf, theirs)
	if deaf <= ours {
		t.Errorf("listening changes nothing: the comp rubs on %d held notes, deaf on %d", ours, deaf)
	}
	if held < 1000 || theirs == 0 || 4*ours > theirs {
		t.Errorf("of %d held notes the comp rubs on %d, the pianist on %d", held, ours, theirs)
	}
}

// sungTicks is how long somebody sings in a pass.
func sungTicks(p *timeline.Pass) int64 {
	var sung int64
	for _, s := range p.Sung {
		if s.Tick >= 0 && s.Tick < p.Length {
			sung += s.Length
		}
	}
	return sung
}

// On the same songs the comp stays under its ceiling in every pass in which somebody sings a
// quarter of the time or more: A4, or a
// third (four semitones) under the lower quartile of what is sung in the pass,
// but not under C4, which leaves it an octave over C3. The octave in which these
// vocals are notated is not the singers' own, so some lie lower than they sounded.
func TestCompUnderCeiling(t *testing.T) {
	passes, over, low := 0, 0, 0
	for _, song := range popSongs(t) {
		for i := range song.report.Passes {
			s := &song.report.Passes[i]
			if s.Voice == nil || s.piano() == nil {
				continue
			}
			if sung := sungTicks(&song.report.tl.Passes[i]); 4*sung < song.report.tl.Passes[i].Length {
				continue // a call or a pickup is no register
			}
			passes++
			third := s.Voice.Quarter - 4
			if third < 60 {
				low++
			}
			ceiling := min(69, max(third, 60))
			if s.piano().High <= ceiling {
				continue
			}
			over++
			t.Logf("%s, %s: the comp reaches %d, the ceiling is %d", song.name, s.Name, s.piano().High, ceiling)
		}
	}
	t.Logf("over the ceiling in %d of %d passes; in %d it stands at C4 because the voice is low", over, passes, low)
	if over > 0 {
		t.Errorf("the comp is over the ceiling in %d of %d passes", over, passes)
	}
}
