package voicing

import (
	"math/bits"
	"math/rand"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/songtest"
)

// checkVoicing fails on what no voicing may do, whatever the chord: notes out of
// the window, under the low interval limits, out of two hands' reach, a semitone
// against the top voice.
func checkVoicing(t *testing.T, what string, v Voicing, w Room) {
	t.Helper()
	if v.N == 0 {
		t.Errorf("%s: nothing to play", what)
		return
	}
	var keys []int
	for i := int8(0); i < v.N; i++ {
		k := int(v.Notes[i])
		if i > 0 && k <= int(v.Notes[i-1]) {
			t.Errorf("%s: %s is not ascending", what, names(v))
		}
		if k < w.Low || k > w.High {
			t.Errorf("%s: %s leaves %s to %s", what, names(v), keyName(w.Low), keyName(w.High))
		}
		keys = append(keys, k)
	}
	if a, b, bad := FirstMuddy(keys); bad {
		t.Errorf("%s: %s under %s in %s is unclear so low", what, keyName(a), keyName(b), names(v))
	}
	if !Playable(keys, w.Span) {
		t.Errorf("%s: two hands of %d semitones do not reach %s", what, w.Span, names(v))
	}
	if v.N > 1 && keys[v.N-1]-keys[v.N-2] == 1 {
		t.Errorf("%s: %s has a semitone against the top voice", what, names(v))
	}
}

