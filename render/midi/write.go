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
	"fmt"

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
	conductor, err := conductorTrack(tl)
	if err != nil {
		return nil, fmt.Errorf("MIDI file: %w", err)
	}
	song := smf.NewSMF1()
	song.TimeFormat = smf.MetricTicks(meter.TicksPerQuarter)
	song.NoRunningStatus = true
	if err := song.Add(conductor); err != nil {
		return nil, fmt.Errorf("MIDI file: %w", err)
	}
	size := 0
	for _, p := range parts(tl, perf) {
		track, err := p.track(tl.End)
		if err != nil {
			return nil, fmt.Errorf("MIDI file, track %s: %w", p.name, err)
		}
		if err := song.Add(track); err != nil {
			return nil, fmt.Errorf("MIDI file, track %s: %w", p.name, err)
		}
		size += 10 * len(p.notes)
	}
	// gomidi's WriteTo forgets write errors, so it only ever writes to memory.
	var buf bytes.Buffer
	buf.Grow(size + 1<<10)
	if _, err := song.WriteTo(&buf); err != nil {
		return nil, fmt.Errorf("MIDI file: %w", err)
	}
	if err := Check(buf.Bytes()); err != nil {
		return nil, fmt.Errorf("MIDI file: the finished file fails its own check: %w", err)
	}
	return buf.Bytes(), nil
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
		out = append(out, part{ClickTrack, programName(clickProgram), clickChannel, clickProgram, clickNotes(perf.Click)})
	}
	return out
}
