package pianist

import (
	"math/rand"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// The singer's lower quartile is read off the notes; a third under it is the
// ceiling, between C4 and what the song file allows.
func TestCeiling(t *testing.T) {
	line := func(keys ...int64) *timeline.Pass {
		p := groovetest.PassOf(t, "C", 2)
		var notes [][3]int64
		for i, k := range keys {
			notes = append(notes, [3]int64{int64(i) * eighth, eighth, k})
		}
		return groovetest.Sing(p, notes...)
	}
	tests := []struct {
		name    string
		pass    *timeline.Pass
		highest int
		want    int
		why     string
	}{
		{"no vocal", groovetest.PassOf(t, "C", 2), 0, 69, "A4"},
		{"song file", groovetest.PassOf(t, "C", 2), 72, 72, "what it says"},
		{"silent singer", groovetest.Sing(groovetest.PassOf(t, "C", 2)), 0, 69, "nobody to stay under"},
		{"quartile", line(76, 67, 69, 71, 72, 74, 79, 77), 0, 65, "the second of eight is A4 = 69"},
		{"high singer", line(79, 81, 83), 0, 69, "A4 is lower"},
		{"both", line(72, 72), 64, 64, "the lower of the two"},
		{"a pickup in an interlude", groovetest.Sing(groovetest.PassOf(t, "C|C", 2),
			[3]int64{2*bar44 - eighth, eighth, 62}), 0, 69, "one note is no register"},
		{"low singer", line(57, 59, 60), 0, 60, "never under C4: no octave would be left"},
		{"very low setting", groovetest.PassOf(t, "C", 2), 40, 60, "as a song file may ask: C4 at the lowest"},
		{"notes of the bar before",
			groovetest.Sing(groovetest.PassOf(t, "C", 2), [3]int64{-quarter, quarter, 60}, [3]int64{0, quarter, 70}),
			0, 66, "only what begins in the pass counts"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Ceiling(timeline.PianoSetup{Highest: tt.highest}, tt.pass); got != tt.want {
				t.Errorf("%s, want %s: %s", groovetest.KeyName(got), groovetest.KeyName(tt.want), tt.why)
			}
		})
	}
}

// Hand-worked: what a musician would leave out under a held note.
func TestHeldNotesAreLeftAlone(t *testing.T) {
	tests := []struct {
		name  string
		chart string
		sung  [3]int64
		never int // pitch class
		why   string
	}{
		{"C over Cmaj7", "Cmaj7", [3]int64{0, bar44, 72}, 11, "B under C5 is a minor ninth"},
		{"F over C", "C", [3]int64{0, bar44, 77}, 4, "E under F5 likewise: the third goes while the fourth is sung"},
		{"C over G7", "G7", [3]int64{0, bar44, 72}, 11, "the suspended fourth over the third"},
		{"B over C", "C", [3]int64{0, bar44, 83}, 0, "C under B5 is a major seventh: the bass has the root"},
		{"D over Cm7", "Cm7", [3]int64{0, bar44, 74}, 3, "Eb under D5 likewise: the seventh says enough"},
		{"a beat late in the bar", "Cmaj7", [3]int64{3 * quarter, quarter, 72}, -1, "only while it sounds"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for energy := 1; energy <= 5; energy++ {
				pass := groovetest.Sing(groovetest.PassOf(t, tt.chart, energy), tt.sung)
				notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("c=======c=======")))
				if len(notes) == 0 {
					t.Fatal("nothing is played")
				}
				checkRubs(t, pass, notes)
				for _, n := range notes {
					if int(n.Key)%12 == tt.never {
						t.Errorf("energy %d: %s: %s", energy, groovetest.KeyName(int(n.Key)), tt.why)
					}
				}
			}
		})
	}
	pass := groovetest.Sing(groovetest.PassOf(t, "Cmaj7", 3), [3]int64{3 * quarter, quarter, 72})
	notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("c===============")))
	early := false
	for _, n := range notes {
		early = early || n.Key%12 == 11
	}
	if !early {
		t.Error("the seventh is left out of a bar of which the singer holds the root for one beat")
	}
}

