package plan

import (
	"slices"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// barFacts is what holds for a bar, whoever plays in it.
type barFacts struct {
	feel    *feel.Feel
	from    int       // the bar in which its feel's tab begins
	bpm     meter.BPM // as written
	swing   Swing
	level   *feel.Level
	beats   []int64 // the felt beats, in ticks from the bar line
	energy  int
	sweep   timeline.Sweep // of the energy, in which the bar is
	leadsTo int            // the energy that the band leads to in the bar, see Plan.LeadsTo
}

// facts returns the facts of a bar, worked out once.
func (p *Plan) facts(bar int) *barFacts {
	if p.bars == nil {
		p.bars = make([]barFacts, len(p.Pass.Bars))
		for i := range p.bars {
			f, b := &p.bars[i], &p.Pass.Bars[i]
			p.chooseFeel(i)
			f.energy = p.Pass.EnergyAt(i)
			f.level = p.withRide(i, p.levelOf(i, f.energy))
			if i > 0 && b.Meter == p.Pass.Bars[i-1].Meter {
				f.beats = p.bars[i-1].beats
			} else {
				f.beats = b.Meter.Beats()
			}
		}
		for _, s := range p.Pass.Sweeps() {
			for i := s.First; i < s.End; i++ {
				p.bars[i].sweep = s
			}
		}
		for i := range p.bars {
			p.bars[i].leadsTo = p.leadsTo(i)
		}
	}
	return &p.bars[bar]
}

// chooseFeel works out the feel of a bar, and how it swings at the tempo that holds there. A feel
// that bars have of their own begins its tab in the first of them. The pass's goes on after them as
// if it had never stopped, so that its phrases and its clave stay where they are.
func (p *Plan) chooseFeel(bar int) {
	f, name := &p.bars[bar], p.Pass.FeelAt(bar)
	f.bpm = p.Pass.BPM
	if bar > 0 {
		f.bpm = p.bars[bar-1].bpm
	}
	if set := p.Pass.Bars[bar].Pace; set != nil {
		f.bpm = set.BPM
	}
	if bar > 0 && p.Pass.FeelAt(bar-1) == name {
		before := &p.bars[bar-1]
		if f.feel, f.from, f.swing = before.feel, before.from, before.swing; f.bpm != before.bpm {
			f.swing = swingOf(f.feel, f.bpm, p.Pass.Meter)
		}
		return
	}
	if f.feel = p.Set.Feels[name]; f.feel == nil {
		panic("plan: no feel " + name)
	}
	f.swing = swingOf(f.feel, f.bpm, p.Pass.Meter)
	if name != p.Pass.Feel {
		f.from = bar
	}
}

// FeelIn is the feel of a bar.
func (p *Plan) FeelIn(bar int) *feel.Feel { return p.facts(bar).feel }

// SwingIn is how a bar swings.
func (p *Plan) SwingIn(bar int) Swing { return p.facts(bar).swing }

// FirstStep is where a bar begins in the rows of a level of its feel.
func (p *Plan) FirstStep(bar int, lv *feel.Level) int {
	f := p.facts(bar)
	return (bar - f.from) % lv.Bars * f.feel.Grid
}

// Level is the level of the feel that a bar is played from, by its energy. In a bar that
// answers, it has the answer's rows.
func (p *Plan) Level(bar int) *feel.Level { return p.facts(bar).level }

// BeatStarts are where the felt beats of a bar begin, in ticks from its bar line.
func (p *Plan) BeatStarts(bar int) []int64 { return p.facts(bar).beats }

// OffBeat reports whether a tick is on none of the felt beats of its bar.
func (p *Plan) OffBeat(tick int64) bool {
	bar := p.BarAt(tick)
	return !slices.Contains(p.BeatStarts(bar), tick-p.Pass.Bars[bar].Start)
}

// TiedOver returns the chord of a player that came off the beat and is tied over a tick: one behind its
// change, up to the next felt beat, where nobody strikes it again. It is nil where there is none. A song's
// last bar is struck, and a chord in the very middle of a bar of three is a beat of two.
func (p *Plan) TiedOver(who timeline.Player, changes []cue.Change, tick int64) *cue.Change {
	i := cue.IndexAt(changes, tick)
	for i > 0 && changes[i].Same && !changes[i].Pushed() { // the chart has it once more
		i--
	}
	if i < 0 {
		return nil
	}
	c := &changes[i]
	bar := p.BarAt(c.Start)
	b := &p.Pass.Bars[bar]
	at := c.Start - b.Start
	if tick <= c.Start || at*2 == b.Length || c.Same || c.Pushed() || c.Chord.None || !p.OffBeat(c.Start) ||
		p.Cues.Alone[bar] || p.Cues.Silences(who).Has(c.Start) || p.BarAt(tick) == p.Ending() ||
		tick == p.FinalHit() || tick > b.Start+b.Meter.NextBeat(at) {
		return nil
	}
	return c
}

// Energy is the energy of a bar, 1 to 5.
func (p *Plan) Energy(bar int) int { return p.facts(bar).energy }

// SweepAt is the sweep of the energy that a bar is in.
func (p *Plan) SweepAt(bar int) timeline.Sweep { return p.facts(bar).sweep }

// BarAt is the index of the bar that holds a tick. A tick outside the pass belongs to the
// first or the last bar.
func (p *Plan) BarAt(tick int64) int {
	bars := p.Pass.Bars
	if len(bars) == 0 {
		return 0
	}
	if p.here.Start <= tick && tick < p.here.End {
		return p.hereBar // one note after another is in the same bar
	}
	// Bars are mostly of one length: look there before searching.
	bar := max(0, min(int(tick/bars[0].Length), len(bars)-1))
	if b := &bars[bar]; tick < b.Start || tick >= b.Start+b.Length {
		bar = p.Pass.BarAt(tick)
	}
	p.here, p.hereBar = cue.Stretch{Start: bars[bar].Start, End: bars[bar].Start + bars[bar].Length}, bar
	return bar
}

// BarEnd is the bar line at the end of a bar, relative to the pass.
func (p *Plan) BarEnd(bar int) int64 { return p.Pass.Bars[bar].Start + p.Pass.Bars[bar].Length }

// levelOf works out the level of a bar.
func (p *Plan) levelOf(bar, energy int) *feel.Level {
	lv := &p.bars[bar].feel.Levels[energy-1]
	if lv.Answer == nil || !p.answers(bar, lv.Bars) {
		return lv
	}
	if out := p.answer[lv]; out != nil {
		return out
	}
	out := lv.Answered()
	if p.answer == nil {
		p.answer = map[*feel.Level]*feel.Level{}
	}
	p.answer[lv] = &out
	return &out
}

// answers reports whether a bar answers the bars before it: in the second half of a
// phrase of eight or four bars. The take decides whether all of that half answers or only
// its last bars. A pattern of two or four bars answers as a whole.
func (p *Plan) answers(bar, pattern int) bool {
	first, size := p.Phrase(bar)
	if size < 4 {
		return false
	}
	late := size - size/2 // the second half begins here
	if p.Chance("answer").At(int64(first/8)).Below(2) == 1 {
		late = size - size/4
	}
	late -= late % max(1, pattern)
	bar -= (bar - p.bars[bar].from) % max(1, pattern) // where the pattern begins
	return bar-first >= late && late > 0
}

// Phrase is the phrase that a bar stands in: its first bar and its number of bars. Phrases
// have eight bars, and what is left over is divided into fours.
func (p *Plan) Phrase(bar int) (first, bars int) {
	first = bar - bar%8
	left := len(p.Pass.Bars) - first
	switch {
	case left >= 8:
		return first, 8
	case left >= 4 && bar-first < 4:
		return first, 4
	case left > 4:
		return first + 4, left - 4
	}
	return first, left
}

// Step is one step of a tab laid over a real bar.
type Step struct {
	Tick  int64 // relative to the pass
	Index int   // index into the level's rows
}

// Steps lays the level's tab over bar number bar of the pass. A bar in another meter than the
// feel's takes the tab from the beginning and, when it is longer than the tab, repeats the
// tab's last beat. A feel for any meter plays its first step on the first beat of the bar and
// its second step on the other beats. The result holds until the next call.
func (p *Plan) Steps(bar int, lv *feel.Level) []Step {
	b, f := &p.Pass.Bars[bar], p.FeelIn(bar)
	out := p.steps[:0]
	if len(f.Meters) == 0 {
		for i, at := range p.BeatStarts(bar) {
			out = append(out, Step{Tick: b.Start + at, Index: min(i, 1)})
		}
		p.steps = out
		return out
	}
	m := f.Meters[0]
	if slices.Contains(f.Meters, b.Meter) {
		m = b.Meter
	}
	grid := int64(f.Grid)
	stepTicks := f.Meters[0].BarTicks() / grid
	first := p.FirstStep(bar, lv)
	beats := m.Beats()
	lastBeat := max(1, (m.BarTicks()-beats[len(beats)-1])/stepTicks) // in steps
	for i := int64(0); i*stepTicks < b.Length; i++ {
		at := i
		for at >= grid {
			at -= lastBeat
		}
		out = append(out, Step{Tick: b.Start + i*stepTicks, Index: first + int(at)})
	}
	p.steps = out
	return out
}

// MetricPlace is 0 on a beat, 1 half-way between two, 2 elsewhere.
func (p *Plan) MetricPlace(bar int, tick int64) int {
	b := &p.Pass.Bars[bar]
	at := tick - b.Start
	beats := p.BeatStarts(bar)
	for i, start := range beats {
		end := b.Length
		if i+1 < len(beats) {
			end = beats[i+1]
		}
		switch {
		case at == start:
			return 0
		case at < start:
			return 2
		case at < end && p.SwingIn(bar).offbeat(at-start, end-start):
			return 1
		}
	}
	return 2
}

// offbeat reports whether a place within a beat is its "and": half-way, or two
// thirds where the tab is in triplets.
func (s Swing) offbeat(at, length int64) bool {
	return 2*at == length || s.Triplets && 3*at == 2*length
}
