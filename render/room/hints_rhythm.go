package room

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// rhythmHints names the steps that are free in the whole song, and the sections that still
// attack on some of them.
func (r *Report) rhythmHints() []Hint {
	g := &r.Song.Grid
	free := map[string]bool{}
	all := true
	for _, s := range g.Steps {
		free[s.Count] = s.Free
		all = all && s.Free
	}
	say := countsWord(g, func(s Step) bool { return s.Free })
	if say == "" || all {
		return nil
	}
	say = "Short notes are heard on " + say
	var not []string
	for i := range r.Passes {
		p := &r.Passes[i]
		if r.firstPass(i) != i || p.Grid.Meter != g.Meter || p.Grid.Thirds != g.Thirds {
			continue
		}
		if w := countsWord(&p.Grid, func(s Step) bool { return free[s.Count] && !s.Free }); w != "" {
			not = append(not, w+" in "+p.Name)
		}
	}
	switch n := len(not); {
	case n > 3:
		say += fmt.Sprintf(", over the whole song; %d sections have attacks on some of them, so look at their "+
			"own counts", n)
	case n > 0:
		say += "; but not on " + wording.And(not)
	}
	return []Hint{{"the song", say + ".", capitalized(wording.And(pitchedNames())) +
		" attack there in fewer than one bar of four, taken together."}}
}

// countsWord names steps of the bar: "every e and a, 2& 4&". Steps between the counts are
// named together where all of one kind are meant.
func countsWord(g *Grid, is func(Step) bool) string {
	all, meant := map[string]int{}, map[string]int{} // steps between the counts, by their words
	for _, s := range g.Steps {
		if w := shortCount(s.Count); w != s.Count {
			all[w]++
			if is(s) {
				meant[w]++
			}
		}
	}
	var every, single, out []string
	for _, s := range g.Steps {
		switch w := shortCount(s.Count); {
		case !is(s) || slices.Contains(every, w):
		case all[w] < 2 || meant[w] < all[w]:
			single = append(single, s.Count)
		default:
			every = append(every, w)
		}
	}
	if len(every) > 0 {
		out = append(out, "every "+wording.And(every))
	}
	if len(single) > 0 {
		out = append(out, strings.Join(single, " "))
	}
	return strings.Join(out, ", ")
}

// mostPlaces is how many places a hint lists; HITS has them all.
const mostPlaces = 8

// hitHints says where the band hits, in one hint for each kind of hit.
func (r *Report) hitHints() []Hint {
	var out []Hint
	for _, k := range []struct {
		kind     timeline.EventKind
		say, why string
	}{
		{timeline.Accent, "Brass and timpani hit with the band or stay out: %s.",
			"A hit beside an accent sounds like a mistake; on it, like one band."},
		{timeline.Stop, "The band is silent at %s; what the orchestra plays there stands alone.",
			"Nothing of the band rings on in a stop but the click."},
		{timeline.Push, "Change the held chords early with the band: %s.",
			"The pushed chord comes early and is tied over; a chord that changes on the beat drags behind it."},
		{timeline.Hold, "The time stands still at %s; hold, trill or swell there, nothing in rhythm.",
			"The tempo map stretches that beat: a rhythm written over it drags."},
		{timeline.Caesura, "Sound and time cease at %s; cut off with the band, and let nothing hang over.",
			"Not even the click goes on in a caesura: the conductor brings everybody in again."},
	} {
		var places, in []string
		for i := range r.Passes {
			p := &r.Passes[i]
			hits := p.Hits
			if k.kind == timeline.Stop { // where some play on the band is not silent
				hits = slices.DeleteFunc(slices.Clone(hits), func(h Hit) bool { return p.Plays&^h.By != 0 })
			}
			at := hitPlaces(hits, k.kind, p.Plays)
			for _, place := range at {
				places = append(places, place.String())
			}
			if len(at) > 0 {
				in = append(in, p.Name)
			}
		}
		if len(places) == 0 {
			continue
		}
		if n := len(places) - mostPlaces; n > 0 {
			places = append(places[:mostPlaces:mostPlaces], fmt.Sprintf("and %d more", n))
		}
		out = append(out, Hint{shortList(in, 4), fmt.Sprintf(k.say, strings.Join(places, "; ")), k.why})
	}
	return out
}

// mostKeys is how many changes of key get a hint of their own.
const mostKeys = 4

