package main

import (
	"math"

	"plinth/render/audio/bank"
	"plinth/render/page"
)

// placeholder stands in for the banks until they are there.
type placeholder struct{}

func (placeholder) Name() string { return "placeholder" }
func (placeholder) ID() string   { return "placeholder" }
func (placeholder) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key}
}

func (placeholder) Sound(n bank.Note) bank.Sound {
	s := bank.Sound{Release: 0.05, Left: make([]float32, 2*bank.Rate)}
	f := 440 * math.Pow(2, (float64(n.Key)-69)/12)
	for i := range s.Left {
		t := float64(i) / bank.Rate
		s.Left[i] = float32(0.3 * math.Exp(-3*t) * math.Sin(2*math.Pi*f*t))
	}
	s.Right = s.Left
	return s
}

var placeholderSounds = page.Sounds{Bank: placeholder{}, Sketch: true}
