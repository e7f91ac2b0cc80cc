package groove

import (
	"math/bits"
	"math/rand"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// checkVoicing fails on what no voicing may do, whatever the chord: notes out of
// the window, under the low interval limits, out of two hands' reach, a semitone
// against the top voice.
func checkVoicing(t *testing.T, what string, v voicing, w compRoom) {
	t.Helper()
	if v.n == 0 {
		t.Errorf("%s: nothing to play", what)
		return
	}
	var keys []int
	for i := int8(0); i < v.n; i++ {
		k := int(v.notes[i])
		if i > 0 && k <= int(v.notes[i-1]) {
			t.Errorf("%s: %s is not ascending", what, names(v))
		}
		if k < w.low || k > w.high {
			t.Errorf("%s: %s leaves %s to %s", what, names(v), keyName(w.low), keyName(w.high))
		}
		keys = append(keys, k)
	}
	if a, b, bad := firstMuddy(keys); bad {
		t.Errorf("%s: %s under %s in %s is unclear so low", what, keyName(a), keyName(b), names(v))
	}
	if !playable(keys, w.span) {
		t.Errorf("%s: two hands of %d semitones do not reach %s", what, w.span, names(v))
	}
	if v.n > 1 && keys[v.n-1]-keys[v.n-2] == 1 {
		t.Errorf("%s: %s has a semitone against the top voice", what, names(v))
	}
}

// Every chord on every root, with every bass, at every energy, under every
// ceiling, can be played, clearly and by two hands, and what is essential is in it.
func TestCandidates(t *testing.T) {
	rooms := map[string]compRoom{
		"plain":            {low: 48, high: 69, centre: 60, span: 14},
		"high voice":       {low: 48, high: 63, centre: 57, span: 14},
		"low voice":        {low: 48, high: 60, centre: 54, span: 14},
		"small hands":      {low: 48, high: 69, centre: 60, span: 9},
		"lowest ceiling":   {low: 43, high: 55, centre: 49, span: 14},
		"song file's high": {low: 48, high: 84, centre: 63, span: 12},
	}
	for name, w := range rooms {
		for _, suffix := range suffixes(t) {
			for _, root := range roots {
				for _, bass := range []string{"", "/C", "/E", "/F#", "/Bb"} {
					c, err := harmony.ParseChord(root + suffix + bass)
					if err != nil {
						continue
					}
					for voices := 2; voices <= 4; voices++ {
						list := candidates(c, voices, 0, w)
						if len(list) == 0 {
							t.Fatalf("%s: %s in %d voices cannot be played", name, c, voices)
						}
						if len(list) > maxCandidates {
							t.Fatalf("%s: %s has %d candidates", name, c, len(list))
						}
						for _, v := range list {
							checkVoicing(t, name+": "+c.String(), v.voicing, w)
						}
						if t.Failed() {
							return
						}
					}
				}
			}
		}
	}
}

// With the whole window every chord keeps all its tones: fewer is for a singer
// who leaves no room. A doubling is left out where it has no octave of room: B3 is
// the only B there. So is a sharp ninth where there is no such octave over the third
// for it and another bent tone names the chord: G7alt under A4 is G7#5. Both together
// a semitone apart sound like a slip (common practice, no single source).
func TestCandidatesKeepTheVoices(t *testing.T) {
	w := compRoom{low: 48, high: 69, centre: 60, span: 14}
	for _, suffix := range suffixes(t) {
		for _, root := range roots {
			c, err := harmony.ParseChord(root + suffix)
			if err != nil {
				continue
			}
			for voices := 2; voices <= 4; voices++ {
				want, got := tonesIn(shapes(c, voices, 0)[0]), 0
				spared := bentBesideSharpNine(c) && !roomOverThird(c, w)
				for _, v := range candidates(c, voices, 0, w) {
					got = max(got, int(v.n))
					if spared && sideBySide(v.voicing, c.Root.PC(), 3) {
						t.Errorf("%s: %s has the sharp ninth a semitone under the third", c, names(v.voicing))
					}
				}
				if spared {
					want = max(voices, want-1)
				}
				if got < want {
					t.Errorf("%s: %d voices where %d are due", c, got, want)
				}
			}
		}
	}
}

// bentBesideSharpNine reports whether a chord has a major third, a sharp ninth and
// another bent tone besides.
func bentBesideSharpNine(c harmony.Chord) bool {
	third, nine, bent := false, false, false
	for _, t := range c.Tones() {
		switch {
		case t.Degree == 3 && t.Semitones == 4:
			third = true
		case t.Degree == 9 && t.Semitones == 3:
			nine = true
		case t.Degree == 5 && t.Semitones != 7, t.Degree == 9 && t.Semitones == 1,
			t.Degree == 11 && t.Semitones == 6, t.Degree == 13 && t.Semitones == 8:
			bent = true
		}
	}
	return third && nine && bent
}

// roomOverThird reports whether the window has a major seventh over the chord's third.
func roomOverThird(c harmony.Chord, w compRoom) bool {
	for k := w.low; k+11 <= w.high; k++ {
		if k%12 == (c.Root.PC()+4)%12 {
			return true
		}
	}
	return false
}

// tonesIn counts the different pitch classes of a shape.
func tonesIn(s shape) int {
	var set uint16
	for _, pc := range s.pcs[:s.n] {
		set |= 1 << pc
	}
	return bits.OnesCount16(set)
}

// ii-V-I, common practice, no single source: thirds become sevenths and sevenths
// thirds, by step or not at all, and common tones stay.
func TestTwoFiveOne(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		for _, chart := range []string{"Dm7|G7|Cmaj7", "Am7|D7|Gmaj7", "Ebm7|Ab7|Dbmaj7", "F#m7|B7|Emaj7",
			"Gm7|C7|F6", "Dm7b5|G7b9|Cm6"} {
			p := planOf(passOf(t, chart, energy), compFeel("c==============="))
			vs := chordsOf(p)
			for i := 1; i < len(vs); i++ {
				a, b := vs[i-1], vs[i]
				// The least that these tones can move, and one voice a step more.
				if d, least := motion(&a, &b), harmony.Distance(pcsOf(a), pcsOf(b)); d > least+2 {
					t.Errorf("energy %d, %s: %s to %s moves %d semitones in all, least %d", energy, chart, names(a), names(b), d, least)
				}
				if d := absInt(b.top() - a.top()); d > 2 {
					t.Errorf("energy %d, %s: the top voice leaps %d, %s to %s", energy, chart, d, names(a), names(b))
				}
			}
			// Guide tones resolve by step: each third and seventh has a note of the
			// next chord within two semitones.
			for i := 1; i < len(vs); i++ {
				for _, tone := range p.pass.Chords[i-1].Chord.Tones() {
					if tone.Degree != 3 && tone.Degree != 7 {
						continue
					}
					pc := (p.pass.Chords[i-1].Chord.Root.PC() + int(tone.Semitones)) % 12
					checkStep(t, chart, vs[i-1], vs[i], pc)
				}
			}
		}
	}
}

