package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// closeColour is the colour of the fills that close a row of fills: the end of a drum break.
const closeColour = feel.AskedColour + 2

// askedFills are the fills that the song file asks for, in order, and whether one of them stands in the
// last bar. Each begins where the song says and leads to the next, to a push out of the pass or to the
// bar line. Fills that follow each other without time between are a solo: it states something, answers,
// goes over to shorter figures, and ends on a fill that closes, as loud as it has been or louder. Common
// practice, no single source.
func (d *Drummer) askedFills() (out []drumFill, closes bool) {
	var asked []drumFill
	for i, q := range d.Cues.Each(cue.Fill, timeline.Drums) {
		line := d.nextFill(q.At)
		asked = append(asked, drumFill{Stretch: cue.Stretch{Start: q.At, End: min(q.Until, line)}, cue: i, line: line})
	}
	v := d.variant()
	d.inRow = map[int32]bool{}
	place, opened, before := 0, 0, 0 // in its row; the colours of the first in the row and of the one before
	for i, f := range asked {
		begins := i == 0 || asked[i-1].End != f.Start
		ends := i == len(asked)-1 || f.End != asked[i+1].Start
		if place++; begins {
			place = 0
		}
		how, halves := variation{feel.AskedColour + v%2, v / 2}, false
		switch {
		case begins && ends && i > 0 && before != closeColour:
			how = variation{closeColour, i / 2 % 3}
		case begins:
			if how.number == before {
				how.number = otherOpening(before)
			}
			opened = how.number
		case ends:
			how = variation{closeColour, (v + i) % 3}
		default:
			how = variation{opened, (v/2 + place/3) % 3}
			if halves = place%3 == 2; !halves && place%3 == 1 {
				how.number = otherOpening(opened)
			}
		}
		before, d.inRow[f.cue] = how.number, !begins || !ends
		bar := d.BarAt(f.Start)
		energy := d.Energy(bar)
		if bar == len(d.Pass.Bars)-1 {
			closes = true
			if to := d.closingFillEnergy(); to > energy || !d.inRow[f.cue] {
				energy = to
			}
		}
		out = append(out, d.piecesOf(f, how, energy, halves)...)
	}
	return out, closes
}

// otherOpening is the other of the two colours that a row of fills may begin with.
func otherOpening(colour int) int { return 2*feel.AskedColour + 1 - colour }

// piecesOf is a fill that the song asks for as the fills of the family that are played for it: one of its
// length, or several in turn, on the beats that are felt; halves asks for shorter ones. The last has the
// colour of the variation.
func (d *Drummer) piecesOf(f drumFill, v variation, energy int, halves bool) []drumFill {
	cuts := append(d.cutsOf(f, energy, halves), f.line)
	var out []drumFill
	start, turn := f.Start, 1
	if halves {
		turn = 2
	}
	for i, cut := range cuts {
		if start >= f.End {
			break
		}
		how := v
		how.number = feel.AskedColour + (v.number-feel.AskedColour+turn*(len(cuts)-1-i))%feel.AskedColours
		piece := d.chooseFill(cue.Stretch{Start: start, End: cut}, how, energy)
		piece.End, piece.line, piece.cue = min(cut, f.End), cut, f.cue
		out = append(out, piece)
		start = cut
	}
	return out
}

// cutsOf is where a fill that the song asks for goes over from one fill of the family to the next.
func (d *Drummer) cutsOf(f drumFill, energy int, halves bool) []int64 {
	bar := d.BarAt(f.Start)
	family, m := d.familyIn(bar), d.Pass.Bars[bar].Meter
	if len(family) == 0 {
		return nil
	}
	beat := beatOf(&family[0], m)
	if groups := d.BeatStarts(bar); !onBeats(groups, beat) {
		return d.groupCuts(f, groups, beat, halves)
	}
	hasThree := slices.ContainsFunc(family, func(x feel.Fill) bool {
		return x.Beats == 3 && x.Colour >= feel.AskedColour && x.Suits(energy)
	})
	lengths := pieceLengths(int((f.line-f.Start+beat-1)/beat), hasThree, halves)
	var cuts []int64
	at := f.line
	for _, n := range slices.Backward(lengths[1:]) {
		at -= int64(n) * beat
		cuts = append(cuts, at)
	}
	slices.Reverse(cuts)
	return cuts
}

// onBeats reports whether all felt beats of a bar are beats of the fills; in 7/8 they are not.
func onBeats(starts []int64, beat int64) bool {
	return !slices.ContainsFunc(starts, func(tick int64) bool { return tick%beat != 0 })
}

// groupCuts cuts a fill where the groups of a bar of 5/8, 7/8 or their like begin; two groups of one beat
// each share a fill of two.
func (d *Drummer) groupCuts(f drumFill, groups []int64, beat int64, halves bool) []int64 {
	var cuts []int64
	last := f.Start
	for i, g := range groups {
		at := d.Pass.Bars[d.BarAt(f.Start)].Start + g
		if at <= f.Start || at >= f.line {
			continue
		}
		next := f.line
		if i+1 < len(groups) {
			next = at - g + groups[i+1]
		}
		if !halves && at-last == beat && next-at == beat {
			continue
		}
		cuts, last = append(cuts, at), at
	}
	return cuts
}

// pieceLengths are the lengths in beats of the fills that make one of n beats. Five are three and two.
func pieceLengths(n int, hasThree, halves bool) []int {
	switch {
	case n > 5:
		return append(pieceLengths(4, hasThree, halves), pieceLengths(n-4, hasThree, halves)...)
	case n == 5 && halves:
		return append([]int{2}, pieceLengths(3, hasThree, false)...)
	case n == 5:
		return append(pieceLengths(3, hasThree, false), 2)
	case n == 4 && halves:
		return []int{2, 2}
	case n == 3 && (halves || !hasThree):
		return []int{1, 2}
	case n == 2 && halves:
		return []int{1, 1}
	}
	return []int{n}
}

// beatOf is the length of a beat of a fill.
func beatOf(f *feel.Fill, m meter.Meter) int64 { return fillStep(f, m) * int64(max(1, f.Grid)) }
