package pianist

import "testing"

// A part of a figure strikes some of a chord's voices; one voice alone is the lower half and
// the upper half of itself. In a figure of two hands the right does not strike what the left
// does, and voices that are added go to the hand they lie under.
func TestVoicesOfAMark(t *testing.T) {
	for _, row := range []struct {
		m           mark
		n           int
		right, left uint8 // bit 0 is the lowest voice
	}{
		{mark{part: 'c'}, 4, 0b1111, 0}, {mark{part: 'r'}, 3, 0b111, 0}, {mark{part: 'b'}, 4, 0, 0},
		{mark{part: 'c'}, 0, 0, 0}, {mark{part: 'l'}, 4, 0b0011, 0}, {mark{part: 'l'}, 3, 0b001, 0},
		{mark{part: 'l'}, 1, 1, 0}, {mark{part: 'u'}, 4, 0b1100, 0}, {mark{part: 'u'}, 3, 0b110, 0},
		{mark{part: 'u'}, 1, 1, 0}, {mark{part: '1'}, 3, 0b001, 0}, {mark{part: '3'}, 3, 0b100, 0},
		{mark{part: '5'}, 3, 0b100, 0}, {mark{part: 'm'}, 4, 0b0100, 0}, {mark{part: 'm'}, 3, 0b010, 0},
		{mark{part: '2', up: true}, 4, 0b1110, 0},
		{mark{part: 'c', under: '1', hands: true}, 4, 0b1110, 0b0001},
		{mark{part: '3', under: 'l', hands: true}, 4, 0b0100, 0b0011},
		{mark{under: 'o', hands: true}, 3, 0, 0b001},
		{mark{under: '1', hands: true, add: 0b110}, 3, 0b110, 0b001},
		{mark{part: '4', hands: true, add: 0b0011}, 4, 0b1000, 0b0011},
	} {
		if right, left := row.m.voices(row.n); right != row.right || left != row.left {
			t.Errorf("%c over %c of %d voices: %b and %b instead of %b and %b", row.m.part, row.m.under, row.n, right,
				left, row.right, row.left)
		}
	}
}
