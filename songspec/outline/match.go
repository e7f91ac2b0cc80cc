package outline

import "plinth/songspec/timeline"

// Matched says what became of a pass of an old song: the index of the pass that it is in the new one,
// -1 where it is gone, and for each of its bars the index of the bar in that pass, -1 where it is gone.
type Matched struct {
	Pass int
	Bars []int
}

// Match says for each pass of the old song where it is in the new one. It is the matching by which
// Diff compares two songs.
func Match(old, new *timeline.Timeline) []Matched {
	d := &differ{old: old, new: new}
	d.pair()
	out := make([]Matched, len(old.Passes))
	for _, i := range d.gone {
		out[i] = Matched{-1, allGone(len(old.Passes[i].Bars))}
	}
	for _, m := range d.matched {
		out[m.old] = Matched{m.new, matchBars(&old.Passes[m.old], &new.Passes[m.new])}
	}
	return out
}

// matchBars says for each bar of a pass where it is in the pass that it became.
func matchBars(a, b *timeline.Pass) []int {
	out := allGone(len(a.Bars))
	if sameTexts(a, b) {
		for i := range out {
			out[i] = i
		}
		return out
	}
	n, m := round(a), round(b)
	var pairs []match
	if excerpt(a) != excerpt(b) {
		for i := range n {
			for j := range m {
				if a.NumberOf(i) == b.NumberOf(j) {
					pairs = append(pairs, match{i, j})
				}
			}
		}
	} else {
		pairs = pairBars(chordWords(a)[:n], chordWords(b)[:m])
	}
	for first := 0; first*n < len(a.Bars) && first*m < len(b.Bars); first++ { // the rounds of a vamp
		for _, p := range pairs {
			if i, j := first*n+p.old, first*m+p.new; i < len(a.Bars) && j < len(b.Bars) {
				out[i] = j
			}
		}
	}
	return out
}

// sameTexts reports whether two passes have the same bars as the song file has them.
func sameTexts(a, b *timeline.Pass) bool {
	if len(a.Bars) != len(b.Bars) {
		return false
	}
	for i := range a.Bars {
		x, y := &a.Bars[i], &b.Bars[i]
		if x.Text != y.Text || x.Length != y.Length || a.NumberOf(i) != b.NumberOf(i) {
			return false
		}
	}
	return true
}

func allGone(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}
