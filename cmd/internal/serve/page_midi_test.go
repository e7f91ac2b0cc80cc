package serve

import (
	"encoding/binary"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/midi"
)

// message is a MIDI message at a time in microseconds.
type message struct {
	at    float64
	bytes string
}

// smf reads a Standard MIDI File by the specification (MMA, Standard MIDI Files 1.0): the messages of each
// channel in their order, at the times of its tempo map, and the times of the ticks 0, 40, 80 …
func smf(t *testing.T, file []byte) (channels map[byte][]message, pulses []float64) {
	t.Helper()
	type event struct {
		tick  int64
		bytes []byte
	}
	var tempos []event
	var all []event
	end := int64(0)
	division := float64(binary.BigEndian.Uint16(file[12:]))
	for rest := file[14:]; len(rest) > 0; {
		size := binary.BigEndian.Uint32(rest[4:])
		track := rest[8 : 8+size]
		rest = rest[8+size:]
		number := func() (n int64) {
			for {
				b := track[0]
				track = track[1:]
				n = n<<7 | int64(b&0x7f)
				if b < 0x80 {
					return n
				}
			}
		}
		tick, status := int64(0), byte(0)
		for len(track) > 0 {
			tick += number()
			if track[0] >= 0x80 {
				status, track = track[0], track[1:]
			}
			switch length := 2; {
			case status == 0xff:
				kind := track[0]
				track = track[1:]
				n := number()
				if kind == 0x51 {
					tempos = append(tempos, event{tick, track[:n]})
				}
				track = track[n:]
			case status >= 0xf0:
				t.Fatalf("a message of the system: %x", status)
			default:
				if status>>4 == 0xc || status>>4 == 0xd {
					length = 1
				}
				all = append(all, event{tick, append([]byte{status}, track[:length]...)})
				track = track[length:]
			}
		}
		end = max(end, tick)
	}
	micros := func(tick int64) float64 {
		at, from, quarter := 0.0, int64(0), 500_000.0
		for _, x := range tempos {
			if x.tick > tick {
				break
			}
			at, from = at+float64(x.tick-from)*quarter/division, x.tick
			quarter = float64(int(x.bytes[0])<<16 | int(x.bytes[1])<<8 | int(x.bytes[2]))
		}
		return at + float64(tick-from)*quarter/division
	}
	channels = map[byte][]message{}
	for _, e := range all {
		channels[e.bytes[0]&15] = append(channels[e.bytes[0]&15], message{micros(e.tick), string(e.bytes)})
	}
	for tick := int64(0); tick < end; tick += int64(division) / 24 {
		pulses = append(pulses, micros(tick))
	}
	return channels, pulses
}

type sent struct {
	Start, From, Tick float64
	Sent              [][]float64
}

// messages are those of the channels, and those of the system, from a moment on.
func (s *sent) messages() (channels map[byte][]message, system []message) {
	channels = map[byte][]message{}
	for _, m := range s.Sent {
		b := make([]byte, len(m)-1)
		for i := range b {
			b[i] = byte(m[1+i])
		}
		x := message{m[0] - s.Start, string(b)}
		if b[0] >= 0xf0 {
			system = append(system, x)
		} else {
			channels[b[0]&15] = append(channels[b[0]&15], x)
		}
	}
	return channels, system
}

