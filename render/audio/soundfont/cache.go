package soundfont

import (
	"sync"

	"plinth/render/audio/bank"
)

// maxCached bounds the samples that a bank keeps, in frames: 192 MiB of two channels.
const maxCached = 24 << 20

// cache keeps the notes that were rendered last. A note that several ask for at once is rendered once.
type cache struct {
	mu     sync.Mutex
	notes  map[bank.Note]*entry
	order  []bank.Note // as they were made
	frames int
}

// entry is a note that is there or is being made.
type entry struct {
	once  sync.Once
	sound bank.Sound
}

// get is a note, which make renders where it is not kept.
func (c *cache) get(n bank.Note, make func() bank.Sound) bank.Sound {
	c.mu.Lock()
	e := c.notes[n]
	if e == nil {
		e = &entry{}
		c.notes[n] = e
	}
	c.mu.Unlock()
	e.once.Do(func() {
		e.sound = make()
		c.keep(n, e)
	})
	return e.sound
}

// keep counts a new note and lets the oldest go where there are too many.
func (c *cache) keep(n bank.Note, e *entry) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.order = append(c.order, n)
	c.frames += len(e.sound.Left)
	for c.frames > maxCached && len(c.order) > 1 {
		old := c.order[0]
		c.order = c.order[1:]
		c.frames -= len(c.notes[old].sound.Left)
		delete(c.notes, old)
	}
}
