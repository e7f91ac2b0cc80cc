package songspec

import (
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// joinPasses puts the passes one after another: it fills in absolute times, neighbours,
// pushes over a border, and the tempo, meter and key maps.
func (r *resolver) joinPasses() {
	t := r.tl
	if len(t.Passes) == 0 {
		return
	}
	r.addLead()
	at := t.Lead
	seen := map[string]int{}
	for i := range t.Passes {
		p := &t.Passes[i]
		p.Start = at
		p.Ordinal = seen[p.Section]
		seen[p.Section]++
		at += p.Length
	}
	t.End = at
	r.startVocals()
	r.follow()
	cue.Join(t.Passes)
	if !r.f.failed && !r.rep.Diags.HasErrors() { // bad chords are missing from the timeline
		r.noteFates()
	}
	timeline.VaryFills(t.Passes, or(r.f.title, ""), t.Take) // a renamed file plays as before
	before := len(r.rep.Diags)
	r.toPicture()
	if r.env.Untimed {
		r.rep.Diags = r.rep.Diags[:before]
	}
	r.makeMaps()
	r.warnIdleEvents()
	r.warnUnplayedGrooves()
	for i, v := range r.f.vocals {
		if rng := v.startRange(); rng != nil && t.Vocals[i].From > r.bars && !r.f.slipped {
			r.rep.Errorf(*rng, "The vocal starts after the song",
				"The song has %s; from is the bar of the song where the vocal file begins.",
				wording.Count(r.bars, "bar"))
		}
	}
}

// addLead adds the whole bars before bar 1: the count-in and the bars that the pickup needs, in
// the meter of the first pass.
func (r *resolver) addLead() {
	t := r.tl
	m := t.Passes[0].Meter
	if p := r.f.pickup; p != nil {
		t.Pickup = p.v * m.TempoTicks() / beatGrid
	}
	bar := m.BarTicks()
	t.LeadBars = t.CountIn + int((t.Pickup+bar-1)/bar)
	t.Lead = int64(t.LeadBars) * bar
}

// makeMaps makes the song's tempo, meter and key maps. Each has its first entry at tick 0, and no
// entry repeats the one before.
func (r *resolver) makeMaps() {
	t := r.tl
	first := &t.Passes[0]
	if t.Lead > 0 {
		t.Tempos = r.front
	}
	t.Meters = append(t.Meters, timeline.MeterChange{Tick: 0, Meter: first.Meter})
	t.Keys = append(t.Keys, timeline.KeyChange{Tick: 0, Key: first.Key})
	for i := range t.Passes {
		p := &t.Passes[i]
		for _, s := range p.Tempos {
			if n := len(t.Tempos); n == 0 || s.Micros != t.Tempos[n-1].Micros {
				t.Tempos = append(t.Tempos, timeline.Tempo{Tick: p.Start + s.Tick, Micros: s.Micros})
			}
		}
		for _, b := range p.Bars {
			last := &t.Meters[len(t.Meters)-1]
			switch {
			case b.Meter == last.Meter:
			case last.Tick == p.Start+b.Start: // the song begins with a bar of another meter
				last.Meter = b.Meter
			default:
				t.Meters = append(t.Meters, timeline.MeterChange{Tick: p.Start + b.Start, Meter: b.Meter})
			}
		}
		for _, k := range append([]timeline.KeyChange{{Key: p.Key}}, p.Keys...) {
			if k.Key != t.Keys[len(t.Keys)-1].Key {
				t.Keys = append(t.Keys, timeline.KeyChange{Tick: p.Start + k.Tick, Key: k.Key})
			}
		}
	}
}
