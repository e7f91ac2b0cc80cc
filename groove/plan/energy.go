package plan

// ByEnergy is a value for each energy, from 1 to 5: 1 is barely there, 5 is everything that
// the bed will ever play. What a player strikes at each energy stands in the rows of the
// groove files. Everything else that grows with the energy stands in tables of this type:
// the band's here, a player's in the player's package. Where no source is named it is
// common practice, no single source.
type ByEnergy[T any] [5]T

// At is the value at an energy, 1 to 5.
func (b *ByEnergy[T]) At(energy int) T { return b[energy-1] }

var (
	// BandLift is added to every velocity; between two energies it moves evenly.
	BandLift = ByEnergy[int]{-16, -8, 0, 6, 12}
	// Forceful players strike an accent with all their strength, and strike a last hit and
	// the start of a chorus that they rise into together. Otherwise an accent is a nudge.
	Forceful = ByEnergy[bool]{false, false, false, true, true}
)
