package guide

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// A guide in the wrong key, or a bar off, is found by what it sings: where it belongs, more of
// the sung time lies on tones of the chords. In 30 pop songs and 38 art songs with their own
// chords (POP909, OpenScore Lieder) no other key of the twelve and no other bar within four has
// as much. Another place is believed if what it gains is
//
//   - leastGain in 100 of the sung time or more: in those songs the right key is ahead of the
//     next by 7 in 100 at least and by 34 as a rule;
//   - sureErrors times the standard error of that gain, note by note, or more; sureErrorsOfFew
//     in a guide of fewer than enoughNotes. So chance does not decide where bars are much alike.
//
// No right guide of the 68 is doubted then, and of 2,459 pieces of them of 16 to 96 notes seven
// are. Of guides that are 1, 2, 3 or 5 semitones off, 541 of 544 are noticed; of those a bar
// off, 130 of 136; two bars, 126 of 136 (TestMisplacedInRealSongs).
const (
	leastGain       = 5
	sureErrors      = 2
	sureErrorsOfFew = 3
	enoughNotes     = 100
	fewestNotes     = 16 // that a guide must have before it is doubted
	fitReach        = 4  // bars
)

// Key and bar are tried together, too, and the bars in which a section begins: a vamp that is played
// once more moves what comes behind it by its own length. That is offered only where it fits as
// well as every right guide of the 68 does, 57 in 100, and better than another key or another bar
// alone. Of those guides 3 semitones and 2 bars off all are noticed. It is not looked for where the
// guide fits well as it is.
const (
	fairFit  = 57
	sureFit  = 75
	farNotes = 500 // that are looked at
	farBars  = 150 // that are tried
)

// littleFit is how many parts in a hundred of the sung time lie on chord tones where the guide
// does not belong to the song at all. In the 68 songs it is 57 at least; in a key that is
// wrong, 45 as a rule.
const littleFit = 45

// Bounds of what the fit looks at: the first notes of a guide tell, and a longer note counts as
// one of sixteen quarters.
const (
	fitNotes   = 10_000
	fitLongest = 16 * meter.TicksPerQuarter
)

// misplaced warns of a guide that fits the chords better in another key, or from another bar.
func (l *layout) misplaced(notes []Note) (out problems) {
	f := fit{layout: l, chords: toneSpans(l.tl)}
	for _, n := range notes[:min(len(notes), fitNotes)] {
		if at := l.tick(n.Tick); at >= 0 && at < l.tl.End { // what is longer than the form tells nothing
			f.notes = append(f.notes, fitNote{
				start:  at - l.at,
				length: min(max(1, scale(n.Length, l.file.Division)), fitLongest),
				pc:     (int(n.Key) + l.v.Transpose + l.tl.Transpose + 12*maxOctaves) % 12,
			})
		}
	}
	if len(f.notes) < fewestNotes || len(f.chords) == 0 {
		return nil
	}
	here := f.onTones(l.at)
	f.here = here[0]
	for up := -5; up <= 6; up++ {
		f.consider(here[(up+12)%12], move{up: up})
	}
	for off := -fitReach; off <= fitReach; off++ {
		if at, ok := f.start(off); ok {
			f.consider(f.onTones(at)[0], move{off: off})
		}
	}
	all := f.sung()
	if f.best != (move{}) || 100*total(f.here) < sureFit*all {
		f.lookFar()
	}
	now, then := 100*total(f.here)/all, 100*(total(f.here)+f.gain)/all
	better := func(where string) string {
		return fmt.Sprintf("%d in 100 of what is sung lies on tones of the chords; %s it would be %d.", now, where,
			then)
	}
	from := l.v.From + f.best.off
	there := fmt.Sprintf("with the guide from bar %d on", from)
	switch {
	case f.best.up != 0 && f.best.off != 0:
		out.add("from", "The guide may be in another place and key", "%s Try from = %d and transpose = %d.",
			better(there+" and "+semitones(f.best.up)), from, f.transposition())
	case f.best.up != 0:
		out.add("transpose", "The guide may be in another key", "%s Try transpose = %d.",
			better(semitones(f.best.up)), f.transposition())
	case f.best.off != 0:
		out.add("from", "The guide may be in another place", "%s Try from = %d.", better(there), from)
	case now < littleFit && len(f.notes) >= enoughNotes:
		out.add("from", "The voice does not fit the chords",
			"%d in 100 of what is sung lies on tones of the chords, and no other key and no bar nearby has more. "+
				"Is it the guide of this song, and is its first bar near bar %d?", now, l.v.From)
	}
	return out
}

// lookFar looks for a place that is off by more: in another key and another bar, nearby or where a
// section begins.
func (f *fit) lookFar() {
	all := *f
	f.notes = f.notes[:min(len(f.notes), farNotes)]
	f.here, f.gain, f.best = f.here[:len(f.notes)], 0, move{}
	for _, off := range f.farBars() {
		at, ok := f.start(off)
		if !ok {
			continue
		}
		there := f.onTones(at)
		for up := -5; up <= 6; up++ {
			f.consider(there[(up+12)%12], move{up, off})
		}
	}
	if f.best == (move{}) || 100*(total(f.here)+f.gain) < fairFit*f.sung() {
		*f = all
		return
	}
	at, _ := f.start(f.best.off)
	gain := total(all.onTones(at)[(f.best.up+12)%12]) - total(all.here)
	if 100*(gain-all.gain) >= leastGain*all.sung() {
		all.best, all.gain = f.best, gain
	}
	*f = all
}