// dramaHints says where the key changes, where the band opens up and where it falls back.
func (r *Report) dramaHints() []Hint {
	var out []Hint
	keys := 0
	var opens, falls []string
	step := func(s *Scope, bar, from, to int) {
		switch word := fmt.Sprintf("bar %d in %s from energy %d to %d", bar, s.Name, from, to); {
		case to >= from+2:
			opens = append(opens, word)
		case to <= from-2:
			falls = append(falls, word)
		}
	}
	for i := range r.Passes {
		b := &r.Passes[i]
		from := b.Key
		if i > 0 {
			from = lastKey(&r.tl.Passes[i-1])
			step(b, b.FirstBar, r.Passes[i-1].EnergyTo, b.EnergyFrom)
		}
		for _, k := range append([]timeline.KeyChange{{Key: b.Key}}, r.tl.Passes[i].Keys...) {
			if keys < mostKeys && pedals(from, k.Key) > 0 {
				keys++
				out = append(out, r.keyHint(i, k.Tick, from, k.Key))
			}
			from = k.Key
		}
		sweeps := r.tl.Passes[i].Sweeps()
		for k := 1; k < len(sweeps); k++ {
			step(b, b.FirstBar+sweeps[k].First, sweeps[k-1].To, sweeps[k].From)
		}
	}
	if len(opens) > 0 {
		out = append(out, Hint{"the song", fmt.Sprintf("The band opens at %s: keep somebody back who enters there.",
			shortList(opens, 5)),
			"An orchestra that is all in before has nothing to add when the band steps up."})
	}
	if len(falls) > 0 {
		out = append(out, Hint{"the song", fmt.Sprintf("Take the orchestra down with the band at %s.",
			shortList(falls, 5)),
			"What holds on over the fall takes the drop away."})
	}
	return out
}

// lastKey is the key that a pass ends in.
func lastKey(p *timeline.Pass) harmony.Key { return p.KeyAt(p.Length - 1) }

// keyHint is about the way into another key in pass i, where it begins or at a tick inside it:
// how far it is, which notes can be held over the bar line, and what the harp has to move.
func (r *Report) keyHint(i int, tick int64, from, to harmony.Key) Hint {
	b, p := &r.Passes[i], &r.tl.Passes[i]
	say := fmt.Sprintf("The key goes from %s to %s", from, to)
	switch {
	case tick > 0:
	case b.Lift == 1:
		say += ", a lift of a half step"
	case b.Lift == -1:
		say += ", a half step down"
	case b.Lift == 2:
		say += ", a lift of a whole step"
	case b.Lift > 1:
		say += fmt.Sprintf(", a lift of %d half steps", b.Lift)
	case b.Lift < -1:
		say += fmt.Sprintf(", %d half steps down", -b.Lift)
	}
	if from, to := chordsAt(p, tick); from != nil && to != nil && !from.None && !to.None {
		var common []string
		for _, n := range chordTones(*to, guide.ChordTones(*from)) {
			common = append(common, n.String())
		}
		if len(common) > 0 {
			say += fmt.Sprintf("; %s can be held from %s into %s", wording.And(common), from, to)
		} else {
			say += fmt.Sprintf("; no note of %s can be held into %s", from, to)
		}
	}
	pedal := "all seven pedals"
	switch n := pedals(from, to); {
	case n == 1:
		pedal = "one of its seven pedals"
	case n < 7:
		pedal = fmt.Sprintf("%d of its seven pedals", n)
	}
	return Hint{fmt.Sprintf("bar %d", b.FirstBar+p.BarAt(tick)), say + ".",
		fmt.Sprintf("The harp moves %s and the timpani are tuned anew: both want a rest before it.", pedal)}
}

// chordsAt are the chords before and after a tick of a pass; nil where there is none.
func chordsAt(p *timeline.Pass, tick int64) (before, after *harmony.Chord) {
	if p.Before != nil {
		before = &p.Before.Chord
	}
	for i := range p.Chords {
		if s := &p.Chords[i]; s.Start < tick {
			before = &s.Chord
		} else if after == nil {
			after = &s.Chord
		}
	}
	return before, after
}

// pedals is how many of the harp's seven pedals a change of key moves. Each pedal tunes
// one letter.
func pedals(a, b harmony.Key) int {
	var alter [7]int8
	for _, n := range a.Scale() {
		alter[n.Step] = n.Alter
	}
	move := 0
	for _, n := range b.Scale() {
		if alter[n.Step] != n.Alter {
			move++
		}
	}
	return move
}