// What an instrument gets is the MIDI file, message by message, each within a millisecond of the file's tempo
// map; the clock has 24 pulses a quarter by the same map. At the start the programs come a little before.
func TestPageSendsTheFile(t *testing.T) {
	s := playing(t)
	browser := chromium(t)
	w := bare(t, browser, s)
	w.file("midi.js")
	examples := songfiletest.Examples(t, filepath.Join("..", "..", "..", "examples"))
	for i, path := range append(examples, "pushed") {
		name := filepath.Base(path)
		tl, set, err := songfiletest.ExampleText("page.song.hcl", pushed)
		if path != "pushed" {
			_, tl, set = songfiletest.Example(t, path)
		}
		if err != nil {
			t.Fatal(err)
		}
		perf := groove.Perform(tl, set)
		file, err := midi.Write(tl, perf)
		if err != nil {
			t.Fatal(err)
		}
		s.Good(tl, perf, name, nil)
		if bed := call[int](w, "next", name); bed != i {
			t.Fatal(bed)
		}
		want, pulses := smf(t, file)
		got := call[sent](w, "sends", i, 0, map[string]any{"clock": true, "click": len(perf.Click) > 0})
		channels, system := got.messages()
		total, worst := 0, 0.0
		for channel, list := range want {
			have := channels[channel]
			end := slices.IndexFunc(have, func(m message) bool { return m.bytes[0]>>4 == 0xb })
			if end != len(have)-1 {
				t.Fatalf("%s: control 123 is message %d of %d", name, end, len(have))
			}
			have = have[:end]
			if len(have) != len(list) {
				t.Fatalf("%s: channel %d has %d messages for %d", name, channel+1, len(have), len(list))
			}
			for j, m := range list {
				off := have[j].at - m.at
				if j == 0 && off < 0 && off > -100_000 {
					off = 0
				}
				worst = max(worst, off, -off)
				if have[j].bytes != m.bytes || off > 1000 || off < -1000 {
					t.Fatalf("%s: channel %d message %d: % x at %.0f, in the file % x at %.0f", name, channel+1, j,
						have[j].bytes, have[j].at, m.bytes, m.at)
				}
			}
			total += len(list)
		}
		if len(channels) != len(want) {
			t.Errorf("%s: %d channels for %d", name, len(channels), len(want))
		}
		first, last := system[0], system[len(system)-1]
		if first.bytes != "\xfa" || first.at > -1000 || last.bytes != "\xfc" || len(system) != len(pulses)+2 {
			t.Fatalf("%s: the clock has %d messages for %d pulses, from % x at %.0f to % x", name, len(system),
				len(pulses), first.bytes, first.at, last.bytes)
		}
		for j, at := range pulses {
			m := system[1+j]
			worst = max(worst, m.at-at, at-m.at)
			if m.bytes != "\xf8" || m.at-at > 1000 || at-m.at > 1000 {
				t.Fatalf("%s: pulse %d is % x at %.0f, want %.0f", name, j, m.bytes, m.at, at)
			}
		}
		t.Logf("%s: %d messages and %d pulses, at most %.1f µs off", name, total, len(pulses), worst)
		middle(t, w, i, name, want, len(perf.Click) > 0)
	}
}

// middle starts in the middle of a song: the programs in force are sent before the first note.
func middle(t *testing.T, w *tab, bed int, name string, want map[byte][]message, click bool) {
	t.Helper()
	bars := eval[int](w, fmt.Sprintf("T.beds[%d].bars.length", bed))
	got := call[sent](w, "sends", bed, bars/2, map[string]any{"click": click})
	channels, _ := got.messages()
	for channel, have := range channels {
		program := ""
		for _, m := range want[channel] {
			if m.bytes[0]>>4 == 0xc && m.at <= got.From {
				program = m.bytes
			}
		}
		if len(have) == 0 || have[0].bytes != program {
			t.Errorf("%s: channel %d begins in bar %d with % x, not % x", name, channel+1, bars/2, have[0].bytes,
				program)
		}
	}
}

// Whatever ends the sound leaves no note: each that was sent has its own note-off, behind it, and then comes
// control 123 (all notes off, MIDI 1.0).
func TestPageLeavesNoNote(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "old")
	call[int](w, "next", "old")
	saved(t, s, changedPushed, "new")
	call[int](w, "next", "new")
	w.file("midi.js")
	for _, how := range []string{"stop", "port", "mute", "again", "now"} {
		got := call[struct {
			Moments, Sounding int
			Wrong             []string
		}](w, "endsAll", how, 1_900_000, 6_000_000, 29_000)
		t.Logf("%s: %d moments, %d notes ended", how, got.Moments, got.Sounding)
		if len(got.Wrong) > 0 || got.Sounding < got.Moments {
			t.Errorf("%s: %+v", how, got)
		}
	}
}

// A sequencer that follows is stopped, told the place in sixteenths and sent on where a loop begins again.
func TestPageLoopsForFollowers(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "old")
	call[int](w, "next", "old")
	w.file("midi.js")
	got := sent{Sent: call[[][]float64](w, "follows", []int{1, 2})} // bars 1 and 2 behind a count-in of one bar
	_, system := got.messages()
	var told []string
	for _, m := range system {
		if m.bytes != "\xf8" {
			told = append(told, fmt.Sprintf("%x", m.bytes))
		}
	}
	// One bar is 16 sixteenths; the pair of bars is 3.64 s long.
	begin := "f21000 fb"
	if want := begin + " fc " + begin + " fc " + begin; strings.Join(told, " ") != want {
		t.Errorf("told %q, want %q", told, want)
	}
	bar := 4 * 60e6 / 132
	n := 0
	for _, m := range system {
		if m.bytes == "\xf8" {
			if want := float64(n) * bar / 96; m.at-want > 1000 || want-m.at > 1000 {
				t.Fatalf("pulse %d at %.0f, want %.0f", n, m.at, want)
			}
			n++
		}
	}
	if n < 400 {
		t.Errorf("%d pulses", n)
	}
}
