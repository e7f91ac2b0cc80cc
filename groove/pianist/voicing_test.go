package pianist

import (
	"math/rand"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/voicing"
	"plinth/songspec/harmony"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// ii-V-I, common practice, no single source: thirds become sevenths and sevenths
// thirds, by step or not at all, and common tones stay.
func TestTwoFiveOne(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		for _, chart := range []string{"Dm7|G7|Cmaj7", "Am7|D7|Gmaj7", "Ebm7|Ab7|Dbmaj7", "F#m7|B7|Emaj7",
			"Gm7|C7|F6", "Dm7b5|G7b9|Cm6"} {
			p := groovetest.PlanOf(groovetest.PassOf(t, chart, energy), groovetest.CompFeel("c==============="))
			vs := chordsOf(p)
			for i := 1; i < len(vs); i++ {
				a, b := vs[i-1], vs[i]
				// The least that these tones can move, and one voice a step more.
				if d, least := voicing.Motion(&a, &b), songtest.LeastMotion(pcsOf(a), pcsOf(b)); d > least+2 {
					t.Errorf("energy %d, %s: %s to %s moves %d semitones in all, least %d",
						energy, chart, names(a), names(b), d, least)
				}
				if d := abs(b.Top() - a.Top()); d > 2 {
					t.Errorf("energy %d, %s: the top voice leaps %d, %s to %s", energy, chart, d, names(a), names(b))
				}
			}
			// Guide tones resolve by step: each third and seventh has a note of the
			// next chord within two semitones.
			for i := 1; i < len(vs); i++ {
				for _, tone := range p.Pass.Chords[i-1].Chord.Tones() {
					if tone.Degree != 3 && tone.Degree != 7 {
						continue
					}
					pc := (p.Pass.Chords[i-1].Chord.Root.PC() + int(tone.Semitones)) % 12
					checkStep(t, chart, vs[i-1], vs[i], pc)
				}
			}
		}
	}
}

func checkStep(t *testing.T, chart string, a, b voicing.Voicing, pc int) {
	t.Helper()
	for _, k := range a.Notes[:a.N] {
		if int(k)%12 != pc {
			continue
		}
		near := 99
		for _, l := range b.Notes[:b.N] {
			near = min(near, abs(int(l)-int(k)))
		}
		if near > 2 {
			t.Errorf("%s: %s of %s does not go on by step to %s", chart, groovetest.KeyName(int(k)), names(a), names(b))
		}
	}
}

// The voicings of a pass depend on the pass and its neighbours' chords alone,
// and are the same every time.
func TestVoicingsAreRepeatable(t *testing.T) {
	f := groovetest.CompFeel("c===============")
	for i := 0; i < 3; i++ {
		a := chordsOf(groovetest.PlanOf(randomPass(t, rand.New(rand.NewSource(int64(i))), 40), f))
		b := chordsOf(groovetest.PlanOf(randomPass(t, rand.New(rand.NewSource(int64(i))), 40), f))
		for k := range a {
			if a[k] != b[k] {
				t.Fatalf("chord %d: %s, then %s", k, names(a[k]), names(b[k]))
			}
		}
	}
}

var (
	roots    = []string{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}
	suffixes = []string{"", "m", "7", "maj7", "m7", "m7b5", "dim7", "6", "m6", "9", "m9", "maj9", "11", "13",
		"sus4", "7sus4", "7b9", "7#9", "7#11", "7alt", "6/9", "add9", "m(maj7)", "maj7#5", "aug", "5"}
)

// randomPass is a pass of random chords and neighbours.
func randomPass(t testing.TB, r *rand.Rand, bars int) *timeline.Pass {
	var chart string
	for i := 0; i < bars; i++ {
		if i > 0 {
			chart += "|"
		}
		for k := 0; k <= r.Intn(2); k++ {
			for {
				s := roots[r.Intn(12)] + suffixes[r.Intn(len(suffixes))]
				if _, err := harmony.ParseChord(s); err == nil {
					chart += " " + s
					break
				}
			}
		}
	}
	p := groovetest.PassOf(t, chart, 1+r.Intn(5))
	p.EnergyTo = 1 + r.Intn(5)
	before := p.Chords[r.Intn(len(p.Chords))].Chord
	p.Before = &timeline.Neighbour{Section: "intro", Chord: before, Energy: 1 + r.Intn(5)}
	return p
}

// pcsOf are the pitch classes of a voicing.
func pcsOf(v voicing.Voicing) []int {
	var out []int
	for _, k := range v.Notes[:v.N] {
		out = append(out, int(k)%12)
	}
	return out
}
