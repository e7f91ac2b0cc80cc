// Package groovetest builds songs, passes and feels for tests without a song file: in go
// chords, tabs and events in a few words, out come values of the timeline and of feels.
package groovetest

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/cue"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Feel is a plain feel in sixteenths of 4/4: eighths on the hat, a backbeat, a
// bass that moves at every energy, and fills of one, two and four beats.
func Feel() *feel.Feel {
	f := &feel.Feel{
		Name: "test", Meters: []meter.Meter{meter.Common}, TempoLow: 40, TempoHigh: 400,
		Grid: 16, Kit: "standard", Fills: "test", LagMS: map[string]int{"snare": 4},
	}
	bass := [5]string{
		"1===============", "1=======1=======", "1=====1=1=====a-", "1-----1-1--5--a-", "1-1-1-1-1-5-8-a-",
	}
	kick := [5]string{
		"x---------------", "x-------x-------", "x-----x-x-------", "x-----x-x-x-----", "x--x--x-x-x--x--",
	}
	hat := [5]string{
		"x---x---x---x---", "x-x-x-x-x-x-x-x-", "x-x-x-x-x-x-x-x-", "xsxsxsxsxsxsxsxs", "XxxxXxxxXxxxXxxx",
	}
	for e := range f.Levels {
		back := "cross_stick"
		if e >= 2 {
			back = "snare"
		}
		f.Levels[e] = feel.Level{
			Energy: e + 1, Bars: 1, Voices: 3,
			Drums: Rows("hat", hat[e], back, "----x--g----x---", "kick", kick[e]),
			Bass:  BassRow(bass[e]),
			Comp:  []feel.Figure{{Right: CompRow("c=======c=======")}},
		}
	}
	return f
}

// Set holds Feel, with a change made to it, and a family of fills.
func Set(change func(f *feel.Feel)) *feel.Set {
	f := Feel()
	if change != nil {
		change(f)
	}
	set := &feel.Set{Feels: map[string]*feel.Feel{f.Name: f}}
	for _, beats := range []int{1, 2, 4} {
		for c := 0; c < 6; c++ {
			snare, tom := "xxxx", "----"
			if c%2 == 1 {
				snare, tom = "x-x-", "-x-x"
			}
			if c%3 == 2 {
				snare = "xx-x"
			}
			set.Fills = append(set.Fills, feel.Fill{
				Family: "test", Name: "fill", Beats: beats, Grid: 4, Colour: c, MinEnergy: 1, MaxEnergy: 5,
				Rows: Rows("snare", strings.Repeat(snare, beats), "tom_low", strings.Repeat(tom, beats),
					"kick", "x"+strings.Repeat("-", 4*beats-1)),
			})
		}
	}
	return set
}

func touchOf(c byte) feel.Touch {
	switch c {
	case '-':
		return feel.Rest
	case '=', '~':
		return feel.Sound
	case 'g':
		return feel.Ghost
	case 's':
		return feel.Soft
	case 'X':
		return feel.Strong
	}
	return feel.Normal
}

// Rows reads pairs of a voice's word and its tab.
func Rows(pairs ...string) []feel.Row {
	var out []feel.Row
	for i := 0; i < len(pairs); i += 2 {
		v, ok := feel.VoiceNamed(pairs[i])
		if !ok {
			panic("no voice " + pairs[i])
		}
		r := feel.Row{Voice: v}
		for _, c := range []byte(pairs[i+1]) {
			r.Steps = append(r.Steps, feel.Stroke{Touch: touchOf(c), Flam: c == 'f', Drag: c == 'd'})
		}
		out = append(out, r)
	}
	return out
}

// BassRow reads a bass tab: a digit, "a" or "w" strikes, "=" holds on, "-" rests.
func BassRow(tab string) []feel.BassStep {
	var out []feel.BassStep
	for _, c := range []byte(tab) {
		s := feel.BassStep{Touch: touchOf(c)}
		if s.Touch == feel.Normal {
			s.Degree = c
		}
		out = append(out, s)
	}
	return out
}

// CompRow reads a comp tab: "c", "r", "l", "u" or a digit strikes, "s" strikes softly, "="
// holds on, "-" rests.
func CompRow(tab string) []feel.CompStep {
	var out []feel.CompStep
	for _, c := range []byte(tab) {
		s := feel.CompStep{Touch: touchOf(c)}
		switch s.Touch {
		case feel.Normal:
			s.Part = c
		case feel.Soft:
			s.Part = 'c'
		}
		out = append(out, s)
	}
	return out
}

