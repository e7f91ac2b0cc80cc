package timeline

import "plinth/songspec/meter"

// EventKind is which of the events an event is.
type EventKind uint8

// The events of the song file.
const (
	Accent EventKind = iota
	Push
	Stop
	Fill
	Hold
	Rit
	Accel
	Space
	Cue
	Caesura
)

// EventNames are the words, indexed by EventKind.
var EventNames = [...]string{"accent", "push", "stop", "fill", "hold", "rit", "accel", "space", "cue", "caesura"}

func (k EventKind) String() string { return EventNames[k] }

// Stretch is the bars that a rit or an accel goes over, as indices, and the count that it begins
// with and the felt one that it ends with; both are "" where it goes over whole bars.
func (p *Pass) Stretch(e *Event) (first, last int, from, to string) {
	last = p.BarAt(e.End - 1)
	a, b := &p.Bars[e.Bar], &p.Bars[last]
	if e.Tick == a.Start && e.End == b.Start+b.Length {
		return e.Bar, last, "", ""
	}
	ends := int64(0) // the last felt beat in it
	for _, beat := range b.Meter.Beats() {
		if b.Start+beat < e.End {
			ends = beat
		}
	}
	return e.Bar, last, a.Meter.CountAt(e.Tick - a.Start), b.Meter.CountAt(ends)
}

// MovesTempo reports whether the tempo moves through the event, as in a rit.
func (k EventKind) MovesTempo() bool { return k == Rit || k == Accel }

// Event is one event at one moment. An event of the song file that has several counts or
// bars becomes several of these. They are sorted by Tick, then Kind.
type Event struct {
	Kind EventKind
	Bar  int   // index into the pass's bars
	Tick int64 // relative to the pass
	End  int64 // where it ends: a stop, fill, hold or caesura (end of the beat), rit, accel or space
	// Target is, for a push, where the chord that comes early is written; it is the pass's
	// Length when that is the next pass's first chord.
	Target int64
	By     Players
	Weight int  // accent: 1 to 3
	Alone  bool // accent: nothing but the written hits in this bar
	Short  bool // accent: it is cut off dry
	// Extra is how many ticks longer than written a hold makes its beat, and how many ticks the
	// silence of a caesura lasts at the tempo there. The tempo map makes it so.
	Extra int64
	// Cut is where the silence of a caesura begins. It ends at End, with the beat.
	Cut   int64
	To    meter.BPM // rit and accel: the tempo it reaches, in the meter's beat
	Text  string    // cue: what is said there
	At    string    // cue: when it comes, as written; "" where nothing is said
	Place string    // as written in the song file
}
