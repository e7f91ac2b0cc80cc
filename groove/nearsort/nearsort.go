// Package nearsort sorts lists that are nearly in order: in goes a list and a number for
// each of its items, out comes the list in order of the numbers, equal ones as they were.
package nearsort

import (
	"slices"
	"sort"
)

// indexBits is the room for an index beside a key in one number: more notes than
// any pass has.
const indexBits = 20

// nearby is how far a note may be from its place on average to be moved there one by
// one.
const nearby = 8

// By sorts stably by a key that fits into 43 bits and is no less than -1<<40.
// Notes come nearly in order: as a rule each is moved past the few before it that it
// belongs in front of. Where that becomes long, numbers are sorted and every note is
// moved once, which takes a fraction of the time of sorting the notes themselves.
func By[T any](list []T, key func(*T) int64) {
	for i, budget := 1, nearby*len(list); ; i++ {
		if i >= len(list) {
			return
		}
		k, j := key(&list[i]), i
		for j > 0 && key(&list[j-1]) > k {
			j--
		}
		if j == i {
			continue
		}
		hand := list[i]
		copy(list[j+1:i+1], list[j:i])
		list[j] = hand
		if budget -= i - j; budget < 0 {
			break
		}
	}
	if len(list) >= 1<<indexBits {
		sort.SliceStable(list, func(i, j int) bool { return key(&list[i]) < key(&list[j]) })
		return
	}
	order := make([]uint64, len(list))
	for i := range list {
		order[i] = uint64(key(&list[i])+1<<40)<<indexBits | uint64(i)
	}
	slices.Sort(order)
	for i := range order {
		order[i] &= 1<<indexBits - 1
	}
	// order[i] is where the one that belongs at i stands: follow each circle once.
	for i := range order {
		if order[i] == uint64(i) {
			continue
		}
		hand, at := list[i], i
		for {
			from := int(order[at])
			order[at] = uint64(at)
			if from == i {
				list[at] = hand
				break
			}
			list[at] = list[from]
			at = from
		}
	}
}
