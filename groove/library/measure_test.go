package library

import "plinth/groove/feel"

// counts are what a level plays in one bar of its pattern, on average, in
// thousandths: strokes of the kit (ghosts included), onsets of the bass, attacks
// of the comp. For a feel of any meter the bar is one of 4/4.
type counts struct {
	Kit, Bass, Comp int
}

// total is all of it.
func (c counts) total() int { return c.Kit + c.Bass + c.Comp }

// count counts a level of the feel, without its answer.
func count(f *feel.Feel, lv *feel.Level) counts {
	_, grid := f.Layout()
	var c counts
	for bar := 0; bar < lv.Bars; bar++ {
		for i := 0; i < grid; i++ {
			at := f.Index(bar, i)
			for _, r := range lv.Drums {
				if r.Steps[at].Touch > feel.Sound {
					c.Kit += 1000
				}
			}
			if lv.Bass[at].Touch > feel.Sound {
				c.Bass += 1000
			}
		}
	}
	for k := range lv.Comp {
		c.Comp += lv.Bars * strikesPerBar(f, &lv.Comp[k]) / len(lv.Comp)
	}
	return counts{c.Kit / lv.Bars, c.Bass / lv.Bars, c.Comp / lv.Bars}
}

// strikesPerBar is how often a figure strikes in a bar, in thousandths.
func strikesPerBar(f *feel.Feel, fig *feel.Figure) int {
	_, grid := f.Layout()
	n, bars := 0, max(1, len(fig.Right)/grid)
	for bar := range bars {
		for i := range grid {
			if fig.Strikes(f.Index(bar, i)) {
				n += 1000
			}
		}
	}
	return n / bars
}

// compPerBeat is the comp's attacks a beat, in thousandths; the beat is the one
// that the tempo counts.
func compPerBeat(f *feel.Feel, lv *feel.Level) int {
	m, _ := f.Layout()
	return int(int64(count(f, lv).Comp) * m.PlayedBeat() / m.BarTicks())
}

// kickLock says in per cent how many of the kick's strokes in a level meet a
// note of the bass, struck or held; 100 where there is no kick.
func kickLock(f *feel.Feel, lv *feel.Level) int {
	strokes, met := 0, 0
	_, grid := f.Layout()
	for bar := 0; bar < lv.Bars; bar++ {
		for i := 0; i < grid; i++ {
			at := f.Index(bar, i)
			for _, r := range lv.Drums {
				if r.Voice.Word != "kick" || r.Steps[at].Touch <= feel.Sound {
					continue
				}
				strokes++
				if lv.Bass[at].Touch != feel.Rest {
					met++
				}
			}
		}
	}
	if strokes == 0 {
		return 100
	}
	return 100 * met / strokes
}
