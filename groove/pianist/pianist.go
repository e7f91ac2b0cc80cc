// Package pianist plays the comp, and the bass with the left hand where no bassist does: in
// go a pass made ready, its cues, what the bassist plays and what the singer sings, out
// come the notes of two hands on the grid.
package pianist

import (
	"cmp"
	"math/bits"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// The register of the comp, in MIDI numbers. Common practice, no single source.
const (
	compFloor      = 48 // C3: below it is the bass
	compCeiling    = 69 // A4, unless the song file says otherwise
	ceilingFloor   = 60 // C4, the lowest ceiling: it leaves an octave above the floor, see Ceiling
	underTheSinger = 4  // a major third under the singer's lower quartile
	defaultSpan    = 14 // a ninth
)

// Pianist plays the comp, pass by pass. The zero value is ready; a result holds until the
// next pass is prepared. It belongs to one goroutine.
type Pianist struct {
	*plan.Plan
	ear      *listener
	changes  []cue.Change
	voicings []voicing.Voicing // one for each change; n is 0 where nothing is held
	left     []int             // the left hand's note for each change, 0 under a bassist; nil where one always plays
	span     int               // semitones a hand reaches
	silences cue.Stretches
	entries  []int64 // see cue.Cues.Entries
	alone    []bool
	end      int64 // where the part of this pass ends: with the last chord
	groups   []score.Group
	bass     []score.Note           // what the bassist plays
	deals    map[*feel.Figure][]int // which figure each bar has, by the first figure of its level

	// Kept from pass to pass: the voicings worked out so far, which the next pass needs again,
	// and memory.
	voicer *voicing.Voicer
	row    []compAt
	marks  []mark
	meant  []score.Note
}

// Prepare makes the pianist ready for a pass.
func (c *Pianist) Prepare(p *plan.Plan) {
	c.Plan, c.changes, c.silences = p, p.Cues.Changes(timeline.Piano), p.Cues.Silences(timeline.Piano)
	c.entries = p.Cues.Entries(timeline.Piano)
	c.alone, c.groups, c.left, c.voicings, c.end = p.Cues.Alone, nil, nil, nil, 0
	c.deals = map[*feel.Figure][]int{}
	c.ear, c.span = listen(p), Span(p.Song.Piano)
	if c.voicer == nil || c.voicer.Full() {
		c.voicer = voicing.NewVoicer()
	}
	if len(c.changes) > 0 {
		c.end = min(c.changes[len(c.changes)-1].End, p.Pass.Length)
	}
}

// Play is the comp of the pass, on the grid. The pianist hears the bassist: the top voice
// does not go in octaves with the bass.
func (c *Pianist) Play(heard []score.Part) score.Part {
	if len(c.changes) == 0 || c.Pass.Tacet.Has(timeline.Piano) {
		return score.Part{}
	}
	bass := heard[timeline.Bass].Notes
	c.left = c.leftLine()
	if c.left != nil {
		bass = c.leftBass(bass)
	}
	c.bass, c.voicings = bass, c.chooseVoicings(bass)
	// The singer comes last: a last chord that rubs is let go, too.
	notes := c.ear.dropRubs(c.ringOut(c.soundGestures(c.planGestures())))
	c.letGo(notes)
	return score.Part{Notes: c.Allowed(timeline.Piano, notes), Groups: c.groups}
}

// Shapes returns nil: the comp has no figure that a note could stand out of.
func (c *Pianist) Shapes([]score.Note) []touch.Shape { return nil }

// piano has levels below 82, the median velocity of 870 pop accompaniments (POP909), as it is
// part of a bed. There is no table of how pianists stray, so it strays about as the kick does.
// Places, First and the rest are such that eight bars of the comp move as people's do in POP909:
// a quarter to two thirds of the variance by the place in the bar, under a third by the bar. A
// strong touch is little over a normal one, since the rows have it on the first beat.
var piano = touch.Instrument{
	Levels: touch.Levels{28, 50, 62, 69}, Places: [3]int{100, 92, 84}, First: 9, Arch: 3, Sway: 2, Spread: 4,
	Phrased: &phrased, Slow: 5000, Quick: 4000, SwingsLess: true,
}

// phrased is small where few notes are struck, as each stands out by itself there.
var phrased = plan.ByEnergy[int64]{75, 75, 90, 140, 195}

// Instrument is the piano.
func (c *Pianist) Instrument(*score.Note) *touch.Instrument { return &piano }

// TextureIn says in a word what the pianist plays in a bar: the word for most of its level's figures.
func (c *Pianist) TextureIn(bar int) string {
	lv := c.Level(bar)
	attacks, singles, halves, hands := 0, 0, 0, 0
	bars := lv.Bars
	if len(lv.Comp) > 1 {
		bars = len(lv.Comp)
	}
	for i := range lv.Comp {
		f := &lv.Comp[i]
		if f.Left != nil {
			hands++
		}
		for k := range f.Right {
			if !f.Strikes(k) {
				continue
			}
			attacks++
			var left feel.CompStep
			if f.Left != nil {
				left = f.Left[k]
			}
			m := markOf(f.Right[k], left)
			switch bits.OnesCount8(m.all(lv.Voices)) {
			case 1:
				singles++
			case lv.Voices:
			default:
				halves++
			}
		}
	}
	name := "blocks"
	switch {
	case 2*hands > len(lv.Comp):
		name = "two hands"
	case halves > 0:
		name = "halves"
	}
	return score.NameTexture(attacks, bars, 2*singles >= attacks, "broken", name)
}

// Ceiling is the highest note that the comp may have in a pass, as a MIDI number. It is the
// song file's, or A4, and at most a major third under the singer's lower quartile; of several
// singers in the pass, under that of the lowest. But it is
// never below C4, an octave above the floor of the comp: there the low interval limits would
// leave only single notes and shells, from which nobody hears the chord, and a low voice has
// room above the comp. The comp avoids held notes, doubling and busy bars under a low voice
// too.
//
// The register is that of the pass's own notes: after a lift it is the lifted one, and a low
// verse says nothing about the chorus. Where the singer sings for less than a quarter of the
// pass, a pickup or a call at the end of an interlude, the few notes are no register. The comp
// then keeps clear of each of them where it comes, as it does of every note, see dropRubs.
func Ceiling(setup timeline.PianoSetup, pass *timeline.Pass) int {
	high := compCeiling
	if setup.Highest > 0 {
		high = setup.Highest
	}
	for _, sung := range guide.SungIn(pass) {
		if !singsLittle(pass, &sung) {
			high = min(high, sung.Quarter-underTheSinger)
		}
	}
	return max(high, ceilingFloor)
}

// Span is how far a hand reaches, in semitones: a ninth where the song file does not say.
func Span(setup timeline.PianoSetup) int {
	if setup.Span == 0 {
		return defaultSpan
	}
	return setup.Span
}

// voicingsIn are the voicings that a chord may have in a bar, in the register of its energy: over
// a key of the left hand, 0 for none, and better without the pitch classes to avoid.
func (c *Pianist) voicingsIn(bar int, ch *cue.Change, left int, avoid uint16) *voicing.Set {
	lv, energy := c.Level(bar), c.Energy(bar)
	w := voicing.Room{Low: compFloor, High: c.ear.ceiling, Span: c.span, Left: left}
	w.Centre = min(cmp.Or(lv.Centre, centres.At(energy)), w.High-6)
	voices := min(cmp.Or(lv.Voices, compVoices.At(energy)), voicing.MaxVoices)
	return c.voicer.Set(ch.Chord, voices, avoid, w)
}

// leadInto is how the bass moves into the chord that begins at a tick.
func leadInto(bass []score.Note, tick int64) voicing.Lead {
	i := sort.Search(len(bass), func(i int) bool { return bass[i].At >= tick })
	if i == 0 || i == len(bass) {
		return voicing.Lead{}
	}
	a, b := int(bass[i-1].Key), int(bass[i].Key)
	return voicing.Lead{From: int8(a%12 + 1), To: int8(b%12 + 1), Way: int8(cmp.Compare(b, a))}
}

// chooseVoicings chooses the voicings of the whole pass at once, over the bass or over the
// left hand's notes.
func (c *Pianist) chooseVoicings(bass []score.Note) []voicing.Voicing {
	var start *voicing.Set
	if b := c.Pass.Before; b != nil {
		start = c.voicingsIn(0, &cue.Change{Chord: b.Chord}, 0, 0)
	}
	steps := make([]voicing.Step, len(c.changes))
	for i := range c.changes {
		ch := &c.changes[i]
		left := 0
		if c.left != nil {
			left = c.left[i]
		}
		set := c.voicingsIn(c.BarAt(ch.Nominal), ch, left, c.ear.avoided(ch))
		steps[i] = voicing.Step{Set: set, Same: ch.Same, Lead: leadInto(bass, ch.Start)}
		if set != nil {
			steps[i].Extra = c.ear.tuneCosts(ch, set)
		}
	}
	picked := c.voicer.Path(start, steps)
	out := make([]voicing.Voicing, len(c.changes))
	for i := range steps {
		if steps[i].Set != nil {
			out[i] = steps[i].Set.List[picked[i]].Voicing
		}
	}
	return out
}

// changeAt is the index of the chord in force at a tick, -1 before the first.
func (c *Pianist) changeAt(tick int64) int { return cue.IndexAt(c.changes, tick) }

// needsStrike reports whether change i must be struck. It must when the chord is another or is
// pushed, when the voicing is another, and when it is the first of the pass or after N.C. The
// same chord written again goes on.
func (c *Pianist) needsStrike(i int) bool {
	ch := &c.changes[i]
	return i == 0 || !ch.Same || ch.Pushed() || c.voicings[i] != c.voicings[i-1]
}
