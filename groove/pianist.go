package groove

import (
	"sort"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// Where the comp lives, in MIDI numbers. Common practice, no single source.
const (
	compFloor      = 48 // C3: the bass has what is below
	compCeiling    = 69 // A4, unless the song file says otherwise
	ceilingFloor   = 60 // C4: under it no octave is left for a chord over the floor, see ceiling
	lowestHighest  = 55 // G3: a song file's ceiling is not followed further down
	underTheSinger = 4  // a major third under the singer's lower quartile
	defaultSpan    = 14 // a ninth
)

// comper is the pianist at work on one pass.
type comper struct {
	p        *Plan
	changes  []cue.Change
	voicings []voicing.Voicing // one for each change; n is 0 where nothing is held
	left     []int             // the left hand's note for each change; nil where a bassist plays
	span     int               // semitones a hand reaches
	silences cue.Stretches
	alone    []bool
	clock    Clock
	end      int64 // of what the pianist plays: the last chord's
}

// piano is the comp of a pass. The pianist knows what the bassist is about to
// play, kicks or no kicks.
func (p *Plan) piano() []score.Note { return p.pianoOver(p.bass(nil)) }

// pianoOver is the comp of a pass over the bass notes that are played in it, in
// order: the top voice keeps out of their octaves.
func (p *Plan) pianoOver(bass []score.Note) []score.Note {
	c := &comper{p: p, changes: p.Cues.Changes(timeline.Piano), silences: p.Cues.Silences(timeline.Piano), alone: p.Cues.Alone, clock: p.Clock()}
	if len(c.changes) == 0 || p.Pass.Tacet.Has(timeline.Piano) {
		return nil
	}
	c.end = min(c.changes[len(c.changes)-1].End, p.Pass.Length)
	ear := p.listen()
	c.left, c.span = p.leftLine(c.changes, ear), p.room(p.Level(0), p.Energy(0)).Span
	if c.left != nil {
		bass = leftBass(c.changes, c.left)
	}
	c.voicings = p.voicings(c.changes, ear, bass, c.left)
	return ear.clear(c.sound(c.gestures(ear)))
}

// ceiling is the highest note of the comp in a pass, as a MIDI number: the song
// file's, or A4; and not over a major third under the singer's lower quartile,
// as long as that leaves the comp an octave over C3. Under a low voice the ceiling
// stays at C4: further down the low interval limits leave single notes and shells
// from which nobody hears the chord, and a low voice has its room above the comp
// anyway. What is said of held notes, doubling and busy bars holds there as well.
func ceiling(setup timeline.PianoSetup, pass *timeline.Pass) int {
	high := compCeiling
	if setup.Highest > 0 {
		high = max(setup.Highest, lowestHighest)
	}
	if sung, ok := guide.SungRegister(pass); ok {
		high = min(high, max(sung.Quarter-underTheSinger, ceilingFloor))
	}
	return high
}

// room is where the voicings of a bar at that energy lie. The register rises
// with the energy.
func (p *Plan) room(lv *feel.Level, energy int) voicing.Room {
	w := voicing.Room{High: ceiling(p.Song.Piano, p.Pass), Span: p.Song.Piano.Span, Centre: lv.Centre}
	w.Low = min(compFloor, w.High-12)
	if w.Span == 0 {
		w.Span = defaultSpan
	}
	if w.Centre == 0 {
		w.Centre = centres.At(energy)
	}
	w.Centre = min(w.Centre, w.High-6)
	return w
}

// voices is how many voices a level asks for.
func voices(lv *feel.Level, energy int) int {
	if lv.Voices > 0 {
		return min(lv.Voices, voicing.MaxVoices)
	}
	return compVoices.At(energy)
}

// leadInto is how the bass goes into the chord that begins at a tick.
func leadInto(bass []score.Note, tick int64) voicing.Lead {
	i := sort.Search(len(bass), func(i int) bool { return bass[i].At >= tick })
	if i == 0 || i == len(bass) {
		return voicing.Lead{}
	}
	a, b := int(bass[i-1].Key), int(bass[i].Key)
	return voicing.Lead{From: int8(a%12 + 1), To: int8(b%12 + 1), Way: int8(sign(b - a))}
}

// voicings chooses the voicings of the whole pass at once, over the left hand's notes
// where the pianist has the bass: left is nil where a bassist does.
func (p *Plan) voicings(changes []cue.Change, ear *listener, bass []score.Note, left []int) []voicing.Voicing {
	vc := p.scratch.voices()
	var start *voicing.Set
	if b := p.Pass.Before; b != nil {
		lv, energy := p.Level(0), p.Energy(0)
		start = vc.Set(b.Chord, voices(lv, energy), 0, p.room(lv, energy))
	}
	steps := make([]voicing.Step, len(changes))
	for i := range changes {
		ch := &changes[i]
		bar := p.BarAt(ch.Nominal)
		lv, energy := p.Level(bar), p.Energy(bar)
		avoid := ear.avoid(ch)
		w := p.room(lv, energy)
		if left != nil {
			w.Left = left[i]
		}
		set := vc.Set(ch.Chord, voices(lv, energy), avoid, w)
		steps[i] = voicing.Step{Set: set, Same: ch.Same, Lead: leadInto(bass, ch.Start)}
		if set != nil {
			steps[i].Extra = ear.cost(ch, set)
		}
	}
	picked := vc.Path(start, steps)
	out := make([]voicing.Voicing, len(changes))
	for i := range steps {
		if steps[i].Set != nil {
			out[i] = steps[i].Set.List[picked[i]].Voicing
		}
	}
	return out
}

// changeAt is the index of the chord in force at a tick, -1 before the first.
func (c *comper) changeAt(tick int64) int { return cue.IndexAt(c.changes, tick) }

// fresh reports whether change i must be struck: another chord, a pushed one,
// another voicing, the first of the pass or the first after N.C. The same chord
// written again goes on.
func (c *comper) fresh(i int) bool {
	ch := &c.changes[i]
	return i == 0 || !ch.Same || ch.Pushed() || c.voicings[i] != c.voicings[i-1]
}
