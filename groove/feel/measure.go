package feel

// Counts are what a level plays in one bar of its pattern, on average, in
// thousandths: strokes of the kit (ghosts included), onsets of the bass, attacks
// of the comp. For a feel of any meter the bar is one of 4/4.
type Counts struct {
	Kit, Bass, Comp int
}

// Total is all of it.
func (c Counts) Total() int { return c.Kit + c.Bass + c.Comp }

// Count counts a level of the feel, without its answer.
func (f *Feel) Count(lv *Level) Counts {
	_, grid := f.Layout()
	var c Counts
	for bar := 0; bar < lv.Bars; bar++ {
		for i := 0; i < grid; i++ {
			at := f.Index(bar, i)
			for _, r := range lv.Drums {
				if r.Steps[at].Touch > Sound {
					c.Kit += 1000
				}
			}
			if lv.Bass[at].Touch > Sound {
				c.Bass += 1000
			}
			if lv.Comp[at].Touch > Sound {
				c.Comp += 1000
			}
		}
	}
	return Counts{c.Kit / lv.Bars, c.Bass / lv.Bars, c.Comp / lv.Bars}
}

// CompPerBeat is the comp's attacks a beat, in thousandths; the beat is the one
// that the tempo counts.
func (f *Feel) CompPerBeat(lv *Level) int {
	m, _ := f.Layout()
	return int(int64(f.Count(lv).Comp) * m.TempoTicks() / m.BarTicks())
}

// KickLock says in per cent how many of the kick's strokes in a level meet a
// note of the bass, struck or held; 100 where there is no kick.
func (f *Feel) KickLock(lv *Level) int {
	strokes, met := 0, 0
	_, grid := f.Layout()
	for bar := 0; bar < lv.Bars; bar++ {
		for i := 0; i < grid; i++ {
			at := f.Index(bar, i)
			for _, r := range lv.Drums {
				if r.Voice.Word != "kick" || r.Steps[at].Touch <= Sound {
					continue
				}
				strokes++
				if lv.Bass[at].Touch != Rest {
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

// Answered is the level as it is played when it answers: the level itself with the
// rows that the answer changes; the level unchanged when there is no answer.
func (lv *Level) Answered() Level {
	out := *lv
	out.Answer = nil
	if a := lv.Answer; a != nil {
		if a.Drums != nil {
			out.Drums = a.Drums
		}
		if a.Bass != nil {
			out.Bass = a.Bass
		}
		if a.Comp != nil {
			out.Comp = a.Comp
		}
	}
	return out
}
