package groove

import (
	"sort"

	"plinth/groove/feel"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
)

// barFacts is what a bar has to itself, whoever plays in it.
type barFacts struct {
	level  *feel.Level
	beats  []int64 // the felt beats, in ticks from the bar line
	energy int
}

// facts is what is known of a bar.
func (p *plan) facts(bar int) *barFacts {
	if p.bars == nil {
		p.bars = make([]barFacts, len(p.pass.Bars))
		for i := range p.bars {
			f, b := &p.bars[i], &p.pass.Bars[i]
			f.energy = p.pass.EnergyAt(i)
			f.level = p.levelOf(i, f.energy)
			if i > 0 && b.Meter == p.pass.Bars[i-1].Meter {
				f.beats = p.bars[i-1].beats
			} else {
				f.beats = b.Meter.Beats()
			}
		}
	}
	return &p.bars[bar]
}

// level is what is played in a bar: the feel's level for the energy in force
// there, with the answer's rows in the bars that answer.
func (p *plan) level(bar int) *feel.Level { return p.facts(bar).level }

// beats are the felt beats of a bar, in ticks from its bar line.
func (p *plan) beats(bar int) []int64 { return p.facts(bar).beats }

// energy is that of a bar, 1 to 5.
func (p *plan) energy(bar int) int { return p.facts(bar).energy }

// barAt is the bar that holds a tick; what lies outside the pass belongs to its
// first or last bar.
func (p *plan) barAt(tick int64) int {
	bars := p.pass.Bars
	if len(bars) == 0 {
		return 0
	}
	if p.here.Start <= tick && tick < p.here.End {
		return p.hereBar // one note after another is in the same bar
	}
	bar := p.findBar(tick)
	p.here, p.hereBar = cue.Stretch{Start: bars[bar].Start, End: bars[bar].Start + bars[bar].Length}, bar
	return bar
}

func (p *plan) findBar(tick int64) int {
	bars := p.pass.Bars
	if len(bars) < 2 || tick < bars[1].Start {
		return 0
	}
	// Bars are mostly of one length: look there before searching.
	i := int(min(tick/bars[1].Start, int64(len(bars)-1)))
	if bars[i].Start <= tick && (i == len(bars)-1 || tick < bars[i+1].Start) {
		return i
	}
	return max(0, sort.Search(len(bars), func(i int) bool { return bars[i].Start > tick })-1)
}

// barEnd is the bar line at the end of a bar, relative to the pass.
func (p *plan) barEnd(bar int) int64 { return p.pass.Bars[bar].Start + p.pass.Bars[bar].Length }

// ending is the bar in which the song comes to rest: the band strikes its first beat
// and lets it ring. -1 where the bars are played as they stand.
func (p *plan) ending() int {
	if i := p.cues.Ending; i >= 0 {
		return int(p.cues.List[i].Bar)
	}
	return -1
}

// finalHit is the tick of the song's last hit before it stops dead: with force the three
// come down on that beat together. -1 where there is none.
func (p *plan) finalHit() int64 {
	if i := p.cues.FinalHit; i >= 0 && forceful.at(p.energy(int(p.cues.List[i].Bar))) {
		return p.cues.List[i].At
	}
	return -1
}

// levelOf works the level of a bar out.
func (p *plan) levelOf(bar, energy int) *feel.Level {
	lv := &p.feel.Levels[energy-1]
	a := lv.Answer
	if a == nil || !p.answers(bar, lv.Bars) {
		return lv
	}
	if out := p.answer[energy-1]; out != nil {
		return out
	}
	out := *lv
	if a.Drums != nil {
		out.Drums = a.Drums
	}
	if a.Bass != nil {
		out.Bass = a.Bass
	}
	if a.Comp != nil {
		out.Comp = a.Comp
	}
	p.answer[energy-1] = &out
	return &out
}

// answers reports whether a bar answers the bars before it: in the second half of a
// phrase of eight or four bars. The take decides how much of it: all of that half, or its
// last bars only. A pattern of two or four bars answers whole.
func (p *plan) answers(bar, pattern int) bool {
	first, size := p.phrase(bar)
	if size < 4 {
		return false
	}
	late := size - size/2 // the second half begins here
	if p.chance("answer").at(int64(first/8)).below(2) == 1 {
		late = size - size/4
	}
	late -= late % max(1, pattern)
	return bar-first >= late && late > 0
}

// phrase is the phrase that a bar stands in: its first bar, and how many it has. Bars
// group in eights, and the rest in fours.
func (p *plan) phrase(bar int) (first, bars int) {
	first = bar - bar%8
	left := len(p.pass.Bars) - first
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

// step is one step of a tab laid over a real bar.
type step struct {
	Tick  int64 // relative to the pass
	Index int   // index into the level's rows
}

// steps lays the level's tab over bar number bar of the pass. A bar in another
// meter than the feel's takes the tab from its front and, when it is longer,
// goes on with the tab's last beat; a feel of any meter plays its first step on
// the bar's first beat and its second on the others. The result holds until the
// next call.
func (p *plan) steps(bar int, lv *feel.Level) []step {
	b := &p.pass.Bars[bar]
	out := p.scratch.steps[:0]
	if len(p.feel.Meters) == 0 {
		for i, at := range p.beats(bar) {
			out = append(out, step{Tick: b.Start + at, Index: min(i, 1)})
		}
		p.scratch.steps = out
		return out
	}
	m := p.feel.Meters[0]
	for _, other := range p.feel.Meters {
		if other == b.Meter {
			m = other
			break
		}
	}
	grid := int64(p.feel.Grid)
	stepTicks := p.feel.Meters[0].BarTicks() / grid
	first := (bar % lv.Bars) * p.feel.Grid
	beat := int64(0)
	for i := int64(0); i*stepTicks < b.Length; i++ {
		at := i
		if at >= grid && beat == 0 {
			beat = lastBeatSteps(m, stepTicks)
		}
		for at >= grid {
			at -= beat
		}
		out = append(out, step{Tick: b.Start + i*stepTicks, Index: first + int(at)})
	}
	p.scratch.steps = out
	return out
}

// lastBeatSteps is the length of the meter's last beat in steps, at least 1.
func lastBeatSteps(m meter.Meter, stepTicks int64) int64 {
	beats := m.Beats()
	return max(1, (m.BarTicks()-beats[len(beats)-1])/stepTicks)
}
