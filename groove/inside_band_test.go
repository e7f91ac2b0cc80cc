package groove_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/groove/songfiletest"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// bassLine gives bars of a pass a line of the bass.
func bassLine(tl *timeline.Timeline, from, to int, line string) func(p *timeline.Pass) {
	return groovetest.Inside(from, to, func(b *timeline.Bar) {
		b.Band = &timeline.Band{Drums: tl.Drums, Bass: timeline.BassSetup{Strings: 4, Line: line},
			Piano: timeline.PianoSetup{Span: 14}}
	})
}

// Where a bass in two strikes and where a walking one steps, in the second bar of a phrase, which
// is as the line has it. Two to the bar in 4/4, one in a waltz, the groups of fives and sevens:
// common practice, no single source.
func TestTheBassLineThatTheSongAsksFor(t *testing.T) {
	for _, row := range []struct {
		meter, feel string
		two, walk   []int // in eighths from the bar line
	}{
		{"4/4", "backbeat-eighths", []int{0, 4}, []int{0, 2, 4, 6}},
		{"4/4", "swing", []int{0, 4}, []int{0, 2, 4, 6}},
		{"4/4", "pulse", []int{0, 4}, []int{0, 2, 4, 6}},
		{"2/4", "march", []int{0, 2}, []int{0, 2}},
		{"3/4", "waltz", []int{0}, []int{0, 2, 4}},
		{"2/2", "show-two", []int{0, 4}, []int{0, 2, 4, 6}},
		{"5/4", "five", []int{0, 6}, []int{0, 2, 4, 6, 8}},
		{"6/8", "lilt", []int{0, 3}, []int{0, 3}},
		{"7/8", "seven", []int{0, 4}, []int{0, 2, 4}},
		{"12/8", "slow-twelve", []int{0, 6}, []int{0, 3, 6, 9}},
	} {
		m, err := meter.Parse(row.meter)
		if err != nil {
			t.Fatal(err)
		}
		for line, want := range map[string][]int{"two": row.two, "walk": row.walk} {
			for energy := 1; energy <= 3; energy++ {
				tl := groovetest.Song(t,
					groovetest.Section{Name: "a", Chords: "C|C|Am|Am|F|F|G|G", Feel: row.feel, Energy: energy,
						Meter: m},
					groovetest.Section{Name: "b", Chords: "C|C|C|C", Feel: row.feel, Energy: energy, Meter: m})
				tl.Bass.Line = line
				perf := groove.Perform(tl, library.Builtin())
				strokes := map[int][]int{} // by bar
				for _, n := range perf.Passes[0].Score.Parts[timeline.Bass].Notes {
					bar := int(n.At / m.BarTicks())
					strokes[bar] = append(strokes[bar], int(n.At%m.BarTicks())/(quarter/2))
				}
				as := 0
				for bar := range 7 {
					if slices.Equal(strokes[bar], want) {
						as++
					}
				}
				// The fourth bar may join, and in two one bar of a phrase holds its first note.
				if as < 5 {
					t.Errorf("%s in %s, %s, energy %d: %v, expected %v in five bars of seven", line, row.meter,
						row.feel, energy, strokes, want)
				}
			}
		}
	}
}

// In two the second note is the chord's fifth wherever it has one; walking, neighbours differ.
func TestTwoGoesToTheFifthAndAWalkGoesOn(t *testing.T) {
	for _, name := range []string{"backbeat-eighths", "swing", "ballad-eighths", "sustain", "bossa"} {
		tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|Am|F|G|Dm7|G|C|F", Feel: name, Energy: 3},
			groovetest.Section{Name: "b", Chords: "C", Feel: name, Energy: 3})
		tl.Bass.Line = "two"
		fifths := map[string]int{"C": 7, "Am": 4, "F": 0, "G": 2, "Dm7": 9}
		for _, n := range bassNotes(tl) {
			chord := tl.Passes[0].Chords[n.At/3840].Written
			if n.At%3840 == 1920 && int(n.Key)%12 != fifths[chord] {
				t.Errorf("%s in two: the second note of %s is %d", name, chord, n.Key)
			}
		}
		tl.Bass.Line = "walk"
		notes := bassNotes(tl)
		same := 0
		for i := 1; i < len(notes); i++ {
			if notes[i].Key == notes[i-1].Key {
				same++
			}
		}
		if same > 1 {
			t.Errorf("%s: %d of %d walking notes stand still", name, same, len(notes))
		}
	}
}

func bassNotes(tl *timeline.Timeline) []score.Note {
	return groove.Perform(tl, library.Builtin()).Passes[0].Score.Parts[timeline.Bass].Notes
}

// Only the bass plays a line of its own: drums stay as they are, and behind its bars the bassist
// strikes as before.
func TestALineIsPlayedInItsBarsAlone(t *testing.T) {
	for _, name := range []string{"backbeat-eighths", "bossa", "ballad-eighths"} {
		set := library.Builtin()
		plain := groove.Perform(insideSong(t, name, 3, nil), set)
		tl := insideSong(t, name, 3, nil)
		bassLine(tl, 5, 7, "walk")(&tl.Passes[0])
		walks := groove.Perform(tl, set)
		if bars := barsThatDiffer(plain, walks, timeline.Drums, true); bars != nil {
			t.Errorf("%s: the drums of bars %v are others", name, bars)
		}
		for _, bar := range barsThatDiffer(plain, walks, timeline.Bass, false) {
			if bar < 5 || bar > 7 {
				t.Errorf("%s: bar %d is another with a walk in bars 5-7", name, bar)
			}
		}
	}
}