func checkStep(t *testing.T, chart string, a, b voicing, pc int) {
	t.Helper()
	for _, k := range a.notes[:a.n] {
		if int(k)%12 != pc {
			continue
		}
		near := 99
		for _, l := range b.notes[:b.n] {
			near = min(near, absInt(int(l)-int(k)))
		}
		if near > 2 {
			t.Errorf("%s: %s of %s does not go on by step to %s", chart, keyName(int(k)), names(a), names(b))
		}
	}
}

// The motion of voicings is never under the least motion between their pitch
// classes (voice_leading_min.csv is what harmony.Distance computes): in pitch a
// voice goes at least as far as in pitch class.
func TestMotionAtLeastDistance(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	all := suffixes(t)
	for i := 0; i < 20000; i++ {
		a, b := randomVoicing(r, all), randomVoicing(r, all)
		if a.n == 0 || b.n == 0 {
			continue
		}
		if got, least := motion(&a, &b), harmony.Distance(pcsOf(a), pcsOf(b)); got < least {
			t.Fatalf("%s to %s: %d semitones, least %d", names(a), names(b), got, least)
		}
	}
}

func pcsOf(v voicing) []int {
	var out []int
	for _, k := range v.notes[:v.n] {
		out = append(out, int(k)%12)
	}
	return out
}

func randomVoicing(r *rand.Rand, all []string) voicing {
	c, err := harmony.ParseChord(roots[r.Intn(len(roots))] + all[r.Intn(len(all))])
	if err != nil {
		return voicing{}
	}
	list := candidates(c, 2+r.Intn(3), 0, compRoom{low: 48, high: 69, centre: 60, span: 14})
	return list[r.Intn(len(list))].voicing
}

func TestMotion(t *testing.T) {
	v := func(keys ...int) voicing {
		out, ok := voiced(keys)
		if !ok {
			t.Fatal("doubled key")
		}
		return out
	}
	tests := []struct {
		name string
		a, b voicing
		want int
	}{
		{"stays", v(60, 64, 67), v(60, 64, 67), 0},
		{"C E G to C F A, as published for this pair", v(60, 64, 67), v(60, 65, 69), 3},
		{"two into three: the new voice comes from its nearest", v(60, 64), v(60, 64, 67), 3},
		{"three into two: the dropped voice goes to its nearest", v(60, 64, 67), v(60, 64), 3},
		{"four into two", v(48, 60, 64, 67), v(60, 64), 12 + 3},
		{"one to many", v(60), v(57, 60, 64), 3 + 4},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := motion(&tt.a, &tt.b); got != tt.want {
				t.Errorf("%s to %s: %d, want %d", names(tt.a), names(tt.b), got, tt.want)
			}
			if got := motion(&tt.b, &tt.a); got != tt.want {
				t.Errorf("the way back: %d, want %d", got, tt.want)
			}
		})
	}
}

