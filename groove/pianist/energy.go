package pianist

import "plinth/groove/plan"

const no, yes = false, true

// What grows with the energy. Where no source is named it is common practice, no single
// source.
var (
	// compVoices is how many voices the comp has where the groove does not say.
	compVoices = plan.ByEnergy[int]{2, 3, 3, 4, 4}
	// centres is the middle of the voicings, in MIDI numbers. In 870 pop accompaniments the
	// upper voices have their middle at 60, and half of them between 58 and 62. The lowest
	// fifth lies at 55 and the highest fifth at 67.
	centres = plan.ByEnergy[int]{57, 58, 60, 62, 63}
	// AttacksPerBeat is the most attacks a beat that the comp has on average, in thousandths.
	// The median of 870 pop accompaniments, played alone, is 2.0: a comp in a band stays below
	// it (judgement).
	AttacksPerBeat = plan.ByEnergy[int64]{1000, 1200, 1500, 1700, 1900}
	// answersSinger: the pianist answers the singer.
	answersSinger = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// wholeOffBeats: where the left hand has the bass, the right strikes the off-beats
	// whole.
	wholeOffBeats = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// leftOctaves: the left hand may take the octave below.
	leftOctaves = plan.ByEnergy[bool]{no, no, no, no, yes}
	// leftRows is the energy whose bass row the left hand follows: only a bassist plays the
	// further notes of the higher rows.
	leftRows = plan.ByEnergy[int]{1, 2, 2, 2, 2}
)
