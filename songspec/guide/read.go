package guide

import (
	"encoding/binary"
	"errors"
	"fmt"
	"sort"
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
	f, declared, pos, err := readHeader(src)
	if err != nil {
		return nil, err
	}
	r := &reader{src: src, file: f}
	if err := r.chunks(pos, declared); err != nil {
		return nil, err
	}
	r.sortByTick()
	return f, nil
}

// reader holds a file while it is read.
type reader struct {
	src    []byte
	file   *File
	notes  int // so far, over all tracks
	chunk  int // number of the track being read, from 1
	warned map[string]bool
}

// warn adds a warning, unless it is there already.
func (r *reader) warn(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	if r.warned == nil {
		r.warned = map[string]bool{}
	}
	if r.warned[s] || len(r.file.Warnings) >= 100 {
		return
	}
	r.warned[s] = true
	r.file.Warnings = append(r.file.Warnings, s)
	about := 0
	if strings.HasPrefix(format, "track %d") {
		about = r.chunk
	}
	r.file.about = append(r.file.about, about)
}

// readHeader reads the MThd chunk. It returns the number of tracks that the header promises,
// and where the next chunk begins.
func readHeader(src []byte) (*File, int, int, error) {
	switch {
	case len(src) == 0:
		return nil, 0, 0, errors.New("the file is empty")
	case len(src) >= 4 && string(src[:4]) == "RIFF":
		return nil, 0, 0, errors.New("this is a RIFF file (audio, or MIDI wrapped in RIFF): " +
			"export a Standard MIDI File")
	case len(src) < 14 || string(src[:4]) != "MThd":
		return nil, 0, 0, errors.New("this is not a Standard MIDI File: it does not begin with MThd")
	}
	size := binary.BigEndian.Uint32(src[4:])
	if size < 6 || uint64(size) > uint64(len(src)-8) {
		return nil, 0, 0, fmt.Errorf("the header says that it is %d bytes long: this file is broken, export it again",
			size)
	}
	format := int(binary.BigEndian.Uint16(src[8:]))
	tracks := int(binary.BigEndian.Uint16(src[10:]))
	division := int(binary.BigEndian.Uint16(src[12:]))
	switch {
	case format == 2:
		return nil, 0, 0, errors.New("this is a format 2 file, a set of patterns without a common time: " +
			"export format 0 or 1")
	case format > 2:
		return nil, 0, 0, fmt.Errorf("there is no Standard MIDI File of format %d: export format 0 or 1", format)
	case division&0x8000 != 0:
		return nil, 0, 0, errors.New("the file counts time in SMPTE frames, not in beats: " +
			"export it with ticks per quarter note")
	case division == 0:
		return nil, 0, 0, errors.New("the file has no ticks per quarter note: this file is broken, export it again")
	}
	return &File{Format: format, Division: division}, tracks, 8 + int(size), nil
}

// chunks reads all chunks from pos on. declared is how many tracks there should be.
func (r *reader) chunks(pos, declared int) error {
	for pos < len(r.src) {
		if !chunkAt(r.src, pos) {
			if r.chunk < declared {
				return fmt.Errorf("what follows track %d is not a track, and %d of %d are missing: "+
					"this file is broken, export it again",
					r.chunk, declared-r.chunk, declared)
			}
			r.warn("%d bytes after the last track are ignored", len(r.src)-pos)
			break
		}
		size := uint64(binary.BigEndian.Uint32(r.src[pos+4:]))
		body := pos + 8
		end := uint64(body) + size
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
		next, err := r.trackChunk(body, end)
		if err != nil {
			return err
		}
		pos = next
	}
	switch {
	case r.chunk == 0:
		return errors.New("the file has no track")
	case r.chunk != declared:
		r.warn("the header promises %d tracks, the file has %d", declared, r.chunk)
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
	switch {
	case err != nil && !cut:
		return 0, err
	case cut && limit == len(r.src) && t.atEnd:
		// Only the end of track event itself is incomplete: no music is lost.
		r.warn("track %d: the end of track event is cut off", r.chunk)
		return limit, r.keep(t)
	case cut && past:
		return 0, fmt.Errorf("the file ends in the middle of track %d: it was cut off, export it again", r.chunk)
	}
	switch {
	case err == nil && t.ended && past:
		r.warn("track %d says that it is longer than the file; its end of track event is used", r.chunk)
		return t.pos, r.keep(t)
	case err == nil && t.ended && t.pos < limit:
		if limit != len(r.src) && !chunkAt(r.src, limit) && isTrack(r.src, t.pos) {
			r.warn("track %d has a wrong length; its end of track event is used", r.chunk)
			return t.pos, r.keep(t)
		}
		r.warn("track %d: %d bytes after its end of track event are ignored", r.chunk, limit-t.pos)
		return limit, r.keep(t)
	case err == nil && t.ended:
		return limit, r.keep(t)
	case past:
		return 0, fmt.Errorf("the file ends before track %d does: it was cut off, export it again", r.chunk)
	case err == nil && (limit == len(r.src) || chunkAt(r.src, limit)):
		r.warn("track %d has no end of track event", r.chunk)
		return limit, r.keep(t)
	}
	// The length ends in the middle of the music. What follows is the rest of the track if
	// it can be read up to an end of track event.
	t, err = r.track(body, len(r.src))
	if err != nil || !t.ended {
		return 0, fmt.Errorf("track %d breaks off in the middle of an event: this file is broken, export it again",
			r.chunk)
	}
	r.warn("track %d has a wrong length; its end of track event is used", r.chunk)
	return t.pos, r.keep(t)
}

func isTrack(src []byte, pos int) bool {
	return chunkAt(src, pos) && string(src[pos:pos+4]) == "MTrk"
}

// sortByTick puts the events of all tracks in the order of time.
func (r *reader) sortByTick() {
	f := r.file
	sort.SliceStable(f.Tempos, func(i, j int) bool { return f.Tempos[i].Tick < f.Tempos[j].Tick })
	sort.SliceStable(f.Meters, func(i, j int) bool { return f.Meters[i].Tick < f.Meters[j].Tick })
	sort.Slice(f.Lyrics, func(i, j int) bool { return f.Lyrics[i] < f.Lyrics[j] })
}
