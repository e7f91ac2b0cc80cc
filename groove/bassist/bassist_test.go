package bassist

import (
	"fmt"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// Unless a row says otherwise these rules are those of the design of the band.

func TestChordsBassAtEveryChange(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: groovetest.WildChords, Energy: energy},
			groovetest.Section{Name: "b", Chords: "C", Energy: energy})
		notes := bassOf(tl, 0, groovetest.Set(nil))
		var before harmony.Chord
		for _, c := range tl.Passes[0].Chords {
			at := within(notes, c.Start, c.Start+1)
			switch {
			case c.Chord.None:
				for _, n := range notes {
					if n.At < c.End && n.End() > c.Start {
						t.Errorf("energy %d: the bass sounds under N.C.", energy)
					}
				}
			case c.Chord != before && len(at) != 1:
				t.Errorf("energy %d: no bass at %s", energy, c.Written)
			case c.Chord != before && int(at[0].Key)%12 != c.Chord.Bass.PC():
				t.Errorf("energy %d: %s has key %d in the bass", energy, c.Written, at[0].Key)
			}
			before = c.Chord
		}
	}
}

// No line with the same pitch classes moves less: checked against every choice of
// octaves, on four chords at a time.
func TestContourMovesLeast(t *testing.T) {
	set := withBass("1===============")
	for _, chords := range []string{"C|F|G|C", "C|Am|F|G", "Eb|Bb/D|Cm7|Ab", "E|A|B7|E", "Gb|Db/F|Ebm|B"} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: chords, Energy: 2},
			groovetest.Section{Name: "b", Chords: "C", Energy: 2})
		var notes []score.Note // those of the chords
		for _, n := range bassOf(tl, 0, set) {
			if n.At%groovetest.Bar44 == 0 {
				notes = append(notes, n)
			}
		}
		if len(notes) != 4 {
			t.Fatalf("%s: %d notes", chords, len(notes))
		}
		got := 0
		for i := 1; i < 4; i++ {
			got += abs(int(notes[i].Key) - int(notes[i-1].Key))
		}
		least := 1 << 20
		var try func(i, last, sum int)
		try = func(i, last, sum int) {
			if i == 4 {
				least = min(least, sum)
				return
			}
			for key := 28; key <= 55; key++ {
				if key%12 != int(notes[i].Key)%12 {
					continue
				}
				step := 0
				if i > 0 {
					step = abs(key - last)
				}
				try(i+1, key, sum+step)
			}
		}
		try(0, 0, 0)
		// The low register may cost a few semitones; an octave's leap it may not.
		if got > least+4 {
			t.Errorf("%s: the line moves %d semitones, %d would do", chords, got, least)
		}
		for _, n := range notes {
			if n.Key > 48 {
				t.Errorf("%s: key %d is out of the low register", chords, n.Key)
			}
		}
	}
}

func TestDegrees(t *testing.T) {
	for _, row := range []struct {
		name, tab, chord string
		want             []int // pitch classes
	}{
		{"root and fifth", "1=======5=======", "C", []int{0, 7}},
		{"a diminished fifth", "1=======5=======", "Cdim", []int{0, 6}},
		{"an augmented fifth", "1=======5=======", "C+", []int{0, 8}},
		{"a minor third", "1=======3=======", "Cm7", []int{0, 3}},
		{"the fourth stands for the third", "1=======3=======", "Csus4", []int{0, 5}},
		{"a seventh", "1=======7=======", "C7", []int{0, 10}},
		{"the sixth stands for the seventh", "1=======7=======", "C6", []int{0, 9}},
		{"no seventh: the bass", "1=======7=======", "C", []int{0, 0}},
		{"a slash bass stays", "1=======5=======", "C/E", []int{4, 4}},
		{"a pedal stays", "1=======3=======", "Bb/C", []int{0, 0}},
	} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: row.chord, Energy: 2},
			groovetest.Section{Name: "b", Chords: "C", Energy: 2})
		notes := bassOf(tl, 0, withBass(row.tab))
		if len(notes) != len(row.want) {
			t.Errorf("%s: %d notes", row.name, len(notes))
			continue
		}
		for i, n := range notes {
			if int(n.Key)%12 != row.want[i] {
				t.Errorf("%s: note %d is key %d, want class %d", row.name, i, n.Key, row.want[i])
			}
		}
	}
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C", Energy: 2},
		groovetest.Section{Name: "b", Chords: "C", Energy: 2})
	if n := bassOf(tl, 0, withBass("1=======8=======")); n[1].Key != n[0].Key+12 {
		t.Errorf("the octave is %d over %d", n[1].Key, n[0].Key)
	}
}

func TestApproaches(t *testing.T) {
	for _, row := range []struct {
		name, chords string
		energy       int
		beat         int64 // of the first bar, from 0
		leads        bool
	}{
		{"by step into the next chord", "C|F", 3, 3, true},
		{"not before energy 3", "C|F", 2, 3, false},
		{"not before the last beat", "C|F", 3, 2, false},
		{"not over a slash bass", "C/E|F", 4, 3, false},
		{"not over a pedal", "C|F/C", 4, 3, false},
		{"not when the chord stays", "C|C", 4, 3, false},
		{"into the next section", "C", 3, 3, true},
	} {
		tab := []byte("1=======--------")
		tab[4*row.beat] = 'a'
		for take := 1; take <= 10; take++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: row.chords, Energy: row.energy},
				groovetest.Section{Name: "b", Chords: "F", Energy: row.energy})
			tl.Take = take
			notes := within(bassOf(tl, 0, withBass(string(tab))), row.beat*quarter, 4*quarter)
			if len(notes) != 1 {
				t.Errorf("%s: %d notes there", row.name, len(notes))
				continue
			}
			key := int(notes[0].Key)
			d := (key - 5 + 12) % 12 // from F
			led := d == 1 || d == 2 || d == 10 || d == 11
			stays := key%12 == tl.Passes[0].Chords[0].Chord.Bass.PC()
			if led != row.leads && !(stays && !row.leads) || !row.leads && !stays {
				t.Errorf("%s: take %d plays key %d", row.name, take, key)
			}
		}
	}
}