// soundsText is what a player plays on, with the bars where it changes.
func soundsText(tl *timeline.Timeline, perf *groove.Performance, who timeline.Player) string {
	var out []string
	for _, s := range perf.Sounds[who] {
		word := s.Kit
		if who != timeline.Drums {
			word = fmt.Sprint(s.Program)
		}
		out = append(out, fmt.Sprintf("%s@%.2f", word, float64(s.Tick)/float64(tl.Passes[0].Bars[0].Length)+1))
	}
	return strings.Join(out, " ")
}

// Instruments change with their bars, at the bar line or with the first note where a push comes
// before it, and not while the player keeps out; no note rings through the change.
func TestInstrumentsChangeWithTheirBars(t *testing.T) {
	const eight = "| C | Am | F | G | C | Am | F | G |"
	brushes, acoustic := playerBlock("drums", `kit = "brushes"`), playerBlock("bass", `sound = "acoustic"`)
	electric := playerBlock("piano", `sound = "electric"`)
	for _, row := range []struct {
		about               string
		lines               []string
		drums, bass, comped string
	}{
		{"nothing", nil, "standard@1.00", "33@1.00", "0@1.00"},
		{"the section's own", []string{brushes, acoustic, electric}, "brushes@1.00 standard@9.00", "32@1.00 33@9.00",
			"4@1.00 0@9.00"},
		{"bars 3-4", []string{inBars("3-4", brushes, acoustic, electric)},
			"standard@1.00 brushes@3.00 standard@5.00", "33@1.00 32@3.00 33@5.00", "0@1.00 4@3.00 0@5.00"},
		{"with a push into them", []string{inBars("3-", brushes, acoustic, electric), at("push", "2: 4&")},
			"standard@1.00 brushes@2.88 standard@9.00", "33@1.00 32@2.88 33@9.00", "0@1.00 4@2.88 0@9.00"},
		{"with the bass out", []string{acoustic, tacet("bass")}, "standard@1.00", "33@1.00", "0@1.00"},
	} {
		tl := songfiletest.Song(t, sketch(row.about, backbeat, part("verse", 3, eight, row.lines...),
			part("end", 3, "| C | C |")))
		perf := groove.Perform(tl, library.Builtin())
		for who, want := range []string{row.drums, row.bass, row.comped} {
			who := timeline.Player(who)
			if got := soundsText(tl, perf, who); got != want {
				t.Errorf("%s, %s: %s\nwant %s", row.about, who, got, want)
			}
			for _, s := range perf.Sounds[who] {
				for _, n := range perf.Parts[who] {
					if n.Tick < s.Tick && n.Tick+n.Length > s.Tick {
						t.Errorf("%s, %s: a note at %d rings over the change at %d", row.about, who, n.Tick, s.Tick)
					}
				}
			}
		}
	}
}

// Between sticks and brushes the drummer's hands have a second, in whole beats and at most half of
// the bar, while the feet go on; a hit that the song asks for is struck all the same. A closing fill
// is left out. Common practice, no single source.
func TestTheHandsHaveTimeForBrushes(t *testing.T) {
	const eight = "| C | Am | F | G | C | Am | F | G |"
	brushes := playerBlock("drums", `kit = "brushes"`)
	for _, row := range []struct {
		about, top string
		lines      []string
		next       []string
		bar        int     // in which they change
		free, upTo float64 // the beats in which no hand strikes, from 0
	}{
		{"at 96, two beats", backbeat, []string{inBars("5-", brushes)}, []string{brushes}, 3, 2, 4},
		{"at 58, one beat", "looseness = 0\nfeel = \"ballad-eighths\"\ntempo = 58\n", []string{inBars("5-", brushes)},
			[]string{brushes}, 3, 3, 4},
		{"back to sticks", backbeat, []string{inBars("5-6", brushes)}, nil, 5, 2, 4},
		{"a push over the bar line", backbeat, []string{inBars("5-", brushes), at("push", "4: 4&")}, []string{brushes},
			3, 2, 3.5},
		{"at the border, where no fill closes", backbeat, nil, []string{brushes}, 7, 2, 4},
	} {
		tl := songfiletest.Song(t, sketch(row.about, row.top, part("verse", 3, eight, row.lines...),
			part("end", 3, "| C | C |", row.next...)))
		perf := groove.Perform(tl, library.Builtin())
		hands, feet, hits := 0, 0, 0
		for _, n := range perf.Passes[0].Score.Parts[timeline.Drums].Notes {
			at := float64(n.At-int64(row.bar)*4*quarter) / quarter
			switch {
			case at < row.free || at >= 4:
			case at >= row.upTo:
				hits++
			case n.Voice.Limb() == feel.Hand:
				hands++
			default:
				feet++
			}
		}
		if hands > 0 || feet == 0 && row.free < 3 || row.upTo < 4 && hits == 0 {
			t.Errorf("%s: %d strokes of the hands, %d of the feet, %d of the push", row.about, hands, feet, hits)
		}
	}
}
