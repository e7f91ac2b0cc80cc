package songspec

import (
	"cmp"
	"fmt"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// FeelInfo is what a song file needs to know of a feel.
type FeelInfo struct {
	Meters []meter.Meter // empty: any meter
	// TempoLow and TempoHigh are the tempos between which the feel sits well, in beats of its
	// first meter; 0 when they are not known. Outside them there is a warning.
	TempoLow, TempoHigh int
	// File is the groove file of the song that has the feel, as a path that starts where the
	// path of the song starts; "" for a feel that comes with plinth.
	File string
}

// tempos are the tempos between which the feel sits well, in beats of a meter: a range in
// quarters is half as many halves.
func (i FeelInfo) tempos(m meter.Meter) (low, high meter.BPM) {
	counts := int64(1)
	if len(i.Meters) > 0 {
		counts = i.Meters[0].QuartersAsOne()
	}
	in := func(tempo int) meter.BPM {
		return meter.Whole(tempo) * meter.BPM(counts) / meter.BPM(m.QuartersAsOne())
	}
	return in(i.TempoLow), in(i.TempoHigh)
}

// suits reports whether a tempo in beats of a meter is one at which the feel sits well.
func (i FeelInfo) suits(bpm meter.BPM, m meter.Meter) bool {
	low, high := i.tempos(m)
	return bpm >= low && bpm <= high
}

// feelName is the feel of a pass: the stated feel, or the usual feel of the meter. stated is
// false when the song names none.
func (r *resolver) feelName(set settings) (name string, stated bool) {
	if set.feel != nil {
		return set.feel.v, true
	}
	m := or(set.meter, meter.Common)
	name = cmp.Or(feelsOfMeters[[2]int{m.Num, m.Den}], "pulse")
	if len(r.env.Feels) > 0 {
		if info, ok := r.env.Feels[name]; !ok || !info.fits(m) {
			name = "pulse"
		}
		if _, ok := r.env.Feels[name]; !ok {
			name = defaultFeel
		}
	}
	return name, false
}

// fits reports whether a feel is written for a meter. Groups matter only where they make other
// beats.
func (i FeelInfo) fits(m meter.Meter) bool {
	if len(i.Meters) == 0 {
		return true
	}
	return slices.ContainsFunc(i.Meters, func(w meter.Meter) bool {
		return w.Num == m.Num && w.Den == m.Den &&
			(w.Groups == "" && m.Groups == "" || slices.Equal(w.Beats(), m.Beats()))
	})
}

// feel reports a feel that does not exist or is not written for the meter.
func (r *resolver) feel(set settings) {
	if len(r.env.Feels) == 0 {
		return
	}
	name, stated := r.feelName(set)
	m := or(set.meter, meter.Common)
	info, ok := r.env.Feels[name]
	switch {
	case !ok && stated:
		a := r.noFeel(name, m)
		e := r.rep.Errorf(set.feel.rng, fmt.Sprintf("No feel %q", name), "%s", a.says)
		if r.env.Feels[a.word].fits(m) {
			e.WriteText(set.feel.rng, a.word)
		}
	case !stated || info.fits(m) || set.meterUnread:
	default:
		at := set.feel.rng
		// Point at the later of the two, the inner one, which causes the mismatch.
		if set.meter != nil && set.meter.rng.Start.Byte > at.Start.Byte {
			at = set.meter.rng
		}
		help := fmt.Sprintf("Feels for %s: %s.", m, wording.Or(wording.Quoted(r.feelsFor(m))))
		if four := inQuarters(m); m.Den < 4 && info.fits(four) {
			help += fmt.Sprintf(" Or write meter = %q; the tempo then counts quarters, so write it %s as fast.", four,
				timesAsFast(m))
		}
		r.rep.Errorf(at, fmt.Sprintf("The feel %q is not written for %s", name, m), "%s", help)
	}
}

// timesAsFast says how much greater the figure of a tempo is in quarters than in the beats of a
// meter of halves or wholes.
func timesAsFast(m meter.Meter) string {
	if m.Den == 1 {
		return "four times"
	}
	return "twice"
}

// inQuarters is a meter of halves or wholes as a meter of quarters of the same length: 2/2 as
// 4/4.
func inQuarters(m meter.Meter) meter.Meter {
	return meter.Meter{Num: m.Num * 4 / m.Den, Den: 4}
}

func (r *resolver) feelsFor(m meter.Meter) []string {
	var exact, any []string
	for _, n := range sortedKeys(r.env.Feels) {
		info := r.env.Feels[n]
		switch {
		case len(info.Meters) == 0:
			any = append(any, n)
		case info.fits(m):
			exact = append(exact, n)
		}
	}
	return append(exact, any...)
}
