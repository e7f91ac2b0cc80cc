package midi

import (
	"bytes"
	"cmp"
	"fmt"
	"math/bits"
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"

	"gitlab.com/gomidi/midi/v2/smf"
)

// maxMicros is the slowest tempo of the format, in microseconds a quarter: what three
// bytes hold, 3.58 quarters a minute.
const maxMicros = 1<<24 - 1

// The order of the first track's events at one tick.
const (
	rankTempo = iota
	rankMeter
	rankKey
	rankMarker
	rankCue
)

// metaEvent is an event of the first track.
type metaEvent struct {
	tick    int64
	rank    int
	message smf.Message
}

// conductorTrack is the first track: title, tempo map, meters, keys, markers, cue points.
// Tempo, meter and key always stand at tick 0, because some importers keep their own
// where a file leaves them out. A value that is in force already is not written again.
func conductorTrack(tl *timeline.Timeline) (smf.Track, error) {
	events, err := conductorEvents(tl)
	if err != nil {
		return nil, err
	}
	var t trackBuilder
	t.add(0, smf.MetaTrackSequenceName(toASCII(tl.Title, "song")))
	var inForce [rankMarker]smf.Message
	for i, e := range events {
		if e.rank < rankMarker {
			superseded := i+1 < len(events) && events[i+1].tick == e.tick && events[i+1].rank == e.rank
			if superseded || bytes.Equal(inForce[e.rank], e.message) {
				continue
			}
			inForce[e.rank] = e.message
		}
		t.add(e.tick, e.message)
	}
	return t.close(tl.End)
}

// conductorEvents returns the first track's events in order. Their values are checked
// here, because gomidi clamps what does not fit and reports no error.
func conductorEvents(tl *timeline.Timeline) ([]metaEvent, error) {
	if len(tl.Tempos) == 0 || tl.Tempos[0].Tick != 0 || len(tl.Meters) == 0 || tl.Meters[0].Tick != 0 ||
		len(tl.Keys) == 0 || tl.Keys[0].Tick != 0 {
		return nil, fmt.Errorf("tempo, meter and key must each begin at tick 0")
	}
	events := make([]metaEvent, 0, len(tl.Tempos)+len(tl.Meters)+len(tl.Keys)+len(tl.Passes))
	var fault error // the first
	add := func(tick int64, rank int, m smf.Message, err error) {
		if err != nil && fault == nil {
			fault = fmt.Errorf("tick %d: %w", tick, err)
		}
		events = append(events, metaEvent{tick, rank, m})
	}
	for _, x := range tl.Tempos {
		m, err := tempoMessage(x.Micros)
		add(x.Tick, rankTempo, m, err)
	}
	for _, x := range tl.Meters {
		m, err := meterMessage(x.Meter)
		add(x.Tick, rankMeter, m, err)
	}
	for _, x := range tl.Keys {
		m, err := keyMessage(x.Key)
		add(x.Tick, rankKey, m, err)
	}
	if fault != nil {
		return nil, fault
	}
	for i, name := range markerNames(tl.Passes) {
		events = append(events, metaEvent{tl.Passes[i].Start, rankMarker, smf.MetaMarker(name)})
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		if p.Vamp != "" {
			words := "vamp " + strings.TrimPrefix(strings.TrimPrefix(p.Vamp, "vamp "), "Vamp ")
			events = append(events, metaEvent{p.Start, rankCue, smf.MetaCuepoint(toASCII(words, "vamp"))})
		}
		for j := range p.Events {
			if e := &p.Events[j]; e.Kind == timeline.Cue {
				events = append(events, metaEvent{p.Start + e.Tick, rankCue, smf.MetaCuepoint(toASCII(e.Text, "cue"))})
			}
		}
	}
	slices.SortStableFunc(events, func(a, b metaEvent) int {
		return cmp.Or(cmp.Compare(a.tick, b.tick), cmp.Compare(a.rank, b.rank))
	})
	if n := len(events); events[n-1].tick > tl.End || events[0].tick < 0 {
		return nil, fmt.Errorf("ticks %d to %d are not within the song's %d", events[0].tick, events[n-1].tick, tl.End)
	}
	return events, nil
}

// tempoMessage is FF 51 03. It is made from bytes, because gomidi takes beats a minute as
// a float and the microseconds of a quarter are exact.
func tempoMessage(micros int64) (smf.Message, error) {
	if micros < 1 || micros > maxMicros {
		return nil, fmt.Errorf("a quarter of %d microseconds is not within 1 and %d", micros, maxMicros)
	}
	return smf.Message{0xFF, 0x51, 3, byte(micros >> 16), byte(micros >> 8), byte(micros)}, nil
}

// meterMessage is FF 58 04. Its third byte is the length of a metronome's beat in MIDI
// clocks, 24 a quarter: one note of the lower number, but a dotted quarter in 6/8, 9/8
// and 12/8 (Standard MIDI Files 1.0, whose example for 6/8 has 36). Its fourth byte, the
// thirty-second notes in a quarter, is always 8.
func meterMessage(m meter.Meter) (smf.Message, error) {
	if m.Num < 1 || m.Num > 255 || m.Den < 1 || m.Den > 32 || bits.OnesCount(uint(m.Den)) != 1 {
		return nil, fmt.Errorf("the meter %d/%d cannot be written", m.Num, m.Den)
	}
	clocks := 96 / m.Den
	if m.Compound() {
		clocks = 36
	}
	return smf.MetaTimeSig(uint8(m.Num), uint8(m.Den), uint8(clocks), 8), nil
}

// keyMessage is FF 59 02: sharps positive, flats negative, then 1 for minor.
func keyMessage(k harmony.Key) (smf.Message, error) {
	n := k.Fifths()
	if n < -7 || n > 7 {
		return nil, fmt.Errorf("%s would have %d accidentals in its signature", k, max(n, -n))
	}
	return smf.MetaKey(0, !k.Minor, uint8(max(n, -n)), n < 0), nil
}

// markerNames returns the section name of each pass in ASCII, from the second pass on with the
// number of the pass: "chorus", "chorus (2)". A name without an ASCII letter or digit becomes
// "section" and the section's number in order of appearance. Where another pass has a name
// already, since a section is called "chorus (2)" or two names are one in ASCII, an asterisk
// tells them apart.
func markerNames(passes []timeline.Pass) []string {
	first := map[string]string{} // by section
	taken := map[string]bool{}
	unlike := func(name string) string {
		for taken[name] {
			name += "*"
		}
		taken[name] = true
		return name
	}
	for i := range passes {
		if section := passes[i].Section; first[section] == "" {
			first[section] = unlike(toASCII(section, "section "+strconv.Itoa(len(first)+1)))
		}
	}
	out := make([]string, len(passes))
	times := map[string]int{}
	for i := range passes {
		section := passes[i].Section
		times[section]++
		if out[i] = first[section]; times[section] > 1 {
			out[i] = unlike(fmt.Sprintf("%s (%d)", first[section], times[section]))
		}
	}
	return out
}
