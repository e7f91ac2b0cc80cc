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
	Space
	Caesura
)

// EventNames are the words, indexed by EventKind.
var EventNames = [...]string{"accent", "push", "stop", "fill", "hold", "rit", "space", "caesura"}

func (k EventKind) String() string { return EventNames[k] }

// Event is one event at one moment. An event of the song file that has several counts or
// bars becomes several of these. They are sorted by Tick, then Kind.
type Event struct {
	Kind EventKind
	Bar  int   // index into the pass's bars
	Tick int64 // relative to the pass
	End  int64 // where it ends: a stop, fill, hold or caesura (end of the beat), rit (a bar line) or space
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
	To    meter.BPM // rit: the tempo it reaches, in the meter's beat
	Place string    // as written in the song file
}
