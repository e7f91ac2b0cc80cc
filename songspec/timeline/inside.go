package timeline

import (
	"slices"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
)

// BandAt is what the players play on in a bar of a pass, counted from 0.
func (t *Timeline) BandAt(p *Pass, bar int) Band { return t.BandOr(p.BandIn(bar)) }

// BandOr is a band, or the song's where there is none.
func (t *Timeline) BandOr(b *Band) Band {
	if b != nil {
		return *b
	}
	return Band{t.Drums, t.Bass, t.Piano}
}

// BandIn is what the players play on in a bar of the pass; nil: the song's.
func (p *Pass) BandIn(bar int) *Band {
	if b := p.Bars[bar].Band; b != nil {
		return b
	}
	return p.Band
}

// FeelAt is the name of the feel of a bar counted from 0.
func (p *Pass) FeelAt(bar int) string {
	if f := p.Bars[bar].Feel; f != "" {
		return f
	}
	return p.Feel
}

// Feels are the names of the feels of the pass's bars, each once, in order. A pass without bars
// has its own.
func (p *Pass) Feels() []string {
	var out []string
	for bar := range p.Bars {
		if name := p.FeelAt(bar); !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if out == nil {
		out = append(out, p.Feel)
	}
	return out
}

// BPMAt is the tempo that holds in a bar counted from 0, in the meter's beat, without what a rit or
// an accel makes of it.
func (p *Pass) BPMAt(bar int) meter.BPM {
	for ; bar >= 0; bar-- {
		if pace := p.Bars[bar].Pace; pace != nil {
			return pace.BPM
		}
	}
	return p.BPM
}

// TacetAt are the players who keep out of a bar counted from 0.
func (p *Pass) TacetAt(bar int) Players { return p.Tacet | p.Bars[bar].Tacet }

// KeyAt is the key at a tick of the pass.
func (p *Pass) KeyAt(tick int64) harmony.Key {
	key := p.Key
	for _, k := range p.Keys {
		if k.Tick <= tick {
			key = k.Key
		}
	}
	return key
}

// EnergyAt is the energy, 1 to 5, of a bar counted from 0.
func (p *Pass) EnergyAt(bar int) int { return p.EnergyIn(bar).Level }

// EnergyIn is the energy of a bar counted from 0. Unless the bars have energies of their own,
// it moves evenly from EnergyFrom in the first bar to EnergyTo in the last.
func (p *Pass) EnergyIn(bar int) Energy {
	if e := p.Bars[bar].Energy; e != (Energy{}) {
		return e
	}
	return EvenEnergy(p.EnergyFrom, p.EnergyTo, bar, len(p.Bars))
}

// EvenEnergy is the energy of a bar among others, through which it moves evenly: from one
// level in the first to another in the last. Half a level is rounded up.
func EvenEnergy(from, to, bar, bars int) Energy {
	n := bars - 1
	if n <= 0 || from == to {
		return Energy{from, 1000 * from, 1000 * from}
	}
	d := to - from
	num, den := 2*d*bar+n, 2*n
	q := num / den
	if num%den != 0 && num < 0 {
		q-- // floor
	}
	at := func(bar int) int { return 1000*from + 1000*d*min(bar, n)/n }
	return Energy{from + q, at(bar), at(bar + 1)}
}

// NumberOf is the number that a bar counted from 0 has in its section.
func (p *Pass) NumberOf(bar int) int {
	if n := p.Bars[bar].Number; n > 0 {
		return n
	}
	return bar + 1
}
