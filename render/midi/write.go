// Package midi takes a song's timeline and its performance and returns the bytes of a
// Standard MIDI File. It is the only package that writes MIDI, and it decides nothing
// about the notes.
//
// The file is format 1 at 960 ticks a quarter. The first track carries the title,
// the tempo map, the meters, the keys and a marker for each pass; then come the
// players' tracks (Drums, Bass, Piano) and, where there is a count-in, Click. Names,
// order and channels are the same on every rebuild, because sequencers and notation
// programs tie their own settings to them.
package midi

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"plinth/groove"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"

	"gitlab.com/gomidi/midi/v2/smf"
)

// maxDelta is the longest time between two events that a Standard MIDI File can
// hold: four bytes of seven bits.
const maxDelta = 1<<28 - 1

// Write returns the song as a Standard MIDI File that has passed Check. The same values
// give the same bytes. Ticks count from 0 to tl.End, 960 a quarter; keys go from 0 to
// 127, velocities from 1 to 127, programs from 0 to 127, tempos from 1 to 16777215
// microseconds a quarter. An error says what no file may hold (a note outside the song,
// two notes of one pitch at a time, a value out of range) or that the song is too long
// for the format (2^28 ticks between two events). Nothing is clamped or dropped to make
// it fit.
func Write(tl *timeline.Timeline, perf *groove.Performance) ([]byte, error) {
	parts := Parts(perf)
	// The tracks do not depend on each other, so they are made in parallel.
	chunks := make([][]byte, 1+len(parts))
	faults := make([]error, len(chunks))
	inParallel(len(chunks), func(i int) {
		if i == 0 {
			track, err := conductorTrack(tl)
			chunks[i], faults[i] = trackChunk(track, err)
			return
		}
		track, err := parts[i-1].toTrack(tl.End)
		if chunks[i], err = trackChunk(track, err); err != nil {
			faults[i] = fmt.Errorf("track %s: %w", parts[i-1].Name, err)
		}
	})
	size := headerLen
	for i, c := range chunks {
		if faults[i] != nil {
			return nil, fmt.Errorf("MIDI file: %w", faults[i])
		}
		size += len(c)
	}
	file := make([]byte, 0, size)
	file = append(file, "MThd\x00\x00\x00\x06\x00\x01"...)
	file = binary.BigEndian.AppendUint16(file, uint16(len(chunks)))
	file = binary.BigEndian.AppendUint16(file, meter.TicksPerQuarter)
	for _, c := range chunks {
		file = append(file, c...)
	}
	if err := Check(file); err != nil {
		return nil, fmt.Errorf("MIDI file: the finished file fails its own check: %w", err)
	}
	return file, nil
}

// headerLen is the length of the header chunk.
const headerLen = 14

// trackChunk returns a track as it stands in a file. gomidi writes whole files only, so
// this is a file of that one track without the header.
func trackChunk(track smf.Track, err error) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	song := smf.NewSMF1()
	song.TimeFormat = smf.MetricTicks(meter.TicksPerQuarter)
	song.NoRunningStatus = true
	if err := song.Add(track); err != nil {
		return nil, err
	}
	// gomidi's WriteTo forgets write errors, so it only ever writes to memory.
	var buf bytes.Buffer
	buf.Grow(headerLen + 10 + 5*len(track))
	if _, err := song.WriteTo(&buf); err != nil {
		return nil, err
	}
	return buf.Bytes()[headerLen:], nil
}

// inParallel calls do with 0 to n-1, on as many processors as there are, and returns
// when all calls have ended. A panic in one of them goes on in the caller.
func inParallel(n int, do func(i int)) {
	var all sync.WaitGroup
	var panicked atomic.Pointer[string]
	for i := range n {
		all.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					text := fmt.Sprintf("%v\n%s", p, debug.Stack())
					panicked.CompareAndSwap(nil, &text)
				}
			}()
			do(i)
		})
	}
	all.Wait()
	if text := panicked.Load(); text != nil {
		panic(*text)
	}
}
