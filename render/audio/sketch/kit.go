package sketch

import "plinth/render/audio/bank"

// stroke makes the sound of a stroke. Touch is 0 to 1.
type stroke func(d *dice, touch float64) *take

// percussion is a key of the drum channel.
type percussion struct {
	level  float64 // decibels below full scale at velocity 127, over the first 0.3 seconds
	class  int
	strike stroke
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
	35: {-18.5, 0, kick(47), []uint8{64}},
	36: {-18.5, 0, kick(54), []uint8{64}},
	37: {-26.5, 0, struck(rim, -0.05, 1.1, 2600), []uint8{64}},
	38: {-18, 0, snare(186, 0.9), []uint8{48, 84}},
	39: {-22.5, 0, clap, nil},
	40: {-20, 0, snare(222, 1.05), []uint8{48, 84}},
	41: {-16, 0, tom(78, -0.35), []uint8{64}},
	42: {-33.5, hats, hatClosed.strike, []uint8{46}},
	43: {-16, 0, tom(92, -0.3), []uint8{64}},
	44: {-32.5, hats, hatPedal.strike, nil},
	45: {-17, 0, tom(108, -0.15), []uint8{64}},
	46: {-31.5, hats, hatOpen.strike, nil},
	47: {-17.5, 0, tom(126, 0), []uint8{64}},
	48: {-18, 0, tom(146, 0.12), []uint8{64}},
	49: {-21.5, 0, crash.strike, nil},
	50: {-18.5, 0, tom(170, 0.25), []uint8{64}},
	51: {-30.5, 0, ride.strike, []uint8{62}},
	52: {-22.5, 0, china.strike, nil},
	53: {-29.5, 0, rideBell.strike, []uint8{62}},
	54: {-24.5, 0, tambourine, nil},
	55: {-23.5, 0, splash.strike, nil},
	56: {-23.5, 0, struck(cowbell, 0.2, 0.5, 2500), nil},
	57: {-21.5, 0, crash2.strike, nil},
	58: {-24.5, 0, vibraslap, nil},
	59: {-31.5, 0, ride.strike, []uint8{62}},
	60: {-22.5, 0, hand(400, 0.16, 0.6), nil},
	61: {-20.5, 0, hand(300, 0.2, 0.4), nil},
	62: {-22.5, 0, hand(310, 0.06, 1), nil},
	63: {-19.5, 0, hand(235, 0.35, 0.5), nil},
	64: {-18, 0, hand(175, 0.4, 0.35), nil},
	65: {-18.5, 0, struck(timbaleHigh, -0.2, 0.5, 2000), nil},
	66: {-17.5, 0, struck(timbaleLow, -0.3, 0.5, 1700), nil},
	67: {-24.5, 0, struck(agogoHigh, 0.3, 0.3, 3000), nil},
	68: {-23.5, 0, struck(agogoLow, 0.3, 0.3, 2500), nil},
	69: {-26.5, 0, shaken(6200, 0.6, 0.012, 0.022, 5200, 0.3), nil},
	70: {-29.5, 0, shaken(7200, 0.8, 0.006, 0.013, 3000, 0.3), nil},
	71: {-19.5, whistles, whistle(0.13), nil},
	72: {-15.5, whistles, whistle(0.42), nil},
	73: {-26.5, guiros, scraped(0.09, 16), nil},
	74: {-26.5, guiros, scraped(0.32, 22), nil},
	75: {-23.5, 0, struck(claves, 0.15, 0.25, 4000), nil},
	76: {-21.5, 0, struck(woodHigh, 0.1, 0.4, 2200), nil},
	77: {-20.5, 0, struck(woodLow, 0.1, 0.4, 1900), nil},
	78: {-19.5, cuicas, cuica(640, -120), nil},
	79: {-17.5, cuicas, cuica(300, 60), nil},
	80: {-27.5, triangles, struck(triangle(0.14), 0.3, 0.2, 6000), nil},
	81: {-26.5, triangles, struck(triangle(2.2), 0.3, 0.2, 6000), nil},
}

// brushes are the keys that a kit with brushes has for itself.
var brushes = map[int]percussion{
	38: {-26, 0, brushTap, []uint8{64}},
	39: {-25, 0, brushSlap, []uint8{64}},
	40: {-28.5, 0, brushSweep, nil},
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
