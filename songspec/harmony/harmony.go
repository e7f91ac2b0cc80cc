// Package harmony spells pitches, keys, chord symbols and Roman numerals. The
// tables of musical fact sit in files of their own, each with its source.
package harmony

// Name is a spelled pitch class. Step counts letters from C (0) to B (6);
// Alter is the accidental in semitones, flats negative, -2 to 2.
type Name struct {
	Step  int8
	Alter int8
}

// Key is a tonic with its mode.
type Key struct {
	Tonic Name
	Minor bool
}

// MaxTones bounds the tones of one chord.
const MaxTones = 8

// Tone is one tone of a chord measured from the root: its degree (1 to 13), its
// alteration against the major scale on the root (-2 to 1: a minor third or
// seventh is -1), and its distance in semitones reduced to 0 to 11.
type Tone struct {
	Degree    int8
	Alter     int8
	Semitones int8
}

// Chord is a chord symbol or a resolved Roman numeral. The zero value is not a
// chord; NoChord is. Chords are comparable with ==.
type Chord struct {
	None   bool   // N.C.
	Root   Name   // spelled for the key it sounds in
	Bass   Name   // equals Root unless a slash says otherwise
	Suffix string // the quality in plinth's own canonical spelling: "m7b5"
	tones  [MaxTones]Tone
	n      int8
}
