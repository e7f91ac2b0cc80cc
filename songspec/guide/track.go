package guide

import (
	"bytes"
	"errors"
	"fmt"
)

// errCut is the error when the bytes end inside a track.
var errCut = errors.New("cut off")

// trackState is a track that is being read.
type trackState struct {
	pos    int
	tick   int64
	status byte // running status, 0 none
	across bool // a meta or system exclusive event came after the status byte
	ended  bool // an end of track event came
	atEnd  bool // cut off inside the end of track event

	name   string
	notes  []Note
	open   [16][128][]int32 // indices into notes, oldest first
	first  [16]int16        // first program change + 1, 0 none
	texts  []int64          // ticks of text events: the words of a karaoke file
	lyrics []int64
	tempos []Tempo
	meters []Meter

	doubled, orphans, empty, hanging, odd int
	carried                               bool
}

// track reads the events from pos up to limit. The error is errCut, also with a state, or a
// sentence for the user.
func (r *reader) track(pos, limit int) (*trackState, error) {
	t := &trackState{pos: pos}
	for t.pos < limit && !t.ended {
		at := t.pos
		delta, err := t.vlq(r.src, limit)
		if err == nil {
			if t.tick += int64(delta); t.tick > MaxTick {
				return t, fmt.Errorf("track %d is longer than any song", r.chunk)
			}
			err = t.event(r, limit)
		}
		if err != nil {
			t.atEnd = errors.Is(err, errCut) && endOfTrackPrefix(r.src[at:limit])
			return t, err
		}
	}
	return t, nil
}

// endOfTrackPrefix reports whether the rest of a track is an end of track event without its
// last bytes: a delta of one byte, FF, perhaps 2F.
func endOfTrackPrefix(rest []byte) bool {
	return len(rest) > 1 && rest[0] <= 0x7F && bytes.HasPrefix([]byte{0xFF, metaEnd}, rest[1:])
}

// vlq reads a variable-length quantity of one to four bytes (SMF 1.0).
func (t *trackState) vlq(src []byte, limit int) (uint32, error) {
	var v uint32
	for range 4 {
		if t.pos >= limit {
			return 0, errCut
		}
		b := src[t.pos]
		t.pos++
		v = v<<7 | uint32(b&0x7F)
		if b < 0x80 {
			return v, nil
		}
	}
	return 0, fmt.Errorf("a length or time at byte %d is longer than four bytes"+broken, t.pos-4)
}

// data reads the length and the bytes of a meta or system exclusive event.
func (t *trackState) data(src []byte, limit int) ([]byte, error) {
	n, err := t.vlq(src, limit)
	if err != nil {
		return nil, err
	}
	if int64(n) > int64(limit-t.pos) {
		return nil, errCut
	}
	at := t.pos
	t.pos += int(n)
	t.across = t.status != 0
	return src[at:t.pos], nil
}

// event reads one event after its delta time.
func (t *trackState) event(r *reader, limit int) error {
	if t.pos >= limit {
		return errCut
	}
	b := r.src[t.pos]
	switch {
	case b == 0xFF:
		t.pos++
		return t.meta(r, limit)
	case b == 0xF0 || b == 0xF7:
		t.pos++
		_, err := t.data(r.src, limit)
		return err
	case b >= 0xF0:
		return fmt.Errorf("track %d has the byte %02X at %d, which no MIDI file may hold"+broken, r.chunk, b, t.pos)
	case b >= 0x80:
		t.status, t.across = b, false
		t.pos++
	case t.status == 0:
		return fmt.Errorf("track %d has data without a status at byte %d"+broken, r.chunk, t.pos)
	case t.across:
		// SMF 1.0 ends running status at these events; many programs carry it over.
		t.carried = true
	}
	return t.channel(r, limit)
}

// channel reads the data of a channel message.
func (t *trackState) channel(r *reader, limit int) error {
	n := 2
	if k := t.status & 0xF0; k == 0xC0 || k == 0xD0 {
		n = 1
	}
	if limit-t.pos < n {
		return errCut
	}
	data := r.src[t.pos : t.pos+n]
	for i, d := range data {
		if d > 0x7F {
			return fmt.Errorf("track %d has a status byte at %d where a value should be"+broken, r.chunk, t.pos+i)
		}
	}
	t.pos += n
	ch := t.status & 0x0F
	switch kind := t.status & 0xF0; {
	case kind == 0x90 && data[1] > 0:
		return t.on(r, ch, data[0], data[1])
	case kind == 0x80 || kind == 0x90:
		t.off(ch, data[0])
	case kind == 0xC0 && t.first[ch] == 0:
		t.first[ch] = int16(data[0]) + 1
	}
	return nil
}

func (t *trackState) on(r *reader, ch, key, velocity uint8) error {
	if r.notes+len(t.notes) >= MaxNotes {
		return fmt.Errorf("the file has more than %d notes", MaxNotes)
	}
	q := &t.open[ch][key]
	if len(*q) > 0 {
		t.doubled++
	}
	*q = append(*q, int32(len(t.notes)))
	t.notes = append(t.notes, Note{Tick: t.tick, Key: key, Velocity: velocity, Channel: ch + 1})
	return nil
}

// off ends the oldest note of that pitch that still sounds.
func (t *trackState) off(ch, key uint8) {
	q := &t.open[ch][key]
	if len(*q) == 0 {
		t.orphans++
		return
	}
	n := &t.notes[(*q)[0]]
	*q = (*q)[1:]
	n.Length = t.tick - n.Tick
	if n.Length == 0 {
		n.Length = 1
		t.empty++
	}
}
