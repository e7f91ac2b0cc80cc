package groove

import "plinth/songspec/harmony"

// voiceStep is one chord of a pass on the way of least motion.
type voiceStep struct {
	set *candidateSet
	// extra, when not nil, is a cost for each candidate that the place in the song
	// brings, such as the tune that is sung there.
	extra []int32
	same  bool // the chord before goes on
	lead  bassLead
}

// candidateSet is the candidates of one chord, shared by its every return.
type candidateSet struct {
	id   int
	bass int // pitch class that the bass plays
	list []candidate
}

// setKey is what a candidate set depends on.
type setKey struct {
	chord  harmony.Chord
	voices int
	avoid  uint16
	w      compRoom
}

// voicer keeps the sets and the costs between them, so that a chart that goes
// round, and a section that comes again, cost their chords once. Both are settled
// by their keys alone, so that it does not matter what was asked for before. It is
// for one goroutine.
type voicer struct {
	sets  map[setKey]*candidateSet
	moves map[moveKey][]int32
}

// moveKey is what the costs between two sets depend on.
type moveKey struct {
	a, b int
	lead bassLead
}

// maxMoves and maxSets bound what is kept: past maxMoves costs are worked out
// again, and a pass that finds more than maxSets begins anew.
const (
	maxMoves = 512
	maxSets  = 1024
)

func newVoicer() *voicer {
	return &voicer{sets: map[setKey]*candidateSet{}, moves: map[moveKey][]int32{}}
}

// set returns the candidates of a chord; nil when nothing can be played.
func (vc *voicer) set(c harmony.Chord, voices int, avoid uint16, w compRoom) *candidateSet {
	if c.None {
		return nil
	}
	key := setKey{c, voices, avoid, w}
	if s, ok := vc.sets[key]; ok {
		return s
	}
	var s *candidateSet
	if list := candidates(c, voices, avoid, w); len(list) > 0 {
		s = &candidateSet{id: len(vc.sets), bass: c.Bass.PC(), list: list}
	}
	vc.sets[key] = s
	return s
}

// between is the cost from every candidate of a to every one of b, a's index
// first.
func (vc *voicer) between(a, b *candidateSet, lead bassLead) []int32 {
	key := moveKey{a.id, b.id, lead}
	if m, ok := vc.moves[key]; ok {
		return m
	}
	m := make([]int32, 0, len(a.list)*len(b.list))
	for i := range a.list {
		for j := range b.list {
			m = append(m, moveCost(&a.list[i].voicing, &b.list[j].voicing, a.bass, b.bass, lead))
		}
	}
	if len(vc.moves) >= maxMoves {
		clear(vc.moves)
	}
	vc.moves[key] = m
	return m
}

// path chooses a candidate for every step so that the sum of all costs is the
// least there is (Viterbi's algorithm): what each voicing costs alone, what each
// move costs, coming from the canonical voicing of the chord before the pass
// (nil at the start of a song) and ending, where it costs little, near the
// canonical voicing of the last chord, which is where the next pass believes to
// come from. Steps without a set
// are passed over. The result has a candidate's index for each step.
func (vc *voicer) path(before *candidateSet, steps []voiceStep) []int {
	out := make([]int, len(steps))
	back := make([][maxCandidates]uint8, len(steps))
	var cost, next [maxCandidates]int32
	prev, prevStep := before, -1
	from := 1 // how many candidates of prev may be come from
	for i := range steps {
		st := &steps[i]
		if st.set == nil {
			continue
		}
		n := len(st.set.list)
		var moves []int32
		if prev != nil {
			moves = vc.between(prev, st.set, st.lead)
		}
		for j := 0; j < n; j++ {
			best, bestFrom := int32(0), 0
			for k := 0; k < from && prev != nil; k++ {
				c := cost[k] + moves[k*n+j]
				if st.same && (prev != st.set || k != j) {
					c += costStay
				}
				if k == 0 || c < best {
					best, bestFrom = c, k
				}
			}
			next[j] = best + st.set.list[j].cost
			if st.extra != nil {
				next[j] += st.extra[j]
			}
			back[i][j] = uint8(bestFrom)
		}
		cost, next = next, cost
		prev, prevStep, from = st.set, i, n
	}
	if prevStep < 0 {
		return out
	}
	last := steps[prevStep].set
	home := vc.between(last, last, bassLead{})
	best := 0
	for j := range last.list {
		cost[j] += home[j*len(last.list)] / costHomeward
		if cost[j] < cost[best] {
			best = j
		}
	}
	for i := prevStep; i >= 0; i-- {
		if steps[i].set == nil {
			continue
		}
		out[i] = best
		best = int(back[i][best])
	}
	return out
}
