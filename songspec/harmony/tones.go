package harmony

// ToneCount is the number of tones, 0 for N.C.
func (c Chord) ToneCount() int { return int(c.n) }

// Tone is the i-th tone of Tones, without a copy of the others.
func (c Chord) Tone(i int) Tone { return c.tones[:c.n][i] }

// PCs are the pitch classes of Tones, in their order; nil for N.C.
func (c Chord) PCs() []int {
	if c.n == 0 {
		return nil
	}
	out := make([]int, c.n)
	for i, t := range c.tones[:c.n] {
		out[i] = mod12(c.Root.PC() + int(t.Semitones))
	}
	return out
}

// PCSet is the same as bits: bit 0 is C, bit 11 is B.
func (c Chord) PCSet() uint16 {
	var set uint16
	for _, t := range c.tones[:c.n] {
		set |= 1 << mod12(c.Root.PC()+int(t.Semitones))
	}
	return set
}

// Spell names a tone of the chord by its degree's letter: the third of Ab minor
// is Cb. Where that would take more than a double accidental, the plain name.
func (c Chord) Spell(t Tone) Name {
	n, _ := c.Root.Up(int(t.Degree-1), int(t.Semitones))
	return n
}

// HasThird reports whether the chord has a third, which the sus chords, the
// power chord and the 11 have not.
func (c Chord) HasThird() bool {
	for _, t := range c.tones[:c.n] {
		if t.Degree == 3 {
			return true
		}
	}
	return false
}

// Essential reports whether a tone makes the chord what it is and is never
// dropped: the third or what is suspended in its place, the seventh, the sixth
// of a sixth chord, and every altered tone, an altered fifth among them. Common
// practice, no single source.
func (c Chord) Essential(t Tone) bool {
	switch t.Degree {
	case 1:
		return false
	case 3, 7, 6:
		return true
	case 2, 4:
		return !c.HasThird()
	}
	return t.Alter != 0
}

// DropOrder lists the tones a player with too few fingers leaves out, the first
// to go first: the root, which the bass has; the plain fifth; then unaltered
// ninths, elevenths, thirteenths and added seconds and fourths, the one that
// names the chord last. The essential tones are not in it.
func (c Chord) DropOrder() []Tone {
	if c.n == 0 {
		return nil
	}
	out := make([]Tone, 0, c.n)
	for _, degree := range [...]int8{1, 5, 2, 4, 9, 11, 13} {
		for _, t := range c.tones[:c.n] {
			if t.Degree == degree && !c.Essential(t) {
				out = append(out, t)
			}
		}
	}
	return out
}
