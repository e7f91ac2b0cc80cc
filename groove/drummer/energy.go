package drummer

import (
	"plinth/groove/feel"
	"plinth/groove/plan"
)

const no, yes = false, true

// What grows with the energy. Common practice, no single source.
var (
	// snareDrum: an accent or a push is struck on the snare drum, at lower energies on what
	// marks the backbeat, a cross-stick or a brush.
	snareDrum = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// crashes: a crash opens a section, and marks a push that leads to this energy and an
	// accent of weight 2.
	crashes = plan.ByEnergy[bool]{no, no, no, yes, yes}
	// fullForce: the drummer strikes a push as hard as possible, and so the crash of a section that
	// the band rises into.
	fullForce = plan.ByEnergy[bool]{no, no, no, no, yes}
	// cymbalMost is the loudest stroke of a ride or a crash.
	cymbalMost = plan.ByEnergy[int]{70, 70, 70, 80, 95}
	// washes: the song's last chord has a crash, just touched; below it has the ride.
	washes = plan.ByEnergy[bool]{no, no, yes, yes, yes}
	// endingTouch is how hard the song's last stroke is.
	endingTouch = plan.ByEnergy[feel.Touch]{feel.Ghost, feel.Ghost, feel.Ghost, feel.Soft, feel.Soft}
	// busier is how many strokes more than the groove's a bar has that is played in another
	// way.
	busier = plan.ByEnergy[int]{0, 0, 1, 2, 3}
	// closingBeats is the length in beats of the fill that closes a section, by the energy
	// that it leads to, where that is not lower than the section's own: nothing into 1, a
	// whole bar into 5. The take chooses where there are two lengths; below slowTempo the
	// shorter one is long enough.
	closingBeats = plan.ByEnergy[[2]int]{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {wholeBar, wholeBar}}
)
