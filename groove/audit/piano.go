package audit

import (
	"slices"
	"strconv"
	"strings"

	"plinth/groove"
	"plinth/groove/pianist"
	"plinth/groove/touch"
	"plinth/groove/voicing"
	"plinth/songspec/timeline"
)

// Finding is something in a pass that a player could not play, or that breaks
// 'less is more'.
type Finding struct {
	Player timeline.Player
	Tick   int64  // from the start of the pass
	Bar    int    // index into the pass's bars
	Rule   string // a short word for the rule: "span", "ceiling"
	Text   string // one plain sentence, without its full stop

	// What an audit of the whole song adds.
	Severity Severity
	Pass     int // index of the pass in the form
	SongBar  int // number of the bar in the song, from 1
	Line     int // line of the song file where the bar stands
}

// The piano's limits.
const (
	pianoLowest  = 21  // A0, the instrument's range in the orchestration handbooks
	pianoHighest = 108 // C8
	// chordUS is the time within which attacks are one chord, rolled or struck, and
	// within which one chord may still sound under the next: ours.
	chordUS = 90_000
	// fingerUS is how long a finger may still be down when the next chord is struck: ours.
	fingerUS = 15_000
	// wholeChord is how many keys an attack has at least that is more than a part of a chord.
	wholeChord = 3
)

// keyNames spell for messages that know no key.
var keyNames = [12]string{"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"}

// keyName names a MIDI note, C4 = 60.
func keyName[K int | uint8](key K) string { return keyNames[key%12] + strconv.Itoa(int(key)/12-1) }

// pianoChord is one attack of the finished part with all that sounds then.
type pianoChord struct {
	tick int64
	keys []int // ascending, struck here or still sounding
}

// checkPiano checks what two hands can hold, the instrument's range and the comp's ceiling,
// low intervals, strokes of one key, notes of one key that overlap, attacks a beat, and
// octaves in parallel with the bass, the bassist's or the left hand's own.
func (pa *passAudit) checkPiano() {
	notes := pa.part.Notes[timeline.Piano]
	pa.checkKeys(notes)
	pa.checkHolds()
	pa.checkDensity()
	pa.checkOctaves(notes, pa.bassOf())
}

// checkKeys checks every note by itself and against the one before on its key.
func (pa *passAudit) checkKeys(notes []groove.Note) {
	ceiling := pianist.Ceiling(pa.tl.Piano, pa.pass)
	var last [128]*groove.Note
	for i := range notes {
		n := &notes[i]
		key := int(n.Key)
		if key < pianoLowest || key > pianoHighest {
			pa.found(timeline.Piano, n.Tick, "range", "%s is not on a piano", keyName(key))
		}
		if key > ceiling {
			pa.found(timeline.Piano, n.Tick, "ceiling", "%s is over the comp's ceiling, %s", keyName(key),
				keyName(ceiling))
		}
		if p := last[key]; p != nil {
			if p.Tick+p.Length > n.Tick {
				pa.found(timeline.Piano, n.Tick, "overlap", "%s is struck while it still sounds", keyName(key))
			}
			if us := pa.clock.Micros(n.Tick) - pa.clock.Micros(p.Tick); us < touch.AgainUS {
				pa.found(timeline.Piano, n.Tick, "repeat", "%s is struck again after %d ms", keyName(key), us/1000)
			}
		}
		last[key] = n
	}
}

// pianoChords gathers the notes, which are in order, into attacks.
func (pa *passAudit) pianoChords(notes []groove.Note) []pianoChord {
	var out []pianoChord
	var ringing []groove.Note
	for i := 0; i < len(notes); {
		from := pa.clock.Micros(notes[i].Tick)
		c := pianoChord{tick: notes[i].Tick}
		j := i
		over := int64(1) << 60 // where the first of its notes ends: what comes then is another attack
		for j < len(notes) && pa.clock.Micros(notes[j].Tick)-from < chordUS && notes[j].Tick < over {
			lifts := pa.clock.Shift(notes[j].Tick+notes[j].Length, -fingerUS)
			over = min(over, max(lifts, notes[j].Tick+1))
			j++
		}
		settled := pa.clock.Micros(notes[j-1].Tick) + chordUS // in time: a hold may end in between
		ringing = slices.DeleteFunc(ringing, func(n groove.Note) bool {
			return pa.clock.Micros(n.Tick+n.Length) <= settled
		})
		ringing = append(ringing, notes[i:j]...)
		for _, n := range ringing {
			c.keys = append(c.keys, int(n.Key))
		}
		slices.Sort(c.keys)
		c.keys = slices.Compact(c.keys)
		out = append(out, c)
		i = j
	}
	return out
}

// checkHolds checks what sounds at every attack.
func (pa *passAudit) checkHolds() {
	span := pianist.Span(pa.tl.Piano)
	for _, c := range pa.chords {
		if !voicing.Playable(c.keys, span) {
			pa.found(timeline.Piano, c.tick, "span", "no two hands of %d semitones and five fingers hold %s", span,
				keyList(c.keys))
		}
		if low, high, ok := voicing.FirstMuddy(c.keys); ok {
			pa.found(timeline.Piano, c.tick, "low", "%s under %s is unclear so low", keyName(low), keyName(high))
		}
	}
}

func keyList(keys []int) string {
	var names []string
	for _, k := range keys {
		names = append(names, keyName(k))
	}
	return strings.Join(names, " ")
}

// checkDensity compares the attacks of the whole pass with what its energy allows. A bar
// in which the chart and the events ask for more, an attack at each change of
// chord, accent and push, is allowed as many as they ask for.
func (pa *passAudit) checkDensity() {
	asked := make([]int64, len(pa.pass.Bars))
	ask := func(tick int64) { asked[pa.plan.BarAt(tick)] += 1000 }
	for i, s := range pa.pass.Chords {
		if i == 0 || s.Chord != pa.pass.Chords[i-1].Chord {
			ask(s.Start)
		}
	}
	for i, e := range pa.pass.Events {
		if (e.Kind == timeline.Accent || e.Kind == timeline.Push && pa.plan.Cues.Acts(i)) && e.By.Has(timeline.Piano) {
			ask(e.Tick)
		}
	}
	var allowed int64
	for i, b := range pa.pass.Bars {
		allowed += max(asked[i], b.Length*pianist.AttacksPerBeat.At(pa.pass.EnergyAt(i))/b.Meter.PlayedBeat())
	}
	if pa.plan.Ending() >= 0 { // the roll of the last chord is no attacks of its own
		allowed += 1000 * pianist.LastRollUS / chordUS
	}
	if n := int64(len(pa.chords)); 1000*n > allowed {
		pa.found(timeline.Piano, 0, "density", "the piano attacks %d times, more than the %d that the energy allows",
			n, allowed/1000)
	}
}
