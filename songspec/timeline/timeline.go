// Package timeline holds the resolved song: songspec makes a Timeline of a song file, with
// every repeat written out, every place in ticks and every numeral a chord; the cues, the
// players and all outputs read it. It knows nothing of HCL and nothing of MIDI.
//
// Times are integers: ticks, 960 a quarter, and microseconds where the name says so.
package timeline

import (
	"cmp"
	"sort"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
)

// Timeline is a whole song.
type Timeline struct {
	Title string
	By    string
	File  string // the song file's base name without its extension: names the outputs

	Drums DrumsSetup
	Bass  BassSetup
	Piano PianoSetup

	Transpose int // semitones by which everything sounds above what is written

	Looseness int // per mille, 0 (on the grid) to 1000
	Take      int

	CountIn  int   // whole bars of click in front
	Pickup   int64 // ticks before bar 1 that belong to the song
	Lead     int64 // ticks of the whole bars in front of bar 1: count-in and pickup bars
	LeadBars int   // how many bars that is; bar 1 of the song is bar LeadBars+1 of the file

	Passes []Pass
	Tempos []Tempo // absolute ticks, ascending, the first at 0
	Meters []MeterChange
	Keys   []KeyChange
	End    int64 // the last bar line, in absolute ticks

	Vocals []Vocal // the singers, in the order of the file; none, or up to MaxVocals

	Picture  *Picture  // nil when the song is for none
	Landings []Landing // in order
}

// DrumsSetup is what the drummer plays on. Kit is empty when the feel decides.
type DrumsSetup struct{ Kit string }

// The lines that a song may ask of its bassist.
const (
	LineTwo  = "two"
	LineWalk = "walk"
)

// BassSetup is the bassist's instrument, and his line, which is empty where the feel has it. Sound is
// empty when the feel decides. Program is a General MIDI program, counted from 0; Strings is 4 (down to
// E1) or 5 (down to B0).
type BassSetup struct {
	Line    string
	Sound   string
	Program uint8
	Strings int
}

// PianoSetup is the pianist's instrument and limits. Program is a General MIDI program,
// counted from 0. Highest is the comp's ceiling as a MIDI note number; 0 is the default, A4
// (69), or lower under a singer. Span is how far a hand reaches, in semitones.
type PianoSetup struct {
	Sound   string
	Program uint8
	Highest int
	Span    int
}

// A song may have MaxVocals singers, and a guide may be MaxTranspose semitones away from the
// song's key, up or down: three octaves.
const (
	MaxVocals    = 8
	MaxTranspose = 36
)

// Vocal is a guide vocal that the song file names: one singer, or one file of a singer who has several,
// until guide.Join makes one of them. Notes and TrackResolved come
// from the guide itself, once it is read.
type Vocal struct {
	Name          string // the singer's; empty where there is only one and the song does not say
	Path          string // slash-separated, relative to the song file's folder
	Track         string // empty: the likeliest
	From          int    // bar of the song where the file's first bar stands; 0 and less are in front of bar 1
	RangeLow      int    // MIDI note numbers; 0 when no range is given
	RangeHigh     int
	Range         string     // the range as it is written: "A3 to Db5"
	Transpose     int        // semitones from the file's key to the written one
	Rough         bool       // how the file was played and exported is accepted
	Leads         bool       // the band follows its tempo somewhere
	Line          int        // where it stands in the song file, for messages
	Notes         []SungNote // in absolute ticks, by Tick, then Key; nil until the guide is read
	TrackResolved string     // name of the track that was taken
	Also          []Vocal    // further files of this singer, whose notes are among Notes; see guide.Join
}

// SameSinger reports whether two vocals are files of one singer: they have one name.
func (v *Vocal) SameSinger(w *Vocal) bool { return v.Name != "" && strings.EqualFold(v.Name, w.Name) }

// Called is what a report calls the singer: by name, or by the track of the guide.
func (v *Vocal) Called() string { return cmp.Or(v.Name, v.TrackResolved, "voice") }

// SungNote is one note of a singer. Key is a MIDI note number.
type SungNote struct {
	Tick   int64
	Length int64
	Key    uint8
	Singer uint8 // which of the song's Vocals sings it
}

// Tempo is a tempo from Tick on, in microseconds a quarter.
type Tempo struct {
	Tick   int64
	Micros int64
}

// MeterChange is a meter from Tick (a bar line) on.
type MeterChange struct {
	Tick  int64
	Meter meter.Meter
}

// KeyChange is a key from Tick on.
type KeyChange struct {
	Tick int64
	Key  harmony.Key
}

