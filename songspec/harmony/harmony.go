// Package harmony reads the text of a chord symbol, a Roman numeral, a key or a note
// name and returns it as a value with spelled notes: a Chord, a Key or a Name. Text that
// cannot be read comes back as a *SymbolError with what to write instead.
//
// ParseEither reads whatever stands in a chart, ParseChord and ParseNumeral read one of
// the two, ParseKey reads a key. String writes the canonical spelling. The facts of music
// stand in tables, each with its source.
package harmony

// Name is a spelled pitch class, such as Eb. Step is the letter, C (0) to B (6); Alter
// is its accidental in semitones, -2 (bb) to 2 (##).
type Name struct {
	Step  int8
	Alter int8
}

// Key is a tonic with its mode: major unless Minor is set. The zero value is C major.
type Key struct {
	Tonic Name
	Minor bool
}

// MaxTones is how many tones a chord has at most.
const MaxTones = 8

// Tone is one tone of a chord, measured from the root: its degree (1 to 13), its
// alteration in semitones against the major scale on the root (-2 to 1; a minor third
// and a minor seventh are -1), and its distance in semitones within an octave (0 to 11).
type Tone struct {
	Degree    int8
	Alter     int8
	Semitones int8
}

// Chord is a chord symbol, or a Roman numeral resolved in a key. Make one with ParseChord,
// ParseNumeral or NoChord: the zero value is no chord. Chords can be compared with ==.
type Chord struct {
	None   bool   // N.C.
	Root   Name   // spelled for the key it sounds in
	Bass   Name   // equals Root unless a slash says otherwise
	Suffix string // the quality in plinth's own canonical spelling: "m7b5"
	tones  [MaxTones]Tone
	n      int8
}
