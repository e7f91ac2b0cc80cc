// Package bank says what a bank of sounds is: single notes, each held for as long as the song needs it,
// of which sound files and the page put a song together.
//
// A note is rendered once, at full touch. Whoever plays it gives it the gain of its velocity
// (Gain), ends it by an exponential fade (Sound.Release) and, where it has a class, fades what
// sounds of that class. So few notes make a song, and both play the same.
package bank

import "math"

// Rate is the sample rate of all sounds, in hertz.
const Rate = 48000

// MaxSeconds is how long a note is held at most: by then anything struck or plucked is gone.
const MaxSeconds = 12

// MaxFrames are the frames of that.
const MaxFrames = MaxSeconds * Rate

// Holds are the times in seconds for which notes are rendered: a time is rounded up to one of them, so that a note
// that comes to be held a little longer is seldom rendered again.
var Holds = [...]int{1, 2, 3, 4, 6, 8, MaxSeconds}

// Released is after how many time constants a fade is over: -80 dB.
const Released = 9.226

// lastSecond is where a note that still sounds may be faded out.
const lastSecond = MaxFrames - Rate

// Frames is how much is rendered of a note that is held for so many frames: these rounded up, and its release.
// Where that comes near MaxFrames it is MaxFrames.
func Frames(hold int, release float64) int {
	for _, h := range Holds {
		frames := float64(h)*Rate + math.Ceil(Released*release*Rate)
		if hold <= h*Rate && frames <= lastSecond {
			return int(frames)
		}
	}
	return MaxFrames
}

// Patch is an instrument: a General MIDI program, counted from 0, or on the percussion channel
// the number of a kit.
type Patch struct {
	Program uint8
	Drums   bool
}

// Note names a note of a bank: a key of a patch and which of the bank's layers a velocity
// selects. Two velocities that select the same samples give the same Note.
type Note struct {
	Patch
	Key   uint8
	Layer uint8
}

// Sound is a note as it sounds at velocity 127: stereo, Rate frames a second, full scale 1. It ends where the note
// is silent, is faded out at MaxFrames, or is cut off, with no fade, where nobody hears any more of it.
type Sound struct {
	Left, Right []float32 // equally long; empty where the bank has nothing for the key
	// Release is the time constant in seconds of the exponential fade at the note's end.
	Release float64
	// Class, when not 0, is an exclusive class: a new note of the class on the same channel ends
	// this one within Choke seconds (SoundFont 2.04, 8.1.3, generator 57).
	Class int
}

// Choke is the time in seconds in which a choked note fades.
const Choke = 0.005

// Bank is a set of instruments. It may be asked by several goroutines at once.
type Bank interface {
	// Name is what a reader is told: the name of the bank.
	Name() string
	// ID is equal for banks that sound the same; it holds letters and digits only.
	ID() string
	// Note is the note that a velocity, 1 to 127, selects.
	Note(p Patch, key, velocity uint8) Note
	// Sound is a note that Note gave, rendered or kept from before, held for so many frames. It has
	// Frames(hold, its release), or more, or is whole. Its samples are shared: nobody changes them.
	Sound(n Note, hold int) Sound
}

// Gain is the gain of a velocity: (v/127)², as General MIDI Level 1's recommended practice has
// it for volume, and most synthesizers for touch (common practice, no single source).
func Gain(velocity uint8) float64 {
	v := float64(velocity) / 127
	return v * v
}

// Peak is the largest sample without its sign. Positive floats are ordered as their bits.
func Peak(x []float32) float32 {
	most := uint32(0)
	for _, v := range x {
		most = max(most, math.Float32bits(v)&^(1<<31))
	}
	return math.Float32frombits(most)
}
