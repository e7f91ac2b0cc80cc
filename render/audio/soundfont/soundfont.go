// Package soundfont takes the bytes of a SoundFont 2 file and is a bank of its sounds, rendered by
// go-meltysynth.
//
// A SoundFont note is a set of zones, each a sample with its envelopes. They are rendered one at a time and
// added: the library ends a note's stereo half when the other half of the same note begins, where both
// have an exclusive class. Section numbers in comments are those of the SoundFont Technical
// Specification 2.04.
package soundfont

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"slices"
	"sync"

	"github.com/sinshu/go-meltysynth/meltysynth"

	"plinth/render/audio/bank"
)

// Bank is a SoundFont.
type Bank struct {
	name, id string
	font     *meltysynth.SoundFont
	presets  map[int32]*meltysynth.Preset // by bank<<16 | number

	mu     sync.Mutex
	layers map[layerKey]*layers
	cache  bank.Cache
}

// MaxSize bounds the file, in bytes.
const MaxSize = 1 << 30

// maxZones bounds the zones of a preset, so that a file cannot keep us busy; FluidR3's largest has 720.
const maxZones = 1 << 16

// rendering is part of the ID: it changes when the same bytes come to sound otherwise.
const rendering = "1"

// percussion is the bank of the kits (7.2).
const percussion = 128

// Open reads a SoundFont. name is what readers are told. The bytes are not kept.
func Open(data []byte, name string) (*Bank, error) {
	if len(data) > MaxSize {
		return nil, errors.New("the SoundFont has more than 1 GiB")
	}
	font, err := read(data)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(data)
	b := &Bank{name: name, id: rendering + hex.EncodeToString(sum[:8]), font: font,
		presets: map[int32]*meltysynth.Preset{}, layers: map[layerKey]*layers{}}
	for _, p := range font.Presets {
		zones := 0
		for _, r := range p.Regions {
			zones += len(r.Instrument.Regions)
		}
		if zones > maxZones {
			return nil, errors.New("the SoundFont has an instrument of too many zones")
		}
		id := p.BankNumber<<16 | p.PatchNumber
		if _, ok := b.presets[id]; !ok {
			b.presets[id] = p
		}
	}
	return b, nil
}

// Name is the name that Open was given.
func (b *Bank) Name() string { return b.name }

// ID is a hash of the file.
func (b *Bank) ID() string { return b.id }

// Has reports whether the bank has anything for a patch, be it another instrument in its place.
func (b *Bank) Has(p bank.Patch) bool {
	_, preset := b.preset(p)
	return preset != nil
}

// preset is what plays a patch. What the bank lacks is played as General MIDI players do: a kit by the
// standard kit, and an instrument by the first one, the piano. A bank without kits has no drums:
// no other instrument is played with drum keys.
func (b *Bank) preset(p bank.Patch) (bank.Patch, *meltysynth.Preset) {
	base := int32(0)
	if p.Drums {
		base = percussion << 16
	}
	if preset := b.presets[base|int32(p.Program)]; preset != nil {
		return p, preset
	}
	for number := range int32(128) {
		if preset := b.presets[base|number]; preset != nil {
			return bank.Patch{Program: uint8(number), Drums: p.Drums}, preset
		}
	}
	return p, nil
}

// Note is the note that a velocity selects. Its patch is the one that plays it.
func (b *Bank) Note(p bank.Patch, key, velocity uint8) bank.Note {
	p, _ = b.preset(p)
	key, velocity = min(key, 127), min(velocity, 127)
	return bank.Note{Patch: p, Key: key, Layer: b.layersOf(p, key).of[velocity]}
}

// Sound renders a note, or has it still. Its samples are shared: nobody changes them.
func (b *Bank) Sound(n bank.Note, hold int) bank.Sound {
	n.Patch, _ = b.preset(n.Patch)
	n.Key = min(n.Key, 127)
	l := b.layersOf(n.Patch, n.Key)
	if int(n.Layer) >= len(l.sets) || len(l.sets[n.Layer]) == 0 {
		return bank.Sound{}
	}
	zones := l.sets[n.Layer]
	return b.cache.Get(n, framesOf(zones, hold), func(frames int) bank.Sound { return b.render(zones, n.Key, frames) })
}

// framesOf is how much is rendered of zones that sound together. Where their releases differ it is all: the one
// that sounds longest decides.
func framesOf(zones []zone, hold int) int {
	release := zones[0].release()
	if slices.ContainsFunc(zones, func(z zone) bool { return z.release() != release }) {
		return bank.MaxFrames
	}
	return bank.Frames(hold, release)
}
