package harmony

// ParseName reads "C", "Eb", "F#", "Bbb", "E♭".
func ParseName(s string) (Name, error) { panic("harmony: to come") }

// String is the name in ASCII: "Eb", "F#".
func (n Name) String() string { panic("harmony: to come") }

// PC is the pitch class, 0 to 11.
func (n Name) PC() int { panic("harmony: to come") }

// ParseKey reads "Eb major", "C minor", "Eb", "Cm".
func ParseKey(s string) (Key, error) { panic("harmony: to come") }

// String is "Eb major".
func (k Key) String() string { panic("harmony: to come") }

// Fifths is the number of sharps (positive) or flats (negative), -7 to 7.
func (k Key) Fifths() int { panic("harmony: to come") }

// Transpose is the key that many semitones away, in the signature with the
// fewest accidentals.
func (k Key) Transpose(semitones int) Key { panic("harmony: to come") }

// ParseChord reads a letter symbol: "Cm7b5/Gb", "N.C.".
func ParseChord(s string) (Chord, error) { panic("harmony: to come") }

// ParseNumeral reads a Roman numeral in a key: "iv6", "bVI", "V7/V", "I/5".
func ParseNumeral(s string, k Key) (Chord, error) { panic("harmony: to come") }

// ParseEither reads a letter symbol or a numeral and says which it was.
func ParseEither(s string, k Key) (c Chord, numeral bool, err error) { panic("harmony: to come") }

// String is the symbol: "Cm7b5/Gb", "N.C.".
func (c Chord) String() string { panic("harmony: to come") }

// Tones are the chord's tones from the root, the slash bass not among them
// unless it belongs; nil for N.C.
func (c Chord) Tones() []Tone { panic("harmony: to come") }

// Transpose moves a chord from one key to another, spelled for the new one.
func (c Chord) Transpose(from, to Key) Chord { panic("harmony: to come") }

// Distance is the least total motion in semitones between two sets of pitch
// classes, every note of each taking part in at least one pair.
func Distance(a, b []int) int { panic("harmony: to come") }
