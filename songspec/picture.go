package songspec

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// By so much, in hundredths of a per cent, the tempo may change for a picture: up to the first
// nobody minds, over the second it is another tempo. Common practice, no single source.
const (
	heardChange = 400
	mostChange  = 1500
)

// point is a place of the song that has a time: what a play or a cue says with at. The first is
// bar 1 count 1, which says nothing.
type point struct {
	pass   int
	tick   int64 // of the pass
	micros int64 // from bar 1 count 1
	what   string
	rng    hcl.Range
}

// piece is a part of a pass between two points in which the tempo stays.
type piece struct {
	pass        int
	tick, ticks int64
	micros      int64 // a quarter
	guided      bool  // the tempo is the guide's, which no picture changes
}

// toPicture changes the tempo maps of the passes so that each point comes at its time. Between two
// points all tempos change by one factor, so that rits and holds keep their shape; before bar 1 the
// click goes as bar 1 does, and after the last point everything is as written. Tempos are whole
// microseconds a quarter, and each takes up what those before it have lost by rounding, so a point
// is off by no more than half a microsecond for every quarter of the last tempo before it.
func (r *resolver) toPicture() {
	if r.f.picture != nil {
		r.tl.Picture = &timeline.Picture{Count: r.f.picture.count, Start: r.f.picture.start}
	}
	points := r.points()
	if r.f.unread || len(r.guided) > 0 && r.env.Guide == nil {
		return // how long the song is is not known
	}
	if len(points) == 0 || r.f.failed || r.rep.Diags.HasErrors() {
		return
	}
	reached := new(big.Int) // in microseconds times ticks a quarter, from bar 1
	before := point{what: "bar 1 count 1"}
	for _, p := range points {
		r.doubtBehindVamp(p)
		if p.pass == before.pass && p.tick == before.tick {
			if p.micros != before.micros {
				r.rep.Errorf(p.rng, "Two times for one place", "%s is at %s already.",
					wording.Sentence("%s", before.what), r.time(before.micros))
				return
			}
			continue
		}
		if p.micros <= before.micros {
			r.rep.Errorf(p.rng, "Times out of order", "%s comes later in the song than %s, which is at %s.",
				wording.Sentence("%s", p.what), before.what, r.time(before.micros))
			return
		}
		if !r.fit(before, p, reached) {
			return
		}
		before = p
	}
}

// doubtBehindVamp warns of a time behind a pass that is played until somebody is ready.
func (r *resolver) doubtBehindVamp(p point) {
	for i := range r.tl.Passes[:p.pass] {
		if v := &r.tl.Passes[i]; v.Vamp != "" {
			r.rep.Warnf(p.rng, "A time behind a vamp", "The vamp %s goes on %s, and %s of it are in the file. This "+
				"comes at its time only where it is played as often as that.", v.Quoted(), v.Vamp,
				wording.Count(len(v.Bars), "bar"))
			return
		}
	}
}

// points are the places that have a time, in the order of the song.
func (r *resolver) points() []point {
	var out []point
	times := map[blockAt]int{} // how often a cue comes, by where it is written
	for i := range r.tl.Passes {
		p := &r.tl.Passes[i]
		if l := r.landings[i]; l != nil {
			out = append(out, point{i, 0, l.micros, fmt.Sprintf("the beginning of %s", p.Quoted()), l.rng})
		}
		for k, e := range r.from[i] {
			if e.landing == nil {
				continue
			}
			if times[e.where()]++; times[e.where()] == 2 {
				r.rep.Errorf(e.landing.rng, "One time for several places",
					"The cue comes more than once in the song. Write it in the play, for one bar and count.")
			}
			ev := &p.Events[k]
			out = append(out, point{i, ev.Tick, e.landing.micros, fmt.Sprintf("the cue %q in %s", ev.Text, p.Quoted()),
				e.landing.rng})
		}
	}
	slices.SortStableFunc(out, func(a, b point) int {
		return cmp.Or(cmp.Compare(a.pass, b.pass), cmp.Compare(a.tick, b.tick))
	})
	return out
}

// time is a time from bar 1 count 1 in words, with the time code where there is a picture.
func (r *resolver) time(micros int64) string {
	s := timeline.MinSecTenths(micros)
	if p := r.tl.Picture; p != nil {
		s = p.Code(micros) + " (" + s + ")"
	}
	return s
}

