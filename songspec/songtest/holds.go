package songtest

import (
	"plinth/songspec/meter"
)

// held is what holds and caesuras make of a beat, in ticks.
type held struct {
	length, longer int64 // what a hold holds, and how much longer; 0: there is none
	before         int64 // from the count of a caesura to the end of its beat; 0: there is none
	silence        int64
}

// fits reports whether a tempo map can say it. It has 24 bits for the microseconds of a quarter (Standard
// MIDI File 1.0, FF 51), and a song can be as slow as 20 beats a minute, or 15 % slower for a picture. A
// caesura takes up to half of its count for the silence, and the beat sounds in the other half.
func (h held) fits(m meter.Meter) bool {
	const most, slowest = 1<<24 - 1, 3_000_000 * 100 / 85
	quarter := slowest * meter.TicksPerQuarter / m.TempoTicks()
	return (h.before == 0 || h.silence*quarter <= h.before/2*most && (h.length+h.longer)*quarter <= h.before/2*most) &&
		(h.length+h.longer)*quarter <= h.length*most
}

// hold are the options of a hold or a caesura at a place; nil where it cannot stand there, since what
// stands on the beat already leaves no room for it.
func (w *writer) hold(s *section, word, place string) []string {
	p, err := meter.ParsePlace(place)
	if err != nil {
		panic("songtest: " + err.Error())
	}
	spots, err := p.Where(s.bars, s.meter)
	if err != nil {
		panic("songtest: " + err.Error())
	}
	i := w.more.Intn(4)
	for _, c := range []struct {
		twelfths int64 // of a beat
		options  []string
	}{{12, []string{""}}, {6, []string{"beats = 0.5"}}, {24, []string{"beats = 2"}}, {4, []string{"beats = 1/3"}},
		{12, []string{""}}, {6, []string{"beats = 0.5"}}, {3, []string{"beats = 0.25"}}}[i:] {
		beats := map[meter.At]held{}
		ok := true
		for _, at := range spots {
			end := meter.At{Bar: at.Bar, Tick: s.bars[at.Bar].NextBeat(at.Tick)}
			extra := s.meter.TempoTicks() * c.twelfths / 12
			h, again := beats[end]
			if before := s.held[end]; before != nil && !again {
				h = *before
			}
			if word == "hold" {
				ok, h.length, h.longer = ok && h.length == 0, end.Tick-at.Tick, extra
			} else {
				ok, h.before, h.silence = ok && h.before == 0, end.Tick-at.Tick, extra
			}
			ok = ok && h.fits(s.meter)
			beats[end] = h
		}
		if !ok {
			continue
		}
		for end, h := range beats {
			s.held[end] = &h
		}
		return c.options
	}
	return nil
}
