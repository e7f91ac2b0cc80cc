package voicing

// handFingers is how many keys a hand holds at most.
const handFingers = 5

// Playable reports whether ascending keys split into two hands.
func Playable[K int | uint8](keys []K, span int) bool {
	n := len(keys)
	for k := max(0, n-handFingers); k <= min(n, handFingers); k++ {
		left := k == 0 || int(keys[k-1]-keys[0]) <= span
		right := k == n || int(keys[n-1]-keys[k]) <= span
		if left && right {
			return true
		}
	}
	return false
}

// FirstMuddy returns two of ascending keys under the low interval limit.
func FirstMuddy(keys []int) (low, high int, ok bool) {
	for i, low := range keys {
		for _, high := range keys[i+1:] {
			if Muddy(low, high) {
				return low, high, true
			}
		}
	}
	return 0, 0, false
}

// holds reports whether two hands reach the notes: some split leaves each hand
// within its span. Where the left has the bass, the right takes them all.
func (w Room) holds(v *Voicing) bool {
	if w.Left > 0 {
		return v.Top()-int(v.Notes[0]) <= w.Span
	}
	return Playable(v.Notes[:v.N], w.Span)
}

// sounds reports whether the notes make a clear chord: nothing under the low
// interval limits, no semitone with the top voice, none between a sharp ninth and the
// third over it where the chord can do without, no minor ninth unless it is the
// chord's own flat ninth over its root, no three notes within a minor third.
func (l *layout) sounds(v *Voicing) bool {
	if l.room.Left > 0 && !ClearOver(l.room.Left, v) {
		return false
	}
	for i := int8(0); i < v.N; i++ {
		low := int(v.Notes[i])
		for j := i + 1; j < v.N; j++ {
			high := int(v.Notes[j])
			switch d := high - low; {
			case Muddy(low, high):
				return false
			case d == 1 && (j == v.N-1 || l.apart&(1<<(low%12)) != 0):
				return false
			case (d == 13 || d == 25) && (low%12 != l.root || !l.flatNine):
				return false
			case d <= 3 && j > i+1:
				return false
			}
		}
	}
	return true
}

// ClearOver reports whether a voicing lies over a note of the left hand and clear of
// it.
func ClearOver(key int, v *Voicing) bool {
	for _, k := range v.Notes[:v.N] {
		if int(k) <= key || Muddy(key, int(k)) {
			return false
		}
	}
	return true
}
