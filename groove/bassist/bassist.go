// Package bassist plays the bass: in go a pass made ready, its cues and what the drummer
// plays, out comes one line of notes on the grid.
package bassist

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// bassNote is a note whose rhythm is settled and whose pitch is not.
type bassNote struct {
	tick, end int64
	degree    byte // as in the tab: '1', '3', '5', '7', '8', 'a', 'c', 'w'; 'g' a dead note
	first     bool // the first note under its chord
	leads     bool // it is an approach to the next chord
	touch     feel.Touch
	accent    int
	pushed    bool
	short     bool  // the accent is cut off dry
	change    int   // index of the chord in force
	cue       int32 // the cue that it answers; -1: the row's own
	breath    int64 // how long before its written end the note is let go
}

// Bassist plays the bass, pass by pass. The zero value is ready; a result holds until the
// next pass is prepared. It belongs to one goroutine.
type Bassist struct {
	*plan.Plan
	changes  []cue.Change
	begins   []int       // for each change, where its chord begins: the first change in a row of the same chord
	follows  []int       // and the next change to another chord; len(changes): none
	end      int64       // where the part of this pass ends
	scaleNow scale       // of keyNow
	keyNow   harmony.Key // the key that keyOf gave last
	styles   []style     // by bar
	songRows []*songRow  // by bar: the row that the song asks for; nil: none
	leading  bool        // the last bar strikes on the way to another energy
	picksUp  bool        // a last note off the beat may lead into the next pass
	stale    []int       // by bar: how often it walked as other bars do and was drawn anew; nil: never

	// Memory that is used again from pass to pass.
	notes  []bassNote
	spare  []bassNote
	choice []pitch
	from   []uint8
	meant  []score.Note
}

// Prepare makes the bassist ready for a pass.
func (b *Bassist) Prepare(p *plan.Plan) {
	b.Plan, b.changes, b.end = p, p.Cues.Changes(timeline.Bass), p.Cues.End(timeline.Bass)
	b.begins, b.follows = rowsOfChords(b.changes)
	b.keyNow, b.scaleNow = p.Pass.Key, scaleOf(p.Pass.Key)
	b.styles, b.songRows = b.styles[:0], b.songRows[:0]
	for bar := range p.Pass.Bars {
		b.songRows = append(b.songRows, b.songRowOf(bar))
		switch {
		case b.songRows[bar] != nil:
			b.styles = append(b.styles, songStyle(p.Song.BandAt(p.Pass, bar).Bass.Line))
		case bar > 0 && b.songRows[bar-1] == nil && p.FeelIn(bar) == p.FeelIn(bar-1):
			b.styles = append(b.styles, b.styles[bar-1])
		default:
			b.styles = append(b.styles, styleOf(p.FeelIn(bar)))
		}
	}
}

// Play is the bassist's part of the pass, on the grid: the feel's row, the chord's bass at
// every change, what the events ask for, and then the pitches. The bassist hears the
// drummer and locks to the kick.
func (b *Bassist) Play(heard []score.Part) score.Part {
	if b.Pass.Tacet.Has(timeline.Bass) || len(b.changes) == 0 {
		return score.Part{}
	}
	kicks := kickTicks(heard[timeline.Drums].Notes)
	b.picksUp = b.mayPickUp(&heard[timeline.Drums])
	b.layRow()
	b.pickUp()
	b.strikeChanges()
	b.strikeEntries()
	b.strikeAccents()
	b.strikeFinalHit()
	b.obeyEvents()
	b.hangPushes(kicks)
	b.tieOver()
	b.breathe()
	b.findChords()
	b.comeToRest()
	if len(heard[timeline.Drums].Notes) > 0 {
		b.leaveToTheKick(kicks)
	}
	b.calmSlashBasses()
	b.turnLine()
	b.keepToRoots()
	b.holdToStops(kicks)
	b.lockToKicks(kicks)
	keys := b.chooseLine()
	out := slices.Grow(b.meant[:0], len(b.notes))
	for i, n := range b.notes {
		end := n.end
		switch next := i + 1; {
		case next == len(b.notes) || b.notes[next].tick != end:
		case keys[next] == keys[i]:
			end -= min((end-n.tick)/4, max((end-n.tick)/10, shortRelease), releaseTicks)
		case n.degree == 'w' && b.letsGo(b.BarAt(n.tick)):
			end -= min((end-n.tick)/10, releaseTicks)
		}
		out = append(out, n.note(uint8(keys[i]), end, b.ShortHit(n.tick)))
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
	Levels: touch.Levels{30, 60, 74, 88}, Places: [3]int{100, 94, 90}, Arch: 4, Sway: 3, Spread: 3, Slow: 5000,
	Quick: 3000, Lift: &lift,
}

// Instrument is the bass.
func (b *Bassist) Instrument(*score.Note) *touch.Instrument { return &electricBass }

// TextureIn says in a word what the bassist plays in a bar.
func (b *Bassist) TextureIn(bar int) string {
	lv := b.rowLevel(bar)
	attacks, walks := 0, false
	for _, s := range lv.Bass {
		if s.Touch > feel.Sound {
			attacks++
			walks = walks || s.Degree == 'w'
		}
	}
	return score.NameTexture(attacks, lv.Bars, walks, "walking", "line")
}

// note is the finished note with its pitch, let go at end or, if it is a hit that is cut off dry,
// after shortHit.
func (n *bassNote) note(key uint8, end, shortHit int64) score.Note {
	if n.short {
		end = min(end, n.tick+shortHit)
		n.end, n.breath = min(n.end, n.tick+2*shortHit), 0
	}
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
	if n.short {
		out.Art |= score.Short
	}
	return out
}

// The gap before the same note is struck again: a tenth of the note, from a twenty-fourth of a quarter
// to an eighth.
const (
	shortRelease = quarter / 24
	releaseTicks = quarter / 8
)
