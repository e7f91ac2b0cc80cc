package serve

import (
	"context"
	"sync"

	"plinth/render/audio/bank"
	"plinth/render/page"
)

// keptStates is for how many states a pass stays that is in none of them any more, so that a slow
// page still gets it, and from how long ago a page is told where its passes went.
const keptStates = 64

// maxKept is how many bytes of passes stay so at most: of a very long song those of a few states.
const maxKept = 64 << 20

// maxRoomBars is how long a song may be to have its room measured.
const maxRoomBars = 10_000

// story is what the page has been told so far. Who tells never waits for who listens.
type story struct {
	mu       sync.Mutex
	state    page.State
	room     []byte // of the state's bed; nil until it is measured
	chunks   map[string]kept[[]byte]
	notes    map[string]kept[bank.Note]
	went     map[int][]page.Went // by revision: where the chunks of the one before it went
	watchers map[chan struct{}]bool
	measure  chan *page.Bed // one place: the newest bed
}

// kept is something with the last revision that had it.
type kept[T any] struct {
	value T
	rev   int
}

func newStory(first page.State) *story {
	return &story{state: first, chunks: map[string]kept[[]byte]{}, notes: map[string]kept[bank.Note]{},
		went: map[int][]page.Went{}, watchers: map[chan struct{}]bool{}, measure: make(chan *page.Bed, 1)}
}

// tell makes a new state of the one that is. change may not keep the state.
func (s *story) tell(change func(state *page.State)) {
	s.mu.Lock()
	defer s.mu.Unlock()
	old := s.state.Bed
	change(&s.state)
	s.state.Rev++
	rev, bed := s.state.Rev, s.state.Bed
	switch {
	case old == nil || bed == nil:
	case old == bed:
		s.went[rev] = page.Stayed(bed)
	default:
		s.went[rev], s.state.Changed = page.Changes(old, bed)
	}
	delete(s.went, rev-keptStates)
	if bed != old {
		s.room = nil
		s.keep(bed, rev)
	}
	s.wake()
}

// keep takes up what a bed has, and drops what no page can ask for any more.
func (s *story) keep(b *page.Bed, rev int) {
	for _, c := range b.Chunks {
		s.chunks[c.Hash] = kept[[]byte]{c.JSON, rev}
	}
	for name, n := range b.Notes {
		s.notes[name] = kept[bank.Note]{n, rev}
	}
	size := 0
	for _, c := range s.chunks {
		size += len(c.value)
	}
	for since := max(0, rev-keptStates); since <= rev; since++ {
		for _, c := range dropOld(s.chunks, since) {
			size -= len(c)
		}
		dropOld(s.notes, since)
		if size <= maxKept {
			break
		}
	}
	if b.Timeline.SongBars() > maxRoomBars {
		return
	}
	select {
	case <-s.measure: // an older one that has not begun
	default:
	}
	s.measure <- b
}

// dropOld drops what no state since a revision had, and returns it.
func dropOld[T any](all map[string]kept[T], since int) (dropped []T) {
	for name, k := range all {
		if k.rev < since {
			delete(all, name)
			dropped = append(dropped, k.value)
		}
	}
	return dropped
}

// wake lets all who listen look again. One who has not looked yet has his notice already.
func (s *story) wake() {
	for w := range s.watchers {
		select {
		case w <- struct{}{}:
		default:
		}
	}
}

// measureRooms measures the rooms of beds, always of the newest, until ctx is done.
func (s *story) measureRooms(ctx context.Context, measure func(*page.Bed) []byte) {
	for {
		select {
		case <-ctx.Done():
			return
		case bed := <-s.measure:
			room := measure(bed)
			s.mu.Lock()
			if s.state.Bed == bed {
				s.room = room
				s.wake()
			}
			s.mu.Unlock()
		}
	}
}

// chunk is a pass by its hash.
func (s *story) chunk(hash string) ([]byte, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	k, ok := s.chunks[hash]
	return k.value, ok
}

// note is a note of the bank by its name, where the song plays it.
func (s *story) note(name string) (bank.Note, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	k, ok := s.notes[name]
	return k.value, ok
}

// listen gives a channel that has a notice in it when there is something new, and what ends it. It is
// nil when there are too many already.
func (s *story) listen() (notice chan struct{}, end func()) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.watchers) >= maxStreams {
		return nil, nil
	}
	notice = make(chan struct{}, 1)
	s.watchers[notice] = true
	return notice, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.watchers, notice)
	}
}

// told is how much a page has been told: up to which state, and of which the room.
type told struct{ rev, room int }

// news is what a page has not been told yet: the newest state and its room, each nil where it has it. whole
// is for a page that may have lost what it was told.
func (s *story) news(has told, whole bool) (state, room []byte, now told) {
	s.mu.Lock()
	st, since := s.state, s.since(has.rev)
	room = s.room
	s.mu.Unlock()
	if st.Rev > 0 && (whole || st.Rev != has.rev) {
		state = st.JSON(since)
	}
	now = told{st.Rev, has.room}
	if room == nil || has.room == st.Rev {
		return state, nil, now
	}
	return state, page.RoomOf(st.Rev, room), told{st.Rev, st.Rev}
}

// since is where the chunks of an earlier state are now; nil where that is not known.
func (s *story) since(rev int) *page.Since {
	if rev <= 0 || rev > s.state.Rev || s.state.Bed == nil {
		return nil
	}
	if rev == s.state.Rev {
		return &page.Since{Rev: rev, Chunks: page.Stayed(s.state.Bed)}
	}
	out := s.went[rev+1]
	for r := rev + 2; r <= s.state.Rev && out != nil; r++ {
		out = page.Then(out, s.went[r])
	}
	if out == nil {
		return nil
	}
	return &page.Since{Rev: rev, Chunks: out}
}
