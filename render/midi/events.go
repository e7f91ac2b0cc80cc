package midi

import (
	"fmt"
	"slices"

	"plinth/groove"

	"gitlab.com/gomidi/midi/v2/smf"
)

// A note event is packed into one number so that sorting the numbers sorts the
// events: by tick, note-offs before note-ons, then by key.
//
//	tick | on (1 bit) | key (7 bits) | velocity (7 bits)
type packed uint64

const (
	velocityBits = 7
	keyShift     = velocityBits
	onShift      = keyShift + 7
	tickShift    = onShift + 1
)

// offVelocity is what a note-off carries where nothing was measured: the middle,
// as the MIDI 1.0 specification says for devices without release velocity.
const offVelocity = 64

func pack(tick int64, on, key, velocity uint8) packed {
	return packed(tick)<<tickShift | packed(on)<<onShift | packed(key)<<keyShift | packed(velocity)
}

func (e packed) tick() int64     { return int64(e >> tickShift) }
func (e packed) on() bool        { return e>>onShift&1 == 1 }
func (e packed) key() uint8      { return uint8(e >> keyShift & 0x7f) }
func (e packed) velocity() uint8 { return uint8(e & 0x7f) }

// noteEvents turns notes into note-ons and note-offs in the order of the file. end is the
// tick of the last bar line. A note that is not within 0 and end, or has a key or a
// velocity out of range, is an error.
func noteEvents(notes []groove.Note, end int64) ([]packed, error) {
	events := make([]packed, 0, 2*len(notes))
	for _, n := range notes {
		switch {
		case n.Tick < 0 || n.Length < 1 || n.Tick > end-n.Length:
			return nil, fmt.Errorf("a note of key %d at tick %d, %d long, is not within the song's %d ticks", n.Key,
				n.Tick, n.Length, end)
		case n.Key > 127:
			return nil, fmt.Errorf("key %d at tick %d is over 127", n.Key, n.Tick)
		case n.Velocity < 1 || n.Velocity > 127:
			return nil, fmt.Errorf("velocity %d at tick %d is not within 1 and 127", n.Velocity, n.Tick)
		}
		events = append(events, pack(n.Tick, 1, n.Key, n.Velocity), pack(n.Tick+n.Length, 0, n.Key, offVelocity))
	}
	slices.Sort(events)
	return events, nil
}

// toTrack returns the part as gomidi's messages: name, instrument, program, notes, end. Where the
// sound changes there is another program, before the notes at that tick.
func (p *Part) toTrack(end int64) (smf.Track, error) {
	for _, s := range p.Sounds {
		if s.Program > 127 {
			return nil, fmt.Errorf("program %d is over 127", s.Program)
		}
	}
	events, err := noteEvents(p.Notes, end)
	if err != nil {
		return nil, err
	}
	t := trackBuilder{track: make(smf.Track, 0, len(events)+len(p.Sounds)+3)}
	t.add(0, smf.MetaTrackSequenceName(p.Name))
	t.add(0, smf.MetaInstrument(p.Sounds[0].Name))
	t.add(0, smf.Message{0xC0 | p.Channel, p.Sounds[0].Program})
	next := p.Sounds[1:]
	// All messages share one array, three bytes each, so that none is allocated alone.
	store := make([]byte, 0, 3*len(events))
	for _, e := range events {
		for ; len(next) > 0 && next[0].Tick <= e.tick(); next = next[1:] {
			t.add(next[0].Tick, smf.Message{0xC0 | p.Channel, next[0].Program})
		}
		status := 0x80 | p.Channel
		if e.on() {
			status = 0x90 | p.Channel
		}
		store = append(store, status, e.key(), e.velocity())
		t.add(e.tick(), smf.Message(store[len(store)-3:len(store):len(store)]))
	}
	return t.close(end)
}

// trackBuilder puts messages at absolute ticks into a track, which counts from one to the
// next. The ticks must not descend; err keeps the first error.
type trackBuilder struct {
	track smf.Track
	now   int64
	err   error
}

func (b *trackBuilder) add(tick int64, m smf.Message) {
	if delta := b.delta(tick); b.err == nil {
		b.track = append(b.track, smf.Event{Delta: delta, Message: m})
	}
}

func (b *trackBuilder) delta(tick int64) uint32 {
	delta := tick - b.now
	if (delta < 0 || delta > maxDelta) && b.err == nil {
		b.err = fmt.Errorf("from tick %d to tick %d is further than a MIDI file can say (%d ticks)", b.now, tick,
			int64(maxDelta))
	}
	b.now = tick
	return uint32(delta)
}

// close ends the track at the given tick.
func (b *trackBuilder) close(end int64) (smf.Track, error) {
	delta := b.delta(end)
	if b.err != nil {
		return nil, b.err
	}
	b.track.Close(delta)
	return b.track, nil
}
