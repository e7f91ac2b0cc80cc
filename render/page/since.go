package page

import "plinth/songspec/outline"

// Since says where the chunks of an earlier state are now.
type Since struct {
	Rev    int    `json:"rev"` // of that state
	Chunks []Went `json:"chunks"`
}

// Went is what became of a chunk: which it is now, and for each of its bars which bar of that it is; -1
// where it is gone.
type Went struct {
	Chunk int   `json:"chunk"`
	Bars  []int `json:"bars"`
}

// Stayed says of a bed that all is where it was.
func Stayed(b *Bed) []Went {
	out := make([]Went, len(b.Chunks))
	for i := range out {
		out[i] = Went{i, count(b.bars(i))}
	}
	return out
}

// Changes compares two beds of a song: where the chunks of the old one went, and which of the new one
// have changed in what is heard or read, or came.
func Changes(old, new *Bed) (went []Went, changed []int) {
	from := make([]int, len(new.Chunks)) // by new chunk: the old one and 1, 0 for none
	x, y := old.front(), new.front()
	for i := range x { // in front of bar 1 bars are counted back
		w := Went{-1, make([]int, old.bars(i))}
		for k := range w.Bars {
			w.Bars[k] = -1
			if now := k + new.Timeline.LeadBars - old.Timeline.LeadBars; y > 0 && now >= 0 {
				w.Chunk, w.Bars[k], from[0] = 0, now, 1
			}
		}
		went = append(went, w)
	}
	for i, m := range outline.Match(old.Timeline, new.Timeline) {
		w := Went{-1, m.Bars}
		if m.Pass >= 0 {
			w.Chunk = m.Pass + y
			from[w.Chunk] = x + i + 1
		}
		went = append(went, w)
	}
	for i := range new.Chunks {
		if from[i] == 0 || old.Chunks[from[i]-1].print != new.Chunks[i].print {
			changed = append(changed, i)
		}
	}
	return went, changed
}

// Then puts two changes one behind the other.
func Then(first, second []Went) []Went {
	out := make([]Went, len(first))
	for i, w := range first {
		out[i] = Went{-1, make([]int, len(w.Bars))}
		if w.Chunk >= 0 {
			out[i].Chunk = second[w.Chunk].Chunk
		}
		for k, bar := range w.Bars {
			if out[i].Bars[k] = -1; bar >= 0 {
				out[i].Bars[k] = second[w.Chunk].Bars[bar]
			}
		}
	}
	return out
}

// front is how many chunks stand in front of bar 1: one or none.
func (b *Bed) front() int { return len(b.Chunks) - len(b.Timeline.Passes) }

// bars is how many bars a chunk has.
func (b *Bed) bars(chunk int) int {
	if pass := chunk - b.front(); pass >= 0 {
		return len(b.Timeline.Passes[pass].Bars)
	}
	return b.Timeline.LeadBars
}

// count are the numbers from 0 up to n.
func count(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
