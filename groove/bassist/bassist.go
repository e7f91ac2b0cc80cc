// Package bassist plays the bass: in go a pass made ready, its cues and what the drummer
// plays, out comes one line of notes on the grid.
package bassist

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// bassNote is a note whose rhythm is settled and whose pitch is not.
type bassNote struct {
	tick, end int64
	degree    byte // as in the tab: '1', '3', '5', '7', '8', 'a', 'w'; 'g' a dead note
	touch     feel.Touch
	accent    int
	pushed    bool
	change    int   // index of the chord in force
	cue       int32 // the cue that it answers; -1: the row's own
	breath    int64 // how long before its written end the note is let go
}

// Bassist plays the bass, pass by pass. The zero value is ready; a result holds until the
// next pass is prepared. It belongs to one goroutine.
type Bassist struct {
	*plan.Plan
	changes []cue.Change
	follows []int // for each change, the next change to another chord; len(changes): none
	end     int64 // where the part of this pass ends

	// Memory that is used again from pass to pass.
	notes  []bassNote
	choice []pitch
	from   []uint8
	meant  []score.Note
}

// Prepare makes the bassist ready for a pass.
func (b *Bassist) Prepare(p *plan.Plan) {
	b.Plan, b.changes, b.end = p, p.Cues.Changes(timeline.Bass), p.Cues.End(timeline.Bass)
	b.follows = nextOtherChords(b.changes)
}

// Play is the bassist's part of the pass, on the grid: the feel's row, the chord's bass at
// every change, what the events ask for, and then the pitches. The bassist hears the
// drummer and locks to the kick.
func (b *Bassist) Play(heard []score.Part) score.Part {
	if b.Pass.Tacet.Has(timeline.Bass) || len(b.changes) == 0 {
		return score.Part{}
	}
	b.layRow()
	b.strikeChanges()
	b.strikeAccents()
	b.strikeFinalHit()
	b.obeyEvents()
	b.breathe()
	b.findChords()
	b.lockToKicks(kickTicks(heard[timeline.Drums].Notes))
	keys := b.choosePitches()
	out := slices.Grow(b.meant[:0], len(b.notes))
	for i, n := range b.notes {
		end := n.end
		if i+1 < len(b.notes) && b.notes[i+1].tick == end && keys[i+1] == keys[i] {
			end -= min((end-n.tick)/4, releaseTicks)
		}
		out = append(out, n.note(uint8(keys[i]), end))
	}
	b.meant = out
	return score.Part{Notes: b.Allowed(timeline.Bass, out)}
}

// kickTicks are the strokes of the kick, in ticks.
func kickTicks(drums []score.Note) []int64 {
	var out []int64
	for i := range drums {
		if n := &drums[i]; n.Voice.Limb() == feel.RightFoot {
			out = append(out, n.At)
		}
	}
	return out
}

// Shapes returns nil: a bass line has no figure that a note could stand out of.
func (b *Bassist) Shapes([]score.Note) []touch.Shape { return nil }

// electricBass has levels that keep the bass under the band. There is no table of how
// bassists stray, so it strays as the ride does.
var electricBass = touch.Instrument{
	Levels: touch.Levels{30, 60, 74, 88}, Places: [3]int{100, 94, 90}, Arch: 5, Sway: 4, Spread: 3, Slow: 5000,
	Quick: 3000, Lift: &lift,
}

// Instrument is the bass.
func (b *Bassist) Instrument(*score.Note) *touch.Instrument { return &electricBass }

// Texture says in a word what the bassist plays in a level.
func (b *Bassist) Texture(lv *feel.Level) string {
	attacks, walks := 0, false
	for _, s := range lv.Bass {
		if s.Touch > feel.Sound {
			attacks++
			walks = walks || s.Degree == 'w'
		}
	}
	return score.NameTexture(attacks, lv.Bars, walks, "walking", "line")
}

// note is the finished note with its pitch, let go at end.
func (n *bassNote) note(key uint8, end int64) score.Note {
	out := score.Note{At: n.tick, Value: int32(n.end + n.breath - n.tick), Held: int32(end - n.tick), Cue: n.cue,
		Key: key, Voice: score.String, Touch: n.touch}
	if n.accent > 0 {
		out.Art |= score.Accent
	}
	if n.pushed {
		out.Art |= score.Pushed
	}
	if n.degree == 'g' {
		out.Art |= score.Dead
	}
	return out
}

