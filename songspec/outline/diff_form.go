package outline

import (
	"cmp"
	"fmt"
	"slices"

	"plinth/songspec/timeline"
)

// match is a pass of the old song and the one of the new that it became.
type match struct{ old, new int }

// maxTable is how many cells the table of a comparison has at most. Beyond that only what is
// equal at both ends is paired.
const maxTable = 4 << 20

// align pairs equal elements of two sequences, as many as possible, in order. An element in no
// pair is gone (of the first sequence) or new (of the second).
func align(n, m int, equal func(i, j int) bool) []match {
	var out []match
	head := 0
	for head < n && head < m && equal(head, head) {
		out = append(out, match{head, head})
		head++
	}
	tail := 0
	for tail < n-head && tail < m-head && equal(n-1-tail, m-1-tail) {
		tail++
	}
	rows, cols := n-tail-head, m-tail-head
	if rows > 0 && cols > 0 && rows <= maxTable/cols {
		best := make([]int32, (rows+1)*(cols+1))
		for i := rows - 1; i >= 0; i-- {
			for j := cols - 1; j >= 0; j-- {
				at := i*(cols+1) + j
				best[at] = max(best[at+1], best[at+cols+1])
				if equal(head+i, head+j) {
					best[at] = max(best[at], best[at+cols+2]+1)
				}
			}
		}
		for i, j := 0, 0; i < rows && j < cols; {
			at := i*(cols+1) + j
			switch {
			case equal(head+i, head+j) && best[at] == best[at+cols+2]+1:
				out = append(out, match{head + i, head + j})
				i, j = i+1, j+1
			case best[at+cols+1] >= best[at+1]:
				i++
			default:
				j++
			}
		}
	}
	for ; tail > 0; tail-- {
		out = append(out, match{n - tail, m - tail})
	}
	return out
}

// pair finds the partners among the passes: passes of one section in the same order, then
// passes of one section that were moved. A section that only changed its name is the same.
func (d *differ) pair() {
	a, b := d.old.Passes, d.new.Passes
	kept := align(len(a), len(b), func(i, j int) bool { return a[i].Section == b[j].Section })
	d.renamed = d.rename(kept)
	if len(d.renamed) > 0 {
		kept = align(len(a), len(b), func(i, j int) bool { return d.nowNamed(a[i].Section) == b[j].Section })
	}
	oldOf, taken := map[int]int{}, map[int]bool{} // by new pass; by old
	for _, m := range kept {
		oldOf[m.new], taken[m.old] = m.old, true
	}
	for j := range b {
		i, ok := oldOf[j]
		for k := 0; !ok && k < len(a); k++ {
			if !taken[k] && d.nowNamed(a[k].Section) == b[j].Section {
				i, ok, taken[k] = k, true, true
				d.moved = append(d.moved, match{k, j})
			}
		}
		if ok {
			d.matched = append(d.matched, match{i, j})
		} else {
			d.came = append(d.came, j)
		}
	}
	for i := range a {
		if !taken[i] {
			d.gone = append(d.gone, i)
		}
	}
}

func (d *differ) nowNamed(old string) string {
	return cmp.Or(d.renamed[old], old)
}

// rename finds the sections that have another name: each playing of the old one has a playing
// of one new section in its place.
func (d *differ) rename(kept []match) map[string]string {
	a, b := d.old.Passes, d.new.Passes
	inOld, inNew := map[string]int{}, map[string]int{}
	for i := range a {
		inOld[a[i].Section]++
	}
	for j := range b {
		inNew[b[j].Section]++
	}
	type names struct{ old, new string }
	met := map[names]int{}
	last := match{-1, -1}
	for _, m := range append(slices.Clip(kept), match{len(a), len(b)}) {
		for i, j := last.old+1, last.new+1; i < m.old && m.old-last.old == m.new-last.new; i, j = i+1, j+1 {
			if inNew[a[i].Section] == 0 && inOld[b[j].Section] == 0 {
				met[names{a[i].Section, b[j].Section}]++
			}
		}
		last = m
	}
	out := map[string]string{}
	for n, times := range met {
		if times == inOld[n.old] && times == inNew[n.new] {
			out[n.old] = n.new
		}
	}
	return out
}

// form lists what changed in the order of play.
func (d *differ) form() {
	// A play that lifts the song lifts everything after it, which is not listed.
	place := func(passes []timeline.Pass, i int) string {
		if n := step(passes, i); n != 0 {
			return fmt.Sprintf("place %d, lift %+d", i+1, n)
		}
		return fmt.Sprintf("place %d", i+1)
	}
	for i := range d.old.Passes {
		was := d.old.Passes[i].Section
		if now, ok := d.renamed[was]; ok && d.old.Passes[i].Ordinal == 0 {
			d.out = append(d.out, Change{Section: now, What: "name", Old: was, New: now})
		}
	}
	play := func(p *timeline.Pass, old, new string) {
		d.out = append(d.out, Change{Section: p.Section, What: "play", Plays: []int{p.Ordinal + 1},
			Old: old, New: new})
	}
	for _, i := range d.gone {
		play(&d.old.Passes[i], place(d.old.Passes, i), "")
	}
	for _, m := range d.moved {
		play(&d.new.Passes[m.new], fmt.Sprintf("place %d", m.old+1), fmt.Sprintf("place %d", m.new+1))
	}
	for _, j := range d.came {
		play(&d.new.Passes[j], "", place(d.new.Passes, j))
	}
}

// lifts compares by how much each pass lifts the song from there on. A new pass is listed
// with its lift by form.
func (d *differ) lifts() []finding {
	var out []finding
	for _, m := range d.matched {
		was, is := step(d.old.Passes, m.old), step(d.new.Passes, m.new)
		if was != is {
			p := &d.new.Passes[m.new]
			out = append(out, finding{Change{Section: p.Section, What: "lift", Old: cmp.Or(signed(was), "none"),
				New: cmp.Or(signed(is), "none")}, m.new})
		}
	}
	return out
}

// step is by how much a pass lifts the song, in semitones.
func step(passes []timeline.Pass, i int) int {
	if i == 0 {
		return passes[0].Lift
	}
	return passes[i].Lift - passes[i-1].Lift
}
