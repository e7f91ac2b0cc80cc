package bed

import (
	"regexp"
	"slices"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// checkPlayed holds the notes of the file against the rules.
func (a *agreement) checkPlayed() {
	a.collectAsked()
	a.checkLandings()
	for i := range a.tl.Passes {
		p := &a.tl.Passes[i]
		for _, e := range p.Events {
			if e.Kind == timeline.Stop {
				a.checkStop(p.Start+e.Tick, p.Start+e.End, e.By)
			}
			if e.Kind == timeline.Caesura {
				a.checkCaesura(p, &e)
			}
		}
		for bar := range p.Bars {
			b := &p.Bars[bar]
			a.checkStop(p.Start+b.Start, p.Start+b.Start+b.Length, b.Tacet&^p.Tacet)
			if a.forHitsAlone(i, bar) {
				from := p.Start + p.Bars[bar].Start
				a.checkOnlyHits(from, from+p.Bars[bar].Length)
			}
		}
	}
	if a.tl.Looseness == 0 {
		a.checkTogether()
	}
	for who := range timeline.Player(len(timeline.PlayerNames)) {
		for i := range a.pushes {
			if q := &a.pushes[i]; q.struck.Has(who) && !a.crowded(who, q.from) {
				a.checkPush(who, q)
			}
		}
		for _, tick := range a.accents[who] {
			if !a.crowded(who, tick) {
				a.checkAccent(who, tick)
			}
		}
	}
}

// checkCaesura: nothing sounds in the silence, which is as long as it says.
func (a *agreement) checkCaesura(p *timeline.Pass, e *timeline.Event) {
	a.checkStop(p.Start+e.Cut, p.Start+e.End, timeline.All)
	if n := len(a.tl.Landings); n > 0 && p.Start+e.Tick < a.tl.Landings[n-1].Tick {
		return // a picture changes its length
	}
	a.count("caesura")
	got := a.micros(p.Start+e.End) - a.micros(p.Start+e.Cut)
	want := e.Extra * a.steady.QuarterAt(p.Start+e.End-1) / meter.TicksPerQuarter
	if d := got - want; d < -20 || d > 20 {
		a.failf("the caesura at %d lasts %d and not %d microseconds", p.Start+e.Tick, got, want)
	}
}

// checkLandings: each place with a time comes at that time, up to what whole microseconds a quarter
// leave open, which is half a microsecond for each quarter of the last tempo before it. As many
// places have times as the text says.
func (a *agreement) checkLandings() {
	if said := len(landingLine.FindAllString(a.song.Text, -1)); said != len(a.tl.Landings) {
		a.failf("%d places have a time, and the text says %d", len(a.tl.Landings), said)
	}
	for _, l := range a.tl.Landings {
		a.count("landing")
		from := int64(0) // where the last tempo before it begins
		for _, s := range a.tl.Tempos {
			if s.Tick < l.Tick {
				from = s.Tick
			}
		}
		most := (l.Tick-from)/(2*meter.TicksPerQuarter) + 2 // the clock rounds twice
		if off := a.micros(l.Tick) - a.micros(a.tl.Lead) - l.Micros; off < -most || off > most {
			a.failf("%s comes %d µs too late, %d are allowed", l.What, off, most)
		}
	}
}

var landingLine = regexp.MustCompile(`(?m)^ +at = .*\n`)

// checkStop: nothing of those who stop, or keep out of a bar, begins or sounds there.
func (a *agreement) checkStop(from, to int64, by timeline.Players) {
	for who, notes := range a.notes {
		if !by.Has(timeline.Player(who)) {
			continue
		}
		a.count("stop")
		for _, n := range notes {
			if n.start < to-roundUp && n.end > from+roundUp {
				a.failf("the %s sounds from %d to %d in the stop from %d to %d",
					timeline.Player(who), n.start, n.end, from, to)
				break
			}
		}
	}
}

// checkOnlyHits: in the bar of an accent that stands alone nothing begins but accents and
// pushes.
func (a *agreement) checkOnlyHits(from, to int64) {
	for who, notes := range a.notes {
		a.count("alone")
		for _, n := range notes {
			if n.start >= from && n.start < to && !a.asksFor(timeline.Player(who), n, a.asked[who]) {
				a.failf("the %s strikes at %d in the bar of hits from %d", timeline.Player(who), n.start, from)
				break
			}
		}
	}
}

// checkTogether: where drums and bass are both asked to strike, they strike at once. The
// pianist may roll the chord, or have struck the same keys just before.
func (a *agreement) checkTogether() {
	for _, tick := range a.asked[timeline.Bass] {
		if !slices.Contains(a.asked[timeline.Drums], tick) {
			continue
		}
		if a.crowded(timeline.Bass, tick) || a.crowded(timeline.Drums, tick) {
			continue
		}
		from, to := a.around(tick)
		struck := make([][]int64, len(timeline.PlayerNames))
		for _, who := range []timeline.Player{timeline.Drums, timeline.Bass} {
			for _, n := range a.notes[who] {
				if us := a.micros(n.start); from <= us && us <= to {
					struck[who] = append(struck[who], n.start)
				}
			}
		}
		once, late := false, int64(roundUp)
		if a.swing(tick) > 0 { // a hand is late after a short note
			late = 30
		}
		for _, drums := range struck[timeline.Drums] {
			for _, bass := range struck[timeline.Bass] {
				once = once || drums >= bass && drums <= bass+late
			}
		}
		a.count("together")
		if len(struck[timeline.Drums]) > 0 && len(struck[timeline.Bass]) > 0 && !once {
			a.failf("drums and bass do not strike together at %d: %v", tick, struck)
		}
	}
}

// checkPush: a push is struck, and then nothing until its beat has passed.
func (a *agreement) checkPush(who timeline.Player, q *ruledPush) {
	p := &a.tl.Passes[q.pass]
	bar := p.BarAt(q.from - p.Start)
	rows := len(a.res.Feels.Feels[p.FeelAt(bar)].Levels[p.EnergyAt(bar)-1].Drums) > 0
	if who == timeline.Bass || who == timeline.Drums && rows {
		a.count("push struck")
		if _, ok := a.strikes(who, q.from); !ok {
			a.failf("the %s does not strike the push at %d", who, q.from)
		}
	}
	if a.tl.Looseness > 0 {
		return
	}
	a.count("push tied over")
	_, from := a.around(q.from)
	to, _ := a.around(q.to)
	if a.exact(q.from) && a.exact(q.to) {
		to = a.micros(q.to + 1)
	}
	for _, n := range a.notes[who] {
		us := a.micros(n.start)
		if us <= from || us >= to || a.pushStartingAt(who, q.to) != nil && us >= a.micros(q.to)-graceUS {
			continue
		}
		if us <= a.micros(q.to) && a.graceOf(who, n, a.micros(q.to)) {
			continue
		}
		a.failf("the %s strikes at %d, between the push at %d and its beat at %d", who, n.start, q.from, q.to)
		break
	}
}

// graceOf reports a note that leads to one after a beat.
func (a *agreement) graceOf(who timeline.Player, n heardNote, beat int64) bool {
	for _, m := range a.notes[who] {
		grace, _ := a.beside(m.start, m.start, graceUS)
		us := a.micros(n.start)
		if a.micros(m.start) > beat && us < a.micros(m.start) && us >= grace &&
			(m.key == n.key || who == timeline.Piano) {
			return true
		}
	}
	return false
}

// checkAccent: an accent is struck, and is louder than all notes of its bar that are none.
func (a *agreement) checkAccent(who timeline.Player, tick int64) {
	hit, ok := a.strikes(who, tick)
	if !ok && who == timeline.Piano && a.noVoicing(tick) {
		a.count("skipped: no voicing")
		return
	}
	a.count("accent struck")
	if !ok {
		a.failf("the %s does not strike the accent at %d", who, tick)
		return
	}
	if a.short(who, tick) {
		a.checkShort(who, tick)
	}
	if a.tl.Looseness > 0 {
		return
	}
	p := &a.tl.Passes[a.tl.PassAt(tick)]
	bar := &p.Bars[p.BarAt(tick-p.Start)]
	from := p.Start + bar.Start
	a.count("accent louder")
	for _, n := range a.notes[who] {
		if n.start < from || n.start >= from+bar.Length || a.asksFor(who, n, a.accents[who]) {
			continue
		}
		if n.velocity >= hit && hit < 127 && !a.softerThanNext(who, n) {
			a.failf("the %s strikes the accent at %d with %d, and %d with %d", who, tick, hit, n.start, n.velocity)
			return
		}
	}
}

// short reports whether all accents that a player strikes at a tick are cut off dry.
func (a *agreement) short(who timeline.Player, tick int64) bool {
	out := false
	for i := range a.tl.Passes {
		for k, e := range a.tl.Passes[i].Events {
			if r := &a.events[i][k]; e.Kind == timeline.Accent && r.by.Has(who) && r.at[who] == tick {
				if out = e.Short; !out {
					return false
				}
			}
		}
	}
	return out
}

// checkShort: a hit that is cut off dry is over within half a beat, and the drummer strikes no
// cymbal with it.
func (a *agreement) checkShort(who timeline.Player, tick int64) {
	if who.Chords() && a.micros(a.chord(who, tick).End)-a.micros(tick) < nearUS {
		return // the next chord strikes the keys that both have once
	}
	a.count("accent short")
	p := &a.tl.Passes[a.tl.PassAt(tick)]
	half := p.Bars[p.BarAt(tick-p.Start)].Meter.PlayedBeat() / 2 // of a beat in its bar
	from, to := a.around(tick)
	for _, n := range a.notes[who] {
		us := a.micros(n.start)
		if us < from || us > to || n.start != tick && !a.exact(tick) {
			continue
		}
		cymbal := who == timeline.Drums && slices.Contains([]uint8{46, 49, 51, 53, 57, 59}, n.key)
		if cymbal || who != timeline.Drums && n.end-n.start > half {
			a.failf("the %s has key %d from %d to %d with the short hit at %d", who, n.key, n.start, n.end, tick)
			return
		}
	}
}

// noVoicing reports whether the pianist has nothing at all for the chord at a tick.
func (a *agreement) noVoicing(tick int64) bool {
	s := a.chord(timeline.Piano, tick)
	for _, n := range a.notes[timeline.Piano] {
		if n.start >= s.Start-roundUp && n.start < s.End-roundUp {
			return false
		}
	}
	return true
}
