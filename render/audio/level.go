// Package audio takes what is heard of a song and a bank of sounds and mixes them: stems and a mix, and
// these as sound files. The page mixes alike, with the same levels and the same reverb.
package audio

import (
	"math"

	"plinth/render/heard"
	"plinth/songspec/timeline"
)

// Level is how a part stands in the mix.
type Level struct {
	Gain float64 // linear
	Pan  float64 // -1 left, 1 right
	Send float64 // how much of the part, as it is panned, goes to the reverb: linear
}

// levels has a row for each Who. It is the mix of a warm ballad: the piano carries, the bass lies some 3 dB under
// it and the kit 6, and click, guide and pitch are there to be followed, not listened to. The examples
// peak between -4 and -10 dBFS with the banks TimGM6mb and FluidR3, before Mix makes that -1.
var levels = [...]Level{
	heard.Who(timeline.Drums): {decibels(-9.5), 0, decibels(-20)},
	heard.Who(timeline.Bass):  {decibels(-10.5), 0, decibels(-32)},
	heard.Who(timeline.Piano): {decibels(-3), 0, decibels(-15)},
	heard.Click:               {decibels(-14), 0, 0},
	heard.Guide:               {decibels(-13), 0, decibels(-14)},
	heard.Pitch:               {decibels(-13), 0, decibels(-18)},
}

// LevelOf is the level of a part.
func LevelOf(w heard.Who) Level { return levels[w] }

// decibels is a level in decibels as a linear gain.
func decibels(db float64) float64 { return math.Pow(10, db/20) }

// pan places a stereo signal as the W3C's Web Audio API 1.0 has it for a StereoPannerNode with two
// channels (1.31, "Panning Algorithm"), so that the page sounds alike. In the middle it changes nothing.
func (l Level) pan(s *Stereo) {
	switch x := l.Pan * math.Pi / 2; {
	case x < 0: // the right channel moves to the left
		toLeft, right := float32(math.Cos(x+math.Pi/2)), float32(math.Sin(x+math.Pi/2))
		for i, r := range s.Right {
			s.Left[i] += r * toLeft
			s.Right[i] = r * right
		}
	case x > 0:
		left, toRight := float32(math.Cos(x)), float32(math.Sin(x))
		for i, l := range s.Left {
			s.Right[i] += l * toRight
			s.Left[i] = l * left
		}
	}
}
