package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// strikeOpening puts a crash and a kick on the first beat of a section that comes in at
// energy 4 or 5, as hard as possible where the band rises to 5. It does nothing when the
// energy falls into the section, or when the first chord was struck before the bar line.
func (d *Drummer) strikeOpening(notes []score.Note) []score.Note {
	q := d.ForcefulOpening(timeline.Drums)
	if q == nil || !crashes.At(d.Pass.EnergyFrom) || !d.keepsTime(0) {
		return notes
	}
	touch := feel.Normal
	if q.Rises && fullForce.At(d.Pass.EnergyFrom) {
		touch = feel.Strong
	}
	notes = d.withoutCymbals(notes, 0)
	return append(notes, withCue(d.Cues.Opening, d.crashOn(0, touch)...)...)
}

// crashOn is a crash and a kick on a tick.
func (d *Drummer) crashOn(tick int64, touch feel.Touch) []score.Note {
	bar := d.BarAt(tick)
	return []score.Note{newStroke(kickVoice, tick, tick+strokeTicks, d.withCrash(bar, feel.Normal)),
		newStroke(crashVoice, tick, tick+strokeTicks, d.withBrushes(bar, touch))}
}

// strikeRises puts a crash and a kick on the first beat of bars inside the pass whose energy is
// higher all at once, or in which the drummer comes in again and the energy does not fall, at
// energy 4 or 5. He comes in again behind bars that he keeps out of, and behind a feel without
// drums. A push there has its crash already.
func (d *Drummer) strikeRises(notes []score.Note) []score.Note {
	pushes, entries := d.Cues.Pushes(timeline.Drums), d.Cues.Entries(timeline.Drums)
	for bar := range d.Pass.Bars {
		at := d.Pass.Bars[bar].Start
		enters := bar > 0 && d.Energy(bar) >= d.Energy(bar-1) && (slices.Contains(entries, at) ||
			d.FeelIn(bar) != d.FeelIn(bar-1) && !d.keepsTime(bar-1))
		if _, pushed := pushes.Over(at); pushed || !(enters || d.Rises(bar)) || !crashes.At(d.Energy(bar)) ||
			!d.keepsTime(bar) || bar == d.Ending() {
			continue
		}
		notes = slices.DeleteFunc(d.withoutCymbals(notes, at), func(n score.Note) bool {
			return n.At == at && n.Voice.Limb() == feel.RightFoot
		})
		notes = append(notes, d.crashOn(at, feel.Normal)...)
	}
	return notes
}

// closeHats closes the hat before every caesura: the last stroke on it is no open one.
func (d *Drummer) closeHats(notes []score.Note) []score.Note {
	for _, s := range d.Cues.Caesuras() {
		if last := lastOnHat(notes, s.Start); last >= 0 && kindOf(notes[last].Key) == kindOpen {
			notes[last].Key, notes[last].Voice = hatVoice.Key, score.Kit(hatVoice)
		}
	}
	return notes
}

// withoutCymbals takes away the time-keeping strokes that sound at ticks, which are in order:
// there the hand strikes the crash. In triplets an "and" sounds with the last third.
func (d *Drummer) withoutCymbals(notes []score.Note, ticks ...int64) []score.Note {
	if len(ticks) == 0 {
		return notes
	}
	sounds := make([]int64, len(ticks))
	for i, tick := range ticks {
		sounds[i] = d.Swung(tick)
	}
	return slices.DeleteFunc(notes, func(n score.Note) bool {
		k := kindOf(n.Key)
		if n.Voice.Limb() != feel.Hand || k != kindHat && k != kindOpen && k != kindRide {
			return false
		}
		_, there := slices.BinarySearch(sounds, d.Swung(n.At))
		return there
	})
}

// strikeEnding ends the song with one soft touch to ring, a kick and a cymbal that are softer than
// what was before. The bass and the piano strike their last chord on the same beat.
func (d *Drummer) strikeEnding(notes []score.Note) []score.Note {
	bar := d.Ending()
	if bar < 0 || !d.keepsTime(bar) {
		return notes
	}
	start, energy := d.EndingAt(), d.Energy(bar)
	notes = slices.DeleteFunc(notes, func(n score.Note) bool { return n.At >= start })
	cymbal := rideVoice
	if washes.At(energy) {
		cymbal = crashVoice
	}
	touch := endingTouch.At(energy)
	if d.BrushesIn(bar) {
		touch = feel.Ghost
	}
	return append(notes, withCue(d.Cues.Ending,
		newStroke(kickVoice, start, start+strokeTicks, touch),
		newStroke(cymbal, start, start+strokeTicks, touch))...)
}

// strikeFinalHit strikes the song's last hit before a stop with kick and backbeat: no cymbal
// that would ring on, and nothing after it.
func (d *Drummer) strikeFinalHit(notes []score.Note) []score.Note {
	at := d.FinalHit()
	if at < 0 || !d.keepsTime(d.BarAt(at)) {
		return notes
	}
	touch := feel.Strong
	if d.BrushesIn(d.BarAt(at)) {
		touch = feel.Normal
	}
	notes = slices.DeleteFunc(notes, func(n score.Note) bool { return n.At > at })
	return append(d.withoutCymbals(notes, at), withCue(d.Cues.FinalHit,
		newStroke(kickVoice, at, at+strokeTicks, touch),
		newStroke(d.backbeat(d.BarAt(at)), at, at+strokeTicks, touch))...)
}
