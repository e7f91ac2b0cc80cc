// Package room takes a song's timeline and its performance and returns a report of the
// room that voice and band leave for an orchestra: where the singer is silent, which
// registers and which steps of the bar are free, where the band hits, how the energy goes.
// Hints say what the trade would do with it, each with its reason. The report is written as
// text, as JSON, as a picture in SVG or as one HTML page.
//
// All figures come from the song file and the performance. Registers are 5th to 95th
// percentiles of the notes (nearest rank), so that one high note does not close a register.
package room

import (
	"plinth/groove"
	"plinth/songspec/cue"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Report is the room that a song leaves.
type Report struct {
	Title string
	Voice string // the first singer's track; empty without a vocal
	Bars  int
	// FileBar is the bar of the MIDI file in which bar 1 of the song stands: after
	// the bars of a count-in or a pickup the two differ. All other bars of the
	// report are the song's.
	FileBar int
	Micros  int64 // length of the song from bar 1, as the outline and the build print it
	Song    Scope
	Passes  []Scope
	// Windows are those of the whole song, uncut by the passes.
	Windows     []guide.Window
	Suspensions []Suspension
	Climax      Climax
	Hints       []Hint

	tl    *timeline.Timeline
	perf  *groove.Performance
	clock *timeline.Clock
	cues  []*cue.Cues // by pass
	meant [][]meant   // by player
	sung  []meant     // by all singers
	lines [][]meant   // by singer
}

// Scope is what is measured over a stretch of the song: a pass, or all of it.
type Scope struct {
	Name              string // "chorus (2)", "bridge" where it comes once; the song's title for the song
	FirstBar, LastBar int
	Start, End        int64 // absolute ticks
	Micros            int64 // its length
	EnergyFrom        int
	EnergyTo          int
	Most              int // the most energy in it
	Key               harmony.Key
	BPM               meter.BPM            // as written
	Played            meter.BPM            // as played, where a place has its time
	Inside            []timeline.BarChange // of a pass; none for the song
	Band              [][2]string          // of a pass: what its players play on otherwise than in the song
	Lift              int                  // semitones up from the pass before, by a lift; 0 for the song
	Plays             timeline.Players
	Voice             *Part    // of all singers together; nil where they are silent
	Singers           []Singer // by the song's vocals
	Players           []*Part  // by timeline.Player; nil where he is silent or takes no register
	Free              []FreeRange
	Windows           []guide.Window // cut to the stretch
	Grid              Grid
	Hits              []Hit
	Held              []Held // of a pass; none for the song
	Loudness          int    // of the band: velocities summed, a beat; an ordering, no unit
}

// Singer is one singer in a stretch. Part is nil where the singer is silent.
type Singer struct {
	Name string
	Part *Part
}

// Part is the register of the voice or of a player, in MIDI notes. Attacks is the number
// of attacks a beat in thousandths; notes that begin together are one attack.
type Part struct {
	guide.Register
	Attacks int
}

// FreeRange is a range of pitch, both MIDI notes included, that voice and pitched players
// leave free, with the instruments that have an octave or more in it.
type FreeRange struct {
	Low, High int
	Seats     []Seat
}

// Semitones is the distance between the lowest and the highest note.
func (b FreeRange) Semitones() int { return b.High - b.Low }

// Analyze measures a song and returns the report, which the methods Text, JSON, SVG and
// HTML write. Without a performance (nil) only the voice and the cues are known. It does
// not change its arguments, and the report keeps them.
func Analyze(tl *timeline.Timeline, perf *groove.Performance) *Report {
	if perf == nil {
		perf = groove.NewPerformance()
	}
	r := &Report{Title: tl.Title, FileBar: tl.LeadBars + 1, Windows: guide.Windows(tl), tl: tl, perf: perf,
		clock: timeline.NewClock(tl.Tempos), Micros: tl.SongMicros()}
	r.hearSingers()
	for who := range timeline.PlayerNames {
		r.meant = append(r.meant, meantBy(tl, perf, timeline.Player(who)))
	}
	for i := range tl.Passes {
		if i < len(perf.Passes) && perf.Passes[i].Score.Cues != nil {
			r.cues = append(r.cues, perf.Passes[i].Score.Cues)
		} else {
			r.cues = append(r.cues, cue.Of(&tl.Passes[i]))
		}
	}
	for i, name := range tl.ShortNames() {
		r.Passes = append(r.Passes, r.passScope(i, name))
		r.Bars += len(tl.Passes[i].Bars)
	}
	r.Song = r.songScope()
	r.Climax, r.Suspensions = r.climax(), r.suspensions()
	r.Hints = r.hints()
	return r
}

// passScope measures pass i.
func (r *Report) passScope(i int, name string) Scope {
	p := &r.tl.Passes[i]
	s := r.measureScope(p.Start, p.Start+p.Length)
	s.Name, s.FirstBar, s.LastBar = name, p.FirstBar, p.FirstBar+len(p.Bars)-1
	s.EnergyFrom, s.EnergyTo, s.Key, s.BPM = p.EnergyFrom, p.EnergyTo, p.Key, p.BPM
	for i := range p.Bars {
		s.Most = max(s.Most, p.EnergyAt(i))
	}
	s.Hits, s.Held, s.Inside = r.hitsOf(i), r.heldStretches(p), r.tl.PlayedInside(p)
	s.Band, s.Played = r.tl.OwnBand(p), r.tl.Played(p.Pace(), p.Start)
	if i > 0 {
		s.Lift = p.Lift - r.tl.Passes[i-1].Lift
	}
	return s
}

// songScope measures the whole song, whose passes are measured already. Its key and tempo
// are those of the first pass, its energies the lowest and the highest of all.
func (r *Report) songScope() Scope {
	s := r.measureScope(r.tl.Lead-r.tl.Pickup, r.tl.End)
	s.Name, s.FirstBar, s.LastBar = r.tl.Title, 1, r.Bars
	for i := range r.Passes {
		p := &r.Passes[i]
		if i == 0 {
			s.EnergyFrom, s.EnergyTo, s.Key, s.BPM, s.Played = p.EnergyFrom, p.EnergyTo, p.Key, p.BPM, p.Played
		}
		for bar := range r.tl.Passes[i].Bars {
			s.EnergyFrom = min(s.EnergyFrom, r.tl.Passes[i].EnergyAt(bar))
		}
		s.EnergyTo = max(s.EnergyTo, p.Most)
		s.Most = s.EnergyTo
		s.Hits = append(s.Hits, p.Hits...)
	}
	return s
}

// namedScope is a stretch under the name that the report's headings use.
type namedScope struct {
	Heading string
	*Scope
}

// scopes are the song and, unless it has only one, its passes; without repeats only the
// first pass of each section.
func (r *Report) scopes(repeats bool) []namedScope {
	out := []namedScope{{"the song", &r.Song}}
	for i := range r.Passes {
		if len(r.Passes) > 1 && (repeats || r.firstPass(i) == i) {
			out = append(out, namedScope{r.Passes[i].Name, &r.Passes[i]})
		}
	}
	return out
}

// firstPass is the index of the first pass of the same section as pass i.
func (r *Report) firstPass(i int) int {
	for j := range r.tl.Passes {
		if r.tl.Passes[j].Section == r.tl.Passes[i].Section {
			return j
		}
	}
	return i
}
