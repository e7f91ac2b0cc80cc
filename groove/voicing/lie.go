package voicing

// compact is the width in semitones, by the number of voices, within which a
// voicing is one sound; the upper voices of 870 pop accompaniments lie within 12
// half of the time.
var compact = [MaxVoices]int32{0, 8, 11, 13, 15}

// lie is the cost of a voicing by itself: away from the centre, crowded, wide,
// or with the bass's tone on top.
func (l *layout) lie(v *Voicing) int32 {
	sum := 0
	for i := int8(0); i < v.N; i++ {
		sum += int(v.Notes[i])
	}
	off := sum - l.room.Centre*int(v.N)
	cost := int32(off * off / (int(v.N) * int(v.N)))
	for i := int8(1); i < v.N; i++ {
		switch gap := int32(v.Notes[i]) - int32(v.Notes[i-1]); {
		case gap == 1:
			cost += costHalfStep
			if l.under&(1<<(v.Notes[i-1]%12)) != 0 {
				cost += costUnder
			}
		case gap == 2:
			cost += costSecond
			if v.Notes[i-1] < lowSecond {
				cost += costLowSecond
			}
		case gap > 9:
			cost += costWide * (gap - 9)
		}
		if i > 1 && v.Notes[i]-v.Notes[i-2] <= 4 {
			cost += costCrowd
		}
	}
	whole := int32(v.Notes[v.N-1]) - int32(v.Notes[0])
	cost += costSpread * max(0, whole-compact[v.N-1])
	if v.Top()%12 == l.bass {
		cost += costRootOnTop
	}
	if l.colours&(1<<(v.Notes[0]%12)) != 0 {
		cost += costLowColour
	}
	return cost
}
