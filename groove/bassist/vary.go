package bassist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/songspec/cue"
)

// How often a bar is varied: one in so many.
const (
	ownBars   = 3 // is this pass's own
	movedBars = 4 // of those after the first of a phrase has a note moved
)

// What chance decides in a bar, as keys of figure.
const (
	drawMove = iota + 10
	drawPlace
	drawTurn
	drawApproach
	drawWalk
)

// isJoint reports whether a bar is the last of a phrase or of the pass, where the line joins the next.
func (b *Bassist) isJoint(bar int) bool {
	first, size := b.Phrase(bar)
	return bar == first+size-1 && (size >= 4 || len(b.Pass.Bars) > 4)
}

// varyRhythm varies the row's notes from an index on, which are those of a bar. The last bar of
// a phrase has another second half, and so has its fourth where the row strikes once a bar or little
// more. Before it a note is moved here and there to the eighth beside it, and so in a bar that leads
// to another energy. The first bar of a phrase is the row as it stands.
func (b *Bassist) varyRhythm(bar, from int, steps []plan.Step) {
	first, _ := b.Phrase(bar)
	places := b.eighths(bar, steps)
	switch c := b.figure(bar); {
	case b.isLast(bar):
	case len(b.Level(bar).Drums) == 0: // the bass keeps the time, or holds
		if b.isJoint(bar) && len(b.notes)-from > 1 {
			b.joinPhrases(bar, from, places)
		}
	case b.styles[bar].keepsRow && b.Crosses(bar) && b.LeadsTo(bar) != b.Energy(bar):
		b.leadFigure(bar, from, places, steps)
	case b.leading: // or the bar would be the first of those that it leads to
		walks := b.notes[len(b.notes)-1].degree == 'w' && len(b.notes) > from+1
		if !walks && !b.moveNote(bar, from, places, kicksOf(b.Level(bar), steps)) {
			b.joinPhrases(bar, from, places)
		}
	case b.isJoint(bar), bar-first == 3 && len(b.notes)-from <= b.rowLevel(bar).Bars && !b.changesInside(bar):
		b.joinPhrases(bar, from, places)
	case b.styles[bar].keepsRow:
		if b.holdsIn(bar) && !b.changesInside(bar) && !b.styles[bar].semitones {
			b.holdLast(bar, from)
		}
	case bar > first && b.notes[from].degree != 'w' && c.At(drawMove).Below(movedBars) == 0:
		b.moveNote(bar, from, places, kicksOf(b.Level(bar), steps))
	}
}

// holdsIn reports whether a bar is the one of its phrase in which a figure that keeps its places holds:
// the second, fourth or sixth.
func (b *Bassist) holdsIn(bar int) bool {
	first, size := b.Phrase(bar)
	return size >= 4 && bar == first+1+2*b.figure(first).At(drawPlace).Below((size-1)/2)
}

// leadFigure varies a figure that keeps its places in a bar that leads to another energy. The half of it
// that the next pass has is enough, or on the way down one note that is held; but the bar is not to be
// the next pass's first.
func (b *Bassist) leadFigure(bar, from int, places []int64, steps []plan.Step) {
	next := b.rowLevelAt(bar, b.LeadsTo(bar))
	grid := b.FeelIn(bar).Grid
	if b.songRows[bar] != nil {
		grid = len(steps)
	}
	alike := func() bool {
		return !slices.ContainsFunc(steps, func(st plan.Step) bool {
			has := slices.ContainsFunc(b.notes[from:], func(n bassNote) bool { return n.tick == st.Tick })
			return has != (strikes(next, st.Index%grid) > 0)
		})
	}
	fewer := perBar(b.rowLevel(bar)) - perBar(next)
	down := fewer >= 8 || fewer >= 2 && b.figure(bar).At(drawPlace).Below(4) > 0
	holds := !b.styles[bar].semitones && b.figure(bar).At(drawMove).Below(3) > 0
	if !b.leading && down || alike() && holds {
		b.holdLast(bar, from)
	}
	if alike() {
		b.joinPhrases(bar, from, places)
	}
}

// perBar is how many notes a level's bass row has in four bars.
func perBar(lv *feel.Level) int {
	n := 0
	for i := range lv.Bass {
		n += strikes(lv, i)
	}
	return 4 * n / lv.Bars
}

