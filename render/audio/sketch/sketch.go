package sketch

import (
	"sync"

	"plinth/render/audio/bank"
)

// version is raised whenever a note sounds otherwise than before: pages and files keep notes by it.
const version = "4"

// Bank is plinth's own bank. Make one with New.
type Bank struct {
	mu    sync.Mutex
	notes map[bank.Note]*kept
	done  []bank.Note // the finished ones, oldest first
	held  int         // samples in them
	most  int         // that they may hold
}

// kept is a note that was asked for.
type kept struct {
	once  sync.Once
	sound bank.Sound
}

// mostHeld is how many samples finished notes may hold: 128 MiB of four bytes each.
const mostHeld = 32 << 20

// New is a bank with nothing computed yet.
func New() *Bank { return &Bank{notes: map[bank.Note]*kept{}, most: mostHeld} }

// Name is the bank's name for a reader.
func (*Bank) Name() string { return "plinth's own sketch" }

// ID changes with the sound.
func (*Bank) ID() string { return "sketch" + version }

// Note is the note that a velocity selects. Patches that are one instrument here give the same note.
func (*Bank) Note(p bank.Patch, key, velocity uint8) bank.Note {
	n := bank.Note{Patch: nearest(p), Key: min(key, 127)}
	for _, from := range layers(n.Patch, int(n.Key)) {
		if velocity >= from {
			n.Layer++
		}
	}
	return n
}

// Sound is the note, computed now or kept from before. Callers share its samples and leave them as they are.
func (b *Bank) Sound(n bank.Note) bank.Sound {
	b.mu.Lock()
	k := b.notes[n]
	if k == nil {
		k = &kept{}
		b.notes[n] = k
	}
	b.mu.Unlock()
	k.once.Do(func() {
		k.sound = compute(n)
		b.keep(n, len(k.sound.Left)+len(k.sound.Right))
	})
	return k.sound
}

// keep counts a finished note, and lets the oldest go when there are too many.
func (b *Bank) keep(n bank.Note, samples int) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.done = append(b.done, n)
	b.held += samples
	for len(b.done) > 1 && b.held > b.most {
		s := &b.notes[b.done[0]].sound
		b.held -= len(s.Left) + len(s.Right)
		delete(b.notes, b.done[0])
		b.done = b.done[1:]
	}
}
