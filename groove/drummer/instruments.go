package drummer

import (
	"plinth/groove/score"
	"plinth/groove/touch"
)

// "Drummers" in the figures below are the straight 4/4 performances of the Groove MIDI
// Dataset (Google Magenta, CC BY 4.0); figures of time are from its 4/4 performances,
// measured against their click. The drummers play loud and their kit clips at 127, so the
// bed takes their proportions and stays under their level.

// kind is a group of instruments of the kit that respond and stray alike.
type kind uint8

const (
	kindKick kind = iota
	kindSnare
	kindStick // cross-stick and small percussion
	kindHat
	kindPedal
	kindOpen
	kindRide
	kindTom
	kindCrash
	kindFill // any drum, as the hands play it in a fill
	numKinds
)

// kindOf sorts the General MIDI percussion keys (GM Level 1 percussion map).
func kindOf(key uint8) kind {
	switch key {
	case 35, 36:
		return kindKick
	case 38, 39, 40:
		return kindSnare
	case 42:
		return kindHat
	case 44:
		return kindPedal
	case 46:
		return kindOpen
	case 51, 53, 59:
		return kindRide
	case 41, 43, 45, 47, 48, 50:
		return kindTom
	case 49, 52, 55, 57:
		return kindCrash
	}
	return kindStick
}

// instruments are the kinds of instruments. They respond and stray as drummers' do.
//
// Levels: drummers' medians are cross-stick 64 (5 to 95 %: 25 to 89), backbeat snare 118
// to 122, snare hits under 45 are ghosts (a third in rock), kick on 1 and 3 75 on average,
// closed hat on the beat 87, ride on the beat 82, pedal hat 67, toms 75 to 98, crash 88.
//
// Places: closed hat 87 on the beat, 68 on the "and", 49 to 55 on "e" and "a"; ride 82 and
// 68; kick 75 on 1 and 3, 61 elsewhere. A snare's weight is in its touch, not in its place.
//
// Within one place of the bar drummers show a standard deviation of 12 to 21 (snare 21,
// closed hat 18, ride 16, kick 12, cross-stick 11). A bed has about a third of that, since it
// has no accents of its own to make: more than half of it from arch and sway, which are slow,
// and the rest from Spread.
//
// Slow and Quick: with the band's drift they come to about 0.6 of the drummers' median
// spread within a performance (closed hat 14.8 ms, ride 14.8, kick 17.7, snare 21.0,
// cross-stick 15.2, pedal 17.0, toms 15.5 to 17.9), and the quick share follows their
// correlation from stroke to stroke (hat .69, ride .66, kick .42, snare .17: a snare
// jumps, a hat wanders).
var instruments = [numKinds]touch.Instrument{
	kindKick:  answers(touch.Levels{28, 54, 74, 88}, [3]int{100, 90, 84}, 3, 6500, 5000),
	kindSnare: answers(touch.Levels{30, 58, 84, 97}, [3]int{100, 100, 97}, 3, 4500, 9000),
	kindStick: answers(touch.Levels{28, 48, 64, 78}, [3]int{100, 96, 92}, 3, 4500, 6000),
	kindHat:   answers(touch.Levels{28, 50, 70, 84}, [3]int{100, 78, 64}, 2, 5500, 2500),
	kindPedal: answers(touch.Levels{30, 48, 60, 72}, [3]int{100, 92, 88}, 3, 6500, 5000),
	kindOpen:  answers(touch.Levels{40, 56, 72, 88}, [3]int{100, 100, 92}, 2, 5000, 4000),
	kindRide:  answers(touch.Levels{28, 47, 61, 74}, [3]int{100, 83, 76}, 2, 5500, 2500),
	kindTom:   answers(touch.Levels{36, 62, 85, 102}, [3]int{100, 97, 94}, 3, 5000, 6500),
	kindCrash: answers(touch.Levels{44, 54, 70, 92}, [3]int{100, 100, 100}, 3, 5000, 5000),
	kindFill: {Levels: touch.Levels{30, 60, 60, 60}, Places: [3]int{100, 100, 100}, Arch: 2, Sway: 2, Spread: 1,
		Slow: 5000, Quick: 6500},
}

// How far the kit goes with the phrase, and how much it sways, see touch.Instrument.
const arch, sway = 8, 3

func answers(levels touch.Levels, places [3]int, spread, slow, quick int64) touch.Instrument {
	return touch.Instrument{Levels: levels, Places: places, Arch: arch, Sway: sway, Spread: spread, Slow: slow,
		Quick: quick}
}

// Instrument is the instrument of the kit that a note is played on.
func (d *Drummer) Instrument(n *score.Note) *touch.Instrument {
	if isDrumOfFill(n) {
		return &instruments[kindFill]
	}
	return &instruments[kindOf(n.Key)]
}