// holdLast leaves out the last note of a bar that is not its first and no approach, and holds the one
// before it.
func (b *Bassist) holdLast(bar, from int) {
	for i := len(b.notes) - 1; i > from; i-- {
		n := &b.notes[i]
		if !isApproach(n.degree) && (n.tick != b.middle(bar) || !b.styles[bar].semitones) {
			b.notes[i-1].end = n.end
			b.notes = slices.Delete(b.notes, i, i+1)
			return
		}
	}
}

// eighths are the places of a bar after its first where a bassist may put a note, if the row has a
// step for it: the eighths, or the last of three; in a feel that goes from root to fifth on the beats
// the quarters.
func (b *Bassist) eighths(bar int, steps []plan.Step) []int64 {
	var out []int64
	m, start, triplets := b.Pass.Bars[bar].Meter, b.Pass.Bars[bar].Start, b.SwingIn(bar).Triplets
	for _, st := range steps {
		at := st.Tick - start
		is := at%(quarter/2) == 0
		switch beat := m.PlayedBeat(); {
		case beat == 3*quarter/2:
			is = at%beat == 0 || at%beat == quarter
		case triplets:
			is = b.MetricPlace(bar, st.Tick) <= 1
		case b.styles[bar].keepsRow && m.Den == 2:
			is = at%quarter == 0
		}
		if is && at > 0 {
			out = append(out, st.Tick)
		}
	}
	return out
}

// middle is where the second half of a bar begins, on a beat: the third of three.
func (b *Bassist) middle(bar int) int64 {
	beats := b.BeatStarts(bar)
	return b.Pass.Bars[bar].Start + beats[(len(beats)+1)/2%len(beats)]
}

// joinPhrases gives the bar another second half, with one note more than the row has there, or with
// as many where the next pass is calmer. Where the row has every eighth, it has one note fewer.
func (b *Bassist) joinPhrases(bar, from int, places []int64) {
	beats, c := b.BeatStarts(bar), b.figure(bar).At(drawPlace)
	middle := b.Pass.Bars[bar].Start + beats[len(beats)/2]
	var ticks, late []int64
	for _, n := range b.notes[from:] {
		if n.tick < middle {
			ticks = append(ticks, n.tick)
		} else {
			late = append(late, n.tick)
		}
	}
	for i := cue.IndexAt(b.changes, middle-1) + 1; i < len(b.changes) && b.changes[i].Start < b.BarEnd(bar); i++ {
		if at := b.changes[i].Start; !slices.Contains(late, at) {
			late = append(late, at) // it is struck in any case
		}
	}
	had, walks := slices.Clone(late), b.notes[from].degree == 'w'
	last, pickup := b.notes[len(b.notes)-1], int64(never)
	fixed := func(at int64) bool { return b.changesAt(at) || at == last.tick && isApproach(last.degree) }
	calmer := !b.styles[bar].keepsRow && bar == len(b.Pass.Bars)-1 && b.LeadsTo(bar) < b.Energy(bar) &&
		slices.ContainsFunc(had, func(at int64) bool { return !fixed(at) })
	stays := !calmer && len(had) == 1 && len(ticks) == 1 && c.Below(2) == 0 // a bass in two keeps its second note
	for _, at := range places {
		if at >= middle && !slices.Contains(late, at) {
			late = append(late, at)
		}
	}
	size := len(had) + 1
	switch {
	case size > len(late) && b.styles[bar].keepsRow && b.Pass.Bars[bar].Meter.Den == 2 &&
		len(ticks)+len(late) <= len(places): // it walks
		size = len(late)
		for _, at := range places {
			if at < middle && !slices.Contains(ticks, at) {
				ticks = append(ticks, at)
			}
		}
	case size > len(late):
		size = max(0, len(had)-1)
	case calmer:
		size--
	}
	if n := len(places); b.picksUp && bar == len(b.Pass.Bars)-1 && n > 0 {
		pickup = places[n-1]
	}
	cost := func(at int64) int {
		switch {
		case at == pickup, fixed(at), (walks || stays) && slices.Contains(had, at): // a walking bass goes on in beats
			return 0
		case b.styles[bar].keepsRow && slices.Contains(had, at):
			return min(b.MetricPlace(bar, at), 1)
		case slices.Contains(had, at): // the joint is to be heard
			return 7 + c.At(at).Below(3)
		}
		return 1 + c.At(at).Below(6) + min(b.MetricPlace(bar, at), 1)
	}
	slices.SortStableFunc(late, func(x, y int64) int { return cost(x) - cost(y) })
	ticks = append(ticks, late[:size]...)
	slices.Sort(ticks)
	b.relay(bar, from, ticks)
	n := &b.notes[len(b.notes)-1]
	if b.styles[bar].keepsRow && size > len(had) && !slices.Contains(had, n.tick) && n.tick >= b.BarEnd(bar)-quarter {
		n.degree = 'a' // a step up or down into the next phrase
	}
	if n.tick == pickup && n.degree != 'w' && !isApproach(n.degree) {
		n.degree = 'a'
	}
}