// releaseTicks is the gap before the same note is struck again.
const releaseTicks = quarter / 8

// layRow lays the feel's bass row over the pass.
func (b *Bassist) layRow() {
	ending := b.Ending()
	b.notes = b.notes[:0]
	open := -1 // the note that "=" holds on
	for bar := range b.Pass.Bars {
		if b.Cues.Alone[bar] {
			open = -1
			continue
		}
		if bar == ending { // the last note of the song is held
			b.notes = append(b.notes, bassNote{
				tick: b.Pass.Bars[bar].Start, end: b.BarEnd(bar), degree: '1', touch: feel.Normal, cue: b.Cues.Ending,
			})
			continue
		}
		lv := b.Level(bar)
		steps := b.Steps(bar, lv)
		for i, st := range steps {
			if st.Index >= len(lv.Bass) {
				continue
			}
			end := b.BarEnd(bar)
			if i+1 < len(steps) {
				end = steps[i+1].Tick
			}
			s := lv.Bass[st.Index]
			switch s.Touch {
			case feel.Rest:
				open = -1
			case feel.Sound:
				if open >= 0 {
					b.notes[open].end = end
				}
			default:
				n := bassNote{tick: st.Tick, end: end, degree: s.Degree, touch: s.Touch, cue: -1}
				if s.Touch == feel.Ghost {
					n.degree = 'g'
				}
				open = len(b.notes)
				b.notes = append(b.notes, n)
			}
		}
	}
}

// strikeChanges puts the chord's bass on every change, or on the push where the change comes
// early. The row's notes between a push and its target are left out, and the pushed note is
// tied over in their place.
func (b *Bassist) strikeChanges() {
	pushes := b.Cues.Pushes(timeline.Bass)
	tied := map[int64]int64{} // start of a push: the end of the note it replaces
	b.notes = slices.DeleteFunc(b.notes, func(n bassNote) bool {
		w, over := pushes.Over(n.tick)
		if over {
			tied[w.From] = max(tied[w.From], n.end)
		}
		return over || n.tick >= b.end
	})
	for k := range b.changes {
		c := &b.changes[k]
		if c.Same && !c.Pushed() {
			// A walking bass goes on where the chord stays, but a section begins on the bass note.
			if k == 0 && len(b.notes) > 0 && b.notes[0].tick == c.Start && b.notes[0].degree == 'w' {
				b.notes[0].degree = '1'
			}
			continue
		}
		b.alignRowTo(c.Start)
		i := b.noteAt(c.Start, c.End)
		n := &b.notes[i]
		n.degree, n.pushed, n.cue = '1', c.Pushed(), c.Cue
		n.touch = max(n.touch, feel.Normal)
		if c.Pushed() {
			n.end = max(n.end, tied[c.Start], c.Nominal+quarter/2)
			if i+1 < len(b.notes) {
				n.end = min(n.end, b.notes[i+1].tick)
			}
		}
	}
}

// firstFrom is the index of the first note that is struck at a tick or later.
func (b *Bassist) firstFrom(tick int64) int {
	return sort.Search(len(b.notes), func(i int) bool { return b.notes[i].tick >= tick })
}

// noteAt returns the index of the note struck at a tick, and adds a note when there is none.
// The new note ends where the note that it cuts short would have ended. In a silence it lasts
// as long as the note before it. It never reaches over the next note.
func (b *Bassist) noteAt(tick, most int64) int {
	i := b.firstFrom(tick)
	if i < len(b.notes) && b.notes[i].tick == tick {
		return i
	}
	n := bassNote{tick: tick, end: min(most, tick+quarter), degree: '1', touch: feel.Normal, cue: -1}
	if i > 0 {
		before := &b.notes[i-1]
		if before.end > tick {
			n.end = before.end
			before.end = tick
		} else {
			n.end = min(most, tick+max(before.end-before.tick, quarter/2))
		}
	}
	if i < len(b.notes) {
		n.end = min(n.end, b.notes[i].tick)
	}
	b.notes = slices.Insert(b.notes, i, n)
	return i
}

// hitTicks is how long an accent is held where the row does not say.
const hitTicks = quarter * 3 / 4

