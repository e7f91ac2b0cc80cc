package pianist

import "plinth/groove/plan"

const no, yes = false, true

// What grows with the energy. Where no source is named it is common practice, no single
// source.
var (
	// compVoices is how many voices the comp has where the groove does not say.
	compVoices = plan.ByEnergy[int]{2, 3, 3, 4, 4}
	// centres is where the voicings gather, in MIDI numbers. In 870 pop accompaniments the
	// upper voices' middle is 60, half of them between 58 and 62; the fifths at either end
	// lie at 55 and 67.
	centres = plan.ByEnergy[int]{57, 58, 60, 62, 63}
	// AttacksPerBeat bounds the comp's attacks a beat, in thousandths. The figures for 2 and
	// 5 are the design's: less than the 2.0 that is the median of 870 pop accompaniments,
	// and hardly more at full cry.
	AttacksPerBeat = plan.ByEnergy[int64]{1000, 1200, 1500, 1850, 2200}
	// answersSinger: he answers the singer.
	answersSinger = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// spreads: he spreads the chord of an accent.
	spreads = plan.ByEnergy[bool]{no, no, no, no, yes}
	// wholeOffBeats: where the left hand has the bass, the right strikes the off-beats
	// whole.
	wholeOffBeats = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// leftOctaves: the left hand may take the octave below.
	leftOctaves = plan.ByEnergy[bool]{no, no, no, no, yes}
	// leftRows is the energy whose bass row the left hand follows: what lies between is
	// the bassist's alone.
	leftRows = plan.ByEnergy[int]{1, 2, 2, 2, 2}
)