// fit changes the tempos between two points. reached is the time of the first, and then that of the
// second. It returns false when the change would be too great.
func (r *resolver) fit(from, to point, reached *big.Int) bool {
	pieces := r.pieces(from, to)
	written, guides := new(big.Int), new(big.Int)
	for _, p := range pieces {
		sum := written
		if p.guided {
			sum = guides
		}
		sum.Add(sum, big.NewInt(p.ticks*p.micros))
	}
	want := new(big.Int).Mul(big.NewInt(to.micros), big.NewInt(meter.TicksPerQuarter))
	want.Sub(want, reached).Sub(want, guides)
	if written.Sign() == 0 || want.Sign() <= 0 {
		at := new(big.Int).Add(reached, guides)
		r.rep.Errorf(to.rng, "A time that only the guide could change",
			"From %s to %s the band follows the guide, and "+
				"gets there at %s. Leave this time out.", from.what, to.what,
			r.time(at.Add(at, written).Quo(at, big.NewInt(meter.TicksPerQuarter)).Int64()))
		return false
	}
	change := hundredths(written, want)
	if !r.bearable(from, to, written, want, guides, change) {
		return false
	}
	due, got := new(big.Int), new(big.Int) // written time so far, and played time so far
	for i := 0; i < len(pieces); {
		if pieces[i].guided {
			i++
			continue
		}
		n, ticks := i, int64(0) // pieces in a row with one tempo keep one
		for ; n < len(pieces) && pieces[n].micros == pieces[i].micros && !pieces[n].guided; n++ {
			ticks += pieces[n].ticks
		}
		due.Add(due, new(big.Int).Mul(big.NewInt(ticks), big.NewInt(pieces[i].micros)))
		left := new(big.Int).Mul(due, want)
		left.Quo(left, written).Sub(left, got)
		micros := new(big.Int).Add(new(big.Int).Lsh(left, 1), big.NewInt(ticks))
		m := micros.Quo(micros, big.NewInt(2*ticks)).Int64()
		if m > maxMicros {
			r.rep.Errorf(to.rng, "A beat held too long",
				"A tempo map cannot go so slow as a hold before %s would then be.",
				to.what)
			return false
		}
		got.Add(got, new(big.Int).Mul(big.NewInt(ticks), big.NewInt(m)))
		if i == 0 && from.pass == 0 && from.tick == 0 {
			front := new(big.Int).Mul(big.NewInt(r.front[0].Micros), want)
			r.front[0].Micros = min(maxMicros, front.Quo(front, written).Int64())
		}
		for ; i < n; i++ {
			pieces[i].micros = m
		}
	}
	reached.Add(reached, got).Add(reached, guides)
	r.play(pieces)
	at := &r.tl.Passes[to.pass]
	r.tl.Landings = append(r.tl.Landings, timeline.Landing{Tick: at.Start + to.tick, Micros: to.micros, What: to.what,
		Change: change})
	return true
}

// hundredths is by how much a tempo changes where what is written to last one time lasts another, in
// hundredths of a per cent: over 0 it is quicker.
func hundredths(written, want *big.Int) int64 {
	n := new(big.Int).Mul(written, big.NewInt(10000))
	return n.Add(n, new(big.Int).Rsh(want, 1)).Quo(n, want).Int64() - 10000
}

// bearable warns of a change that is heard, and reports one that is too great.
func (r *resolver) bearable(from, to point, written, want, guides *big.Int, change int64) bool {
	size, way := change, "quicker"
	if change < 0 {
		size, way = -change, "slower"
	}
	if size <= heardChange {
		return true
	}
	percent := wording.Thousandths(size * 10)
	if size <= mostChange {
		r.rep.Warnf(to.rng, "The picture changes the tempo", "From %s to %s the band plays %s %% %s than written%s.",
			from.what, to.what, percent, way, r.wouldBe(from, to, written, want, ", %s instead of %s"))
		return true
	}
	at := new(big.Int).Add(written, guides)
	at.Quo(at, big.NewInt(meter.TicksPerQuarter)).Add(at, big.NewInt(from.micros))
	r.rep.Errorf(to.rng, "Too far from the tempo", "From %s to %s the band would have to play %s %% %s than written; "+
		"15 %% is the most. At the written tempo it comes at %s.%s", from.what, to.what, percent, way,
		r.time(at.Int64()),
		r.wouldBe(from, to, written, want, " To land at the time that is written, write tempo = %s instead of %s."))
	return false
}

// wouldBe says which tempo would fit, where all passes between two points have the same; "" else.
func (r *resolver) wouldBe(from, to point, written, want *big.Int, format string) string {
	last := to.pass
	if to.tick == 0 {
		last--
	}
	first := &r.tl.Passes[from.pass]
	for i := from.pass; i <= last; i++ {
		if p := &r.tl.Passes[i]; p.BPM != first.BPM || p.Guided || p.Meter.TempoTicks() != first.Meter.TempoTicks() {
			return ""
		}
	}
	n := new(big.Int).Mul(written, big.NewInt(int64(first.BPM)))
	fits := meter.BPM(n.Quo(n, want).Int64())
	if fits < meter.Whole(MinTempo) || fits > meter.Whole(MaxTempo) {
		return ""
	}
	return fmt.Sprintf(format, (fits+5)/10*10, first.BPM)
}

// pieces are the parts of the passes between two points.
func (r *resolver) pieces(from, to point) []piece {
	var out []piece
	for i := from.pass; i <= to.pass; i++ {
		p := &r.tl.Passes[i]
		start, end := int64(0), p.Length
		if i == from.pass {
			start = from.tick
		}
		if i == to.pass {
			end = to.tick
		}
		for k, s := range p.Tempos {
			until := p.Length
			if k+1 < len(p.Tempos) {
				until = p.Tempos[k+1].Tick
			}
			for a, b := max(start, s.Tick), min(end, until); a < b; {
				guided, border := r.guidedUntil(i, a)
				stop := min(b, border)
				out = append(out, piece{i, a, stop - a, s.Micros, guided})
				a = stop
			}
		}
	}
	return out
}

// play puts pieces with other tempos into the tempo maps of their passes. What follows the last of
// them in its pass keeps its tempo.
func (r *resolver) play(pieces []piece) {
	for len(pieces) > 0 {
		n := slices.IndexFunc(pieces, func(p piece) bool { return p.pass != pieces[0].pass })
		if n < 0 {
			n = len(pieces)
		}
		pass := &r.tl.Passes[pieces[0].pass]
		var tempos []timeline.Tempo
		for _, p := range pieces[:n] {
			tempos = append(tempos, timeline.Tempo{Tick: p.tick, Micros: p.micros})
		}
		last := pieces[n-1]
		tempos = withSteps(pass.Tempos, pieces[0].tick, last.tick+last.ticks, tempos)
		pass.Tempos = settled(tempos, pass.Length)
		pieces = pieces[n:]
	}
}
