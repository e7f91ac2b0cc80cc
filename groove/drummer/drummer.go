// Package drummer plays the drums: in go a pass made ready and its cues, out come strokes
// on the grid, and how the instruments of the kit respond to the hand.
package drummer

import (
	"slices"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// Drummer plays the drums, pass by pass. The zero value is ready; a result holds until the
// next pass is prepared. It belongs to one goroutine.
type Drummer struct {
	*plan.Plan
	family   []feel.Fill    // the fills of a feel
	familyOf string         // and their name
	groups   []score.Group  // the fills that are played
	inRow    map[int32]bool // by cue: the fill that it asks for has another at its side, in a solo

	// Memory that is used again from pass to pass.
	strokes []score.Note
	rows    []kitRow

	weights   []int // metric weights of the steps of a bar, 0 for the first, see feel.Weights
	weightsOf meter.Meter
	places    []int // of the steps of the bar, see barStrokes.place
}

// Prepare makes the drummer ready for a pass.
func (d *Drummer) Prepare(p *plan.Plan) {
	d.Plan, d.groups, d.family, d.familyOf = p, nil, d.family[:0], ""
}

// familyIn are the fills of a bar's feel.
func (d *Drummer) familyIn(bar int) []feel.Fill {
	if name := d.FeelIn(bar).Fills; name != d.familyOf {
		d.family, d.familyOf = d.family[:0], name
		for i := range d.Set.Fills {
			if f := &d.Set.Fills[i]; f.Family == name {
				d.family = append(d.family, *f)
			}
		}
	}
	return d.family
}

// Play is the drummer's part of the pass, on the grid: time and fills, then what the events
// and the form ask for, and of all that what two hands and two feet can play. The drummer
// plays first and hears nobody.
func (d *Drummer) Play([]score.Part) score.Part {
	if d.Pass.Tacet.Has(timeline.Drums) {
		d.strokes = d.pickUpEntry()
		d.strokeValues(d.strokes)
		return score.Part{Notes: d.strokes}
	}
	fills := d.chooseFills()
	strokes := d.playFills(fills)
	notes := append(d.changeSticks(leaveRoomForFills(d.keepTime(fills), fills)), strokes...)
	notes = d.strikeFinalHit(d.strikeEnding(d.strikeRises(d.strikeOpening(notes))))
	notes = d.closeHats(d.strikeAccents(d.strikePushes(notes), fills))
	d.strokes = notes
	notes = d.keepPlayable(d.Allowed(timeline.Drums, notes))
	d.strokeValues(notes)
	return score.Part{Notes: notes, Groups: d.groups}
}

// graceStrokes are the strokes just before a flam or a drag.
func graceStrokes(s feel.Stroke, v feel.Voice, tick int64) []score.Note {
	ms := []int(nil)
	switch {
	case s.Drag:
		ms = dragMS
	case s.Flam:
		ms = flamMS
	}
	var out []score.Note
	for _, shift := range ms {
		g := newStroke(v, tick, tick+strokeTicks/4, feel.Ghost)
		g.Roll, g.Art = int16(shift), score.Grace
		out = append(out, g)
	}
	return out
}

// The voices that events and the form ask for, also where the level has no row for them:
// General MIDI percussion keys.
var (
	kickVoice  = feel.Voice{Word: "kick", Key: 36, Limb: feel.RightFoot}
	snareVoice = feel.Voice{Word: "snare", Key: 38, Limb: feel.Hand}
	crashVoice = feel.Voice{Word: "crash", Key: 49, Limb: feel.Hand}
	rideVoice  = feel.Voice{Word: "ride", Key: 51, Limb: feel.Hand}
	hatVoice   = feel.Voice{Word: "hat", Key: 42, Limb: feel.Hand}
	footVoice  = feel.Voice{Word: "hat_foot", Key: 44, Limb: feel.LeftFoot}
	openVoice  = feel.Voice{Word: "hat_open", Key: 46, Limb: feel.Hand}
	bellVoice  = feel.Voice{Word: "ride_bell", Key: 53, Limb: feel.Hand}
	stickVoice = feel.Voice{Word: "cross_stick", Key: 37, Limb: feel.Hand}
)

// backbeat is the voice that marks the backbeat in a bar: a snare or, at the lower energies,
// a cross-stick or a brush. Where the level marks no backbeat, it is a snare at the energies
// of snareDrum and a cross-stick below.
func (d *Drummer) backbeat(bar int) feel.Voice {
	rows := d.Level(bar).Drums
	i := slices.IndexFunc(rows, func(r feel.Row) bool { return r.Voice.Word == "snare" })
	if i < 0 {
		i = slices.IndexFunc(rows, func(r feel.Row) bool { return r.Voice.Backbeat() })
	}
	switch {
	case i >= 0:
		return rows[i].Voice
	case snareDrum.At(d.Energy(bar)):
		return snareVoice
	}
	return stickVoice
}

// keepsTime reports whether the drummer keeps time in a bar at all.
func (d *Drummer) keepsTime(bar int) bool { return len(d.Level(bar).Drums) > 0 }

// withBrushes turns a touch with sticks into the drummer's in a bar: with brushes it is softer,
// as a brush on the crash makes a wash and not a blow, and the kick goes with it.
func (d *Drummer) withBrushes(bar int, t feel.Touch) feel.Touch {
	if d.BrushesIn(bar) {
		return min(t, feel.Soft)
	}
	return t
}

// withCue marks strokes as the answer to a cue.
func withCue(cue int32, strokes ...score.Note) []score.Note {
	for i := range strokes {
		strokes[i].Cue = cue
	}
	return strokes
}

// withCrash is the touch of a kick under a crash: with brushes it is only felt.
func (d *Drummer) withCrash(bar int, t feel.Touch) feel.Touch {
	if d.BrushesIn(bar) {
		return feel.Ghost
	}
	return t
}
