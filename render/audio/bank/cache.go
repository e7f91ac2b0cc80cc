package bank

import "sync"

// mostKept bounds the samples that a bank keeps: 192 MiB of four bytes each.
const mostKept = 48 << 20

// Cache keeps the notes of a bank that were asked for last. A note that several ask for at once is rendered once,
// and one that was rendered longer serves who asks for less. The zero value is ready.
type Cache struct {
	mu      sync.Mutex
	notes   map[Note]*kept
	samples int
	clock   int // counts what was asked for
}

// kept is a note that is rendered, or will be when ready is closed.
type kept struct {
	ready  chan struct{}
	frames int // that it is good for
	sound  Sound
	failed bool // rendering has panicked
	used   int
}

// Get is a note of so many frames, or a whole one, which render makes where it is not kept. It panics where
// render does.
func (c *Cache) Get(n Note, frames int, render func(frames int) Sound) Sound {
	c.mu.Lock()
	k := c.notes[n]
	mine := k == nil || k.frames < frames
	if mine {
		k = &kept{ready: make(chan struct{}), frames: frames}
		c.put(n, k)
	}
	c.clock++
	k.used = c.clock
	c.mu.Unlock()
	if mine {
		c.render(n, k, render)
	}
	<-k.ready
	if k.failed {
		return c.Get(n, frames, render)
	}
	return k.sound
}

// put has a note in the place of a shorter one.
func (c *Cache) put(n Note, k *kept) {
	if c.notes == nil {
		c.notes = map[Note]*kept{}
	}
	c.drop(n)
	c.notes[n] = k
}

// render renders a note, and makes room for it.
func (c *Cache) render(n Note, k *kept, render func(frames int) Sound) {
	k.failed = true
	defer func() {
		c.mu.Lock()
		defer c.mu.Unlock()
		close(k.ready)
		switch {
		case c.notes[n] != k: // a longer one has its place
		case k.failed:
			delete(c.notes, n)
		default:
			if len(k.sound.Left) < k.frames {
				k.frames = MaxFrames // it is whole
			}
			c.samples += k.sound.samples()
			for c.samples > mostKept && c.dropOldest(k) {
			}
		}
	}()
	k.sound = render(k.frames)
	k.failed = false
}

// drop forgets a note. What is not rendered yet is not counted either.
func (c *Cache) drop(n Note) {
	if k := c.notes[n]; k != nil {
		if k.isReady() {
			c.samples -= k.sound.samples()
		}
		delete(c.notes, n)
	}
}

// dropOldest drops the note that was asked for longest ago, but not the one that was just rendered. It reports
// whether there was any.
func (c *Cache) dropOldest(but *kept) bool {
	var oldest *kept
	var of Note
	for n, k := range c.notes {
		if k != but && k.isReady() && (oldest == nil || k.used < oldest.used) {
			oldest, of = k, n
		}
	}
	if oldest == nil {
		return false
	}
	c.drop(of)
	return true
}

func (k *kept) isReady() bool {
	select {
	case <-k.ready:
		return true
	default:
		return false
	}
}

// samples are how many it has. Both sides may be one.
func (s *Sound) samples() int {
	if len(s.Left) > 0 && &s.Left[0] == &s.Right[0] {
		return len(s.Left)
	}
	return len(s.Left) + len(s.Right)
}
