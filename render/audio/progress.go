package audio

import "sync"

// progress counts the pieces of work that are done: a note rendered, a stem put together, a block of the reverb.
type progress struct {
	mu          sync.Mutex
	tell        func(share float64) // may be nil
	did, pieces int
}

// step says that a piece is done.
func (p *progress) step() {
	if p == nil || p.tell == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.did++
	p.tell(float64(p.did) / float64(p.pieces))
}

// skip says that there are so many pieces less to do.
func (p *progress) skip(pieces int) { p.did += pieces }
