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