// Every chord on every root, with every bass, at every energy, under every
// ceiling, can be played, clearly and by two hands, and what is essential is in it.
func TestCandidates(t *testing.T) {
	rooms := map[string]Room{
		"plain":            {Low: 48, High: 69, Centre: 60, Span: 14},
		"high voice":       {Low: 48, High: 63, Centre: 57, Span: 14},
		"low voice":        {Low: 48, High: 60, Centre: 54, Span: 14},
		"small hands":      {Low: 48, High: 69, Centre: 60, Span: 9},
		"lowest ceiling":   {Low: 43, High: 55, Centre: 49, Span: 14},
		"song file's high": {Low: 48, High: 84, Centre: 63, Span: 12},
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
							checkVoicing(t, name+": "+c.String(), v.Voicing, w)
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
// for it and another altered tone names the chord: G7alt under A4 is G7#5. Both together
// a semitone apart sound like a slip (common practice, no single source).
func TestCandidatesKeepTheVoices(t *testing.T) {
	w := Room{Low: 48, High: 69, Centre: 60, Span: 14}
	for _, suffix := range suffixes(t) {
		for _, root := range roots {
			c, err := harmony.ParseChord(root + suffix)
			if err != nil {
				continue
			}
			for voices := 2; voices <= 4; voices++ {
				want, got := tonesIn(shapes(c, voices, 0)[0]), 0
				spared := alteredBesideSharpNine(c) && !roomOverThird(c, w)
				for _, v := range candidates(c, voices, 0, w) {
					got = max(got, int(v.N))
					if spared && sideBySide(v.Voicing, c.Root.PC(), 3) {
						t.Errorf("%s: %s has the sharp ninth a semitone under the third", c, names(v.Voicing))
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

// Where a low singer leaves an octave, a chord has other voicings than its root position, of
// fewer voices if need be: the first choice keeps them all.
func TestNarrowRoomsLeaveAChoice(t *testing.T) {
	w := Room{Low: 48, High: 60, Centre: 54, Span: 14}
	for _, root := range roots {
		c, err := harmony.ParseChord(root)
		if err != nil {
			t.Fatal(err)
		}
		if list := candidates(c, 3, 0, w); list[0].N != 3 || len(list) < 3 {
			t.Errorf("%s: %d voicings, the first of %d voices", c, len(list), list[0].N)
		}
	}
}

// alteredBesideSharpNine reports whether a chord has a major third, a sharp ninth and
// another altered tone besides.
func alteredBesideSharpNine(c harmony.Chord) bool {
	third, nine, altered := false, false, false
	for _, t := range c.Tones() {
		switch {
		case t.Degree == 3 && t.Semitones == 4:
			third = true
		case t.Degree == 9 && t.Semitones == 3:
			nine = true
		case t.Degree == 5 && t.Semitones != 7, t.Degree == 9 && t.Semitones == 1,
			t.Degree == 11 && t.Semitones == 6, t.Degree == 13 && t.Semitones == 8:
			altered = true
		}
	}
	return third && nine && altered
}

// roomOverThird reports whether the window has a major seventh over the chord's third.
func roomOverThird(c harmony.Chord, w Room) bool {
	for k := w.Low; k+11 <= w.High; k++ {
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

// The motion of voicings is never under the least motion between their pitch
// classes: in pitch a voice goes at least as far as in pitch class.
func TestMotionAtLeastDistance(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	all := suffixes(t)
	for i := 0; i < 20000; i++ {
		a, b := randomVoicing(r, all), randomVoicing(r, all)
		if a.N == 0 || b.N == 0 {
			continue
		}
		if got, least := Motion(&a, &b), songtest.LeastMotion(pcsOf(a), pcsOf(b)); got < least {
			t.Fatalf("%s to %s: %d semitones, least %d", names(a), names(b), got, least)
		}
	}
}

func pcsOf(v Voicing) []int {
	var out []int
	for _, k := range v.Notes[:v.N] {
		out = append(out, int(k)%12)
	}
	return out
}

func randomVoicing(r *rand.Rand, all []string) Voicing {
	c, err := harmony.ParseChord(roots[r.Intn(len(roots))] + all[r.Intn(len(all))])
	if err != nil {
		return Voicing{}
	}
	list := candidates(c, 2+r.Intn(3), 0, Room{Low: 48, High: 69, Centre: 60, Span: 14})
	return list[r.Intn(len(list))].Voicing
}

func TestMotion(t *testing.T) {
	v := func(keys ...int) Voicing {
		out, ok := Voiced(keys)
		if !ok {
			t.Fatal("doubled key")
		}
		return out
	}
	tests := []struct {
		name string
		a, b Voicing
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
			if got := Motion(&tt.a, &tt.b); got != tt.want {
				t.Errorf("%s to %s: %d, want %d", names(tt.a), names(tt.b), got, tt.want)
			}
			if got := Motion(&tt.b, &tt.a); got != tt.want {
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
		if a.N == 0 || b.N == 0 || a.N == b.N || a.N*b.N > 12 {
			continue
		}
		pairs := int(a.N) * int(b.N)
		least := 1 << 20
		for set := 1; set < 1<<pairs; set++ {
			sum, as, bs := 0, 0, 0
			for k := 0; k < pairs; k++ {
				if set&(1<<k) != 0 {
					x, y := k/int(b.N), k%int(b.N)
					sum += absInt(int(a.Notes[x]) - int(b.Notes[y]))
					as |= 1 << x
					bs |= 1 << y
				}
			}
			if as == 1<<a.N-1 && bs == 1<<b.N-1 {
				least = min(least, sum)
			}
		}
		if got := Motion(&a, &b); got != least {
			t.Fatalf("%s to %s: %d, least %d", names(a), names(b), got, least)
		}
	}
}

// The path is the cheapest there is: compared with every way on small cases.
func TestPathIsCheapest(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	all := suffixes(t)
	for i := 0; i < 150; i++ {
		vc := NewVoicer()
		w := Room{Low: 50, High: 66, Centre: 58, Span: 14}
		var steps []Step
		for len(steps) < 4 {
			c, err := harmony.ParseChord(roots[r.Intn(12)] + all[r.Intn(len(all))])
			if err != nil {
				continue
			}
			set := vc.Set(c, 2+r.Intn(2), 0, w)
			st := Step{Set: set, Same: r.Intn(4) == 0}
			if r.Intn(3) == 0 {
				st.Extra = make([]int32, len(set.List))
				for k := range st.Extra {
					st.Extra[k] = int32(r.Intn(30))
				}
			}
			steps = append(steps, st)
			if r.Intn(5) == 0 {
				steps = append(steps, Step{}) // N.C.
			}
		}
		var before *Set
		if r.Intn(2) == 0 {
			before = steps[0].Set
		}
		got := costOf(vc, before, steps, vc.Path(before, steps))
		if least := cheapest(vc, before, steps, nil); got != least {
			t.Fatalf("case %d: cost %d, the cheapest is %d", i, got, least)
		}
	}
}

// costOf adds up a path's costs as the doc comment of path words them.
func costOf(vc *Voicer, before *Set, steps []Step, path []int) int32 {
	var sum int32
	prev, at := before, 0
	for i, st := range steps {
		if st.Set == nil {
			continue
		}
		j := path[i]
		if prev != nil {
			sum += moveCost(&prev.List[at].Voicing, &st.Set.List[j].Voicing, prev.bass, st.Set.bass, st.Lead)
			if st.Same && (prev != st.Set || at != j) {
				sum += costStay
			}
		}
		sum += st.Set.List[j].Cost
		if st.Extra != nil {
			sum += st.Extra[j]
		}
		prev, at = st.Set, j
	}
	return sum + moveCost(&prev.List[at].Voicing, &prev.List[0].Voicing, prev.bass, prev.bass, Lead{})/costHomeward
}

func cheapest(vc *Voicer, before *Set, steps []Step, path []int) int32 {
	i := len(path)
	if i == len(steps) {
		return costOf(vc, before, steps, path)
	}
	if steps[i].Set == nil {
		return cheapest(vc, before, steps, append(path, 0))
	}
	best := int32(1 << 30)
	for j := range steps[i].Set.List {
		best = min(best, cheapest(vc, before, steps, append(path[:i:i], j)))
	}
	return best
}