// Section is a pass to be: its chords bar by bar, blanks between chords that share
// a bar evenly.
type Section struct {
	Name     string
	Chords   string
	Energy   int
	EnergyTo int
	Feel     string
	BPM      int
	Meter    meter.Meter
	NoFills  bool
	Tacet    timeline.Players
	Change   func(p *timeline.Pass)
}

// Long is a section of n bars that change chord now and then.
func Long(n, energy int) Section {
	bars := make([]string, n)
	for i := range bars {
		bars[i] = [4]string{"C", "Am", "F", "G"}[i%4]
	}
	return Section{Name: "long", Chords: strings.Join(bars, "|"), Energy: energy}
}

// Song lays sections out in order, at looseness 0 and take 1.
func Song(t testing.TB, sections ...Section) *timeline.Timeline {
	t.Helper()
	tl := &timeline.Timeline{Take: 1}
	tl.Bass.Strings, tl.Piano.Span = 4, 14
	count := map[string]int{}
	bar := 1
	for i, s := range sections {
		s.Meter, s.BPM = cmp.Or(s.Meter, meter.Common), cmp.Or(s.BPM, 100)
		s.Feel, s.EnergyTo = cmp.Or(s.Feel, "test"), cmp.Or(s.EnergyTo, s.Energy)
		p := timeline.Pass{
			Index: i, Section: s.Name, Ordinal: count[s.Name], Feel: s.Feel,
			EnergyFrom: s.Energy, EnergyTo: s.EnergyTo, Meter: s.Meter, BPM: meter.Whole(s.BPM),
			Key: harmony.Key{}, Tacet: s.Tacet, Fills: !s.NoFills, Lead: true, Start: tl.End, FirstBar: bar,
			Tempos: []timeline.Tempo{{
				Micros: 60_000_000 * meter.TicksPerQuarter / (int64(s.BPM) * s.Meter.TempoTicks()),
			}},
		}
		count[s.Name]++
		for _, text := range strings.Split(s.Chords, "|") {
			length := s.Meter.BarTicks()
			words := strings.Fields(text)
			for j, w := range words {
				share := length / int64(len(words))
				start := p.Length + int64(j)*share
				span := timeline.Span{Start: start, End: start + share, Chord: Chord(t, w), Written: w}
				p.Chords = append(p.Chords, span)
			}
			p.Bars = append(p.Bars, timeline.Bar{Start: p.Length, Length: length, Meter: s.Meter})
			p.Length += length
			bar++
		}
		tl.End += p.Length
		tl.Passes = append(tl.Passes, p)
	}
	for i := range tl.Passes {
		if c := sections[i].Change; c != nil {
			c(&tl.Passes[i])
		}
	}
	Join(tl)
	return tl
}

// Join tells every pass of its neighbours and of what joins them.
func Join(tl *timeline.Timeline) {
	timeline.VaryFills(tl.Passes, tl.Title, tl.Take)
	cue.Join(tl.Passes)
}

// Event adds an event at a bar from 0 and ticks into it.
func Event(p *timeline.Pass, kind timeline.EventKind, bar int, at int64, set func(e *timeline.Event)) {
	b := p.Bars[bar]
	e := timeline.Event{Kind: kind, Bar: bar, Tick: b.Start + at, End: b.Start + b.Length, By: timeline.All, Weight: 1}
	if kind == timeline.Push {
		e.Target = b.Start + (at/meter.TicksPerQuarter+1)*meter.TicksPerQuarter
		e.End = e.Target
	}
	if set != nil {
		set(&e)
	}
	i := len(p.Events)
	for i > 0 && p.Events[i-1].Tick > e.Tick {
		i--
	}
	p.Events = append(p.Events[:i], append([]timeline.Event{e}, p.Events[i:]...)...)
}

// Onsets are the ticks at which notes begin, of some keys or of all.
func Onsets(notes []touch.Note, keys ...uint8) []int64 {
	var out []int64
	for _, n := range notes {
		if len(keys) == 0 || slices.Contains(keys, n.Key) {
			out = append(out, n.Tick)
		}
	}
	return out
}

// Within are the notes that begin from one tick up to another.
func Within(notes []touch.Note, from, to int64) []touch.Note {
	var out []touch.Note
	for _, n := range notes {
		if n.Tick >= from && n.Tick < to {
			out = append(out, n)
		}
	}
	return out
}

// NoteAt is a note as it is played.
func NoteAt(tick, length int64, key, velocity uint8) touch.Note {
	return touch.Note{Tick: tick, Length: length, Key: key, Velocity: velocity}
}
