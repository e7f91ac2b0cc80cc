package room

// instrument is an instrument of the orchestra with its comfortable range in MIDI notes as
// they sound.
type instrument struct {
	Name      string
	Low, High int
}

// orchestra has the instruments in score order. The comfortable ranges are the amateur
// ranges of an open-source engraver's instrument table, at sounding pitch. Where a
// handbook (Adler, Blatter; from memory) gives a wider range, the narrower one stands.
// testdata/reference/instrument_ranges.csv has both, and the test compares.
var orchestra = [...]instrument{
	{"piccolo", 74, 105},
	{"flute", 60, 93},
	{"oboe", 58, 87},
	{"english horn", 52, 81},
	{"clarinet", 50, 89},
	{"bass clarinet", 37, 75},
	{"bassoon", 34, 69},
	{"horn", 41, 69},
	{"trumpet", 52, 80},
	{"trombone", 40, 71},
	{"bass trombone", 32, 68},
	{"tuba", 28, 58},
	{"harp", 23, 104},
	{"violin", 55, 88},
	{"viola", 48, 79},
	{"cello", 36, 67},
	{"double bass", 28, 62},
}

// The lowest and the highest comfortable note of the orchestra: B0 (harp), A7 (piccolo).
const (
	compassLow  = 23
	compassHigh = 105
)

// Seat is an instrument with the free part of its comfortable range, in MIDI notes.
type Seat struct {
	Instrument string
	Low, High  int
}

// seatsWithin lists the instruments that have at least so many semitones of comfortable
// range between two notes, both included.
func seatsWithin(low, high, semitones int) []Seat {
	var out []Seat
	for _, in := range orchestra {
		if l, h := max(low, in.Low), min(high, in.High); h-l >= semitones {
			out = append(out, Seat{in.Name, l, h})
		}
	}
	return out
}

// instrumentsCovering returns those of the named instruments whose comfortable range holds
// both notes.
func instrumentsCovering(low, high int, instruments ...string) []string {
	var out []string
	for _, name := range instruments {
		for _, in := range orchestra {
			if in.Name == name && in.Low <= low && in.High >= high {
				out = append(out, name)
			}
		}
	}
	return out
}
