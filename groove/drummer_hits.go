package groove

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// drumPushes marks every push that the drummer takes part in: kick and backbeat, or
// kick and crash when it leads to energy 4 or 5, with all his weight only into 5. A
// push inside a section opens none: its crash is a touch lighter. What would be struck
// after it up to its target is taken away later, by kept.
func (p *plan) drumPushes(notes []gridNote) []gridNote {
	var crashes []int64
	for i := range p.pass.Events {
		e := &p.pass.Events[i]
		if !p.pushes(e, timeline.Drums) {
			continue
		}
		bar := p.barAt(e.Tick)
		if !p.plays(bar) {
			continue
		}
		into := p.energy(p.barAt(e.Target))
		if e.Target >= p.pass.Length {
			into = p.energy(bar)
			if a := p.pass.After; a != nil {
				into = a.Energy
			}
		}
		touch := feel.Normal
		if into > crashEnergy {
			touch = feel.Strong
		}
		kick, top := stroke(kickVoice, e.Tick, e.Tick+strokeTicks, touch), stroke(p.backbeat(bar), e.Tick, e.Tick+strokeTicks, touch)
		if into >= crashEnergy {
			if e.Target < p.pass.Length {
				touch-- // Normal, or Soft
			}
			kick.Touch = p.withBrushes(kick.Touch)
			top = stroke(crashVoice, e.Tick, e.Tick+strokeTicks, p.withBrushes(touch))
			crashes = append(crashes, e.Tick)
		}
		kick.Pushed, top.Pushed = true, true
		notes = append(notes, kick, top)
	}
	return withoutCymbals(notes, crashes...)
}

// drumAccents plays every accent that names the drummer: kick and snare, or what
// marks the backbeat under energy 3; from weight 2 at energy 4, or weight 3
// anywhere, the crash as well. An accent on the
// target of a push is played where the push is: there the chord is struck.
func (p *plan) drumAccents(notes []gridNote) []gridNote {
	pushes := p.pushSpans(timeline.Drums)
	for _, e := range p.accents(timeline.Drums) {
		at := e.Tick
		if w, ok := pushAt(pushes, at); ok {
			if w.From < 0 {
				continue // struck in the pass before
			}
			at = w.From
		}
		hit := []feel.Voice{kickVoice, snareVoice}
		if p.energy(e.Bar) < snareEnergy {
			hit[1] = p.backbeat(e.Bar)
		}
		if e.Weight >= 3 || e.Weight == 2 && p.energy(e.Bar) >= crashEnergy {
			hit = append(hit, crashVoice)
		}
		for _, v := range hit {
			n := stroke(v, at, at+strokeTicks, feel.Strong)
			n.Accent, n.Pushed = int8(max(1, e.Weight)), at != e.Tick || begins(pushes, at)
			notes = append(notes, n)
		}
	}
	return notes
}
