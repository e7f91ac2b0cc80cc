package sketch

import (
	"plinth/render/audio/bank"
)

// version is raised whenever a note sounds otherwise than before: pages and files keep notes by it.
const version = "4"

// Bank is plinth's own bank. Make one with New.
type Bank struct{ cache bank.Cache }

// New is a bank with nothing computed yet.
func New() *Bank { return &Bank{} }

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
func (b *Bank) Sound(n bank.Note, hold int) bank.Sound {
	return b.cache.Get(n, bank.Frames(hold, releaseOf(n)), func(frames int) bank.Sound { return compute(n, frames) })
}
