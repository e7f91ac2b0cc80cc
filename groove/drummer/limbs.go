package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// limbGapUS is the least time, in microseconds, between two strokes of one limb on the grid:
// a tenth more than touch.AgainUS, as players stray.
const limbGapUS = 110_000

// keepPlayable keeps the strokes that two hands and two feet can play; the more important
// strokes are kept first. notes are sorted by tick; the result is too.
func (d *Drummer) keepPlayable(notes []score.Note) []score.Note {
	notes, rank := d.onePerVoice(notes)
	at := make([]int64, len(notes)) // in microseconds
	c := d.Clock()
	for i := range notes {
		at[i] = c.Micros(notes[i].At)
	}
	keep := make([]bool, len(notes))
	for _, i := range byRank(notes, rank) {
		keep[i] = limbIsFree(at, notes, keep, int(i))
	}
	// graceIsPlayable looks at neighbours, so notes are taken out only afterwards.
	for i := range notes {
		if notes[i].Roll != 0 {
			keep[i] = graceIsPlayable(at, notes, keep, i)
		}
	}
	return score.Without(notes, func(i int) bool { return !keep[i] })
}

// byRank is the order in which strokes are looked at: the highest rank first, strokes of one
// rank in order of time. Grace strokes are left out.
func byRank(notes []score.Note, rank []uint8) []int32 {
	var first [256]int // where the strokes of a rank begin
	for i := range notes {
		if notes[i].Roll == 0 {
			first[rank[i]]++
		}
	}
	all := 0
	for r := len(first) - 1; r >= 0; r-- {
		first[r], all = all, all+first[r]
	}
	order := make([]int32, all)
	for i := range notes {
		if r := rank[i]; notes[i].Roll == 0 {
			order[first[r]] = int32(i)
			first[r]++
		}
	}
	return order
}

// limbIsFree reports whether stroke i can be added to the strokes that are kept. Of any two
// strokes of a foot in a row, or three of the hands, the last must come limbGapUS after the
// first: two hands that take turns can play exactly that. The hi-hat does one thing at a
// time. at is the time of each stroke.
func limbIsFree(at []int64, notes []score.Note, keep []bool, i int) bool {
	n := &notes[i]
	together := 1
	if n.Voice.Limb() == feel.Hand {
		together = 2
	}
	// The times of the kept strokes of the limb before and after, nearest first. Index 0 is stroke i.
	times, count := [2][3]int64{{at[i]}, {at[i]}}, [2]int{}
	for side, step := range [2]int{-1, 1} {
		for j := i + step; isNear(at, i, j); j += step {
			if !keep[j] {
				continue
			}
			if notes[j].Voice.Limb() == n.Voice.Limb() && count[side] < together {
				count[side]++
				times[side][count[side]] = at[j]
			}
			if notes[j].At == n.At && sameHat(&notes[j], n) {
				return false
			}
		}
	}
	for a := 0; a <= together; a++ {
		b := together - a
		if a <= count[0] && b <= count[1] && times[1][b]-times[0][a] < limbGapUS {
			return false
		}
	}
	return true
}

// isNear reports whether there is a stroke j, and less than limbGapUS from stroke i.
func isNear(at []int64, i, j int) bool {
	return j >= 0 && j < len(at) && max(at[i]-at[j], at[j]-at[i]) < limbGapUS
}

// sameHat reports whether two strokes want different things of the one hi-hat.
func sameHat(a, b *score.Note) bool {
	hat := func(k kind) bool { return k == kindHat || k == kindOpen || k == kindPedal }
	return a.Key != b.Key && hat(kindOf(a.Key)) && hat(kindOf(b.Key))
}

// graceIsPlayable reports whether grace stroke i can be played: the stroke that it leads to
// must be kept, and the other hand must be free around it.
func graceIsPlayable(at []int64, notes []score.Note, keep []bool, i int) bool {
	main := false
	for _, step := range [2]int{-1, 1} {
		for j := i + step; isNear(at, i, j); j += step {
			// Other grace strokes leave the other hand free: the two of a drag are the rebound of one.
			if !keep[j] || notes[j].Roll != 0 || notes[j].Voice.Limb() != feel.Hand {
				continue
			}
			if notes[j].At != notes[i].At || notes[j].Key != notes[i].Key {
				return false
			}
			main = true
		}
	}
	return main
}

// onePerVoice keeps one of several strokes of one voice at one tick, the most important. The
// second result is the importance of each stroke.
func (d *Drummer) onePerVoice(notes []score.Note) ([]score.Note, []uint8) {
	out := notes[:0]
	rank := make([]uint8, 0, len(notes))
	for i := range notes {
		n := &notes[i]
		r := uint8(d.importance(n))
		j := len(out) - 1
		for j >= 0 && out[j].At == n.At && (out[j].Key != n.Key || out[j].Roll != n.Roll) {
			j--
		}
		if j < 0 || out[j].At != n.At {
			out, rank = append(out, *n), append(rank, r)
			continue
		}
		if r > rank[j] || r == rank[j] && n.Touch > out[j].Touch {
			out[j], rank[j] = *n, r
		}
	}
	return out, rank
}

// importance ranks strokes for a drummer who cannot play them all: hits first, then fills,
// then kick and backbeat, then the rest of the time, and ghosts last.
func (d *Drummer) importance(n *score.Note) int {
	bar := d.BarAt(n.At)
	r := 2 - d.MetricPlace(bar, n.At) // 0 to 2
	switch k := kindOf(n.Key); {
	case n.Art.Has(score.Accent):
		return 90 + d.AccentWeight(n)
	case n.Art.Has(score.Pushed):
		return 80
	case n.Touch == feel.Ghost:
		return r
	case k == kindCrash:
		return 70
	case inFill(n):
		return 60 + r
	case k == kindSnare || k == kindKick || k == kindStick:
		return 40 + 4*r + int(n.Touch)
	}
	return 10 + 4*r + int(n.Touch)
}
