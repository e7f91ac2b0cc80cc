package harmony

// ToneCount is the number of tones, 0 for N.C.
func (c Chord) ToneCount() int { return int(c.n) }

// Tone is the i-th tone of Tones, without a copy of the others.
func (c Chord) Tone(i int) Tone { return c.tones[:c.n][i] }

// PCSet is the pitch classes of Tones as bits: bit 0 is C, bit 11 is B.
func (c Chord) PCSet() uint16 {
	var set uint16
	for _, t := range c.tones[:c.n] {
		set |= 1 << mod12(c.Root.PC()+int(t.Semitones))
	}
	return set
}

// Spell is the name of a tone of the chord by the letter of its degree: the third of Ab
// minor is Cb. Where that needs more than a double accidental, it is the plain name.
func (c Chord) Spell(t Tone) Name {
	n, _ := c.Root.Up(int(t.Degree-1), int(t.Semitones))
	return n
}
