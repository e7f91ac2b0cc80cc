// Package guide reads a guide vocal from a Standard MIDI File and lays it onto a
// song: which track is the voice, where its notes stand, where the singer rests,
// what rubs against the written chords.
//
// The reader is tolerant where a sequencer's export is sloppy (a running status
// carried over a meta event, a track length that lies, a missing end of track,
// notes left hanging) and says so in Warnings. It refuses a file whose music
// cannot be told from its bytes with one plain sentence. It takes bytes and
// gives values; it never allocates what a length field asks for.
//
// Messages: lower case, no full stop, what is wrong first, then what to do.
package guide

// Bounds of a guide file. Each has an error that names it.
const (
	MaxBytes  = 8 << 20
	MaxNotes  = 1_000_000
	MaxTracks = 4096
	// MaxTick bounds the length of a track in its own ticks.
	MaxTick = 1 << 40
)

// maxText bounds a name, marker or lyric that is kept, in bytes.
const maxText = 200

// File is what a Standard MIDI File says. Ticks are the file's own, Division to
// a quarter.
type File struct {
	Format   int // 0 or 1
	Division int // ticks a quarter, 1 to 32767
	Tracks   []Track
	Tempos   []Tempo  // by tick
	Meters   []Meter  // by tick
	Lyrics   []int64  // ticks of lyric events in any track, ascending
	Warnings []string // what was tolerated, in the order of the file
	End      int64    // the last end of track, or the last note's end when that is later

	about []int // the track of the file that each warning is about, 0 the whole file
}

// Track is the notes of one channel in one track of the file; a track that uses
// several channels becomes several of these. A track without notes is listed
// too, with Channel -1.
type Track struct {
	Name    string // as in the file; "track 3" when it has none
	Chunk   int    // which track of the file, from 1
	Channel int    // 1 to 16; -1 without notes
	Program int    // first program change on that channel, from 0; -1 none
	Notes   []Note // sorted by Tick, then Key; lengths at least 1
	Lyrics  int    // lyric events in the same track of the file
}

// Note is one note; Channel counts from 1.
type Note struct {
	Tick     int64
	Length   int64
	Key      uint8
	Velocity uint8 // 1 to 127
	Channel  uint8
}

// End is the tick at which the note stops.
func (n Note) End() int64 { return n.Tick + n.Length }

// Tempo is a tempo in microseconds a quarter, never 0.
type Tempo struct {
	Tick   int64
	Micros int64
}

// Meter is a time signature: Num from 1, Den a power of two up to 64.
type Meter struct {
	Tick     int64
	Num, Den int
}
