package audit_test

import (
	"fmt"
	"io/fs"
	"os"
	"sort"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/audit"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// The songs of the POP909 data set (MIT licence) that PLINTH_DATA holds, with a
// human pianist's accompaniment: their reviewed chords and sections become song
// files, and the comp is measured against the human on the same chords.

// popChart is the chart of one song.
func popChart(t testing.TB, s *realsongs.PopSong) *realChart {
	t.Helper()
	m, err := meter.Parse(s.Meter)
	if err != nil {
		t.Fatal(err)
	}
	c := &realChart{name: s.ID, tempo: int(s.Tempo + 0.5), bars: len(s.Bars)}
	begins := map[int]string{0: "start"}
	for _, l := range s.Sections.Labels {
		begins[l.Bar-1] = "part " + l.Label
	}
	key := s.Keys[0].Key
	for i, b := range s.Bars {
		if name, ok := begins[i]; ok {
			c.parts = append(c.parts, realPart{name: name, meter: s.Meter, key: key})
		}
		cells := make([]string, m.Num)
		for _, ch := range b.Chords {
			symbol, ok := ch.Symbol()
			if !ok {
				symbol = "N.C."
				c.lost = append(c.lost, "a chord that is only "+ch.Quality)
			}
			from := int(ch.Beat) - 1
			for k := 0; k < int(ch.Beats) && from+k < m.Num; k++ {
				cells[from+k] = "/"
			}
			cells[from] = symbol
		}
		for k := range cells {
			switch {
			case cells[k] != "":
			case k > 0 && (cells[k-1] == "N.C." || cells[k-1] == "/" && noChordBefore(cells[:k])):
				cells[k] = "/"
			default:
				cells[k] = "N.C."
			}
		}
		part := &c.parts[len(c.parts)-1]
		part.bars = append(part.bars, strings.Join(cells, " "))
	}
	return c
}

func noChordBefore(cells []string) bool {
	for k := len(cells) - 1; k >= 0; k-- {
		if cells[k] != "/" {
			return cells[k] == "N.C."
		}
	}
	return false
}

// attack is when and where a key is struck: microseconds and ticks of the song.
type attack struct {
	us, tick int64
	key      int
}

// motions is what happens at chord changes.
type motions struct {
	changes, still int     // changes, and those with the top moving two semitones or less
	top, each      float64 // semitones: the top's move, and the mean nearest move of a voice, summed
	attacks, beats int
}

func (m *motions) String() string {
	n := float64(m.changes)
	return fmt.Sprintf("%5d changes, voice %.2f, top %.2f semitones, top still %2.0f %%, attacks a beat %.2f",
		m.changes, m.each/n, m.top/n, 100*float64(m.still)/n, float64(m.attacks)/float64(m.beats))
}

// measure adds a player's notes over a song's chords, in order. A voicing is what is
// struck from C3 up in the first two beats of a chord, and for a pianist without a
// bassist what lies over the lowest note: as the data set's own statistics count.
func (m *motions) measure(tl *timeline.Timeline, notes []attack, alone bool) {
	const early = meter.TicksPerQuarter / 16
	var before []int
	for p := range tl.Passes {
		pass := &tl.Passes[p]
		m.beats += int(pass.Length / pass.Meter.PlayedBeat())
		for _, c := range pass.Chords {
			from := pass.Start + c.Start
			end := min(from+2*meter.TicksPerQuarter, pass.Start+c.End)
			var on [128]bool
			low := 128
			i := sort.Search(len(notes), func(i int) bool { return notes[i].tick >= from-early })
			for ; i < len(notes) && notes[i].tick < end-early; i++ {
				on[notes[i].key] = true
				low = min(low, notes[i].key)
			}
			var keys []int
			for k := 48; k < 128; k++ {
				if on[k] && (k > low || !alone) {
					keys = append(keys, k)
				}
			}
			if len(keys) > 0 && len(before) > 0 {
				m.add(before, keys)
			}
			before = keys
		}
	}
	last := int64(-1 << 60)
	for _, n := range notes {
		if n.us-last >= 90_000 {
			m.attacks++
			last = n.us
		}
	}
}

func (m *motions) add(before, keys []int) {
	m.changes++
	top := dist(keys[len(keys)-1], before[len(before)-1])
	if top <= 2 {
		m.still++
	}
	m.top += float64(top)
	sum := 0
	for _, k := range keys {
		near := 128
		for _, b := range before {
			near = min(near, dist(k, b))
		}
		sum += near
	}
	m.each += float64(sum) / float64(len(keys))
}

func dist(a, b int) int { return max(a-b, b-a) }

// human reads the pianist's notes, in the data set's own tempo.
func human(t testing.TB, s *realsongs.PopSong) []attack {
	t.Helper()
	data, err := fs.ReadFile(s.Files, "piano.mid")
	if err != nil {
		t.Fatal(err)
	}
	f, err := guide.Read(data)
	if err != nil {
		t.Fatalf("%s: %v", s.ID, err)
	}
	var out []attack
	for _, track := range f.Tracks {
		for _, n := range track.Notes {
			tick := n.Tick * meter.TicksPerQuarter / int64(f.Division)
			out = append(out, attack{int64(float64(tick) / meter.TicksPerQuarter * 60e6 / s.Tempo), tick, int(n.Key)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].tick < out[j].tick })
	return out
}

// One chord written again is no change: the song files keep apart what the data
// set keeps apart, and both players are measured on the changes alone.
func onlyChanges(tl *timeline.Timeline) *timeline.Timeline {
	out := *tl
	out.Passes = append([]timeline.Pass(nil), tl.Passes...)
	for i := range out.Passes {
		p := &out.Passes[i]
		var spans []timeline.Span
		for _, c := range p.Chords {
			if n := len(spans); n > 0 && spans[n-1].Chord == c.Chord {
				spans[n-1].End = c.End
				continue
			}
			spans = append(spans, c)
		}
		p.Chords = spans
	}
	return &out
}

// All thirty songs build and are played without a finding; at every energy the
// comp's voices and its top note move no more than the human's, and at energy 2 it
// attacks at least a third less often.
func TestPop909SongFiles(t *testing.T) {
	dataFiles(t, "pop909-dev/*/truth.json", 30)
	songs, err := realsongs.PopSongs(os.DirFS(os.Getenv("PLINTH_DATA")))
	if err != nil {
		t.Fatal(err)
	}
	set := library.Builtin()
	var person motions
	var comp [5]motions
	lost := map[string]int{}
	for n, song := range songs {
		c := popChart(t, song)
		for _, why := range c.lost {
			lost[why]++
		}
		c.feel = func(meter string) string {
			switch {
			case meter == "3/4":
				return "waltz"
			case meter != "4/4":
				return "sustain"
			case c.tempo < 90:
				return "ballad-eighths"
			}
			return "backbeat-eighths"
		}
		played := human(t, song)
		for energy := 1; energy <= 5; energy++ {
			tl, diags := songfiletest.Resolve(c.text(func(int) int { return energy }))
			if diags.HasErrors() || tl == nil || tl.SongBars() != len(song.Bars) {
				t.Fatalf("%s: %v", c.name, diags)
			}
			songfiletest.Again(tl, 1+n, 400)
			perf := groove.Perform(tl, set)
			if r := audit.Song(tl, perf, set); len(r.Findings) > 0 {
				t.Errorf("%s at energy %d:\n%s", c.name, energy, findingsOf(r, 3))
			}
			changes := onlyChanges(tl)
			if energy == 1 {
				person.measure(changes, played, true)
			}
			micros := tl.Tempos[0].Micros // one tempo: the song files have no other
			var notes []attack
			for _, x := range perf.Parts[timeline.Piano] {
				notes = append(notes, attack{x.Tick * micros / meter.TicksPerQuarter, x.Tick, int(x.Key)})
			}
			comp[energy-1].measure(changes, notes, false)
		}
	}
	t.Logf("human:    %s", person.String())
	for e := range comp {
		m := &comp[e]
		t.Logf("energy %d: %s", e+1, m.String())
		if m.each/float64(m.changes) > person.each/float64(person.changes) {
			t.Errorf("energy %d: a voice of the comp moves more than the human's", e+1)
		}
		if m.top/float64(m.changes) > person.top/float64(person.changes) {
			t.Errorf("energy %d: the comp's top moves more than the human's", e+1)
		}
	}
	t.Logf("written another way: %s", counted(lost))
	// 870 songs of the data set: a voice moves 1.87 semitones in the mean, and the
	// top moves two or less at 58 in 100 changes (computed). If these thirty were far
	// from it, the measure would be another one.
	if each, still := person.each/float64(person.changes), float64(person.still)/float64(person.changes); each < 1.4 ||
		each > 2.4 || still < 0.48 || still > 0.70 {
		t.Errorf("the human's voices move %.2f and the top is still in %.2f: not what the data set's statistics say",
			each, still)
	}
	if ours, theirs := &comp[1], &person; 3*ours.attacks*theirs.beats > 2*theirs.attacks*ours.beats {
		t.Errorf("at energy 2 the comp attacks %d times in %d beats, the human %d: not a third fewer", ours.attacks,
			ours.beats, theirs.attacks)
	}
}
