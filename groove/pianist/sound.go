package pianist

import (
	"cmp"
	"slices"

	"plinth/groove/score"
	"plinth/groove/voicing"
)

// rollMS is the time between two notes of a rolled chord, in milliseconds. The top note is on
// the beat and the others come before it. Where the strike before is too near, the chord is
// not rolled. From memory: pianists' quick rolls lie about here; no source checked.
const rollMS = 15

// thinOut leaves in each bar only as many attacks as its energy allows, and fewer where the
// singer is busy. Attacks that the chart or an event asks for stay. Of the others, strikes of
// the left hand alone inside a bar go first, then the softest strikes of the tab, the last of
// a bar before the first.
func (c *Pianist) thinOut(in []mark) []mark {
	drop := make([]bool, len(in))
	for bar, first := 0, 0; bar < len(c.Pass.Bars); bar++ {
		b := c.Pass.Bars[bar]
		for first < len(in) && in[first].tick < b.Start {
			first++
		}
		last := first
		for last < len(in) && in[last].tick < b.Start+b.Length {
			last++
		}
		budget := int(b.Length * AttacksPerBeat.At(c.Energy(bar)) / (1000 * b.Meter.TempoTicks()))
		if c.ear.isBusy(bar) {
			budget = budget * 3 / 4
		}
		over := max(0, last-first-max(1, budget))
		var spare []int // what may go, the least important first
		for i := last - 1; over > 0 && i >= first; i-- {
			if !in[i].forced {
				spare = append(spare, i)
			}
		}
		slices.SortStableFunc(spare, func(i, j int) int {
			a, b := &in[i], &in[j]
			return cmp.Or(cmp.Compare(a.importance(), b.importance()), cmp.Compare(a.touch, b.touch))
		})
		for _, i := range spare[:min(over, len(spare))] {
			drop[i] = true
		}
		first = last
	}
	return score.Without(in, func(i int) bool { return drop[i] })
}

// strikeWholeChords makes every chord heard whole: where the strikes of a broken chord do not
// reach all voices before the chord changes, the first strike takes all of them.
func (c *Pianist) strikeWholeChords(strikes []mark) {
	at := 0
	for i := 0; i < len(c.changes); {
		end := i + 1
		for end < len(c.changes) && !c.needsStrike(end) {
			end++
		}
		until := c.end
		if end < len(c.changes) {
			until = c.changes[end].Start
		}
		n := int(c.voicings[i].N)
		for at < len(strikes) && strikes[at].tick < c.changes[i].Start {
			at++
		}
		first, heard := at, 0
		for at < len(strikes) && strikes[at].tick < until {
			low, high := strikes[at].voices(n)
			heard |= 1<<high - 1<<low
			at++
		}
		if first < at && heard != 1<<n-1 {
			strikes[first].part, strikes[first].up = 'c', false
		}
		i = end
	}
}

// voicesOfPart says which of n voices a part of the comp row strikes: from low up to but not
// including high.
func voicesOfPart(part byte, n int) (low, high int) {
	switch {
	case n == 0 || part == 'b':
		return 0, 0
	case part == 'l':
		return 0, max(1, n/2)
	case part == 'u':
		return n / 2, n
	case part >= '1' && part <= '5':
		i := min(int(part-'0'), n)
		return i - 1, i
	}
	return 0, n
}

// voices says which of n voices a mark strikes, as voicesOfPart does.
func (m *mark) voices(n int) (low, high int) {
	low, high = voicesOfPart(m.part, n)
	if m.up {
		high = n
	}
	return low, high
}

// heldNote is a key that is down.
type heldNote struct {
	score.Note
	down  bool
	ring  bool
	least int64
	stop  int64 // where it ends at the latest; 0: open
}

// soundGestures turns the gestures into notes. At one tick, old notes end before new ones
// begin. A strike of some voices leaves the others ringing; a strike of all voices ends them.
func (c *Pianist) soundGestures(s gestures) []score.Note {
	out := c.meant[:0]
	var keys [voicing.MaxVoices + 2]heldNote // the voicing's, then the left hand's two
	right := keys[:voicing.MaxVoices]
	lift := func(i int, at int64) {
		h := &keys[i]
		if !h.down {
			return
		}
		h.down = false
		if h.stop > 0 {
			at = min(at, h.stop)
		}
		if at > h.At {
			h.Hold(at)
			out = append(out, h.Note)
		}
	}
	rest, cut := 0, 0
	groups := grouping{c: c}
	upTo := func(tick int64) {
		for rest < len(s.rests) || cut < len(s.cuts) {
			switch {
			case cut < len(s.cuts) && s.cuts[cut] <= tick && (rest == len(s.rests) || s.cuts[cut] <= s.rests[rest]):
				for i := range keys {
					lift(i, s.cuts[cut])
				}
				cut++
			case rest < len(s.rests) && s.rests[rest] <= tick:
				for i := range right { // the left hand holds on
					if h := &keys[i]; h.down && !h.ring && h.stop == 0 {
						h.stop = max(s.rests[rest], h.least)
					}
				}
				rest++
			default:
				return
			}
		}
	}
	for k := range s.strikes {
		m := &s.strikes[k]
		upTo(m.tick)
		at := c.changeAt(m.tick)
		v := &c.voicings[at]
		low, high := m.voices(int(v.N))
		if high-low == int(v.N) {
			for i := range right {
				lift(i, m.tick)
			}
		}
		spread := high - 1 // how many notes of a roll come before the top note
		if m.left {
			spread++
		}
		need := roomUS + 1000*rollMS*int64(spread)
		// At the end of a stop a roll would begin inside the stop.
		afterStop := c.silences.Has(m.tick-1) && !c.silences.Has(m.tick)
		roll := m.part == 'r' && !afterStop &&
			(k == 0 || c.microsAt(m.tick)-c.microsAt(s.strikes[k-1].tick) >= need)
		group := groups.groupOf(m, &c.changes[at], roll)
		press := func(i int, n score.Note, ahead int) { // ahead: of how many notes of a roll it comes
			lift(i, m.tick)
			if roll {
				n.Roll, n.Art = int16(-rollMS*ahead), n.Art|score.Rolled
			}
			keys[i] = heldNote{Note: n, down: true, ring: m.ring, least: m.least, stop: m.stop}
		}
		if m.left {
			low, key := c.leftKeys(m, at)
			for i, k := range [2]int{key, low} {
				lift(voicing.MaxVoices+i, m.tick)
				if k > 0 {
					press(voicing.MaxVoices+i, m.note(uint8(k), score.Left, groups.roll), high)
				}
			}
		}
		for i := low; i < high; i++ {
			press(i, m.note(v.Notes[i], score.Right, group), high-1-i)
		}
	}
	upTo(c.end)
	for i := range keys {
		lift(i, c.end)
	}
	c.meant = out
	score.ByTickAndKey(out)
	return out
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
	return n
}

// microsAt is the time of a tick of the grid, in microseconds.
func (c *Pianist) microsAt(tick int64) int64 { return c.Clock().Micros(c.Swung(tick)) }
