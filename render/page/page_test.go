package page

import (
	"plinth/render/audio/bank"
)

// tones is a bank with two layers and no sound.
type tones struct{}

func (tones) Name() string { return "tones" }
func (tones) ID() string   { return "tones1" }
func (tones) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key, Layer: velocity / 64}
}
func (tones) Sound(bank.Note) bank.Sound { return bank.Sound{} }

var sounds = Sounds{Bank: tones{}}
