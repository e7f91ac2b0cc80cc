// Package feel holds the grooves as values: what the groove files say, decoded.
// It knows neither HCL nor MIDI.
//
// A row of a groove file is a tab: one character a step, bar lines optional.
package feel

import "plinth/songspec/meter"

// Feel is one groove: five levels, one for each energy.
type Feel struct {
	Name  string
	About string // one line
	// Meters it is written for; the tabs are laid out in Meters[0]. Empty: any
	// meter; then every tab is two steps written "first|others": what happens on
	// the bar's first beat and on each other beat (whole beats of the meter).
	Meters    []meter.Meter
	TempoLow  int // beats a minute, as Meters[0] counts them: the range where it sits well
	TempoHigh int
	Grid      int // steps a bar of Meters[0]
	Swing     Swing
	Kit       string // "standard", "brushes", "sticks"
	BassSound string // "finger" (or ""), "acoustic"
	Fills     string // name of the fill family
	// LagMS is how far behind (positive) or ahead (negative) of the beat each
	// instrument sits, in milliseconds: keys are drum voices, "bass", "piano".
	LagMS map[string]int
	// Syncopation is the most LHL syncopation a bar of the kit (kick and snare
	// together, ghosts left out) reaches at any level; the audit holds to it.
	Syncopation int
	Changes     Changes
	Levels      [5]Level // index = energy - 1
	File        string   // where it came from: a library file or the user's own
}

// QuartersAsOne is how many of the players' beats TempoLow and TempoHigh count as one.
func (f *Feel) QuartersAsOne() int64 {
	if len(f.Meters) == 0 {
		return 1
	}
	return f.Meters[0].QuartersAsOne()
}

// Changes says how the comp meets a change of chord. The bass has the chord's bass there in any
// case.
type Changes uint8

// The ways. Common practice, no single source.
const (
	OnTime Changes = iota // it strikes every change
	InTurn                // it keeps its figure: the new chord comes with the figure's next strike
	Ahead                 // likewise, and the figure's last off-beat before a change has the new chord
)

// Swing says how the off-beats are placed.
type Swing struct {
	// Mode: "" straight; "tempo" by the published curve; "ratio" fixed.
	Mode string
	// PerMille is long:short × 1000 when Mode is "ratio": 2000 is a triplet.
	PerMille int
	// Unit is "eighth" or "sixteenth": what is played long-short.
	Unit string
}

// Touch is how hard a step is played.
type Touch uint8

// Touches, from silence up.
const (
	Rest   Touch = iota // -
	Sound               // held on from the step before: = (bass and comp), ~ (a brush sweep going on)
	Ghost               // g
	Soft                // s
	Normal              // x, or a degree
	Strong              // X
)

// Level is what the band plays at one energy.
type Level struct {
	Energy int
	Bars   int // length of the pattern in bars: 1, 2 or 4
	Drums  []Row
	Bass   []BassStep // Bars × Grid steps (or 2 for a feel of any meter)
	Comp   []Figure   // what the comp may play in a bar: one figure, or several that a phrase deals out
	Voices int        // how many voices the comp takes: 2 to 4
	// Centre is the MIDI note the comp's voicings gather round; 0: the pianist's choice.
	Centre int
	// Answer, when not nil, holds other rows for a bar that answers: the second
	// half of a phrase. A nil slice in it means: as in the level.
	Answer *Level
}

// Row is one voice of the kit.
type Row struct {
	Voice Voice
	Steps []Stroke // Bars × Grid
}

// Stroke is one step of a kit row.
type Stroke struct {
	Touch Touch
	Flam  bool // f: a grace stroke before
	Drag  bool // d: two grace strokes before
}

// BassStep is one step of the bass row.
type BassStep struct {
	Touch Touch
	// Degree: '1' the chord's bass, '3', '5', '7' the nearest tone of that name in
	// the chord, '8' the bass an octave up, 'a' an approach to the next chord's bass
	// (played as the bass note before energy 3), 'c' one that may be outside the key, 'w' the
	// bassist walks. 0 with Rest, Sound or Ghost.
	Degree byte
}

// Figure is a figure of the comp. A level's only figure is as long as its other rows; one of
// several is a bar.
type Figure struct {
	Right []CompStep // the right hand, or both where Left is nil
	Left  []CompStep // as many steps
}

// CompStep is one step of a hand of the comp.
type CompStep struct {
	Touch Touch
	// Part: 'c' the whole chord or, over a left hand of its own, all of it that the left does
	// not have; 'l' its lower half, 'u' its upper half, '1' to '5' one voice from below (more
	// than there are: the top one), 'r' rolled from below, 'm' the inner voice moved to its
	// neighbour in the key, 'o' the lowest voice, in octaves where there is room for them.
	Part byte
}

// Limb plays a voice of the kit.
type Limb uint8

// Limbs. A hand voice takes either hand.
const (
	Hand Limb = iota
	RightFoot
	LeftFoot
)

// Voice is an instrument of the kit by its word in groove files.
type Voice struct {
	Word string // "kick", "snare", "cross_stick", "hat", ...
	Key  uint8  // General MIDI percussion key
	Limb Limb
}

// Fill is one fill of a family.
type Fill struct {
	Family string
	Name   string
	Beats  int // 1 to 4
	Grid   int // steps a beat
	Rows   []Row
	// Colour numbers the fills of one family and length from 0. 0 to 2 close a
	// section of themselves and leave its first beats to the time; AskedColour and above are asked for
	// by the song and begin on their first step.
	Colour int
	// MinEnergy and MaxEnergy, 1 to 5, are the energies the fill is meant for. For
	// every family, length of 1, 2 or 4 beats, Colour and energy the library has exactly one fill.
	MinEnergy, MaxEnergy int
}

// The colours of the fills that the song asks for: two that begin, and one that closes a row of them.
const (
	AskedColour  = 3
	AskedColours = 3
)

// Suits reports whether the fill is meant for an energy (1 to 5).
func (f *Fill) Suits(energy int) bool { return f.MinEnergy <= energy && energy <= f.MaxEnergy }

// Set is everything the band can be asked for.
type Set struct {
	Feels map[string]*Feel
	Fills []Fill
}

// Answered is the level as it is played when it answers: the level itself with the
// rows that the answer changes; the level unchanged when there is no answer.
func (lv *Level) Answered() Level {
	out := *lv
	out.Answer = nil
	if a := lv.Answer; a != nil {
		if a.Drums != nil {
			out.Drums = a.Drums
		}
		if a.Bass != nil {
			out.Bass = a.Bass
		}
		if a.Comp != nil {
			out.Comp = a.Comp
		}
	}
	return out
}

// Touch is the stronger of the touches that the hands have at a step of the figure.
func (g *Figure) Touch(i int) Touch {
	if g.Left == nil {
		return g.Right[i].Touch
	}
	return max(g.Right[i].Touch, g.Left[i].Touch)
}

// Strikes reports whether a hand strikes at a step of the figure.
func (g *Figure) Strikes(i int) bool { return g.Touch(i) > Sound }
