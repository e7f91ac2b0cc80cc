// Package voicing chooses what a pianist's hands hold: in goes a chord, how many voices it
// has and the room for it, out come the voicings that two hands can play clearly there, each
// with its cost, and the way through a row of chords that costs least. It knows no time, no
// feel and no singer but the costs that the pianist hands in.
package voicing

import (
	"cmp"
	"math/bits"
	"slices"

	"plinth/songspec/harmony"
)

// Room is the room that a voicing has, in MIDI numbers, and where in it the
// pianist would like to be.
type Room struct {
	Low, High int // both included
	Centre    int // the middle of the voicing
	Span      int // semitones a hand reaches
	Left      int // the note that the left hand is busy with, below the voicing; 0: none
}

// maxCandidates bounds the voicings weighed for one chord. Two chords cost its
// square, so it keeps long songs linear and quick.
const maxCandidates = 28

// In a room of fewer semitones than narrow a chord with fewer candidates than fewCandidates may
// do with fewer voices, so that the hands need not go from chord to chord in parallel.
const (
	narrow        = 16
	fewCandidates = 4
)

// Candidate is a voicing with what it costs standing alone.
type Candidate struct {
	Voicing
	Cost int32
}

// layout is what laying a chord out needs to know.
type layout struct {
	room       Room
	root, bass int // pitch classes
	flatNine   bool
	under      uint16 // pitch classes that belong over the tone a semitone above them, not under it
	apart      uint16 // those of them that rather stay out than stand there: another altered tone names the chord
	colours    uint16 // pitch classes (bit = pitch class) that do not lie well at the bottom
}

func newLayout(c harmony.Chord, w Room) layout {
	l := layout{room: w, root: c.Root.PC(), bass: c.Bass.PC()}
	sharpNine, altered := uint16(0), false
	for i := range c.ToneCount() {
		t := c.Tone(i)
		pc := uint16(1) << ((l.root + int(t.Semitones)) % 12)
		l.flatNine = l.flatNine || t.Semitones == 1
		if t.Degree == 9 && t.Semitones == 3 {
			sharpNine = pc
		} else if t.Degree == 5 || t.Degree >= 9 {
			altered = altered || t.Semitones != naturalSemis[t.Degree]
		}
		// In a chord of a minor third or a major seventh these names do not come.
		if t.Degree == 9 && t.Semitones == 3 || t.Degree == 13 && t.Semitones == 9 {
			l.under |= pc
		}
		if t.Degree > 7 {
			l.colours |= pc
		}
	}
	if altered {
		l.apart = sharpNine
	}
	return l
}

// candidates are the ways to play a chord, the one that stands best alone
// first; that one is the canonical voicing. Where nothing fits the window with
// all the voices it does with fewer, down to one. Empty for N.C.
func candidates(c harmony.Chord, voices int, avoid uint16, w Room) []Candidate {
	if c.None {
		return nil
	}
	l := newLayout(c, w)
	for n := voices; n >= 1; n-- {
		out := l.all(shapes(c, n, avoid))
		if len(out) == 0 {
			out = l.spared(c, n, avoid)
		}
		if len(out) > 0 {
			return l.withFewer(thinned(out), c, n, avoid)
		}
	}
	return nil
}

// withFewer adds the best voicings of fewer than n voices, down to two, while there are few
// candidates in a narrow room. It does not where the left hand has the bass: there the right
// hand's place depends on the bass note, and a voice less would leave too little of the chord.
func (l *layout) withFewer(out []Candidate, c harmony.Chord, n int, avoid uint16) []Candidate {
	if l.room.Left > 0 || l.room.High-l.room.Low >= narrow {
		return out
	}
	for m := n - 1; m >= 2 && len(out) < fewCandidates; m-- {
		for _, less := range thinned(l.all(shapes(c, m, avoid))) {
			if len(out) < fewCandidates && !slices.ContainsFunc(out, less.isSame) {
				less.Cost += CostVoiceLess * int32(n-m)
				out = append(out, less)
			}
		}
	}
	return out
}

func (l *layout) all(shapes []shape) []Candidate {
	var out []Candidate
	for i := range shapes {
		out = shapes[i].place(l, out)
	}
	return out
}

// spared are the candidates when the first choice of tones finds no place: the
// tone that is missed least gives way to the next one, or to none.
func (l *layout) spared(c harmony.Chord, n int, avoid uint16) []Candidate {
	first := shapes(c, n, avoid)
	if len(first) == 0 {
		return nil
	}
	for s := first[0]; s.n > 1; {
		s.n--
		if out := l.all(shapes(c, n, avoid|1<<s.pcs[s.n])); len(out) > 0 {
			return out
		}
	}
	for s := first[0]; s.n > 1 && n == 1; {
		s.n--
		if out := l.all([]shape{s}); len(out) > 0 {
			return out
		}
	}
	if n == 1 && l.room.Left > 0 {
		return l.some(shapes(c, MaxVoices, avoid)[0])
	}
	return nil
}

// some are the candidates over a left hand that leaves no place to a chord's first
// tones: as many of a shape's tones as find one, whichever they are.
func (l *layout) some(s shape) []Candidate {
	for n := s.n; n >= 1; n-- {
		var of []shape
		for set := uint(1); set < 1<<s.n; set++ {
			if bits.OnesCount(set) != n {
				continue
			}
			t := shape{cost: s.cost}
			for i, pc := range s.pcs[:s.n] {
				if set&(1<<i) != 0 {
					t.add(pc)
				}
			}
			of = append(of, t)
		}
		if out := l.all(of); len(out) > 0 {
			return out
		}
	}
	return nil
}

// byCost orders candidates by cost, then from the bottom up.
func byCost(a, b Candidate) int {
	if d := cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(b.N, a.N)); d != 0 {
		return d
	}
	return slices.Compare(a.Notes[:a.N], b.Notes[:b.N])
}

// isSame reports whether two candidates are the same keys.
func (c Candidate) isSame(o Candidate) bool { return c.Voicing == o.Voicing }

// thinned puts candidates in order and drops repeats, which doubled shapes bring, and all but
// the best.
func thinned(in []Candidate) []Candidate {
	slices.SortFunc(in, byCost)
	out := in[:0]
	for _, c := range in {
		if len(out) < maxCandidates && !slices.ContainsFunc(out, c.isSame) {
			out = append(out, c)
		}
	}
	return out
}

// place appends every way to lay the shape out in the window that two hands can
// take and that is clear.
func (s *shape) place(l *layout, out []Candidate) []Candidate {
	var at [MaxVoices]int
	w := l.room
	var walk func(i int)
	walk = func(i int) {
		if i == s.n {
			if v, ok := Voiced(at[:s.n]); ok && w.holds(&v) && l.sounds(&v) {
				out = append(out, Candidate{v, s.cost + l.lie(&v)})
			}
			return
		}
		pc := int(s.pcs[i])
		for key := w.Low + (pc-w.Low%12+12)%12; key <= w.High; key += 12 {
			at[i] = key
			walk(i + 1)
		}
	}
	walk(0)
	return out
}

// Voiced sorts keys into a voicing; two voices on one key are none.
func Voiced(keys []int) (Voicing, bool) {
	v := Voicing{N: int8(len(keys))}
	for i, k := range keys {
		j := i
		for j > 0 && int(v.Notes[j-1]) > k {
			v.Notes[j] = v.Notes[j-1]
			j--
		}
		if j > 0 && int(v.Notes[j-1]) == k {
			return v, false
		}
		v.Notes[j] = uint8(k)
	}
	return v, true
}