// changesInside reports whether a chord begins in a bar after its first beat.
func (b *Bassist) changesInside(bar int) bool {
	i := cue.IndexAt(b.changes, b.BarEnd(bar)-1)
	return i >= 0 && b.changes[i].Start > b.Pass.Bars[bar].Start
}

// changesAt reports whether a chord begins at a tick.
func (b *Bassist) changesAt(tick int64) bool {
	i := cue.IndexAt(b.changes, tick)
	return i >= 0 && b.changes[i].Start == tick
}

// moveNote moves a note of the bar to the eighth before or after it: not the first, no approach
// and no chord's first, and not over a bass other than the root, which is played in halves. It
// goes to a stroke of the kick, or leaves none, where it can. It reports whether there is such a note.
func (b *Bassist) moveNote(bar, from int, places []int64, kicks []int64) bool {
	if b.styles[bar].keepsRow {
		return false
	}
	c := b.figure(bar).At(drawPlace)
	ticks := make([]int64, 0, len(b.notes)-from)
	for _, n := range b.notes[from:] {
		ticks = append(ticks, n.tick)
	}
	best, of, to := -1, 0, int64(0)
	for i, at := range ticks[1:] {
		k := slices.Index(places, at)
		if k < 0 || isApproach(b.notes[from+1+i].degree) || b.changesAt(at) ||
			isSlash(&cue.ChangeAt(b.changes, at).Chord) {
			continue
		}
		for _, j := range [2]int{k - 1, k + 1} {
			if j < 0 || j >= len(places) || places[j] <= ticks[i] || b.changesAt(places[j]) ||
				i+2 < len(ticks) && places[j] >= ticks[i+2] {
				continue
			}
			d := c.At(at, places[j]).Below(100)
			if slices.Contains(kicks, places[j]) || !slices.Contains(kicks, at) {
				d += 100
			}
			if d > best {
				best, of, to = d, i+1, places[j]
			}
		}
	}
	if best >= 0 {
		ticks[of] = to
		b.relay(bar, from, ticks)
	}
	return best >= 0
}

// kicksOf are where a level's kick strikes in a bar.
func kicksOf(lv *feel.Level, steps []plan.Step) []int64 {
	var out []int64
	for i := range lv.Drums {
		if lv.Drums[i].Voice.Limb != feel.RightFoot {
			continue
		}
		for _, st := range steps {
			if st.Index < len(lv.Drums[i].Steps) && lv.Drums[i].Steps[st.Index].Touch > feel.Sound {
				out = append(out, st.Tick)
			}
		}
	}
	return out
}

// relay puts the notes of a bar, from an index on, on other ticks. A note that was there stays
// as it is. A new one is like the note before it, and an approach stays the bar's last note.
func (b *Bassist) relay(bar, from int, ticks []int64) {
	row := slices.Clone(b.notes[from:])
	b.notes = b.notes[:from]
	lastBeat := b.Pass.Bars[bar].Start + b.BeatStarts(bar)[len(b.BeatStarts(bar))-1]
	for k, at := range ticks {
		i := len(row) - 1
		for i > 0 && row[i].tick > at {
			i--
		}
		n, next := row[i], b.BarEnd(bar)
		ends := next // where the note of the row would have been held to
		if i+1 < len(row) {
			ends = row[i+1].tick
		}
		if k+1 < len(ticks) {
			next = ticks[k+1]
		}
		if held := row[i].end == ends; held {
			n.end = next
		} else {
			n.end = min(next, at+row[i].end-row[i].tick)
		}
		last := row[len(row)-1].degree
		switch {
		case k == len(ticks)-1 && at >= lastBeat && isApproach(last):
			n.degree = last
		case n.tick != at && n.degree != 'w' && n.degree != '3' && n.degree != '5', isApproach(n.degree):
			n.degree = '1'
		}
		n.tick = at
		b.notes = append(b.notes, n)
	}
}

// isApproach reports whether a degree of the row leads to the next chord.
func isApproach(degree byte) bool { return degree == 'a' || degree == 'c' }
