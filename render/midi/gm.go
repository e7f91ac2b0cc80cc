package midi

import (
	"slices"
	"strconv"

	"plinth/groove"
)

// programNames are the General MIDI Level 1 names of the pianos, the basses and the
// click's instrument, by program counted from 0. A song file can ask for no other.
var programNames = map[uint8]string{
	0: "Acoustic Grand Piano", 1: "Bright Acoustic Piano", 2: "Electric Grand Piano", 3: "Honky-tonk Piano",
	4: "Electric Piano 1", 5: "Electric Piano 2", 6: "Harpsichord", 7: "Clavinet",
	32: "Acoustic Bass", 33: "Electric Bass (finger)", 34: "Electric Bass (pick)", 35: "Fretless Bass",
	36: "Slap Bass 1", 37: "Slap Bass 2", 38: "Synth Bass 1", 39: "Synth Bass 2",
	clickProgram: "Woodblock",
}

// Instrument is what a track is played with: a name for the reader and a General MIDI program
// counted from 0.
type Instrument struct {
	Name    string
	Program uint8
}

// Sound is what a track is played with from a tick on.
type Sound struct {
	Tick int64
	Instrument
}

// programSound is a melodic instrument.
func programSound(program uint8) Instrument {
	name, ok := programNames[program]
	if !ok {
		name = "Program " + strconv.Itoa(int(program)+1)
	}
	return Instrument{name, program}
}

// kitSound is the drum kit for a word of the song file. General MIDI Level 1 has one kit,
// program 0. Program 40 for brushes is the convention of its successors (from memory: GS
// and General MIDI Level 2); a Level 1 player ignores it and plays the standard kit. Where
// the song file does not change it a song keeps one kit from start to end, because only some
// players follow a change.
func kitSound(word string) Instrument {
	if word == "brushes" {
		return Instrument{"Brush Kit", 40}
	}
	return Instrument{"Standard Kit", 0}
}

// clickProgram is General MIDI's Woodblock, counted from 0.
const clickProgram = 115

// The click's two pitches, C6 for the first beat of a bar and C5 for the others.
const (
	clickHigh = 84
	clickLow  = 72
)

// percussionHigh is the General MIDI percussion key of the high wood block. The
// performance writes the first beat of a bar with it, and every other beat with another.
const percussionHigh = 76

// clickNotes moves the click from percussion keys to the two pitches of its instrument.
func clickNotes(notes []groove.Note) []groove.Note {
	out := slices.Clone(notes)
	for i := range out {
		if out[i].Key == percussionHigh {
			out[i].Key = clickHigh
		} else {
			out[i].Key = clickLow
		}
	}
	return out
}
