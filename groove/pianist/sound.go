package pianist

import (
	"cmp"
	"slices"
	"sort"

	"plinth/groove/score"
	"plinth/groove/voicing"
)

// rollMS is the time between two notes of a rolled chord, in milliseconds. The top note is on
// the beat and the others come before it. Where the strike before is too near, the chord is
// not rolled. From memory: pianists' quick rolls lie about here; no source checked.
const rollMS = 15

// thinOut leaves in a bar at most half again as many attacks as its energy allows on average,
// and fewer than that average where the singer is busy. Where the pass as a whole has too
// many, the bars that have more than the average lose one after the other, until it has not.
// Attacks that the chart or an event asks for stay. Of the others, strikes of the left hand
// alone inside a bar go first, then the softest strikes of the tab, the last of a bar before
// the first.
func (c *Pianist) thinOut(in []mark) []mark {
	drop := make([]bool, len(in))
	bars := make([]thinBar, len(c.Pass.Bars))
	surplus := 1000 * int64(len(in)) // over what the pass may have, in thousandths
	first := 0
	for bar := range bars {
		b := &bars[bar]
		start, end := c.Pass.Bars[bar].Start, c.BarEnd(bar)
		for first < len(in) && in[first].tick < start {
			first++
		}
		last := first
		for last < len(in) && in[last].tick < end {
			last++
		}
		b.spare = spareMarks(in, first, last)
		budget := c.budget(bar)
		surplus -= budget
		b.over = last - first - max(1, int(budget/1000))
		most := budget * 3 / 2
		if c.ear.isBusy(bar) {
			most = budget * 3 / 4
		}
		for n := last - first - max(1, int(most/1000)); n > 0 && b.dropOne(drop); n-- {
			surplus -= 1000
		}
		first = last
	}
	for dropped := true; surplus > 0 && dropped; {
		dropped = false
		for bar := range bars {
			if b := &bars[bar]; surplus > 0 && b.over > 0 && b.dropOne(drop) {
				surplus, dropped = surplus-1000, true
			}
		}
	}
	return score.Without(in, func(i int) bool { return drop[i] })
}

// thinBar is a bar that is thinned out.
type thinBar struct {
	spare []int // the marks that may go, the least important first
	over  int   // how many marks it has over the average
}

// dropOne takes a mark away; false where none may go.
func (b *thinBar) dropOne(drop []bool) bool {
	if len(b.spare) == 0 {
		return false
	}
	drop[b.spare[0]] = true
	b.spare, b.over = b.spare[1:], b.over-1
	return true
}

