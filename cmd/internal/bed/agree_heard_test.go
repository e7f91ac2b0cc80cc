package bed

import (
	"bytes"
	"slices"

	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"plinth/songspec/timeline"
)

// heardNote is a note as it stands in the file.
type heardNote struct {
	start, end    int64
	key, velocity uint8
}

// readMIDI reads the players' tracks back from the file.
func (a *agreement) readMIDI(data []byte) {
	song, err := smf.ReadFrom(bytes.NewReader(data))
	if err != nil || len(song.Tracks) < 1+len(timeline.PlayerNames) {
		a.failf("the file cannot be read: %v", err)
		return
	}
	for who := range a.notes {
		at, open := int64(0), map[uint8]int{}
		for _, ev := range song.Tracks[1+who] {
			at += int64(ev.Delta)
			var channel, key, velocity uint8
			switch m := midi.Message(ev.Message); {
			case m.GetNoteOn(&channel, &key, &velocity) && velocity > 0:
				open[key] = len(a.notes[who])
				a.notes[who] = append(a.notes[who], heardNote{start: at, key: key, velocity: velocity})
			case m.GetNoteOff(&channel, &key, &velocity):
				a.notes[who][open[key]].end = at
			}
		}
	}
}

// Bounds of hearing, in microseconds. A player strays by less than strayUS, and swing
// moves a place by less than a quarter of a beat; the strokes of a roll, a flam or a drag
// come up to graceUS before the one that they belong to. Nearer than nearUS to each other
// or to the end of a pass, hands may leave out a stroke or delay it.
const (
	strayUS = 60_000
	graceUS = 75_000
	nearUS  = 110_000
	roundUp = 2 // ticks
)

// exact reports whether what is asked for at a tick is played on it.
func (a *agreement) exact(tick int64) bool { return a.tl.Looseness == 0 && a.swing(tick) == 0 }

// swing is the most by which swing moves a place, in ticks. Where a pair of notes begins
// nothing moves; but a hand may still be late there, after a short note.
func (a *agreement) swing(tick int64) int64 {
	p := &a.tl.Passes[a.tl.PassAt(tick)]
	bar, beat := p.BarAt(tick-p.Start), p.Meter.PlayedBeat()
	b := &p.Bars[bar]
	switch pair := a.pair(p, bar); {
	case pair == 0:
		return 0
	case (tick-p.Start-b.Start)%pair == 0 && b.Length%pair == 0:
		return beat / 32
	}
	return beat / 4
}

// pair is the length of a long and a short note of a bar that swings, 0 where it is
// straight.
func (a *agreement) pair(p *timeline.Pass, bar int) int64 {
	switch f := a.res.Feels.Feels[p.FeelAt(bar)]; {
	case f.Swing.Mode == "":
		return 0
	case f.Swing.Unit == "sixteenth":
		return 480
	}
	return 960
}

func (a *agreement) micros(tick int64) int64 { return a.clock.Micros(tick) }

// around is the stretch, in microseconds, in which a note that is asked for at a tick is
// struck.
func (a *agreement) around(tick int64) (from, to int64) {
	swing, stray := a.swing(tick)+roundUp, int64(0)
	if a.tl.Looseness > 0 {
		stray = strayUS
	}
	from, _ = a.beside(tick, tick-swing, stray)
	_, to = a.beside(tick, tick+swing, stray)
	return from, to
}

// beside is a place shifted by a time in both directions, in microseconds. A shift is
// counted at the tempo of the place even where the tempo changes in between, and at that of
// the next pass for a push over the border.
func (a *agreement) beside(place, tick, us int64) (from, to int64) {
	from, to = a.micros(tick)-us, a.micros(tick)+us
	tempos := []int64{place}
	for _, q := range a.pushes {
		if q.over && q.from == place {
			tempos = append(tempos, q.to)
		}
	}
	const part = 96 // ticks
	for _, at := range tempos {
		ticks := us * part / (a.micros(at+part) - a.micros(at))
		from, to = min(from, a.micros(tick-ticks)), max(to, a.micros(tick+ticks))
	}
	return from, to
}

// strikes reports whether a player strikes at a tick, and how hard.
func (a *agreement) strikes(who timeline.Player, tick int64) (velocity uint8, ok bool) {
	from, to := a.around(tick)
	for _, n := range a.notes[who] {
		if us := a.micros(n.start); from <= us && us <= to {
			velocity, ok = max(velocity, n.velocity), true
		}
	}
	return velocity, ok
}

// collectAsked gathers the places where each player is asked to strike: accents and pushes.
func (a *agreement) collectAsked() {
	for i := range a.tl.Passes {
		for k, e := range a.tl.Passes[i].Events {
			for who := range a.asked {
				if r := &a.events[i][k]; e.Kind == timeline.Accent && r.by.Has(timeline.Player(who)) {
					a.asked[who] = append(a.asked[who], r.at[who])
				}
			}
		}
	}
	for who := range a.asked {
		slices.Sort(a.asked[who])
		a.asked[who] = slices.Compact(a.asked[who])
		a.accents[who] = slices.Clone(a.asked[who])
		for _, q := range a.pushes {
			if q.struck.Has(timeline.Player(who)) {
				a.asked[who] = append(a.asked[who], q.from)
			}
		}
	}
}

// crowded reports whether more is asked for near a tick than hands may have time for.
func (a *agreement) crowded(who timeline.Player, tick int64) bool {
	p := &a.tl.Passes[a.tl.PassAt(tick)]
	// Swing may bring two places nearer to each other.
	near := a.micros(p.Start+p.Length)-a.micros(tick+a.swing(tick)) < nearUS
	for _, other := range a.asked[who] {
		first, last := min(tick, other), max(tick, other)
		near = near || first != last && a.micros(last)-a.micros(first+a.swing(first)) < nearUS
	}
	if near {
		a.count("skipped: crowded")
	}
	return near
}

// asksFor reports whether a note is struck where its player is asked to strike, or belongs
// to such a note.
func (a *agreement) asksFor(who timeline.Player, n heardNote, places []int64) bool {
	for _, tick := range places {
		from, to := a.around(tick)
		grace, _ := a.beside(tick, tick, graceUS)
		if who == timeline.Drums && a.swing(tick) > 0 {
			to += nearUS // a hand is late after a short note
		}
		if us := a.micros(n.start); min(grace, from-graceUS) <= us && us <= to {
			return true
		}
	}
	return false
}
