package midi

import (
	"strconv"

	"plinth/groove"
)

// programNames are the General MIDI Level 1 names of the sounds that a song file
// can ask for, by program counted from 0: the pianos and the basses, and the
// click's.
var programNames = map[uint8]string{
	0: "Acoustic Grand Piano", 1: "Bright Acoustic Piano", 2: "Electric Grand Piano", 3: "Honky-tonk Piano",
	4: "Electric Piano 1", 5: "Electric Piano 2", 6: "Harpsichord", 7: "Clavinet",
	32: "Acoustic Bass", 33: "Electric Bass (finger)", 34: "Electric Bass (pick)", 35: "Fretless Bass",
	36: "Slap Bass 1", 37: "Slap Bass 2", 38: "Synth Bass 1", 39: "Synth Bass 2",
	clickProgram: "Woodblock",
}

func programName(program uint8) string {
	if name, ok := programNames[program]; ok {
		return name
	}
	return "Program " + strconv.Itoa(int(program)+1)
}

// kit is a drum kit as channel 10 knows it.
type kit struct {
	name    string
	program uint8
}

// kitOf is the kit for a word of the song file. General MIDI Level 1 has one kit,
// program 0. Program 40 for brushes is the convention of its successors (from
// memory: GS and General MIDI Level 2); a Level 1 player ignores it and plays the
// standard kit. A song has one kit from start to end: a change in mid-song is
// taken by some players and ignored by others.
func kitOf(word string) kit {
	switch word {
	case "brushes":
		return kit{"Brush Kit", 40}
	default:
		return kit{"Standard Kit", 0}
	}
}

// clickProgram is General MIDI's Woodblock, counted from 0.
const clickProgram = 115

// The click's two pitches, an octave apart so that the bar's first beat is heard
// as such: C6 and C5.
const (
	clickHigh = 84
	clickLow  = 72
)

// percussionHigh is the General MIDI percussion key of the high wood block, in
// which the performance writes the bar's first beat; every other key is a low one.
const percussionHigh = 76

// clickNotes moves the click from percussion keys to the melodic wood block.
func clickNotes(notes []groove.Note) []groove.Note {
	out := make([]groove.Note, len(notes))
	for i, n := range notes {
		n.Key = map[bool]uint8{true: clickHigh, false: clickLow}[n.Key == percussionHigh]
		out[i] = n
	}
	return out
}
