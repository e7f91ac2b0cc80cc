package sketch

import "plinth/render/audio/bank"

// The programs that others stand for.
const (
	guideProgram = 53
	clickProgram = 115
)

// nearest is the patch that stands for one: a bank this small has one sound for each kind of instrument. Of melodic
// programs that it does not know, those that hold a tone are sung and the others played on the piano.
func nearest(p bank.Patch) bank.Patch {
	switch {
	case p.Drums && p.Program == brushKit:
		return p
	case p.Drums:
		return bank.Patch{Program: standardKit, Drums: true}
	case p.Program == 45, p.Program == 46: // pizzicato and harp
		return bank.Patch{Program: 6}
	}
	switch p.Program / 8 { // General MIDI's families
	case 0, 4: // pianos and basses
		return p
	case 1: // bells and mallets
		return bank.Patch{Program: 4}
	case 3, 13: // guitars and other plucked strings
		return bank.Patch{Program: 6}
	case 14: // struck
		return bank.Patch{Program: clickProgram}
	case 2, 5, 6, 7, 8, 9, 10, 11, 12: // held
		return bank.Patch{Program: guideProgram}
	}
	return bank.Patch{}
}

// layers are the lowest velocities of the layers above the first. The band plays most between 40 and 90.
func layers(p bank.Patch, key int) []uint8 {
	switch {
	case p.Drums:
		return drum(p, key).layers
	case p.Program == guideProgram || p.Program == clickProgram:
		return nil
	case p.Program/8 == 4: // basses
		return []uint8{72}
	}
	return []uint8{54, 76}
}

// touchOf is how hard a layer is played, 0 to 1, where there are so many above the first.
func touchOf(layer uint8, above int) float64 {
	switch above {
	case 0:
		return 0.6
	case 1:
		return [...]float64{0.25, 0.85}[min(layer, 1)]
	}
	return float64(min(layer, 2)) / 2
}

// instrument is how a melodic program is played.
type instrument struct {
	level   func(key int) float64 // decibels below full scale at velocity 127, over the first 0.3 seconds
	release func(key int) float64
	play    func(key int, touch float64, most int) *take // no more than so many frames of it
}

// stopped is the release of a bass: a hand ends the string.
var stopped = even(0.035)

// even is the same level or time at all keys.
func even(x float64) func(int) float64 { return func(int) float64 { return x } }

// pianoLevel falls at the top, where the sound is short.
func pianoLevel(db float64) func(int) float64 {
	return func(key int) float64 { return db - 0.22*max(0, float64(key-72)) - 0.05*max(0, float64(48-key)) }
}

// instruments are the melodic programs. Levels lie between those of two General MIDI banks as measured.
var instruments = map[uint8]instrument{
	0: {pianoLevel(-19.7), damper, grand{bright: 1, detune: 0.9, knock: 1, board: true, sustain: 1}.play},
	1: {pianoLevel(-19.7), damper, grand{bright: 1.45, detune: 0.9, knock: 1.2, board: true, sustain: 1}.play},
	2: {pianoLevel(-16), damper, grand{bright: 1.1, detune: 0.8, knock: 0.4, sustain: 1.1}.play},
	3: {pianoLevel(-18.5), damper, grand{bright: 1.25, detune: 11, knock: 1.3, board: true, sustain: 0.8}.play},
	4: {pianoLevel(-16), even(0.07), tine},
	5: {pianoLevel(-17), even(0.05), reed},
	6: {pianoLevel(-17), even(0.045), harpsichord.keyed},
	7: {pianoLevel(-16.5), even(0.03), clavinet.keyed},

	32: {even(-12.5), stopped, doubleBass.play},
	33: {even(-14), stopped, fingered.play},
	34: {even(-15), stopped, picked.play},
	35: {even(-13), stopped, fretless.play},
	36: {even(-14), stopped, slapped.play},
	37: {even(-16.5), stopped, popped.play},
	38: {even(-13.5), stopped, synth{}.play},
	39: {even(-13), stopped, synth{stays: true}.play},

	guideProgram: {even(-14.5), even(0.06), func(key int, _ float64, most int) *take { return ooh(key, most) }},
	clickProgram: {even(-26), even(0.1), click},
}

// click is a woodblock. Its pitches lie closer together than the keys, as those of real blocks do.
func click(key int, _ float64, _ int) *take {
	f := 1010 * cents(45*float64(max(48, min(108, key))-72))
	d := dice(key)
	return struck(block{{f, 0.075, 1}, {f * 1.72, 0.05, 0.28}, {f * 2.6, 0.04, 0.18}}, 0, 0.4, 2400)(&d, 0.7)
}

// A drum rings on when its key is let go: only its class ends it.
const drumRelease = 30

// releaseOf is a note's release.
func releaseOf(n bank.Note) float64 {
	p := nearest(n.Patch)
	if p.Drums {
		return drumRelease
	}
	return instruments[p.Program].release(int(min(n.Key, 127)))
}

// compute makes a note, as much as so many frames of it, or all.
func compute(n bank.Note, frames int) bank.Sound {
	p, key := nearest(n.Patch), int(min(n.Key, 127))
	touch := touchOf(n.Layer, len(layers(p, key)))
	s := bank.Sound{Release: releaseOf(n)}
	if p.Drums {
		x := drum(p, key)
		d := dice(key)
		s.Class = x.class
		s.Left, s.Right, _ = x.strike(&d, touch).finish(x.level, bank.MaxFrames)
		return s
	}
	ins := instruments[p.Program]
	for _, most := range [...]int{max(frames+beyond, loudBy*bank.Rate), bank.MaxFrames} {
		whole := false
		if s.Left, s.Right, whole = ins.play(key, touch, most).finish(ins.level(key), frames); whole {
			break
		}
	}
	return s
}