// A unison of motions: for voicings of unlike size, no pairing of all notes is
// shorter. Checked against every pairing.
func TestMotionIsLeast(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	all := suffixes(t)
	for i := 0; i < 2000; i++ {
		a, b := randomVoicing(r, all), randomVoicing(r, all)
		if a.n == 0 || b.n == 0 || a.n == b.n || a.n*b.n > 12 {
			continue
		}
		pairs := int(a.n) * int(b.n)
		least := 1 << 20
		for set := 1; set < 1<<pairs; set++ {
			sum, as, bs := 0, 0, 0
			for k := 0; k < pairs; k++ {
				if set&(1<<k) != 0 {
					x, y := k/int(b.n), k%int(b.n)
					sum += absInt(int(a.notes[x]) - int(b.notes[y]))
					as |= 1 << x
					bs |= 1 << y
				}
			}
			if as == 1<<a.n-1 && bs == 1<<b.n-1 {
				least = min(least, sum)
			}
		}
		if got := motion(&a, &b); got != least {
			t.Fatalf("%s to %s: %d, least %d", names(a), names(b), got, least)
		}
	}
}

// The path is the cheapest there is: compared with every way on small cases.
func TestPathIsCheapest(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	all := suffixes(t)
	for i := 0; i < 150; i++ {
		vc := newVoicer()
		w := compRoom{low: 50, high: 66, centre: 58, span: 14}
		var steps []voiceStep
		for len(steps) < 4 {
			c, err := harmony.ParseChord(roots[r.Intn(12)] + all[r.Intn(len(all))])
			if err != nil {
				continue
			}
			set := vc.set(c, 2+r.Intn(2), 0, w)
			st := voiceStep{set: set, same: r.Intn(4) == 0}
			if r.Intn(3) == 0 {
				st.extra = make([]int32, len(set.list))
				for k := range st.extra {
					st.extra[k] = int32(r.Intn(30))
				}
			}
			steps = append(steps, st)
			if r.Intn(5) == 0 {
				steps = append(steps, voiceStep{}) // N.C.
			}
		}
		var before *candidateSet
		if r.Intn(2) == 0 {
			before = steps[0].set
		}
		got := costOf(vc, before, steps, vc.path(before, steps))
		if least := cheapest(vc, before, steps, nil); got != least {
			t.Fatalf("case %d: cost %d, the cheapest is %d", i, got, least)
		}
	}
}

// costOf adds up a path's costs as the doc comment of path words them.
func costOf(vc *voicer, before *candidateSet, steps []voiceStep, path []int) int32 {
	var sum int32
	prev, at := before, 0
	for i, st := range steps {
		if st.set == nil {
			continue
		}
		j := path[i]
		if prev != nil {
			sum += moveCost(&prev.list[at].voicing, &st.set.list[j].voicing, prev.bass, st.set.bass, st.lead)
			if st.same && (prev != st.set || at != j) {
				sum += costStay
			}
		}
		sum += st.set.list[j].cost
		if st.extra != nil {
			sum += st.extra[j]
		}
		prev, at = st.set, j
	}
	return sum + moveCost(&prev.list[at].voicing, &prev.list[0].voicing, prev.bass, prev.bass, bassLead{})/costHomeward
}

func cheapest(vc *voicer, before *candidateSet, steps []voiceStep, path []int) int32 {
	i := len(path)
	if i == len(steps) {
		return costOf(vc, before, steps, path)
	}
	if steps[i].set == nil {
		return cheapest(vc, before, steps, append(path, 0))
	}
	best := int32(1 << 30)
	for j := range steps[i].set.list {
		best = min(best, cheapest(vc, before, steps, append(path[:i:i], j)))
	}
	return best
}

// The voicings of a pass depend on the pass and its neighbours' chords alone,
// and are the same every time.
func TestVoicingsAreRepeatable(t *testing.T) {
	f := compFeel("c===============")
	for i := 0; i < 3; i++ {
		a := chordsOf(planOf(randomPass(t, rand.New(rand.NewSource(int64(i))), 40), f))
		b := chordsOf(planOf(randomPass(t, rand.New(rand.NewSource(int64(i))), 40), f))
		for k := range a {
			if a[k] != b[k] {
				t.Fatalf("chord %d: %s, then %s", k, names(a[k]), names(b[k]))
			}
		}
	}
}

// randomPass is a pass of random chords and neighbours.
func randomPass(t testing.TB, r *rand.Rand, bars int) *timeline.Pass {
	all := suffixes(t)
	var chart string
	for i := 0; i < bars; i++ {
		if i > 0 {
			chart += "|"
		}
		for k := 0; k <= r.Intn(2); k++ {
			for {
				s := roots[r.Intn(12)] + all[r.Intn(len(all))]
				if _, err := harmony.ParseChord(s); err == nil {
					chart += " " + s
					break
				}
			}
		}
	}
	p := passOf(t, chart, 1+r.Intn(5))
	p.EnergyTo = 1 + r.Intn(5)
	p.Before = &timeline.Neighbour{Section: "intro", Chord: p.Chords[r.Intn(len(p.Chords))].Chord, Energy: 1 + r.Intn(5)}
	return p
}
