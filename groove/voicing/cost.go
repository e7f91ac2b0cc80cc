package voicing

// The costs of the pianist's choices. The unit of motion is one voice moving
// one semitone; everything else is weighed against it. The figures are ours,
// set so that the measures in voicing_test.go hold.
const (
	costSemitone     = 4 // one voice, one semitone
	costRootForFifth = 3 // two voices of a triad without its fifth
	costDoubleFifth  = 2
	costDoubleThird  = 4
	costBassThird    = 56 // the major third that the bass plays, again
	CostVoiceLess    = 40 // a voice fewer than the level asks for

	costSecond     = 3       // neighbours a whole tone apart
	costLowSecond  = 16      // the same, so low that it is a grey spot: under lowSecond
	costHalfStep   = 26      // neighbours a semitone apart, inside the chord
	costUnder      = 100     // a sharp ninth under the third, a thirteenth under the seventh: they belong over it
	costCrowd      = 8       // three notes within a major third
	costWide       = 2       // each semitone of a gap over a sixth
	costSpread     = 1       // each semitone that the whole is wider than is compact
	costLowColour  = 72      // a ninth, eleventh or thirteenth at the bottom
	costRootOnTop  = 2       // the bass's own tone as top voice
	costHomeward   = 8       // the end's way home to the canonical voicing counts one part in so many
	costStay       = 10      // another voicing for a chord that goes on
	costTopLeap    = 60      // the top voice moves more than two semitones: at once
	costTopMore    = 8       // and for each semitone more
	costTopStays   = 32      // the top voice stays where the bass moves: a step is as good
	costAlong      = 2       // the top voice goes the bass's way
	costAllAlong   = 6       // every voice does
	costFifths     = 3       // parallel fifths with the bass
	costOctave     = 10      // parallel octaves between the bass and an inner voice
	costOctaveAnti = 4       // the same, in opposite directions
	costOctaveLead = 400     // the top or the lowest voice in octaves with the bass's last note and its next
	CostDoubleTune = 130     // the top voice doubles the tune
	CostDoubleHeld = 32      // the same, an octave or more under a note that is held
	CostUnison     = 200     // any voice in unison with it
	CostClash      = 60      // any voice a semitone from a held sung note, in any octave
	CostOver       = 40      // any voice above what is sung
	costOctaveTop  = 1 << 16 // between the bass and the top voice: not done
)

// lowSecond is the note, G3, from which on a second between neighbours is clear (judgement; the
// low interval limits allow it from Eb3).
const lowSecond = 55

// Voicing is what the two hands hold: MIDI numbers, ascending.
type Voicing struct {
	Notes [MaxVoices]uint8
	N     int8
}

func (v *Voicing) Top() int { return int(v.Notes[v.N-1]) }

// Motion is the least total Motion in semitones from a to b, every note of each
// taking part. Equal counts keep their order, voice by voice: no crossing is
// ever shorter.
func Motion(a, b *Voicing) int {
	if a.N == b.N {
		sum := 0
		for i := int8(0); i < a.N; i++ {
			sum += absInt(int(a.Notes[i]) - int(b.Notes[i]))
		}
		return sum
	}
	var row [MaxVoices]int
	for i := 0; i < int(a.N); i++ {
		diagonal := 0
		for j := 0; j < int(b.N); j++ {
			d := absInt(int(a.Notes[i]) - int(b.Notes[j]))
			up := row[j]
			switch {
			case i == 0 && j == 0:
			case i == 0:
				d += row[j-1]
			case j == 0:
				d += up
			default:
				d += min(up, diagonal, row[j-1])
			}
			diagonal, row[j] = up, d
		}
	}
	return row[b.N-1]
}

// Lead is how the bassist goes into a chord, note by note: the pitch classes
// of the last note before it and of the first in it, counted from 1, and whether
// it goes up (1), down (-1) or stays. The zero value: not known.
type Lead struct{ From, To, Way int8 }

// follows reports whether a voice that goes from a to b does so in octaves with the bass.
func (l Lead) follows(a, b int) bool {
	return l.From != l.To && a%12+1 == int(l.From) && b%12+1 == int(l.To) && SameWay(b-a, int(l.Way))
}

// moveCost is what going from voicing a, over the bass pitch class bassA, to b
// over bassB costs.
func moveCost(a, b *Voicing, bassA, bassB int, lead Lead) int32 {
	cost := int32(Motion(a, b)) * costSemitone
	top := b.Top() - a.Top()
	if d := absInt(top); d > 2 {
		cost += costTopLeap + costTopMore*int32(d-3)
	}
	if lead.follows(a.Top(), b.Top()) {
		cost += costOctaveLead
	}
	if lead.follows(int(a.Notes[0]), int(b.Notes[0])) {
		cost += costOctaveLead
	}
	if bassA == bassB {
		return cost
	}
	if top == 0 {
		cost += costTopStays
	}
	// The bass takes the shorter way; a tritone may go either.
	bass := (bassB-bassA+18)%12 - 6
	if SameWay(top, bass) {
		cost += costAlong
		all := a.N == b.N
		for i := int8(0); all && i < a.N; i++ {
			all = SameWay(int(b.Notes[i])-int(a.Notes[i]), bass)
		}
		if all {
			cost += costAllAlong
		}
	}
	return cost + parallels(a, b, bassA, bassB, bass)
}

// parallels is the cost of octaves and fifths that go along with the bass.
func parallels(a, b *Voicing, bassA, bassB, bass int) int32 {
	var cost int32
	if a.Top()%12 == bassA && b.Top()%12 == bassB {
		cost += costOctaveTop
	}
	if (a.Top()+5)%12 == bassA && (b.Top()+5)%12 == bassB {
		cost += costFifths
	}
	if a.N != b.N {
		return cost
	}
	for i := int8(0); i < a.N-1; i++ {
		x, y := int(a.Notes[i]), int(b.Notes[i])
		if x%12 == bassA && y%12 == bassB {
			if SameWay(y-x, bass) {
				cost += costOctave
			} else {
				cost += costOctaveAnti
			}
		}
	}
	return cost
}

// SameWay reports whether two moves go in one direction; a tritone in the bass
// (-6) counts as either.
func SameWay(voice, bass int) bool {
	if bass == -6 {
		return voice != 0
	}
	return voice > 0 && bass > 0 || voice < 0 && bass < 0
}

func absInt(x int) int { return max(x, -x) }
