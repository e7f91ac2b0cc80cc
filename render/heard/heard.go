// Package heard takes a song's timeline and its performance and says what an ear gets of
// them: the band's parts as the MIDI file has them, the click, the guide vocals and a
// starting pitch for the singers, in microseconds. Sound files and the page play this.
package heard

import (
	"slices"
	"sort"

	"plinth/groove"
	"plinth/render/midi"
	"plinth/songspec/timeline"
)

// Who is a part, by what plays it. The band's players come first, as timeline.Player has them.
type Who uint8

// Those who are no players of the band.
const (
	Click Who = Who(len(timeline.PlayerNames)) + iota
	Guide     // a singer's guide vocal
	Pitch     // the singers' starting pitch
)

// Names are the words for them, by Who.
var Names = append(timeline.PlayerNames[:len(timeline.PlayerNames):len(timeline.PlayerNames)], "click", "guide",
	"pitch")

func (w Who) String() string { return Names[w] }

// Song is all that is heard. Times are microseconds from the start of the MIDI file.
type Song struct {
	Bars  []Bar // those in front of bar 1 too
	Lead  int   // how many those are
	Parts []Part
	End   int64 // the last bar line
}

// Bar is a bar of the file.
type Bar struct {
	At, End int64
	Tick    int64 // of the file
	Pass    int   // the index of its pass; -1 in front of bar 1
	Bar     int   // its index in the pass, or from the start of the file
}

// Part is what one player or singer is heard with.
type Part struct {
	Who     Who
	Name    string // as the track of the MIDI file is named; a singer's name
	Channel uint8  // as it travels in MIDI, counted from 0
	Drums   bool   // its keys are General MIDI's percussion instruments
	Sounds  []Sound
	Notes   []Note // by At
}

// Sound is the instrument from a moment on: a General MIDI program, counted from 0.
type Sound struct {
	At      int64
	Program uint8
	Name    string
}

// Note is a note that is heard. It belongs to the bar of which it is music, though it may begin
// a little before that bar, or by a push an eighth or more.
type Note struct {
	At, Length    int64
	Key, Velocity uint8
	Sound         uint8 // index in the part's Sounds
	Bar           int32 // index in the song's Bars
	// Tick and Ticks are At and Length in ticks of the file.
	Tick, Ticks int64
}

// A guide is sung by a General MIDI program, counted from 0, at one velocity: it is there to
// be followed. Its channels come behind the click's.
const (
	guideProgram  = 53 // Voice Oohs
	guideVelocity = 80
	guideChannel  = 3
)

// Of works out what is heard of a song. The performance is of this timeline.
func Of(tl *timeline.Timeline, perf *groove.Performance) *Song {
	clock := timeline.NewClock(tl.Tempos)
	s := &Song{End: clock.Micros(tl.End), Lead: tl.LeadBars}
	s.bars(tl, clock)
	firstBar := make([]int, len(tl.Passes)) // by pass
	n := s.Lead
	for i := range tl.Passes {
		firstBar[i] = n
		n += len(tl.Passes[i].Bars)
	}
	for i, p := range midi.Parts(perf) {
		part := Part{Who: Who(i), Name: p.Name, Channel: p.Channel, Drums: p.Channel == midi.Percussion}
		for _, x := range p.Sounds {
			part.Sounds = append(part.Sounds, Sound{clock.Micros(x.Tick), x.Program, x.Name})
		}
		part.Notes = make([]Note, len(p.Notes))
		sound := 0
		for j := range p.Notes {
			n := &p.Notes[j]
			for sound+1 < len(p.Sounds) && p.Sounds[sound+1].Tick <= n.Tick {
				sound++
			}
			bar := s.barAt(n.Tick)
			if part.Who < Click {
				if pass, in := perf.Owner(tl, timeline.Player(i), n); pass >= 0 {
					bar = firstBar[pass] + in
				}
			}
			at := clock.Micros(n.Tick)
			part.Notes[j] = Note{at, clock.Micros(n.Tick+n.Length) - at, n.Key, n.Velocity, uint8(sound), int32(bar),
				n.Tick, n.Length}
		}
		s.Parts = append(s.Parts, part)
	}
	s.singers(tl, clock)
	return s
}

// bars are the bars of the file.
func (s *Song) bars(tl *timeline.Timeline, clock *timeline.Clock) {
	for i := range s.Lead {
		length := tl.Lead / int64(s.Lead)
		from := int64(i) * length
		s.Bars = append(s.Bars, Bar{clock.Micros(from), clock.Micros(from + length), from, -1, i})
	}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		for j := range p.Bars {
			from := p.Start + p.Bars[j].Start
			s.Bars = append(s.Bars, Bar{clock.Micros(from), clock.Micros(from + p.Bars[j].Length), from, i, j})
		}
	}
}

// barAt is the index of the bar at a tick.
func (s *Song) barAt(tick int64) int {
	return max(sort.Search(len(s.Bars), func(i int) bool { return s.Bars[i].Tick > tick })-1, 0)
}

// singers adds the guide vocals and the starting pitch.
func (s *Song) singers(tl *timeline.Timeline, clock *timeline.Clock) {
	channel := uint8(guideChannel)
	sound := []Sound{{0, guideProgram, "Voice Oohs"}}
	pitch := Part{Who: Pitch, Name: "Pitch", Sounds: sound}
	for i := range tl.Vocals {
		v := &tl.Vocals[i]
		if channel == midi.Percussion {
			channel++
		}
		part := Part{Who: Guide, Name: v.Called(), Channel: channel, Sounds: sound}
		channel++
		for _, n := range v.Notes {
			start, end := max(n.Tick, 0), min(n.Tick+n.Length, tl.End)
			if start >= end {
				continue
			}
			at := clock.Micros(start)
			part.Notes = append(part.Notes, Note{at, clock.Micros(end) - at, n.Key, guideVelocity, 0,
				int32(s.barAt(start)), start, end - start})
		}
		if n, ok := s.startingPitch(&part, clock); ok && !slices.Contains(pitch.Notes, n) { // once for two in unison
			pitch.Channel = part.Channel
			pitch.Notes = append(pitch.Notes, n)
		}
		s.Parts = append(s.Parts, part)
	}
	if pitch.Notes != nil {
		s.Parts = append(s.Parts, pitch)
	}
}

// entersWithin is after how many bars of the song a singer has heard the band, and needs no pitch.
const entersWithin = 2

// startingPitch is the first note of a singer, given in the first half of the bar before bar 1: where
// there is a count-in, nobody of the band plays in that half, and the singer enters at once.
func (s *Song) startingPitch(guide *Part, clock *timeline.Clock) (Note, bool) {
	if s.Lead == 0 || len(guide.Notes) == 0 || int(guide.Notes[0].Bar) >= s.Lead+entersWithin {
		return Note{}, false
	}
	in := s.Bars[s.Lead-1]
	half := (in.End - in.At) / 2
	for _, p := range s.Parts {
		if p.Who == Click {
			continue
		}
		for _, n := range p.Notes {
			if n.At < in.At+half && n.At+n.Length > in.At {
				return Note{}, false
			}
		}
	}
	if guide.Notes[0].At < in.At+half {
		return Note{}, false
	}
	length := clock.Ticks(in.Tick, half)
	return Note{in.At, half, guide.Notes[0].Key, guideVelocity, 0, int32(s.Lead - 1), in.Tick, length}, true
}