// Pass is one playing of a section. Ticks in it count from its Start, so that a pass can be
// played, compared and kept without the rest of the song.
type Pass struct {
	Index   int    // place in the form, from 0
	Section string // the section's name
	At      string // when its first bar line comes, as written; "" where nothing is said
	Ordinal int    // place among the passes of this section, from 0
	Vamp    string // until when it is played again and again, in words; else ""

	Feel       string
	EnergyFrom int // 1 to 5
	EnergyTo   int // equals EnergyFrom unless the section moves
	Key        harmony.Key
	Keys       []KeyChange // changes inside the pass, in its ticks and over 0; most have none
	Meter      meter.Meter
	BPM        meter.BPM // in the meter's beat; the tempo map is Tempos
	Guided     bool      // the tempo is the guide's, and BPM its mean in this pass; else BPM is as written
	Lift       int       // semitones in force, summed
	Tacet      Players
	Band       *Band // nil: the song's
	Fills      bool  // the section end may have a fill
	Lead       bool  // the last two bars may lead to the energy of the next pass
	// FillVariant, 1 to FillVariants, chooses among the drummer's fills, so that the same
	// fill never comes twice running. VaryFills sets it; 0 is not set.
	FillVariant int

	Start    int64 // absolute ticks
	Length   int64
	FirstBar int // number of the first bar in the song, from 1

	Bars   []Bar
	Chords []Span
	Events []Event
	Tempos []Tempo // relative to Start, the first at 0

	Before *Neighbour // nil at the start of the song
	After  *Neighbour // nil at the end
	// Entry, when not nil, is a push in the pass before that takes this pass's
	// first chord early: Tick is negative.
	Entry *Event
	// Joint are events that a neighbour writes and this pass plays, where a push joins the
	// two: accents, with Tick where they are struck (under 0 on Entry), and stops between
	// Entry and the first bar line, in which the pushed chord does not ring.
	Joint []Event

	// Sung is what all singers sing in this pass and in the bar to either side, by Tick, then
	// Key; nil when no vocal is given, empty when the singers are silent.
	Sung []SungNote
}

// Neighbour is what a pass may know of the pass beside it.
type Neighbour struct {
	Section string
	Ordinal int
	Chord   harmony.Chord // its last (Before) or first (After) chord
	Energy  int           // its energy at the border
	Feel    string
	BPM     meter.BPM
	Meter   meter.Meter
	Bar     int64   // ticks of its bar at the border
	Tacet   Players // who keeps out of it
	Band    *Band   // what the players play on in it; nil: the song's
}

// PassAt is the index in Passes of the pass at an absolute tick: -1 before the first pass,
// the last one after the end.
func (t *Timeline) PassAt(tick int64) int {
	return sort.Search(len(t.Passes), func(i int) bool { return t.Passes[i].Start > tick }) - 1
}

// BarAt is the index in Bars of the bar at a tick of the pass: the first bar before it, the
// last one after its end.
func (p *Pass) BarAt(tick int64) int {
	i := sort.Search(len(p.Bars), func(i int) bool { return p.Bars[i].Start > tick }) - 1
	return max(0, i)
}

// SpanAt is the index in Chords of the chord in force at a tick of the pass: the first one before
// it, the last one after its end.
func (p *Pass) SpanAt(tick int64) int {
	i := sort.Search(len(p.Chords), func(i int) bool { return p.Chords[i].End > tick })
	return min(i, len(p.Chords)-1)
}

// Joined is the spans with equal chords in a row made one.
func Joined(spans []Span) []Span {
	var out []Span
	for _, s := range spans {
		if n := len(out); n > 0 && out[n-1].Chord == s.Chord && out[n-1].End == s.Start {
			out[n-1].End = s.End
			continue
		}
		out = append(out, s)
	}
	return out
}

// Bar is one bar of a pass.
type Bar struct {
	Start  int64 // relative to the pass
	Length int64
	Meter  meter.Meter
	Text   string // its chords as written, a repeat sign replaced by what it repeats
	Line   int    // line of the song file where the bar stands
	Number int    // in its section, from 1; 0: as many as the bars of the pass up to it

	// What a bar has otherwise than its pass. The methods of Pass say what holds in a bar.
	Feel   string  // "": the pass's
	Energy Energy  // of all bars or of none; zero: it moves evenly through the pass
	Tacet  Players // who keep out of this bar, besides those who keep out of the pass
	Band   *Band   // nil: the pass's
	Pace   *Pace   // a tempo that begins here; nil: the tempo goes on
}

// Pace is a tempo as the song file sets it, in the meter's beat.
type Pace struct {
	BPM    meter.BPM // where the guide is followed, its mean in the pass
	Guided bool      // it is the guide's
}

// String is the tempo in words: "61.5", "the guide's, 58.2 on average".
func (p Pace) String() string {
	if p.Guided && p.BPM > 0 {
		return "the guide's, " + p.BPM.String() + " on average"
	}
	if p.Guided {
		return "the guide's"
	}
	return p.BPM.String()
}

// Pace is the tempo with which the pass begins, unless its first bar sets another.
func (p *Pass) Pace() Pace { return Pace{p.BPM, p.Guided} }

// Energy is the energy of a bar: Level, 1 to 5, is what the bar is played at, From and To are
// where it begins and ends while the energy moves, in thousandths of a level.
type Energy struct{ Level, From, To int }

// Band is what the players play on, and how.
type Band struct {
	Drums DrumsSetup
	Bass  BassSetup
	Piano PianoSetup
}

// Span is a chord and how long it lasts. Spans cover a pass in order and without a gap. A
// chord written again in a new bar begins a new span, and so does %; a / alone does not.
type Span struct {
	Start, End int64
	Chord      harmony.Chord
	Written    string // as in the song file: "IVmaj7", "Ab/C"
}