// strikeAccents plays the accents on the chord's bass.
func (b *Bassist) strikeAccents() {
	for k, q := range b.Cues.Each(cue.Accent, timeline.Bass) {
		b.alignRowTo(q.At)
		i := b.noteAt(q.At, q.At+hitTicks)
		n := &b.notes[i]
		n.degree, n.touch = '1', feel.Strong
		if int(q.Weight) > n.accent {
			n.accent, n.cue = int(q.Weight), k
		}
		if b.Cues.Alone[q.Bar] && !q.Early && q.At >= 0 {
			n.end = min(n.end, q.At+hitTicks)
		}
	}
}

// alignRowTo moves a note of the row to the tick of a change or a hit, where both would sound
// at the same time. In a tab in triplets that is the case for the off-beat and the half-way
// place, where a song file's "&" stands.
func (b *Bassist) alignRowTo(tick int64) {
	i := b.firstFrom(tick)
	for _, k := range [2]int{i - 1, i} {
		if k >= 0 && k < len(b.notes) && b.notes[k].accent == 0 && !b.notes[k].pushed &&
			b.Swung(b.notes[k].tick) == b.Swung(tick) {
			b.notes[k].tick = tick
		}
	}
}

// strikeFinalHit strikes the song's last hit and holds it to the stop.
func (b *Bassist) strikeFinalHit() {
	last := b.FinalHit()
	for i := range b.notes {
		if n := &b.notes[i]; n.tick == last {
			n.touch, n.end, n.cue = feel.Strong, b.end, b.Cues.FinalHit
			b.notes = b.notes[:i+1]
			return
		}
	}
}

// obeyEvents takes away the notes that the events forbid: in a stop, in a bar that has only
// written hits, in the rest of a held beat and under N.C.
func (b *Bassist) obeyEvents() {
	silences, holds, alone := b.Cues.Silences(timeline.Bass), b.Cues.Holds, b.Cues.Alone
	var none cue.Stretches // where the chords stop
	for i := range b.changes {
		if c := &b.changes[i]; c.Chord.None {
			none = append(none, cue.Stretch{Start: c.Start, End: c.End})
		}
	}
	kept := b.notes[:0]
	for i := range b.notes {
		n := b.notes[i]
		c := cue.ChangeAt(b.changes, n.tick)
		if silences.Has(n.tick) || c == nil || c.Chord.None || n.tick < c.Start ||
			(holds.Has(n.tick) || alone[b.BarAt(n.tick)]) && n.accent == 0 && !n.pushed {
			continue
		}
		n.end = silences.Next(n.tick, none.Next(n.tick, min(n.end, b.end)))
		kept = append(kept, n)
	}
	b.notes = kept
	for i := range b.notes {
		n := &b.notes[i]
		for bar := b.BarAt(n.tick) + 1; bar < len(b.Pass.Bars) && b.Pass.Bars[bar].Start < n.end; bar++ {
			start := b.Pass.Bars[bar].Start
			if alone[bar] && (!n.pushed || cue.ChangeAt(b.changes, n.tick).Nominal != start) { // else it is tied over
				n.end = start
			}
		}
		// A note that sounds when a held beat begins is held with it.
		h := sort.Search(len(holds), func(i int) bool { return holds[i].Start >= n.tick })
		for ; h < len(holds) && holds[h].Start <= n.end; h++ {
			n.end = max(n.end, min(holds[h].End, silences.Next(n.tick, b.end)))
		}
		if i+1 < len(b.notes) {
			n.end = min(n.end, b.notes[i+1].tick)
		}
	}
}

// breathe lets a section's last bar breathe: its last long note ends a sixteenth before the
// section does.
func (b *Bassist) breathe() {
	last := len(b.Pass.Bars) - 1
	if len(b.notes) == 0 || b.Pass.After == nil || !breathes.At(b.Energy(last)) {
		return
	}
	n := &b.notes[len(b.notes)-1]
	if n.end == b.Pass.Length && n.end-n.tick > quarter {
		n.end -= quarter / 4
		n.breath = quarter / 4
	}
}

// findChords finds the chord of every note. The first note under a new chord is its
// bass, whatever the row says.
func (b *Bassist) findChords() {
	at, fresh := -1, false
	for i := range b.notes {
		n := &b.notes[i]
		for at+1 < len(b.changes) && b.changes[at+1].Start <= n.tick {
			at++
			fresh = fresh || !b.changes[at].Same
		}
		n.change = max(at, 0)
		if fresh && n.degree != 'g' {
			n.degree, fresh = '1', false
		}
	}
}