// checkRubs: no comp note a semitone, in any octave, from a note held a beat or longer, while
// it sounds, but for the third of a bare minor chord; none in unison with the tune as it is
// struck.
func checkRubs(t *testing.T, p *timeline.Pass, notes []score.Note) {
	t.Helper()
	changes := cue.Of(p).Changes(timeline.Piano)
	for _, n := range notes {
		for _, s := range p.Sung {
			if s.Tick <= n.At && s.Tick+s.Length > n.At && s.Key == n.Key {
				t.Errorf("%s at %d in unison with the tune", groovetest.KeyName(int(n.Key)), n.At)
			}
			if s.Length < quarter || n.At >= s.Tick+s.Length || n.End() <= s.Tick {
				continue
			}
			third := bareThird(changes[cue.IndexAt(changes, n.At)].Chord)
			switch d := int(s.Key) - int(n.Key); {
			case d > 0 && d%12 == 11 && int(n.Key)%12 == third: // may stay
			case abs(d)%12 == 1 || abs(d)%12 == 11:
				t.Errorf("%s at %d clashes with %s sung from %d",
					groovetest.KeyName(int(n.Key)), n.At, groovetest.KeyName(int(s.Key)), s.Tick)
			}
		}
	}
}

// The same over random charts and lines, with all else that must hold.
func TestListeningIsPlayable(t *testing.T) {
	for seed := int64(0); seed < 200; seed++ {
		r := rand.New(rand.NewSource(seed))
		pass := randomPass(t, r, 8)
		randomEvents(pass, r)
		randomLine(pass, r)
		row := []string{"c===============", "1-2-3-2-1-2-3-2-", "c--c--c---c-c---"}[r.Intn(3)]
		p := groovetest.PlanOf(pass, groovetest.CompFeel(row))
		notes := comp(p)
		checkNotes(t, "under a line", p, notes)
		checkRubs(t, pass, notes)
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func randomLine(p *timeline.Pass, r *rand.Rand) {
	p.Sung = []timeline.SungNote{}
	low := 55 + r.Intn(15)
	for at := int64(0); at < p.Length; {
		length := eighth * int64(1+r.Intn(5))
		if r.Intn(4) > 0 {
			p.Sung = append(p.Sung, timeline.SungNote{Tick: at, Length: length, Key: uint8(low + r.Intn(14))})
		}
		at += length
	}
}

// The comp's top voice keeps off the tune: with the same pitch class as the sung
// note at fewer than one chord change in twenty, where it has the choice.
func TestTopVoiceKeepsOffTheTune(t *testing.T) {
	doubled, all := 0, 0
	for _, chart := range progressions {
		for shift := int64(0); shift < 3; shift++ {
			pass := groovetest.PassOf(t, chart, 3)
			var line [][3]int64
			for _, c := range pass.Chords { // sing the root, the second or the third tone of each chord
				tone := c.Chord.Tone(int(shift) % c.Chord.ToneCount())
				pc := int64((c.Chord.Root.PC() + int(tone.Semitones)) % 12)
				line = append(line, [3]int64{c.Start, eighth, 72 + pc})
			}
			groovetest.Sing(pass, line...)
			p := groovetest.PlanOf(pass, groovetest.CompFeel("c==============="))
			for i, v := range chordsOf(p) {
				all++
				if v.Top()%12 == int(line[i][2])%12 {
					doubled++
				}
			}
		}
	}
	if doubled*20 > all {
		t.Errorf("the top voice doubles the tune at %d of %d chords", doubled, all)
	}
}

// Under busy singing the comp strikes less.
func TestBusySinging(t *testing.T) {
	quiet := groovetest.Sing(groovetest.PassOf(t, "C|C", 5), [3]int64{0, quarter, 76})
	busy := groovetest.PassOf(t, "C|C", 5)
	var line [][3]int64
	for i := int64(0); i < 16; i++ {
		line = append(line, [3]int64{i * eighth, eighth, 76 - i%3})
	}
	groovetest.Sing(busy, line...)
	f := groovetest.CompFeel("c-c-c-c-c-c-c-c-")
	a, b := struck(comp(groovetest.PlanOf(quiet, f))), struck(comp(groovetest.PlanOf(busy, f)))
	if len(b) >= len(a) {
		t.Errorf("%d attacks under busy singing, %d without", len(b), len(a))
	}
}

// In windows of two beats and more, from energy 3, one in four bars at
// most, never in the last beat before the next phrase.
func TestPianoAnswersTheSinger(t *testing.T) {
	phrase := func(bars ...int64) [][3]int64 {
		var out [][3]int64
		for _, b := range bars { // sung on 1 and 2, then silent
			out = append(out, [3]int64{b * bar44, quarter, 76}, [3]int64{b*bar44 + quarter, quarter - 10, 74})
		}
		return out
	}
	f := groovetest.CompFeel("c===============")
	answers := func(p *timeline.Pass) []int64 {
		var out []int64
		for _, at := range struck(comp(groovetest.PlanOf(p, f))) {
			if at%bar44 != 0 {
				out = append(out, at)
			}
		}
		return out
	}
	t.Run("not below 3", func(t *testing.T) {
		if got := answers(groovetest.Sing(groovetest.PassOf(t, "C|C|C|C", 2), phrase(0, 2)...)); len(got) > 0 {
			t.Errorf("answers at %v", inBars(got))
		}
	})
	t.Run("in the rest", func(t *testing.T) {
		got := answers(groovetest.Sing(groovetest.PassOf(t, "C|C|C|C", 3), phrase(0, 2)...))
		if len(got) < 2 {
			t.Fatalf("strikes at %v, want an answer", inBars(got))
		}
		if got[0] < 2*quarter || got[len(got)-1] >= 2*bar44-quarter {
			t.Errorf("answers at %v: after the phrase and not in the last beat before the next", inBars(got))
		}
	})
	t.Run("one in four bars", func(t *testing.T) {
		got := answers(groovetest.Sing(groovetest.PassOf(t, "C|C|C|C|C|C|C|C", 3), phrase(0, 2, 4, 6)...))
		bars := map[int64]bool{}
		for _, at := range got {
			bars[at/bar44] = true
		}
		if len(bars) != 2 || !bars[0] || !bars[4] {
			t.Errorf("strikes at %v, want answers in bars 1 and 5", inBars(got))
		}
	})
	t.Run("no room", func(t *testing.T) {
		p := groovetest.Sing(groovetest.PassOf(t, "C|C", 3), [3]int64{0, 2 * quarter, 76},
			[3]int64{3 * quarter, bar44, 74})
		if got := answers(p); len(got) > 0 {
			t.Errorf("answers at %v in a window of one beat", inBars(got))
		}
	})
	t.Run("two beats", func(t *testing.T) {
		p := groovetest.Sing(groovetest.PassOf(t, "C|C", 3), [3]int64{0, 2 * quarter, 76}, [3]int64{bar44, bar44, 74})
		got := answers(p)
		if len(got) != 2 || got[0] != 2*quarter || got[1] != 2*quarter+eighth {
			t.Errorf("strikes at %v, want two notes on beat 3: the phrase begins on the next 1", inBars(got))
		}
	})
	t.Run("a written space", func(t *testing.T) {
		p := groovetest.PassOf(t, "C|C", 3)
		groovetest.AddEvent(p, timeline.Space, 0, quarter, bar44)
		if got := answers(p); len(got) < 2 {
			t.Errorf("strikes at %v, want an answer in the space", inBars(got))
		}
	})
	t.Run("nobody sings", func(t *testing.T) {
		if got := answers(groovetest.Sing(groovetest.PassOf(t, "C|C|C|C", 4))); len(got) > 0 {
			t.Errorf("answers at %v with nobody to answer", inBars(got))
		}
	})
	t.Run("not over a stop", func(t *testing.T) {
		p := groovetest.Sing(groovetest.PassOf(t, "C", 3), phrase(0)...)
		groovetest.AddEvent(p, timeline.Stop, 0, 2*quarter, bar44)
		if got := answers(p); len(got) > 0 {
			t.Errorf("answers at %v in a stop", inBars(got))
		}
	})
}
