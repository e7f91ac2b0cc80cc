// Package guide takes the bytes of a guide vocal, a Standard MIDI File, and lays the voice
// onto a song's Timeline (Place). Of a song with a voice it then finds where the singer
// rests (Windows), how high the line lies (SungIn) and which notes clash with the
// written chords (Clashes, Check).
//
// Read tolerates a sloppy export (a running status carried over a meta event, a wrong track
// length, a missing end of track, hanging notes) and says so in Warnings. If the music
// cannot be told from the bytes, it refuses the file with one plain sentence. It never
// allocates as much as a length field claims.
//
// Errors are in lower case without a full stop: what is wrong, then what to do.
package guide

// Bounds of a guide file. A file beyond one of them is an error that names it.
const (
	MaxBytes  = 8 << 20
	MaxNotes  = 1_000_000
	MaxTracks = 4096
	MaxTick   = 1 << 40 // in the file's own ticks
)

// maxText is how many bytes of a track's name are kept.
const maxText = 200

// File is a Standard MIDI File as it was read. Ticks are the file's own: Division ticks are
// a quarter.
type File struct {
	Format   int // 0 or 1
	Division int // ticks a quarter, 1 to 32767
	Tracks   []Track
	Tempos   []Tempo  // by tick
	Meters   []Meter  // by tick
	Lyrics   []int64  // ticks of lyric events in any track, ascending
	Warnings []string // what was tolerated, in file order
	End      int64    // the last end of track, or the last note's end if that is later

	about []int // for each warning the number of its track, 0 for the whole file
}

// Track is the notes of one channel in one track of the file. A track of the file with
// several channels becomes several of these, one without notes becomes one.
type Track struct {
	Name    string // as in the file; "track 3" when it has none
	Chunk   int    // which track of the file, from 1
	Channel int    // 1 to 16; -1 without notes
	Program int    // first program change on that channel, from 0; -1 none
	Notes   []Note // sorted by Tick, then Key; lengths at least 1
	Lyrics  int    // how many lyric events the track of the file has
}

// Note is one note. Key is the MIDI note number, Channel counts from 1.
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

// Meter is a time signature: Num is 1 to 255, Den a power of two up to 64.
type Meter struct {
	Tick     int64
	Num, Den int
}
