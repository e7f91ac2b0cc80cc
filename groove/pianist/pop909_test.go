package pianist

import (
	"io/fs"
	"os"
	"sort"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/groove/voicing"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// popSong is a song of the POP909 data set, to be played and measured.
type popSong struct{ *realsongs.PopSong }

// popSongs reads the data set's songs, in order.
func popSongs(t testing.TB) []popSong {
	t.Helper()
	root := os.Getenv("PLINTH_DATA")
	if root == "" {
		t.Skip("PLINTH_DATA is not set: no data to measure on")
	}
	songs, err := realsongs.PopSongs(os.DirFS(root))
	if err != nil {
		t.Fatal(err)
	}
	var out []popSong
	for _, s := range songs {
		out = append(out, popSong{s})
	}
	return out
}

// pass lays the song out as one pass.
func (s popSong) pass(t testing.TB, energy int) *timeline.Pass {
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
			chord := none
			if symbol, ok := c.Symbol(); ok {
				chord = groovetest.Chord(t, symbol)
			}
			add(min(p.Length, from+int64(c.Beats*float64(m.UnitTicks()))), chord)
		}
		add(p.Length, none)
	}
	return p
}

// midiNotes reads all notes of one of the song's MIDI files, in ticks of 960 a
// quarter.
func (s popSong) midiNotes(t testing.TB, file string) []timeline.SungNote {
	t.Helper()
	data, err := fs.ReadFile(s.Files, file)
	if err != nil {
		t.Fatal(err)
	}
	f, err := guide.Read(data)
	if err != nil {
		t.Fatalf("%s/%s: %v", s.ID, file, err)
	}
	var out []timeline.SungNote
	for _, track := range f.Tracks {
		for _, n := range track.Notes {
			out = append(out, timeline.SungNote{Tick: n.Tick * quarter / int64(f.Division),
				Length: n.Length * quarter / int64(f.Division), Key: n.Key})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Tick < out[j].Tick })
	return out
}

// humanVoicing is what the human pianist holds over the bass in the first two
// beats of a chord: the notes from C3 up without the lowest, at most maxVoices from
// above, as pop909_voicing_stats.json counts them.
func humanVoicing(notes []timeline.SungNote, start, end int64) voicing.Voicing {
	const early = quarter / 16
	end = min(end, start+2*quarter)
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= start-early })
	var on [128]bool
	lowest := 128
	for ; i < len(notes) && notes[i].Tick < end-early; i++ {
		on[notes[i].Key] = true
		lowest = min(lowest, int(notes[i].Key))
	}
	var keys []int
	for k := 48; k < 128; k++ {
		if on[k] && k > lowest {
			keys = append(keys, k)
		}
	}
	v, _ := voicing.Voiced(keys[max(0, len(keys)-voicing.MaxVoices):])
	return v
}

// On the same songs the comp moves less than the human pianist, its top voice
// more by step, and at energy 2 it strikes a third less often.
func TestPop909(t *testing.T) {
	set := library.Builtin()
	var human moved
	var ours [5]moved
	var humanAttacks, ourAttacks, beats int64
	for _, s := range popSongs(t) {
		piano := s.midiNotes(t, "piano.mid")
		pass := s.pass(t, 2)
		for i, c := range pass.Chords {
			if i == 0 || c.Chord == pass.Chords[i-1].Chord || c.Chord.None || pass.Chords[i-1].Chord.None {
				continue
			}
			b := pass.Chords[i-1]
			x, y := humanVoicing(piano, b.Start, b.End), humanVoicing(piano, c.Start, c.End)
			if x.N > 0 && y.N > 0 {
				human.add(x, y, b.Chord.Bass.PC(), c.Chord.Bass.PC())
			}
		}
		for e := 1; e <= 5; e++ {
			p := s.pass(t, e)
			ours[e-1].measure(groovetest.PlanOf(p, groovetest.CompFeel("c===============")))
		}
		pass.Feel = "ballad-eighths"
		if pass.Meter.Num == 3 {
			pass.Feel = "waltz"
		}
		tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
		ourAttacks += int64(len(struck(comp(plan.New(tl, pass, set)))))
		beats += pass.Length / quarter
		last := int64(-quarter)
		for _, n := range piano {
			if n.Tick-last >= quarter/16 {
				humanAttacks++
				last = n.Tick
			}
		}
	}
	t.Logf("human: %s; %d attacks per thousand quarters", human.String(), 1000*humanAttacks/beats)
	t.Logf("comp at energy 2: %d attacks per thousand quarters", 1000*ourAttacks/beats)
	for e := range ours {
		m := &ours[e]
		t.Logf("energy %d: %s", e+1, m.String())
		if m.nearest*human.voices > human.nearest*m.voices {
			t.Errorf("energy %d: the comp moves more than the human pianist", e+1)
		}
		if m.topSteps*100 < m.changes*85 {
			t.Errorf("energy %d: the top voice goes by step at %d of %d changes", e+1, m.topSteps, m.changes)
		}
	}
	if 3*ourAttacks > 2*humanAttacks {
		t.Errorf("%d attacks at energy 2, the human %d: not a third fewer", ourAttacks, humanAttacks)
	}
}
