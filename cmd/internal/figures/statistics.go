package main

import (
	"math"
	"slices"
)

// ratio is a count and how many there could be.
type ratio struct{ part, all int }

func (r *ratio) count(is bool) {
	r.all++
	if is {
		r.part++
	}
}

// share is part of all; not a number where there is nothing.
func (r *ratio) share() float64 { return float64(r.part) / float64(r.all) }

// mean is not a number where there is nothing.
func mean(list []float64) float64 {
	sum := 0.0
	for _, x := range list {
		sum += x
	}
	return sum / float64(len(list))
}

func median(list []float64) float64 {
	if len(list) == 0 {
		return math.NaN()
	}
	sorted := slices.Sorted(slices.Values(list))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// variance is the mean square of the distance from the mean.
func variance(list []float64) float64 {
	m, sum := mean(list), 0.0
	for _, x := range list {
		sum += (x - m) * (x - m)
	}
	return sum / float64(len(list))
}

// robustSD is the median distance from the median, scaled so that it is the standard
// deviation of what is distributed normally.
func robustSD(list []float64) float64 {
	m := median(list)
	var away []float64
	for _, x := range list {
		away = append(away, math.Abs(x-m))
	}
	return 1.4826 * median(away)
}

// greatest is not a number where there is nothing.
func greatest(list []float64) float64 {
	if len(list) == 0 {
		return math.NaN()
	}
	return slices.Max(list)
}

// decibels is a power as a level.
func decibels(power float64) float64 { return 10 * math.Log10(power) }

// set is a set of places, or of notes.
type set[T comparable] map[T]bool

// jaccard is the share that two sets have in common, of all that is in either; 1 where both
// are empty.
func jaccard[T comparable](a, b set[T]) float64 {
	both := 0
	for x := range a {
		if b[x] {
			both++
		}
	}
	if len(a)+len(b) == 0 {
		return 1
	}
	return float64(both) / float64(len(a)+len(b)-both)
}

// shared is twice what two sets have in common, of the sum of their sizes: what share of the
// one is in the other, where they are of one size.
func shared[T comparable](a, b set[T]) float64 {
	both := 0
	for x := range a {
		if b[x] {
			both++
		}
	}
	return 2 * float64(both) / float64(len(a)+len(b))
}

// amongGroups is the part of the variance of all values that is between the means of groups.
func amongGroups(groups map[int64][]float64, all []float64) float64 {
	m, sum := mean(all), 0.0
	for _, g := range groups {
		away := mean(g) - m
		sum += float64(len(g)) * away * away
	}
	return sum / float64(len(all))
}

func (r *ratio) add(other ratio) {
	r.part += other.part
	r.all += other.all
}
