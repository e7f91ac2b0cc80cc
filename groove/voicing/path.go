package voicing

import "plinth/songspec/harmony"

// Step is one chord of a pass on the way of least motion.
type Step struct {
	Set *Set
	// Extra, when not nil, is a cost for each candidate that the place in the song
	// brings, such as the tune that is sung there.
	Extra []int32
	Same  bool // the chord before goes on
	Lead  Lead
}

// Set is the candidates of one chord, shared by its every return.
type Set struct {
	id   int
	bass int // pitch class that the bass plays
	List []Candidate
}

// setKey is what a candidate set depends on.
type setKey struct {
	chord  harmony.Chord
	voices int
	avoid  uint16
	w      Room
}

// Voicer keeps the sets and the costs between them, so that a chart that goes
// round, and a section that comes again, cost their chords once. Both are settled
// by their keys alone, so that it does not matter what was asked for before. It is
// for one goroutine.
type Voicer struct {
	sets  map[setKey]*Set
	moves map[moveKey][]int32
}

// moveKey is what the costs between two sets depend on.
type moveKey struct {
	a, b int
	lead Lead
}

// maxMoves and maxSets bound what is kept: past maxMoves costs are worked out
// again, and a pass that finds more than maxSets begins anew.
const (
	maxMoves = 512
	maxSets  = 1024
)

func NewVoicer() *Voicer {
	return &Voicer{sets: map[setKey]*Set{}, moves: map[moveKey][]int32{}}
}

// Set returns the candidates of a chord; nil when nothing can be played.
func (vc *Voicer) Set(c harmony.Chord, voices int, avoid uint16, w Room) *Set {
	if c.None {
		return nil
	}
	key := setKey{c, voices, avoid, w}
	if s, ok := vc.sets[key]; ok {
		return s
	}
	var s *Set
	if list := candidates(c, voices, avoid, w); len(list) > 0 {
		s = &Set{id: len(vc.sets), bass: c.Bass.PC(), List: list}
	}
	vc.sets[key] = s
	return s
}

// Full reports a voicer that has seen more chords than songs have.
func (vc *Voicer) Full() bool { return len(vc.sets) > maxSets }

// between is the cost from every candidate of a to every one of b, a's index
// first.
func (vc *Voicer) between(a, b *Set, lead Lead) []int32 {
	key := moveKey{a.id, b.id, lead}
	if m, ok := vc.moves[key]; ok {
		return m
	}
	m := make([]int32, 0, len(a.List)*len(b.List))
	for i := range a.List {
		for j := range b.List {
			m = append(m, moveCost(&a.List[i].Voicing, &b.List[j].Voicing, a.bass, b.bass, lead))
		}
	}
	if len(vc.moves) >= maxMoves {
		clear(vc.moves)
	}
	vc.moves[key] = m
	return m
}

// Path chooses a candidate for every step so that the sum of all costs is the
// least there is (Viterbi's algorithm): what each voicing costs alone, what each
// move costs, coming from the canonical voicing of the chord before the pass
// (nil at the start of a song) and ending, where it costs little, near the
// canonical voicing of the last chord, which is where the next pass believes to
// come from. Steps without a set
// are passed over. The result has a candidate's index for each step.
func (vc *Voicer) Path(before *Set, steps []Step) []int {
	out := make([]int, len(steps))
	back := make([][maxCandidates]uint8, len(steps))
	var cost, next [maxCandidates]int32
	prev, prevStep := before, -1
	from := 1 // how many candidates of prev may be come from
	for i := range steps {
		st := &steps[i]
		if st.Set == nil {
			continue
		}
		n := len(st.Set.List)
		var moves []int32
		if prev != nil {
			moves = vc.between(prev, st.Set, st.Lead)
		}
		for j := 0; j < n; j++ {
			best, bestFrom := int32(0), 0
			for k := 0; k < from && prev != nil; k++ {
				c := cost[k] + moves[k*n+j]
				if st.Same && (prev != st.Set || k != j) {
					c += costStay
				}
				if k == 0 || c < best {
					best, bestFrom = c, k
				}
			}
			next[j] = best + st.Set.List[j].Cost
			if st.Extra != nil {
				next[j] += st.Extra[j]
			}
			back[i][j] = uint8(bestFrom)
		}
		cost, next = next, cost
		prev, prevStep, from = st.Set, i, n
	}
	if prevStep < 0 {
		return out
	}
	last := steps[prevStep].Set
	home := vc.between(last, last, Lead{})
	best := 0
	for j := range last.List {
		cost[j] += home[j*len(last.List)] / costHomeward
		if cost[j] < cost[best] {
			best = j
		}
	}
	for i := prevStep; i >= 0; i-- {
		if steps[i].Set == nil {
			continue
		}
		out[i] = best
		best = int(back[i][best])
	}
	return out
}
