package touch

// delay is how much later than the drums an instrument that swings less strikes the beats,
// in microseconds, at the reference looseness. The late beats make its ratio smaller while
// its off-beats stay together with the drums. Off the beats it is 0.
func (t *Playing) delay(tick, pairUS int64) int64 {
	bar := t.BarAt(tick)
	if t.FeelIn(bar).Swing.Mode != "tempo" || tick < 0 {
		return 0
	}
	s := t.SwingIn(bar)
	if (tick-t.Pass.Bars[bar].Start)%s.Pair != 0 {
		return 0
	}
	longUS := pairUS * s.Long / s.Pair
	shortUS := pairUS - longUS
	if shortUS <= 0 {
		return 0
	}
	ratio := longUS * 1000 / shortUS
	own := 1000 + (ratio-1000)*ownSwingPerMille/1000
	// (long - d) / (short + d) = own
	d := (longUS*1000 - own*shortUS) / (1000 + own)
	return min(max(0, d), maxDelayUS)
}