// spareMarks are the marks of a bar that may go, as indices, the least important first.
func spareMarks(in []mark, first, last int) []int {
	var out []int
	for i := last - 1; i >= first; i-- {
		if !in[i].forced {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(i, j int) int {
		a, b := &in[i], &in[j]
		return cmp.Or(cmp.Compare(a.importance(), b.importance()), cmp.Compare(a.touch, b.touch))
	})
	return out
}

// budget is how many attacks a bar has at its energy, on average over a pass at most, in
// thousandths.
func (c *Pianist) budget(bar int) int64 {
	b := &c.Pass.Bars[bar]
	return b.Length * AttacksPerBeat.At(c.Energy(bar)) / b.Meter.PlayedBeat()
}

// heldNote is a key that is down.
type heldNote struct {
	score.Note
	down   bool
	ring   bool
	hand   hand
	change int32 // the chord that it belongs to
	least  int64
	stop   int64 // where it ends at the latest; 0: open
}

// The keys besides those of the voicing: the octave under its lowest, and the two of a left
// hand that has the bass.
const (
	octaveKey = voicing.MaxVoices
	leftKey   = octaveKey + 1
	numKeys   = leftKey + 2
)

// sounding is the keys that are down while gestures become notes.
type sounding struct {
	*Pianist
	keys [numKeys]heldNote
	out  []score.Note
}

// lift lets a key go.
func (s *sounding) lift(i int, at int64) {
	h := &s.keys[i]
	if !h.down {
		return
	}
	h.down = false
	if h.stop != 0 {
		at = min(at, h.stop)
	}
	if at > h.At {
		h.Hold(at)
		s.out = append(s.out, h.Note)
	}
}

// liftEarlier lets the keys of chords before change i go.
func (s *sounding) liftEarlier(i int32, at int64) {
	for k := range s.keys {
		if s.keys[k].change < i {
			s.lift(k, at)
		}
	}
}

// liftHand lets go what a hand holds of the voicing.
func (s *sounding) liftHand(h hand, at int64) {
	for k := range s.keys[:leftKey] {
		if s.keys[k].hand == h {
			s.lift(k, at)
		}
	}
}

// rest ends what a hand holds of the voicing, where nothing says that it rings.
func (s *sounding) rest(r rest) {
	for k := range s.keys[:leftKey] {
		if h := &s.keys[k]; h.down && h.hand == r.hand && !h.ring && h.stop == 0 {
			h.stop = max(r.tick, h.least)
		}
	}
}

// soundGestures turns the gestures into notes. At one tick, old notes end before new ones
// begin. Where a figure has one row, a strike of some voices leaves the others ringing and a
// strike of all ends them; where it has a row for each hand, a hand that strikes lets go what
// it held.
func (c *Pianist) soundGestures(g gestures) []score.Note {
	s := sounding{Pianist: c, out: c.meant[:0]}
	rests, cuts := g.rests, g.cuts
	upTo := func(tick int64) {
		for {
			switch {
			case len(cuts) > 0 && cuts[0].tick <= tick && (len(rests) == 0 || cuts[0].tick <= rests[0].tick):
				s.liftEarlier(cuts[0].change, cuts[0].tick)
				cuts = cuts[1:]
			case len(rests) > 0 && rests[0].tick <= tick:
				s.rest(rests[0])
				rests = rests[1:]
			default:
				return
			}
		}
	}
	groups := grouping{c: c}
	for k := range g.strikes {
		upTo(g.strikes[k].tick)
		s.strike(g.strikes, k, &groups)
	}
	upTo(c.end)
	for i := range s.keys {
		s.lift(i, c.end)
	}
	c.meant = s.out
	score.ByTickAndKey(s.out)
	return s.out
}

// strike strikes the keys of mark k.
func (s *sounding) strike(marks []mark, k int, groups *grouping) {
	m := &marks[k]
	at := int(m.change)
	if at < 0 {
		at = s.changeAt(m.tick)
	} else {
		s.liftEarlier(m.change, m.tick)
	}
	v := &s.voicings[at]
	n := int(v.N)
	right, left := m.voices(n)
	moved := uint8(0)
	if m.part == 'm' {
		if moved = s.neighbour(v, at); moved == 0 {
			right = 0 // the chord goes on
		}
	}
	switch {
	case m.hands:
		if left != 0 {
			s.liftHand(leftHand, m.tick)
		}
		if right != 0 {
			s.liftHand(rightHand, m.tick)
		}
		for i := range n {
			if h := &s.keys[i]; m.part == 'c' && h.down && h.hand == leftHand && (h.stop == 0 || h.stop > m.tick) {
				right &^= 1 << i // the left hand holds it
			}
		}
	case m.whole(v):
		for i := range leftKey {
			s.lift(i, m.tick)
		}
	}
	var roll int // milliseconds from note to note; 0: it is not rolled
	if m.part == 'r' {
		roll = s.roll(marks, k, n)
	}
	group := groups.groupOf(m, at, right|left, roll > 0)
	press := func(i int, note score.Note, by hand, ahead int) { // ahead: of how many notes of a roll it comes
		s.lift(i, m.tick)
		if roll > 0 {
			note.Roll, note.Art = int16(-roll*ahead), note.Art|score.Rolled
		}
		s.keys[i] = heldNote{Note: note, down: true, ring: m.ring, hand: by, change: int32(at), least: m.least,
			stop: m.stop}
	}
	if m.left {
		low, key := s.leftKeys(m, at)
		for i, k := range [2]int{key, low} {
			s.lift(leftKey+i, m.tick)
			if k > 0 {
				press(leftKey+i, m.note(uint8(k), score.Left, groups.roll), leftHand, n)
				if end := s.bassUntil(max(m.tick, s.changes[at].Nominal)); s.keys[leftKey+i].stop == 0 && end < s.end {
					s.keys[leftKey+i].stop = end
				}
			}
		}
	}
	over := 0 // how many notes come over the voicing
	if m.final && !s.hasBass(s.BarAt(m.tick)) {
		whole := *v
		if k := s.spreadOver(v, at); k > 0 {
			over = 1
			press(octaveKey, m.note(k, score.Right, group), rightHand, 0)
			whole.Notes[whole.N] = k
			whole.N++
		}
		low, high := s.spreadUnder(&whole, at)
		for i, k := range [2]uint8{high, low} {
			if k > 0 {
				press(leftKey+i, m.note(k, score.Left, group), leftHand, n+i+over)
			}
		}
	}
	if m.under == 'o' {
		if key := s.octaveUnder(v, at); key > 0 {
			press(octaveKey, m.note(uint8(key), score.Left, group), leftHand, n)
		}
	}
	for i := range n {
		bit := uint8(1) << i
		key, voice, by := v.Notes[i], score.Right, rightHand
		switch {
		case left&bit != 0:
			voice, by = score.Left, leftHand
		case right&bit == 0:
			continue
		case moved > 0:
			key = moved
		}
		press(i, m.note(key, voice, group), by, n-1-i+over)
	}
}

// roll is the time between the notes of a roll of n notes at mark k, which come before the top
// note, in milliseconds; the last chord's roll is over in half a beat. 0 where the strike
// before leaves no room for them. At the end of a stop a roll would begin inside the stop.
func (c *Pianist) roll(marks []mark, k, n int) int {
	m := &marks[k]
	if c.silences.Has(m.tick-1) && !c.silences.Has(m.tick) {
		return 0
	}
	spread := n - 1
	if m.left {
		spread++
	}
	ms := rollMS
	if m.final {
		spread += 3
		half := c.Pass.Bars[c.BarAt(m.tick)].Meter.PlayedBeat() / 2
		ms = min(lastRollMS, int(c.microsAt(m.tick)-c.microsAt(m.tick-half))/(1000*spread))
	}
	if k > 0 && c.microsAt(m.tick)-c.microsAt(marks[k-1].tick) < roomUS+1000*int64(ms*spread) {
		return 0
	}
	return ms
}

// neighbour is the key that the inner voice of change i's voicing moves to: a note of the
// key a step above or, failing that, a step below, that rubs with no tone of the chord and lies
// clear of the voices. 0 where there is none, where the chord has a note from outside the key,
// or another bass than its root: there it would only make another chord.
func (c *Pianist) neighbour(v *voicing.Voicing, i int) uint8 {
	chord, in, n := &c.changes[i].Chord, c.Pass.KeyAt(c.changes[i].Nominal), int(v.N)
	scale, tones := in.PCSet()|1<<in.LeadingTone().PC(), chord.PCSet()
	if n < 3 || chord.Bass != chord.Root || tones&^scale != 0 {
		return 0
	}
	avoid := c.ear.avoided(&c.changes[i])
	for _, d := range [...]int{2, 1, -2, -1} {
		key := int(v.Notes[inner(n)]) + d
		has := func(set uint16, key int) bool { return set&(1<<(key%12)) != 0 }
		clear := has(scale, key) && !has(avoid, key) &&
			!has(tones, key) && !has(tones, key+1) && !has(tones, key+11)
		for k, other := range v.Notes[:n] {
			clear = clear && (k == inner(n) || !voicing.Muddy(key, int(other)))
		}
		if clear && v.Top()-key > 2 { // under the top voice a tone apart is a cluster
			return uint8(key)
		}
	}
	return 0
}

// octaveUnder is the key an octave under the lowest voice for the left hand, 0 where the energy
// asks for none, where it would double the bass, or where the bass leaves no room for it while
// the chord lasts.
func (c *Pianist) octaveUnder(v *voicing.Voicing, change int) int {
	key, ch := int(v.Notes[0])-12, &c.changes[change]
	if !leftOctaves.At(c.Energy(c.BarAt(ch.Nominal))) || c.span < 12 || key%12 == ch.Chord.Bass.PC() {
		return 0
	}
	i := sort.Search(len(c.bass), func(i int) bool { return c.bass[i].At >= ch.Start })
	for ; i < len(c.bass) && c.bass[i].At < ch.End; i++ { // all that the bass has under this chord
		if b := int(c.bass[i].Key); key-b < 5 || voicing.Muddy(b, key) {
			return 0
		}
	}
	if !voicing.ClearOver(key, v) || !c.holds(key, key, v) {
		return 0
	}
	return key
}

// note is a key that a mark strikes.
func (m *mark) note(key uint8, hand score.Voice, group uint32) score.Note {
	n := score.Note{At: m.tick, Cue: m.cue, Group: group, Key: key, Voice: hand, Touch: m.touch}
	if m.accent > 0 {
		n.Art |= score.Accent
	}
	if m.pushed {
		n.Art |= score.Pushed
	}
	if m.ring {
		n.Art |= score.Rings
	}
	if m.short > 0 {
		n.Art, n.Value = n.Art|score.Short, int32(2*m.short)
	}
	return n
}

// microsAt is the time of a tick of the grid, in microseconds.
func (c *Pianist) microsAt(tick int64) int64 { return c.Clock().Micros(c.Swung(tick)) }
