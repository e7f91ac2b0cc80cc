package main

import (
	"encoding/binary"
	"fmt"
	"math"

	"plinth/render/midi"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
)

// track is one track of a MIDI file in words.
type track struct {
	name   string
	events []event
	meters []event // the bytes of FF 58, which bars are counted with
}

type event struct {
	tick int64
	text string
}

// tracks reads a file that has passed midi.Check, so it checks nothing. A note is one
// event with its length.
func tracks(file []byte) []track {
	var out []track
	for rest := file[14:]; len(rest) > 0; {
		size := int(binary.BigEndian.Uint32(rest[4:]))
		out = append(out, readTrack(rest[8:8+size]))
		rest = rest[8+size:]
	}
	return out
}

func readTrack(data []byte) (t track) {
	quantity := func() (n int) {
		for more := true; more; data = data[1:] {
			n, more = n<<7|int(data[0]&0x7f), data[0] >= 0x80
		}
		return n
	}
	open := map[byte]int{} // by key: the event that sounds
	began := map[byte]int64{}
	for tick := int64(0); len(data) > 0; {
		tick += int64(quantity())
		say := func(format string, args ...any) {
			t.events = append(t.events, event{tick, fmt.Sprintf(format, args...)})
		}
		status := data[0]
		data = data[1:]
		switch status & 0xf0 {
		case 0xF0:
			kind := data[0]
			data = data[1:]
			n := quantity()
			text := data[:n]
			data = data[n:]
			switch kind {
			case 0x03:
				t.name = string(text)
			case 0x58:
				t.meters = append(t.meters, event{tick, string(text)})
			}
			say("meta event %02X %q", kind, text)
		case 0x80:
			t.events[open[data[0]]].text += fmt.Sprintf(", %d ticks long", tick-began[data[0]])
			data = data[2:]
		case 0x90:
			open[data[0]], began[data[0]] = len(t.events), tick
			say("%s (%d), velocity %d", guide.PitchName(int(data[0]), harmony.Key{}), data[0], data[1])
			data = data[2:]
		case 0xC0:
			say("program %d", data[0])
			data = data[1:]
		default:
			say("controller %d at %d", data[0], data[1])
			data = data[2:]
		}
	}
	return t
}

// firstEvent says in words where two files first differ in time.
func firstEvent(old, now []byte) string {
	for i, file := range [][]byte{old, now} {
		if err := midi.Check(file); err != nil {
			return fmt.Sprintf("other bytes, and the %s file is broken: %v", sides[i], err)
		}
	}
	a, b := tracks(old), tracks(now)
	if len(a) != len(b) {
		return fmt.Sprintf("%d tracks, now %d", len(a), len(b))
	}
	first, said := int64(math.MaxInt64), "the same events in other bytes"
	for i := range a {
		at, was, is := firstOf(a[i].events, b[i].events)
		if at >= first {
			continue
		}
		name := a[i].name
		if i == 0 {
			name = "first track"
		}
		first = at
		said = fmt.Sprintf("%s, bar %d of the file, tick %d: %s; now %s", name, barOf(a[0].meters, at), at, was, is)
	}
	return said
}

// firstOf is the first event in which two tracks differ, in both versions.
func firstOf(a, b []event) (tick int64, was, is string) {
	for i := range max(len(a), len(b)) {
		switch {
		case i >= len(b) || i < len(a) && a[i].tick < b[i].tick:
			return a[i].tick, a[i].text, "nothing there"
		case i >= len(a) || b[i].tick < a[i].tick:
			return b[i].tick, "nothing there", b[i].text
		case a[i] != b[i]:
			return a[i].tick, a[i].text, b[i].text
		}
	}
	return math.MaxInt64, "", ""
}

// barOf is the number of the bar of the file that holds a tick, from 1.
func barOf(meters []event, tick int64) int64 {
	bar := int64(1)
	for i, m := range meters {
		length := int64(m.text[0]) * 4 * meter.TicksPerQuarter >> m.text[1]
		if i+1 == len(meters) || meters[i+1].tick > tick {
			return bar + (tick-m.tick)/length
		}
		bar += (meters[i+1].tick - m.tick) / length
	}
	return bar
}