// An approach and its aim lie next to each other, not an octave and a step apart.
func TestApproachIsAStep(t *testing.T) {
	set := withBass("1=======5=====a=")
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|Bb7|Eb|Am|D7|G|C|E|B7", Energy: 4},
		groovetest.Section{Name: "b", Chords: "C", Energy: 4})
	notes := bassAlone(tl, 0, set)
	led := 0
	for i, n := range notes[1:] {
		if before := notes[i]; n.At%groovetest.Bar44 == 0 && before.At >= n.At-quarter {
			led++
			if d := abs(int(before.Key) - int(n.Key)); d < 1 || d > 2 {
				t.Errorf("bar %d: %d semitones from the approach to its aim", n.At/groovetest.Bar44, d)
			}
		}
	}
	if led != 9 {
		t.Errorf("%d approaches", led)
	}
}

func TestRepeatedNoteIsReleased(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C", Energy: 2},
		groovetest.Section{Name: "b", Chords: "C", Energy: 2})
	notes := bassOf(tl, 0, withBass("1===1===5===5==="))
	for i := 1; i < len(notes); i++ {
		gap := notes[i].At - notes[i-1].End()
		if again := notes[i].Key == notes[i-1].Key; again != (gap > 0) {
			t.Errorf("note %d: a gap of %d ticks, the same note again: %t", i, gap, again)
		}
	}
}

func TestBassLocksToTheKick(t *testing.T) {
	for _, tab := range []string{"1-------1-------", "1---------------", "1-----1-1--5--a-"} {
		for energy := 1; energy <= 5; energy++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F G|Am|F|C|Dm G|C|G", Energy: energy},
				groovetest.Section{Name: "b", Chords: "C", Energy: 2})
			part := play(tl, 0, withBass(tab))
			met, all := 0, 0
			for _, k := range kickTicks(part[timeline.Drums].Notes) {
				all++
				for _, n := range part[timeline.Bass].Notes {
					if n.At <= k && k < n.End() {
						met++
						break
					}
				}
			}
			if all == 0 || met*100 < 80*all {
				t.Errorf("%s, energy %d: %d of %d kicks meet the bass", tab, energy, met, all)
			}
		}
	}
}

func TestBassPushIsTiedOver(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G", Energy: 3, Change: func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Push, 0, 3*quarter+quarter/2, nil)
	}}, groovetest.Section{Name: "b", Chords: "C", Energy: 3})
	notes := bassOf(tl, 0, withBass("1===1===1===1-1-"))
	e := tl.Passes[0].Events[0]
	hit := within(notes, e.Tick, e.Tick+1)
	if len(hit) != 1 || int(hit[0].Key)%12 != 5 || hit[0].End() < e.Target+quarter-releaseTicks {
		t.Errorf("the pushed F is %v, wanted until the next note of the row", hit)
	}
	if n := within(notes, e.Tick+1, e.Target+1); len(n) > 0 {
		t.Errorf("%v is struck again under the push", n)
	}
}

func TestPushedChanges(t *testing.T) {
	push := func(bar int, at int64) func(p *timeline.Pass) {
		return func(p *timeline.Pass) { groovetest.Event(p, timeline.Push, bar, at, nil) }
	}
	for _, row := range []struct {
		name, chords string
		change       func(p *timeline.Pass)
		want         string
	}{
		{"the next bar's chord", "C|F", push(0, 3360), "C 0-3360, F 3360-7680*"},
		{"no change at the target", "C|F", push(0, 1440), "C 0-1440, C 1440-3840*, F 3840-7680"},
		{"out of the pass", "C|F", push(1, 3360), "C 0-3840, F 3840-7200"},
		{"a chord inside the push is swallowed", "C F G Am|F", func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Push, 0, 480, func(e *timeline.Event) { e.Target = 1920 })
		}, "C 0-480, G 480-2880*, Am 2880-3840, F 3840-7680"},
		{"a chord that begins at the push and goes on", "C F|G", func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Push, 0, 1920, func(e *timeline.Event) { e.Target = 2880 })
		}, "C 0-1920, F 1920-3840*, G 3840-7680"},
	} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: row.chords, Energy: 3, Change: row.change},
			groovetest.Section{Name: "b", Chords: "C", Energy: 3})
		got := ""
		for i, c := range plan.New(tl, &tl.Passes[0], groovetest.Set(nil)).Cues.Changes(timeline.Bass) {
			if i > 0 {
				got += ", "
			}
			got += fmt.Sprintf("%s %d-%d", c.Chord, c.Start, c.End)
			if c.Pushed() {
				got += "*"
			}
		}
		if got != row.want {
			t.Errorf("%s:\n got %s\nwant %s", row.name, got, row.want)
		}
	}
}
