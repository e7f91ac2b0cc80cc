package guide

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Read reads a Standard MIDI File of format 0 or 1 with a metric division (SMF 1.0, MIDI
// Manufacturers Association). It refuses format 2, whose tracks are patterns without a common
// time, and an SMPTE division, whose times are seconds: a voice is placed by beats. The error
// is one plain sentence without the file's name.
func Read(src []byte) (*File, error) {
	if len(src) > MaxBytes {
		return nil, fmt.Errorf("the file has %d bytes, more than the %d that a guide may have", len(src), MaxBytes)
	}
	f := &File{}
	r := &reader{src: src, file: f}
	pos, err := r.header()
	if err == nil {
		err = r.chunks(pos)
	}
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(f.Tempos, func(a, b Tempo) int { return cmp.Compare(a.Tick, b.Tick) })
	slices.SortStableFunc(f.Meters, func(a, b Meter) int { return cmp.Compare(a.Tick, b.Tick) })
	slices.Sort(f.Lyrics)
	return f, nil
}

// reader holds a file while it is read.
type reader struct {
	src    []byte
	file   *File
	tracks int // how many the header promises
	notes  int // so far, over all tracks
	chunk  int // number of the track being read, from 1
}

// warn adds a warning, unless it is there already.
func (r *reader) warn(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	if len(r.file.Warnings) >= 100 || slices.Contains(r.file.Warnings, s) {
		return
	}
	r.file.Warnings = append(r.file.Warnings, s)
	about := 0
	if strings.HasPrefix(format, "track %d") {
		about = r.chunk
	}
	r.file.about = append(r.file.about, about)
}

// header reads the MThd chunk and returns where the next one begins.
func (r *reader) header() (int, error) {
	src := r.src
	switch {
	case len(src) == 0:
		return 0, errors.New("the file is empty")
	case bytes.HasPrefix(src, []byte("RIFF")):
		return 0, errors.New("this is a RIFF file (audio, or MIDI wrapped in RIFF): export a Standard MIDI File")
	case len(src) < 14 || string(src[:4]) != "MThd":
		return 0, errors.New("this is not a Standard MIDI File: it does not begin with MThd")
	}
	size := binary.BigEndian.Uint32(src[4:])
	if size < 6 || uint64(size) > uint64(len(src)-8) {
		return 0, fmt.Errorf("the header says that it is %d bytes long"+broken, size)
	}
	format := int(binary.BigEndian.Uint16(src[8:]))
	r.tracks = int(binary.BigEndian.Uint16(src[10:]))
	division := int(binary.BigEndian.Uint16(src[12:]))
	switch {
	case format == 2:
		return 0, errors.New("this is a format 2 file, a set of patterns without a common time: export format 0 or 1")
	case format > 2:
		return 0, fmt.Errorf("there is no Standard MIDI File of format %d: export format 0 or 1", format)
	case division&0x8000 != 0:
		return 0, errors.New("the file counts time in SMPTE frames, not in beats: " +
			"export it with ticks per quarter note")
	case division == 0:
		return 0, errors.New("the file has no ticks per quarter note" + broken)
	}
	r.file.Format, r.file.Division = format, division
	return 8 + int(size), nil
}

// broken is the end of an error that another export may mend.
const broken = ": this file is broken, export it again"

// chunks reads all chunks from pos on.
func (r *reader) chunks(pos int) error {
	for pos < len(r.src) {
		if !chunkAt(r.src, pos) {
			if r.chunk < r.tracks {
				return fmt.Errorf("what follows track %d is not a track, and %d of %d are missing"+broken, r.chunk,
					r.tracks-r.chunk, r.tracks)
			}
			r.warn("%d bytes after the last track are ignored", len(r.src)-pos)
			break
		}
		body := pos + 8
		end := uint64(body) + uint64(binary.BigEndian.Uint32(r.src[pos+4:]))
		if string(r.src[pos:pos+4]) != "MTrk" { // SMF 1.0: alien chunks are skipped
			if end > uint64(len(r.src)) {
				r.warn("an unknown chunk at the end is cut off and ignored")
				break
			}
			pos = int(end)
			continue
		}
		if r.chunk++; r.chunk > MaxTracks {
			return fmt.Errorf("the file has more than %d tracks", MaxTracks)
		}
		var err error
		if pos, err = r.trackChunk(body, end); err != nil {
			return err
		}
	}
	switch {
	case r.chunk == 0:
		return errors.New("the file has no track")
	case r.chunk != r.tracks:
		r.warn("the header promises %d tracks, the file has %d", r.tracks, r.chunk)
	case r.file.Format == 0 && r.chunk > 1:
		r.warn("format 0 has one track, this file has %d: read as format 1", r.chunk)
	}
	return nil
}

// chunkAt reports whether a chunk may begin at pos: eight bytes, the first four printable.
func chunkAt(src []byte, pos int) bool {
	if len(src)-pos < 8 {
		return false
	}
	for _, c := range src[pos : pos+4] {
		if c < 0x20 || c > 0x7E {
			return false
		}
	}
	return true
}

// trackChunk reads the track whose body begins at body and returns where the next chunk begins.
// end is where the track ends according to its length field. An end of track event, if there
// is one, is trusted more.
func (r *reader) trackChunk(body int, end uint64) (int, error) {
	limit := len(r.src)
	past := end > uint64(limit)
	if !past {
		limit = int(end)
	}
	t, err := r.track(body, limit)
	cut := errors.Is(err, errCut)
	next, warning := limit, ""
	switch {
	case err != nil && !cut:
		return 0, err
	case cut && limit == len(r.src) && t.atEnd:
		// Only the end of track event itself is incomplete: no music is lost.
		warning = "track %d: the end of track event is cut off"
	case cut && past:
		return 0, fmt.Errorf("the file ends in the middle of track %d: it was cut off, export it again", r.chunk)
	case t.ended && past:
		next, warning = t.pos, "track %d says that it is longer than the file; its end of track event is used"
	case t.ended && t.pos < limit:
		if limit != len(r.src) && !chunkAt(r.src, limit) && chunkAt(r.src, t.pos) &&
			bytes.HasPrefix(r.src[t.pos:], []byte("MTrk")) {
			next, warning = t.pos, wrongLength
			break
		}
		r.warn("track %d: %d bytes after its end of track event are ignored", r.chunk, limit-t.pos)
	case t.ended:
	case past:
		return 0, fmt.Errorf("the file ends before track %d does: it was cut off, export it again", r.chunk)
	case !cut && (limit == len(r.src) || chunkAt(r.src, limit)):
		warning = "track %d has no end of track event"
	default:
		// The length ends in the middle of the music. What follows is the rest of the track
		// if it can be read up to an end of track event.
		t, err = r.track(body, len(r.src))
		if err != nil || !t.ended {
			return 0, fmt.Errorf("track %d breaks off in the middle of an event"+broken, r.chunk)
		}
		next, warning = t.pos, wrongLength
	}
	if warning != "" {
		r.warn(warning, r.chunk)
	}
	r.keep(t)
	return next, nil
}

const wrongLength = "track %d has a wrong length; its end of track event is used"
