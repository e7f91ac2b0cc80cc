// Package midi turns a performance into the bytes of a Standard MIDI File. It is
// the only package that writes MIDI, and it does no more than that: every note
// is already decided.
//
// The file is format 1 at 960 ticks a quarter. The first track carries the title,
// the tempo map, the meters, the keys and a marker for each pass; then come
// Drums, Bass, Piano and, where there is a count-in, Click. Names, order and
// channels are the same on every rebuild, since sequencers and notation programs
// tie their own settings to them.
package midi

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"plinth/groove"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"

	"gitlab.com/gomidi/midi/v2/smf"
)

// Track names, exactly as they stand in the file.
const (
	DrumsTrack = "Drums"
	BassTrack  = "Bass"
	PianoTrack = "Piano"
	ClickTrack = "Click"
)

// Channels as they travel in the file, counted from 0. General MIDI has its
// percussion on channel 10, which is 9 here. The click has a channel and a
// melodic sound of its own rather than percussion keys on channel 10: two tracks
// on one channel are merged or renamed by several importers.
const (
	pianoChannel = 0
	bassChannel  = 1
	clickChannel = 2
	drumsChannel = 9
)

// maxDelta is the longest time between two events that a Standard MIDI File can
// hold: four bytes of seven bits.
const maxDelta = 1<<28 - 1

// Write is the song as a Standard MIDI File. The same values give the same bytes.
// The file has passed Check. An error means that the performance holds something
// no file may hold (a note outside the song, two notes of one pitch at a time, a
// tempo that does not fit), or that the song is too long for the format; nothing
// is clamped or dropped to make it fit.
func Write(tl *timeline.Timeline, perf *groove.Performance) ([]byte, error) {
	parts := parts(tl, perf)
	// A track is a chunk that knows nothing of the others: they are made side by side
	// and put one after another.
	chunks := make([][]byte, 1+len(parts))
	faults := make([]error, len(chunks))
	sideBySide(len(chunks), func(i int) {
		if i == 0 {
			track, err := conductorTrack(tl)
			chunks[i], faults[i] = trackChunk(track, err)
			return
		}
		track, err := parts[i-1].track(tl.End)
		if chunks[i], err = trackChunk(track, err); err != nil {
			faults[i] = fmt.Errorf("track %s: %w", parts[i-1].name, err)
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

// trackChunk is a track as it stands in a file: what gomidi writes for a song of that one
// track, less its header.
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

// sideBySide calls do with 0 to n-1, on as many processors as there are.
func sideBySide(n int, do func(i int)) {
	if runtime.GOMAXPROCS(0) == 1 {
		for i := range n {
			do(i)
		}
		return
	}
	var all sync.WaitGroup
	var fault atomic.Pointer[string]
	for i := range n {
		all.Add(1)
		go func() {
			defer all.Done()
			defer func() {
				if p := recover(); p != nil {
					text := fmt.Sprintf("%v\n%s", p, debug.Stack())
					fault.CompareAndSwap(nil, &text)
				}
			}()
			do(i)
		}()
	}
	all.Wait()
	// It goes on where a caller can catch it.
	if text := fault.Load(); text != nil {
		panic(*text)
	}
}

// part is one track of notes before it is written.
type part struct {
	name       string
	instrument string
	channel    uint8
	program    uint8
	notes      []groove.Note
}

// parts are the tracks after the first, in the order of the file. A player who
// never plays keeps his track, so that the tracks behind it keep their places.
func parts(tl *timeline.Timeline, perf *groove.Performance) []part {
	kit := kitOf(perf.Kit)
	out := []part{
		{DrumsTrack, kit.name, drumsChannel, kit.program, perf.Parts[timeline.Drums]},
		{BassTrack, programName(tl.Bass.Program), bassChannel, tl.Bass.Program, perf.Parts[timeline.Bass]},
		{PianoTrack, programName(tl.Piano.Program), pianoChannel, tl.Piano.Program, perf.Parts[timeline.Piano]},
	}
	if len(perf.Click) > 0 {
		out = append(out, part{ClickTrack, programName(clickProgram), clickChannel, clickProgram,
			clickNotes(perf.Click)})
	}
	return out
}
