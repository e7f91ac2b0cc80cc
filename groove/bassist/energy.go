package bassist

import "plinth/groove/plan"

const no, yes = false, true

// What grows with the energy. Where no source is named it is common practice, no single
// source.
var (
	// lift is plan.BandLift for the bass. It is lower at energy 1 and 2, where the piano is
	// thin: otherwise the long low notes would be 4 to 9 dB louder than the comp in the
	// rendered beds, and cover it.
	lift = plan.ByEnergy[int]{-22, -12, 0, 6, 12}
	// approaches: the bassist leads into a chord by step.
	approaches = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// breathes: the last long note ends a sixteenth before its section does.
	breathes = plan.ByEnergy[bool]{yes, yes, yes, no, no}
	// low: the bassist opens a stronger pass on the low octave.
	low = plan.ByEnergy[bool]{no, no, no, yes, yes}
	// leadsInTwo: a bass in two that the song asks for leads to the next chord.
	leadsInTwo = plan.ByEnergy[bool]{no, no, no, yes, yes}
	// leansIn: a walking bass that the song asks for leans into the next bar.
	leansIn = plan.ByEnergy[bool]{no, no, no, no, yes}
	// turns: how many in a thousand of the bars that may turn aside from the chord's bass do.
	turns = plan.ByEnergy[int]{500, 850, 550, 600, 650}
)

// quiet is the highest energy at which a ballad leaves the sixteenths off the beat to the kick.
const quiet = 3
