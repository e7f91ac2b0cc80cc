package groove

// swing places off-beats. Tabs and events are written straight or in triplets;
// each pair of equal notes becomes long and short.
type swing struct {
	pair     int64 // ticks of the long and the short note together; 0: straight
	long     int64 // ticks of the long one
	triplets bool  // the tab is written in triplets
}

// swing is how this pass swings.
func (p *plan) swing() swing {
	if p.swings == nil {
		s := p.swingOf(p.feel.Name, p.pass.BPM)
		p.swings = &s
	}
	return *p.swings
}

// swingOf is how a feel swings at a tempo, in beats a minute.
func (p *plan) swingOf(name string, tempo int) swing {
	f := p.feel
	if p.set != nil && p.set.Feels[name] != nil {
		f = p.set.Feels[name]
	}
	if f.Swing.Mode == "" {
		return swing{}
	}
	s := swing{pair: quarter}
	bpm := int64(tempo)
	if f.Swing.Unit == "sixteenth" {
		s.pair, bpm = quarter/2, 2*bpm
	}
	ratio := int64(f.Swing.PerMille)
	if f.Swing.Mode == "tempo" {
		ratio = swingRatio(bpm)
	}
	s.long = (s.pair*ratio + (1000+ratio)/2) / (1000 + ratio)
	if len(f.Meters) > 0 && f.Grid > 0 {
		stepTicks := f.Meters[0].BarTicks() / int64(f.Grid)
		s.triplets = stepTicks > 0 && s.pair/stepTicks%3 == 0
	}
	return s
}

// swingRatio is the long note over the short one, in thousandths, at a tempo in
// pairs a minute.
func swingRatio(bpm int64) int64 {
	if bpm <= swingCurve[0].bpm {
		return swingCurve[0].perMille
	}
	for i, b := range swingCurve[1:] {
		if a := swingCurve[i]; bpm <= b.bpm {
			return a.perMille + (b.perMille-a.perMille)*(bpm-a.bpm)/(b.bpm-a.bpm)
		}
	}
	return swingCurve[len(swingCurve)-1].perMille
}

// place moves a position within a pair. The written off-beat, half-way in a
// straight tab and two thirds of the way in a triplet one, goes where the ratio
// puts it, and everything between moves in proportion; in a triplet tab the
// half-way place, where a song file's "&" stands, is the off-beat as well.
func (s swing) place(at int64) int64 {
	if s.pair == 0 {
		return at
	}
	half, third := s.pair/2, s.pair/3
	if !s.triplets {
		if at <= half {
			return at * s.long / half
		}
		return s.long + (at-half)*(s.pair-s.long)/(s.pair-half)
	}
	middle := s.long / 2
	switch {
	case at <= third:
		return at * middle / third
	case at <= half:
		return middle + (at-third)*(s.long-middle)/(half-third)
	case at <= 2*third:
		return s.long
	}
	return s.long + (at-2*third)*(s.pair-s.long)/(s.pair-2*third)
}

// swung is where a tick of the pass falls when it is swung. Pairs count from the
// bar line; what is left of a bar after its last whole pair stays straight. A
// place before the pass belongs to the bar before: it swings as that pass does, so that
// the drummer, who strikes there, and the others are together.
func (p *plan) swung(tick int64) int64 {
	if tick < 0 {
		s, bar := p.swing(), int64(0)
		if b := p.pass.Before; b != nil {
			s, bar = p.swingOf(b.Feel, b.BPM), b.Bar
		}
		if s.pair == 0 {
			return tick
		}
		at := (tick + bar) % s.pair
		if at < 0 || tick-at+s.pair > 0 {
			return tick
		}
		return tick - at + s.place(at)
	}
	s := p.swing()
	if s.pair == 0 || tick >= p.pass.Length {
		return tick
	}
	bar := p.pass.Bars[p.barAt(tick)]
	at := (tick - bar.Start) % s.pair
	begin := tick - at
	if begin+s.pair > bar.Start+bar.Length {
		return tick
	}
	return begin + s.place(at)
}

// pianoDelay is how much later than the drums the piano strikes the beats, in
// microseconds, at the reference looseness: as much as makes its own ratio smaller
// while the off-beats stay together. Off the beats it is 0.
func (p *plan) pianoDelay(tick, pairUS int64) int64 {
	if p.feel.Swing.Mode != "tempo" || tick < 0 {
		return 0
	}
	s := p.swing()
	bar := p.pass.Bars[p.barAt(tick)]
	if (tick-bar.Start)%s.pair != 0 {
		return 0
	}
	longUS := pairUS * s.long / s.pair
	shortUS := pairUS - longUS
	if shortUS <= 0 {
		return 0
	}
	ratio := longUS * 1000 / shortUS
	own := 1000 + (ratio-1000)*pianoSwingPerMille/1000
	// (long - d) / (short + d) = own
	d := (longUS*1000 - own*shortUS) / (1000 + own)
	return min(max(0, d), pianoDelayUS)
}
