// Package bank says what a bank of sounds is: single notes, each held as long as it sounds,
// of which sound files and the page put a song together.
//
// A note is rendered once, at full touch. Whoever plays it gives it the gain of its velocity
// (Gain), ends it by an exponential fade (Sound.Release) and, where it has a class, fades what
// sounds of that class. So few notes make a song, and both play the same.
package bank

// Rate is the sample rate of all sounds, in hertz.
const Rate = 48000

// MaxSeconds is how long a note is held at most: by then anything struck or plucked is gone.
const MaxSeconds = 12

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

// Sound is a note held to silence or MaxSeconds, as it sounds at velocity 127: stereo, Rate frames
// a second, full scale 1.
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
	// Sound renders a note that Note gave.
	Sound(n Note) Sound
}

// Gain is the gain of a velocity: (v/127)², as General MIDI Level 1's recommended practice has
// it for volume, and most synthesizers for touch (common practice, no single source).
func Gain(velocity uint8) float64 {
	v := float64(velocity) / 127
	return v * v
}
