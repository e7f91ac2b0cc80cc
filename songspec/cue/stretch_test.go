package cue

import (
	"math/rand"
	"testing"
)

// Stretches say the same of every tick as a list of single ticks, and those that touch or
// overlap have become one.
func TestStretches(t *testing.T) {
	const length = 40
	r := rand.New(rand.NewSource(9))
	for round := 0; round < 2000; round++ {
		var s Stretches
		var in [length + 1]bool
		for at := r.Int63n(9); at < length-12; at += r.Int63n(9) {
			end := at + 1 + r.Int63n(9)
			s = s.with(at, end)
			for k := at; k < end; k++ {
				in[k] = true
			}
		}
		for i := 1; i < len(s); i++ {
			if s[i].Start <= s[i-1].End {
				t.Fatalf("%+v touch", s)
			}
		}
		next, over := int64(length), int64(length) // from a tick on
		for at := int64(length - 1); at >= 0; at-- {
			if got := s.Next(at, length-2); got != min(next, length-2) {
				t.Fatalf("in %+v the next one after %d begins at %d instead of %d", s, at, got, next)
			}
			if in[at] {
				over = at
			}
			if in[at] && (at == 0 || !in[at-1]) {
				next = at
			}
			one, ok := s.At(at)
			if ok != in[at] || s.Has(at) != in[at] || ok && (at < one.Start || at >= one.End) {
				t.Fatalf("in %+v tick %d has %+v, %v", s, at, one, ok)
			}
			for end := at + 1; end <= length; end++ {
				if got := s.Over(at, end); got != (over < end) {
					t.Fatalf("%+v reach into %d to %d: %v", s, at, end, got)
				}
			}
		}
	}
}
