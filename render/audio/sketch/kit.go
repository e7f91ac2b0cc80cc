package sketch

import (
	"plinth/render/audio/bank"
)

// percussion is a key of the drum channel.
type percussion struct {
	level  float64 // decibels below full scale at velocity 127, over the first 0.3 seconds
	class  int
	strike func(d *dice, touch float64) *take
	layers []uint8 // the lowest velocities of those above the first
}

// The exclusive classes of General MIDI's percussion map: what cannot sound at once.
const (
	hats = 1 + iota
	whistles
	guiros
	cuicas
	triangles
)

// standard is General MIDI Level 1's percussion map.
var standard = map[int]percussion{
	35: {-23, 0, kick(47), []uint8{64}},
	36: {-23, 0, kick(54), []uint8{64}},
	37: {-31, 0, struck(rim, -0.05, 1.1, 2600), []uint8{64}},
	38: {-22.5, 0, snare(186, 0.9), []uint8{48, 84}},
	39: {-27, 0, clap, nil},
	40: {-24.5, 0, snare(222, 1.05), []uint8{48, 84}},
	41: {-20.5, 0, tom(78, -0.35), []uint8{64}},
	42: {-38, hats, hatClosed.strike, []uint8{46}},
	43: {-20.5, 0, tom(92, -0.3), []uint8{64}},
	44: {-37, hats, hatPedal.strike, nil},
	45: {-21.5, 0, tom(108, -0.15), []uint8{64}},
	46: {-36, hats, hatOpen.strike, nil},
	47: {-22, 0, tom(126, 0), []uint8{64}},
	48: {-22.5, 0, tom(146, 0.12), []uint8{64}},
	49: {-26, 0, crash.strike, nil},
	50: {-23, 0, tom(170, 0.25), []uint8{64}},
	51: {-35, 0, ride.strike, []uint8{62}},
	52: {-27, 0, china.strike, nil},
	53: {-34, 0, rideBell.strike, []uint8{62}},
	54: {-29, 0, tambourine, nil},
	55: {-28, 0, splash.strike, nil},
	56: {-28, 0, struck(cowbell, 0.2, 0.5, 2500), nil},
	57: {-26, 0, crash2.strike, nil},
	58: {-29, 0, vibraslap, nil},
	59: {-36, 0, ride.strike, []uint8{62}},
	60: {-27, 0, hand(400, 0.16, 0.6), nil},
	61: {-25, 0, hand(300, 0.2, 0.4), nil},
	62: {-27, 0, hand(310, 0.06, 1), nil},
	63: {-24, 0, hand(235, 0.35, 0.5), nil},
	64: {-22.5, 0, hand(175, 0.4, 0.35), nil},
	65: {-23, 0, struck(timbaleHigh, -0.2, 0.5, 2000), nil},
	66: {-22, 0, struck(timbaleLow, -0.3, 0.5, 1700), nil},
	67: {-29, 0, struck(agogoHigh, 0.3, 0.3, 3000), nil},
	68: {-28, 0, struck(agogoLow, 0.3, 0.3, 2500), nil},
	69: {-31, 0, shaken(6200, 0.6, 0.012, 0.022, 5200, 0.3), nil},
	70: {-34, 0, shaken(7200, 0.8, 0.006, 0.013, 3000, 0.3), nil},
	71: {-24, whistles, whistle(0.13), nil},
	72: {-20, whistles, whistle(0.42), nil},
	73: {-31, guiros, scraped(0.09, 16), nil},
	74: {-31, guiros, scraped(0.32, 22), nil},
	75: {-28, 0, struck(claves, 0.15, 0.25, 4000), nil},
	76: {-26, 0, struck(woodHigh, 0.1, 0.4, 2200), nil},
	77: {-25, 0, struck(woodLow, 0.1, 0.4, 1900), nil},
	78: {-24, cuicas, cuica(640, -120), nil},
	79: {-22, cuicas, cuica(300, 60), nil},
	80: {-32, triangles, struck(triangle(0.14), 0.3, 0.2, 6000), nil},
	81: {-31, triangles, struck(triangle(2.2), 0.3, 0.2, 6000), nil},
}

// brushes are the keys that a kit with brushes has for itself.
var brushes = map[int]percussion{
	38: {-30.5, 0, brushTap, []uint8{64}},
	39: {-29.5, 0, brushSlap, []uint8{64}},
	40: {-33, 0, brushSweep, nil},
}

// brushedTouch is how bright a brush makes what a stick makes ring.
const brushedTouch = 0.15

// drum is what a key of a kit sounds like. Keys that General MIDI leaves open sound like the nearest it has.
func drum(p bank.Patch, key int) percussion {
	key = max(35, min(81, key))
	x := standard[key]
	if p.Program != brushKit {
		return x
	}
	if own, ok := brushes[key]; ok {
		return own
	}
	switch key {
	case 35, 36, 37, 44:
		return x // the foot and the stick's other end
	}
	strike := x.strike
	x.strike = func(d *dice, _ float64) *take { return strike(d, brushedTouch) }
	x.layers = nil
	return x
}

// The kits there are.
const (
	standardKit = 0
	brushKit    = 40
)
