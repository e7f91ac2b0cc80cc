package midi

import (
	"encoding/binary"
	"errors"
	"fmt"

	"plinth/songspec/meter"
)

// Check reads a file as strictly as the pickiest program that may open it. It returns the
// first thing that breaks a promise of this package, with its track and tick, or nil. It
// knows nothing of how the file was made. Beyond a well-formed file (Standard MIDI Files
// 1.0) it demands:
//
//   - format 1 at 960 ticks a quarter, and nothing after the last chunk;
//   - tempo, meter and key at tick 0 of the first track, and in no other track;
//   - the names, the order and the channels of the tracks;
//   - name, instrument and program before the first note, and no other program under a note;
//   - a status byte in every event, no system exclusive, no bank select;
//   - at one tick the order meta, program and controllers, note-offs, note-ons;
//   - a note-off for each note-on, no two notes of one pitch at a time, velocities 1 to 127;
//   - all tracks ending on the same bar line.
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
	// The first track and the players', with or without the click.
	if n := 1 + len(playerTracks); count != n && count != n+1 {
		return fmt.Errorf("%d tracks instead of %d or %d", count, n, n+1)
	}
	rest := file[headerLen:]
	// An error of the chunks is reported after those within the tracks before it.
	var chunkErr error
	var tracks []trackChecker
	for i := range count {
		if len(rest) < 8 || string(rest[:4]) != "MTrk" {
			chunkErr = fmt.Errorf("track %d has no chunk", i)
			break
		}
		size := int64(binary.BigEndian.Uint32(rest[4:]))
		if size > int64(len(rest)-8) {
			chunkErr = fmt.Errorf("track %d claims %d bytes and %d are left", i, size, len(rest)-8)
			break
		}
		tracks = append(tracks, trackChecker{reader: reader{data: rest[8 : 8+size]}, index: i})
		rest = rest[8+size:]
	}
	faults := make([]error, len(tracks))
	inParallel(len(tracks), func(i int) { faults[i] = tracks[i].check() })
	for i := range tracks {
		switch {
		case faults[i] != nil:
			return fmt.Errorf("track %d, tick %d: %w", i, tracks[i].tick, faults[i])
		case tracks[i].tick != tracks[0].tick:
			return fmt.Errorf("track %d ends at tick %d, the first track at %d", i, tracks[i].tick, tracks[0].tick)
		}
	}
	if chunkErr == nil && len(rest) > 0 {
		chunkErr = fmt.Errorf("%d bytes follow the last track", len(rest))
	}
	return chunkErr
}

// reader takes bytes off a track, from pos on. Reading past the end returns zeros and sets
// short.
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

// quantity reads a variable-length quantity. More than four bytes, or more than it needs,
// are an error.
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
