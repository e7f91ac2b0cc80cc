package songspec

import (
	"slices"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// pass adds a pass for a play. It returns false when the song has become too long.
func (r *resolver) pass(p *play) bool {
	sec := p.section
	base := r.f.settings.over(sec.settings)
	set := base.over(p.settings)
	m := or(set.meter, meter.Common)
	key := r.advanceKeys(p, or(base.key, harmony.Key{}))
	r.addMoved(sec, key)
	if p.meter != nil || p.feel != nil {
		r.feel(set)
	}
	var lo *laidOut
	var ms []measure
	if sec.chords != nil && !set.meterUnread {
		if lo = r.laidOut(p, m); lo != nil {
			ms = lo.all
		}
	}
	r.checkBlocks(p.inside, set, ms)
	if lo == nil {
		return true
	}
	if r.bars+len(lo.bars) > MaxBars {
		r.rep.Errorf(p.rng, "Too many bars", "A song has at most %d bars; with this pass it would have more.", MaxBars)
		return false
	}
	bars := r.barsOf(p, set, lo)
	keys := r.keysOf(bars, key, len(lo.bars))
	name, _ := r.feelName(set)
	energy := or(set.energy, [2]int{defaultEnergy, defaultEnergy})
	pace := paceOf(set.tempo, m)
	pass := timeline.Pass{
		Index: len(r.tl.Passes), Section: sec.name,
		Feel: name, EnergyFrom: energy[0], EnergyTo: energy[1],
		Key: keys[0].sounding, Meter: m, BPM: pace.BPM, Guided: pace.Guided, Lift: r.lift,
		Fills:    or(set.fills, true),
		Lead:     or(set.lead, true),
		Length:   lo.length,
		FirstBar: r.bars + 1,
		Bars:     lo.bars, Chords: r.harmonise(lo, keys),
		Tacet: or(set.tacet, 0),
		Vamp:  or(p.vamp, ""),
	}
	if band := r.f.bandOf(set); band != r.f.bandOf(r.f.settings) {
		pass.Band = &band
	}
	if bars != nil {
		r.inside(&pass, bars, keys)
		setPaces(&pass, bars, set.tempo)
		r.lift += bars[len(bars)-1].lift
	}
	if energy[0] != energy[1] && len(lo.bars) == 1 {
		r.rep.Warnf(set.energy.rng, "Energy cannot move in one bar",
			"The pass has a single bar, which is played at %d. Write one figure.", energy[0])
	}
	if !pace.Guided {
		r.tempoFits(name, pace.BPM, set)
	}
	if !r.placeEvents(&pass, lo, p) {
		return false
	}
	r.bars += len(lo.bars)
	if p.landing != nil {
		pass.At = p.landing.v
	}
	r.guided = append(r.guided, guidedParts(&pass)...)
	if pass.Guided {
		r.guidedFeels = append(r.guidedFeels, guidedFeel{pass.Index, name, set})
	}
	r.tl.Passes, r.landings = append(r.tl.Passes, pass), append(r.landings, p.landing)
	return true
}

// laidOut are the bars of a play in time; nil when there is a mistake in them. Plays that play
// the whole section as it stands share the result.
func (r *resolver) laidOut(p *play, m meter.Meter) *laidOut {
	key := measuresKey{p.section, m}
	plain := p.only == nil && or(p.times, 1) == 1 &&
		!slices.ContainsFunc(p.inside, func(in *inside) bool { return in.chords != nil || in.broken != nil })
	if lo, ok := r.plain[key]; ok && plain {
		return lo
	}
	played, all := r.measuresOf(p, m)
	if played == nil {
		return nil
	}
	lo := inTime(played, all)
	if plain {
		r.plain[key] = lo
	}
	return lo
}

// barsOf are the settings of the bars that a play plays; nil where no bars block says anything.
func (r *resolver) barsOf(p *play, set settings, lo *laidOut) []barSettings {
	r.checkInside(p.inside, len(lo.all))
	all := r.settingsOfBars(p, set, len(lo.all))
	if all == nil {
		return nil
	}
	out := make([]barSettings, len(lo.bars))
	for i := range out {
		out[i] = all[lo.bars[i].Number-1]
	}
	return out
}

// keysOf are the keys of the bars of a pass that is in the keys key: one entry where all are the
// same. The key of a bars block is signature and numerals: letters in its bars move as in the
// rest of the pass. That of a section is written in the song, and moves with the pass; that of a
// play is where its bars sound. A lift lifts what is under it.
func (r *resolver) keysOf(bars []barSettings, key keys, n int) []keys {
	if bars == nil {
		return []keys{key}
	}
	up := upTo(key.written, key.sounding)
	out := make([]keys, n)
	for i := range out {
		k := key
		switch b := &bars[i]; b.keyOf {
		case ofSectionBars:
			k = keys{b.key.v, b.key.v.Transpose(up)}
		case ofPlayBars:
			k.sounding = b.key.v.Transpose(r.tl.Transpose)
			k.written = k.sounding.Transpose(-up)
		}
		k.sounding = k.sounding.Transpose(bars[i].lift)
		out[i] = k
	}
	return out
}

// inside gives the bars of a pass what they have otherwise than the pass.
func (r *resolver) inside(pass *timeline.Pass, bars []barSettings, keys []keys) {
	pass.Bars = slices.Clone(pass.Bars)
	ownEnergy := slices.ContainsFunc(bars, func(b barSettings) bool { return b.energyIn.of != nil })
	here := timeline.All // who keep out of the whole pass
	for i := range bars {
		here &= or(bars[i].tacet, 0)
	}
	pass.Tacet = here
	var band *timeline.Band
	for i := range bars {
		s, b := &bars[i], &pass.Bars[i]
		own := r.f.bandOf(s.settings)
		switch {
		case own == r.tl.BandAt(pass, i):
		case band == nil || *band != own:
			band = &own
			b.Band = band
		default:
			b.Band = band
		}
		b.Tacet = or(s.tacet, 0) &^ here
		if name, _ := r.feelName(s.settings); name != pass.Feel {
			b.Feel = name
		}
		if ownEnergy {
			b.Energy = timeline.EvenEnergy(pass.EnergyFrom, pass.EnergyTo, i, len(bars))
			if in := s.energyIn; in.of != nil {
				b.Energy = timeline.EvenEnergy(s.energy.v[0], s.energy.v[1], b.Number-1-in.first, in.last-in.first+1)
			}
		}
		if i > 0 && keys[i].sounding != keys[i-1].sounding {
			pass.Keys = append(pass.Keys, timeline.KeyChange{Tick: b.Start, Key: keys[i].sounding})
		}
		if s.tempo != nil && (i == 0 || s.tempo != bars[i-1].tempo) || s.feel != nil && i > 0 &&
			s.feel != bars[i-1].feel {
			if pace := paceOf(s.tempo, pass.Meter); pace.BPM != ownTempo && !pace.Guided {
				name, _ := r.feelName(s.settings)
				r.tempoFits(name, pace.BPM, s.settings)
			}
		}
	}
	if ownEnergy {
		pass.EnergyFrom, pass.EnergyTo = pass.Bars[0].Energy.Level, pass.Bars[len(bars)-1].Energy.Level
	}
}
