package groove

import (
	"slices"

	"plinth/groove/bassist"
	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// Sound is what a player plays on from a tick of the song on: the drummer a kit, by its word, the
// others a General MIDI program, counted from 0.
type Sound struct {
	Tick    int64
	Kit     string
	Program uint8
}

// place is a bar of the song: a pass and a bar of it, both by index.
type place struct{ pass, bar int }

// soundIn is what a player plays on in a bar. Where nothing says it, a song keeps the kit and the
// bass of its first feel from start to end.
func soundIn(tl *timeline.Timeline, set *feel.Set, who timeline.Player) func(at place) Sound {
	kit, acoustic := drummer.Kit(tl, set), bassist.Acoustic(tl, set)
	return func(at place) Sound {
		band := tl.BandAt(&tl.Passes[at.pass], at.bar)
		switch {
		case who == timeline.Drums && band.Drums.Kit != "":
			return Sound{Kit: band.Drums.Kit}
		case who == timeline.Drums:
			return Sound{Kit: kit}
		case who == timeline.Bass && band.Bass.Sound == "" && acoustic:
			return Sound{Program: bassist.AcousticProgram}
		case who == timeline.Bass:
			return Sound{Program: band.Bass.Program}
		}
		return Sound{Program: band.Piano.Program}
	}
}

// changeSounds gives the sounds of a player, the first at 0, whose notes these are. A sound changes
// with its bar, before the first note of it: at the bar line or, where a note before rings on, as
// soon as that ends. What would ring into the first note is let go there, so that no sound changes
// under a note.
func changeSounds(tl *timeline.Timeline, set *feel.Set, who timeline.Player, parts []PassPart, notes []Note) []Sound {
	of := soundIn(tl, set, who)
	if len(notes) == 0 {
		return []Sound{of(place{})}
	}
	now := ownerOf(tl, who, parts, &notes[0])
	out := []Sound{of(now)}
	if !slices.ContainsFunc(tl.Passes, changesBand) {
		return out
	}
	rings := int64(0) // to where the notes so far are heard
	for i := range notes {
		n := &notes[i]
		at := ownerOf(tl, who, parts, n)
		if at.pass > now.pass || at.pass == now.pass && at.bar > now.bar {
			now = at
			if s := of(at); s.Kit != out[len(out)-1].Kit || s.Program != out[len(out)-1].Program {
				p := &tl.Passes[at.pass]
				s.Tick = max(min(n.Tick, max(p.Start+p.Bars[at.bar].Start, rings)), 0)
				letGo(notes[:i], s.Tick)
				out = append(out, s)
			}
		}
		rings = max(rings, n.Tick+n.Length)
	}
	return out
}

// letGo ends the notes that ring over a tick there.
func letGo(notes []Note, tick int64) {
	for i := range notes {
		if n := &notes[i]; n.Tick < tick {
			n.Length = min(n.Length, tick-n.Tick)
		}
	}
}

// ownerOf is the bar to which a note belongs: a push into the next pass to that pass's first.
func ownerOf(tl *timeline.Timeline, who timeline.Player, parts []PassPart, n *Note) place {
	at := place{int(n.Pass), int(parts[n.Pass].Score.Parts[who].Notes[n.Meant].Bar)}
	if last := len(tl.Passes[at.pass].Bars) - 1; at.bar > last {
		if at.bar = last; at.pass+1 < len(tl.Passes) {
			return place{at.pass + 1, 0}
		}
	}
	return at
}

// Owner is the bar to which a note of a player belongs, as the index of its pass and of the bar in it: a
// push into the next pass belongs to that pass's first bar. An excerpt has no passes: there it is -1, -1.
func (p *Performance) Owner(tl *timeline.Timeline, who timeline.Player, n *Note) (pass, bar int) {
	if len(p.Passes) == 0 {
		return -1, -1
	}
	at := ownerOf(tl, who, p.Passes, n)
	return at.pass, at.bar
}

// changesBand reports whether a pass, or a bar of it, has anything of its own to play on.
func changesBand(p timeline.Pass) bool {
	return p.Band != nil || slices.ContainsFunc(p.Bars, func(b timeline.Bar) bool { return b.Band != nil })
}
