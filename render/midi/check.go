package midi

import (
	"encoding/binary"
	"errors"
	"fmt"

	"plinth/songspec/meter"
)

// Check reads a file as strictly as the pickiest program that opens it might, and
// gives the first thing that breaks a promise of this package; nil when there is
// none. It knows nothing of how the file was made. It demands, beyond a well-formed
// Standard MIDI File (Standard MIDI Files 1.0): format 1 at 960 a quarter and
// nothing after the last chunk; tempo, meter and key at tick 0 of the first track
// and nowhere but in that track; the tracks' names, order and channels; name,
// instrument and program before the first note; a status byte in every event; no
// system exclusive and no bank select; the order meta, program and controllers,
// note-offs, note-ons at one tick; each note-on answered by a note-off of its own,
// no two notes of one pitch at a time, velocities 1 to 127; every track ending on
// one and the same bar line.
func Check(file []byte) error {
	if len(file) < headerLen || string(file[:8]) != "MThd\x00\x00\x00\x06" {
		return errors.New("no header chunk of six bytes")
	}
	format, count := binary.BigEndian.Uint16(file[8:]), int(binary.BigEndian.Uint16(file[10:]))
	if format != 1 {
		return fmt.Errorf("format %d instead of 1", format)
	}
	if division := binary.BigEndian.Uint16(file[12:]); division != meter.TicksPerQuarter {
		return fmt.Errorf("%d ticks a quarter instead of %d", division, meter.TicksPerQuarter)
	}
	if count != len(fileTracks)-1 && count != len(fileTracks) {
		return fmt.Errorf("%d tracks instead of %d or %d", count, len(fileTracks)-1, len(fileTracks))
	}
	rest := file[headerLen:]
	// What is wrong with the chunks comes after what is wrong within those before.
	var fault error
	var tracks []trackChecker
	for i := range count {
		if len(rest) < 8 || string(rest[:4]) != "MTrk" {
			fault = fmt.Errorf("track %d has no chunk", i)
			break
		}
		size := int64(binary.BigEndian.Uint32(rest[4:]))
		if size > int64(len(rest)-8) {
			fault = fmt.Errorf("track %d claims %d bytes and %d are left", i, size, len(rest)-8)
			break
		}
		tracks = append(tracks, trackChecker{reader: reader{data: rest[8 : 8+size]}, index: i})
		rest = rest[8+size:]
	}
	faults := make([]error, len(tracks))
	sideBySide(len(tracks), func(i int) { faults[i] = tracks[i].run() })
	for i := range tracks {
		switch {
		case faults[i] != nil:
			return fmt.Errorf("track %d, tick %d: %w", i, tracks[i].tick, faults[i])
		case tracks[i].tick != tracks[0].tick:
			return fmt.Errorf("track %d ends at tick %d, the first track at %d", i, tracks[i].tick, tracks[0].tick)
		}
	}
	if fault == nil && len(rest) > 0 {
		fault = fmt.Errorf("%d bytes follow the last track", len(rest))
	}
	return fault
}

// fileTracks are the tracks of a file by index; the first has no notes and the
// last is not in every file.
var fileTracks = [...]struct {
	name    string
	channel byte
}{
	{}, {DrumsTrack, drumsChannel}, {BassTrack, bassChannel}, {PianoTrack, pianoChannel}, {ClickTrack, clickChannel},
}

// reader takes bytes off a track, from pos on. Reading past the end gives zeros and
// sets short.
type reader struct {
	data  []byte
	pos   int
	short bool
}

func (r *reader) byte() byte {
	if r.pos >= len(r.data) {
		r.short = true
		return 0
	}
	b := r.data[r.pos]
	r.pos++
	return b
}

func (r *reader) take(n int64) []byte {
	if n > int64(len(r.data)-r.pos) {
		r.short = true
		return nil
	}
	b := r.data[r.pos : r.pos+int(n)]
	r.pos += int(n)
	return b
}

// quantity reads a variable-length quantity of at most four bytes that takes no
// more bytes than it needs.
func (r *reader) quantity() (int64, error) {
	var n int64
	for i := 0; i < 4; i++ {
		b := r.byte()
		if i == 0 && b == 0x80 {
			return 0, errors.New("a variable-length quantity begins with an empty byte")
		}
		n = n<<7 | int64(b&0x7f)
		if b < 0x80 {
			return n, nil
		}
	}
	return 0, errors.New("a variable-length quantity is longer than four bytes")
}
