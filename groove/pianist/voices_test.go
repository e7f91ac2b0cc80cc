package pianist

import "testing"

// A part of the comp's row strikes some of a chord's voices; one voice alone is the lower
// half and the upper half of itself.
func TestVoicesOfAPart(t *testing.T) {
	for _, row := range []struct {
		part         byte
		n, low, high int
	}{
		{'c', 4, 0, 4}, {'r', 3, 0, 3}, {'b', 4, 0, 0}, {'c', 0, 0, 0},
		{'l', 4, 0, 2}, {'l', 3, 0, 1}, {'l', 1, 0, 1},
		{'u', 4, 2, 4}, {'u', 3, 1, 3}, {'u', 1, 0, 1},
		{'1', 3, 0, 1}, {'3', 3, 2, 3}, {'5', 3, 2, 3},
	} {
		if low, high := voicesOfPart(row.part, row.n); low != row.low || high != row.high {
			t.Errorf("%c of %d voices: %d to %d instead of %d to %d", row.part, row.n, low, high, row.low, row.high)
		}
	}
}