// farBars are by how many bars the guide would have to be moved so that its first note falls into a
// bar in which a section begins, into the one before or the one after; and all that are near.
func (f *fit) farBars() (out []int) {
	for off := -fitReach; off <= fitReach; off++ {
		out = append(out, off)
	}
	first := At(f.tl, f.at+f.notes[0].start).Bar
	for i := range f.tl.Passes {
		for near := -1; near <= 1 && len(out) < farBars; near++ {
			if off := f.tl.Passes[i].FirstBar + near - first; !slices.Contains(out, off) {
				out = append(out, off)
			}
		}
	}
	// Of places that fit equally, as verses do, the nearest is offered.
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Or(cmp.Compare(max(a, -a), max(b, -b)), b-a) })
	return out
}

// fit compares a voice with the song's chords in several places.
type fit struct {
	*layout
	notes  []fitNote
	chords []toneSpan
	here   []int64 // how long each note lies on chord tones as the song file has it
	gain   int64   // by how much the best place is better
	best   move
}

// fitNote is a note as it is compared, in the song's ticks.
type fitNote struct {
	start  int64 // from the file's tick 0
	length int64 // how much it counts
	pc     int   // its pitch class in the key that the song file has
}

// move is to another key, in semitones from the one there is, or another bar.
type move struct{ up, off int }

// toneSpan is a chord as a set of pitch classes (bit = pitch class), in absolute ticks.
type toneSpan struct {
	Span
	tones uint16
}

// toneSpans are the song's chords without those that are no chord.
func toneSpans(tl *timeline.Timeline) (out []toneSpan) {
	for i := range tl.Passes {
		p := &tl.Passes[i]
		for _, s := range p.Chords {
			if set := ChordTones(s.Chord); set != 0 {
				out = append(out, toneSpan{Span{p.Start + s.Start, p.Start + s.End}, set})
			}
		}
	}
	return out
}

// start is the absolute tick of the file's tick 0 with the guide so many bars later.
func (f *fit) start(off int) (tick int64, ok bool) {
	tick, ok = BarStart(f.tl, f.v.From+off)
	return tick - upbeat(f.file), ok
}

// onTones is how long each note lies on tones of the chords, in ticks, with the file's tick 0 at an
// absolute tick: as it is, and with all notes one semitone higher, two and so on.
func (f *fit) onTones(at int64) (out [12][]int64) {
	for up := range out {
		out[up] = make([]int64, len(f.notes))
	}
	for i, n := range f.notes {
		start, end := at+n.start, at+n.start+n.length
		k := sort.Search(len(f.chords), func(k int) bool { return f.chords[k].End > start })
		for ; k < len(f.chords) && f.chords[k].Start < end; k++ {
			c := &f.chords[k]
			for up := range out {
				if c.tones>>((n.pc+up)%12)&1 != 0 {
					out[up][i] += min(end, c.End) - max(start, c.Start)
				}
			}
		}
	}
	return out
}

// maxOctaves is more than any transposition goes down.
const maxOctaves = 10

// consider takes another place for the best if it is, and if what it gains is to be believed.
func (f *fit) consider(there []int64, where move) {
	gain, squares, all := int64(0), int64(0), int64(0)
	for i, ticks := range there {
		d := ticks - f.here[i]
		gain, squares, all = gain+d, squares+d*d, all+f.notes[i].length
	}
	sure := int64(sureErrors)
	if len(there) < enoughNotes {
		sure = sureErrorsOfFew
	}
	// The standard error of a sum of differences is the root of the sum of their squares.
	if gain > f.gain && 100*gain >= leastGain*all && gain*gain >= sure*sure*squares {
		f.gain, f.best = gain, where
	}
}

// transposition is the transpose that moves the guide to the better key, within the bounds that
// the song file has for it.
func (f *fit) transposition() int {
	t := f.v.Transpose + f.best.up
	switch {
	case t > timeline.MaxTranspose:
		return t - 12
	case t < -timeline.MaxTranspose:
		return t + 12
	}
	return t
}

// sung is how much all notes count together.
func (f *fit) sung() (all int64) {
	for _, n := range f.notes {
		all += n.length
	}
	return all
}

func total(ticks []int64) (sum int64) {
	for _, t := range ticks {
		sum += t
	}
	return sum
}

// semitones is a move in words: "two semitones lower".
func semitones(up int) string {
	if up < 0 {
		return wording.Count(-up, "semitone") + " lower"
	}
	return wording.Count(up, "semitone") + " higher"
}

// ChordTones are the pitch classes of a chord with its bass, as bits; none for N.C.
func ChordTones(c harmony.Chord) uint16 {
	if c.None {
		return 0
	}
	return c.PCSet() | 1<<c.Bass.PC()
}

// chordAt is the chord that is written at an absolute tick.
func chordAt(tl *timeline.Timeline, tick int64) (c harmony.Chord, ok bool) {
	i := tl.PassAt(tick)
	if i < 0 {
		return c, false
	}
	p := &tl.Passes[i]
	if tick >= p.Start+p.Length || len(p.Chords) == 0 {
		return c, false
	}
	return p.Chords[p.SpanAt(tick-p.Start)].Chord, true
}
