package drummer

import "plinth/groove/plan"

const no, yes = false, true

// What grows with the energy. Common practice, no single source.
var (
	// snareDrum: an accent and a push are struck on the snare drum, and under it on what
	// marks the backbeat, a cross-stick or a brush.
	snareDrum = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// crashes open a section, mark a push that leads to this energy and an accent of
	// weight 2, and end the song.
	crashes = plan.ByEnergy[bool]{no, no, no, yes, yes}
	// allHisWeight is in the crash of a push, and of a section that the band rises into,
	// and in the hands of a fill.
	allHisWeight = plan.ByEnergy[bool]{no, no, no, no, yes}
	// closingBeats is how long the fill is that closes a section, in beats, by the energy
	// it leads to when that is no lower than the section's own: nothing into 1, a whole bar
	// into 5. The take chooses where there are two; below slowTempo the shorter one is long
	// enough.
	closingBeats = plan.ByEnergy[[2]int]{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {wholeBar, wholeBar}}
	// downBeats is the same into a lower energy: a breath, or one beat into a full band.
	downBeats = plan.ByEnergy[int]{0, 0, 1, 1, 1}
)
