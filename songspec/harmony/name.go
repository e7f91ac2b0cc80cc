package harmony

import (
	"strconv"
	"strings"
)

const letters = "CDEFGAB"

// stepOf is the step of a capital letter, -1 for any other byte: a small b is a flat.
func stepOf(b byte) int { return strings.IndexByte(letters, b) }

// mod12 is the pitch class of a number of semitones, which may be negative.
func mod12(n int) int { return (n%12 + 12) % 12 }

// accidental reads one accidental at the start of s: its alteration and its
// length in bytes, 0 when there is none.
func accidental(s string) (alter, size int) {
	for _, a := range accidentalSigns {
		if strings.HasPrefix(s, a.sign) {
			return a.alter, len(a.sign)
		}
	}
	return 0, 0
}

var accidentalSigns = [...]struct {
	sign  string
	alter int
}{{"b", -1}, {"#", 1}, {"♭", -1}, {"♯", 1}, {"𝄫", -2}, {"𝄪", 2}}

// accidentals reads all accidentals at the start of s: their sum, and their length in
// bytes, 0 when there are none.
func accidentals(s string) (alter, size int) {
	for {
		one, took := accidental(s[size:])
		if took == 0 {
			return alter, size
		}
		alter, size = alter+one, size+took
	}
}

// oneOrTwo reads the accidentals at the start of s as far as they are all flat or all
// sharp and make at most two semitones.
func oneOrTwo(s string) (alter, size int) {
	for {
		one, took := accidental(s[size:])
		if sum := alter + one; took == 0 || alter*one < 0 || sum < -2 || sum > 2 {
			return alter, size
		}
		alter, size = alter+one, size+took
	}
}

// scanName reads a spelled pitch class at the start of s. It returns how many bytes it
// took, 0 when there is none. It takes at most two accidentals, both flat or both sharp.
func scanName(s string) (Name, int) {
	if s == "" || stepOf(s[0]) < 0 {
		return Name{}, 0
	}
	alter, size := oneOrTwo(s[1:])
	return Name{Step: int8(stepOf(s[0])), Alter: int8(alter)}, 1 + size
}

// ParseName reads a spelled pitch class: "C", "Eb", "F#", "Bbb", "E♭". The
// error is a *SymbolError.
func ParseName(s string) (Name, error) {
	n, size := scanName(s)
	switch {
	case size == 0:
		return Name{}, &SymbolError{Kind: NoRoot, Text: s, Length: len(s), Suggest: capital(s),
			Reason: "A note is a capital letter A to G, then b or # if it needs one."}
	case size < len(s):
		return Name{}, &SymbolError{Kind: NoRoot, Text: s, Offset: size, Length: len(s) - size, Suggest: n.String(),
			Reason: "A note ends after its letter and at most two flats or sharps."}
	}
	return n, nil
}

// String is the name in ASCII: "Eb", "F#".
func (n Name) String() string {
	if n.Step < 0 || n.Step > 6 {
		return "?"
	}
	flats, sharps := max(0, -int(n.Alter)), max(0, int(n.Alter))
	return letters[n.Step:n.Step+1] + strings.Repeat("b", flats) + strings.Repeat("#", sharps)
}

// PC is the pitch class, 0 to 11.
func (n Name) PC() int { return mod12(majorScale[n.Step] + int(n.Alter)) }

// MIDI is the MIDI note number in an octave, where C4 is 60. The octave belongs to the
// letter: Cb4 is 59, B#3 is 60. The result may lie outside 0 to 127.
func (n Name) MIDI(octave int) int {
	return 12*(octave+1) + majorScale[n.Step] + int(n.Alter)
}

// ParsePitch reads a note with its octave, "Eb4", as a MIDI note number: see MIDI.
func ParsePitch(s string) (midi int, ok bool) {
	i := strings.IndexAny(s, "0123456789-")
	if i < 1 {
		return 0, false
	}
	name, err := ParseName(s[:i])
	octave, bad := strconv.Atoi(s[i:])
	if err != nil || bad != nil || octave < -1 || octave > 9 {
		return 0, false
	}
	midi = name.MIDI(octave)
	return midi, midi >= 0 && midi <= 127
}

// Up is the name that lies so many letters and semitones above n; both may be negative.
// ok is false when that needs more than a double accidental: up is then the plain name of
// the pitch class.
func (n Name) Up(steps, semitones int) (up Name, ok bool) {
	step := ((int(n.Step)+steps)%7 + 7) % 7
	pc := mod12(n.PC() + semitones)
	alter := mod12(pc-majorScale[step]+6) - 6 // -6 to 5
	if alter < -2 || alter > 2 {
		return plainNames[pc], false
	}
	return Name{Step: int8(step), Alter: int8(alter)}, true
}

// Interval is the way up from n to m: letters 0 to 6, semitones 0 to 11.
func (n Name) Interval(m Name) (steps, semitones int) {
	return (int(m.Step) - int(n.Step) + 7) % 7, mod12(m.PC() - n.PC())
}

// plainNames spells each pitch class as charts do where no key decides: black keys as
// flats, except F#. Common practice, no single source.
var plainNames = [12]Name{{0, 0}, {1, -1}, {1, 0}, {2, -1}, {2, 0}, {3, 0},
	{3, 1}, {4, 0}, {5, -1}, {5, 0}, {6, -1}, {6, 0}}

// awkward reports a name that needs a double accidental, or one for which there is a plain
// letter: B#, E#, Cb, Fb. Only a key that has such a name should show it.
func (n Name) awkward() bool {
	return n.Alter < -1 || n.Alter > 1 || n.Alter != 0 && plainNames[n.PC()].Alter == 0
}
