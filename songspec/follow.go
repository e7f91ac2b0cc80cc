package songspec

import (
	"math/big"
	"slices"
	"sort"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// guideTempo is the value of a tempo that is the guide's.
const guideTempo = "guide"

// calledFree are words for a tempo that the singer makes.
var calledFree = []string{guideTempo, "guide vocal", "the guide", "vocal", "voice", "the voice", "singer", "the singer",
	"colla voce", "colla parte", "rubato", "free", "freely", "ad lib", "ad lib.", "ad libitum", "a piacere"}

// guidesTempo reads a tempo that is the guide's. It returns nil where the value is another one, and
// after an error of its own a tempo that counts as none.
func (d *decoder) guidesTempo(expr hclsyntax.Expression) *said[meter.BPM] {
	raw, ok := d.s.Raw(expr)
	if !ok {
		return nil
	}
	rng := expr.Range()
	switch text := d.s.TextOf(raw); {
	case text == guideTempo:
	case slices.Contains(calledFree, plainWord(text)):
		d.rep.Errorf(rng, "Not a tempo", "To go with the guide vocal, as free as it is sung, write tempo = %q.",
			guideTempo).WriteText(rng, guideTempo)
	default:
		return nil
	}
	t := &said[meter.BPM]{guided, rng}
	if d.guided == nil || rng.Start.Byte < d.guided.rng.Start.Byte {
		d.guided = t
	}
	return t
}

// checkLeader reports a song that follows a guide without one, or without saying which, and one
// that says so and follows none.
func (d *decoder) checkLeader(f *File) {
	var leads []*vocal
	for _, v := range f.vocals {
		if or(v.leads, false) {
			leads = append(leads, v)
		}
	}
	switch {
	case len(leads) > 1:
		d.rep.Errorf(leads[1].leads.rng, "Two who lead", "The band follows one guide, and that on line %d leads "+
			"already. Leave one of the two out.", leads[0].line)
	case d.guided == nil && len(leads) == 1 && !d.unread(d.top, "tempo", "section", "form"):
		d.rep.Warnf(leads[0].leads.rng, "Nobody follows",
			"A guide leads where the tempo is its own: tempo = %q, in the "+
				"song, a section, a play or some bars.", guideTempo)
	case d.guided == nil || len(leads) == 1:
	case len(f.vocals) == 0:
		if !d.unread(d.top, "vocal") {
			d.rep.Errorf(d.guided.rng, "No guide to follow",
				"The tempo is that of a guide vocal, which the song names: "+
					"vocal \"voice.mid\" {}.")
		}
	default:
		for _, v := range f.vocals[1:] {
			if v.ref.Path != f.vocals[0].ref.Path || !v.sameStart(f.vocals[0]) {
				d.rep.Errorf(d.guided.rng, "Which guide?",
					"There are %d vocals. Write leads = true in the one that the band "+
						"follows.", len(f.vocals))
				return
			}
		}
	}
}

// Leader is the vocal, by its number in VocalFiles, whose tempo the band follows; false where the
// song follows none.
func (f *File) Leader() (int, bool) {
	if f.guided == nil || len(f.vocals) == 0 {
		return 0, false
	}
	return max(0, slices.IndexFunc(f.vocals, func(v *vocal) bool { return or(v.leads, false) })), true
}

// part is a stretch of a pass, in its ticks.
type part struct {
	pass     int
	from, to int64
}

// guidedFeel is what a pass that follows the guide is played in, until its tempo is known.
type guidedFeel struct {
	pass int
	feel string
	set  settings
}

// guidedParts are the parts of a pass in which the band follows the guide.
func guidedParts(pass *timeline.Pass) (out []part) {
	bases := basesOf(pass)
	for i, b := range bases {
		to := pass.Length
		if i+1 < len(bases) {
			to = bases[i+1].tick
		}
		if b.Guided && b.tick < to {
			out = append(out, part{pass.Index, b.tick, to})
		}
	}
	return out
}

// unguided reports what else would make the tempo where the band follows the guide. from are the
// blocks that the events come from.
func (r *resolver) unguided(pass *timeline.Pass, p *play, from []*event) {
	parts := guidedParts(pass)
	if len(parts) == 0 {
		return
	}
	if l := p.landing; l != nil && parts[0].from == 0 {
		r.rep.Errorf(l.rng, "A time where the band follows the guide", "The guide says when this pass comes. Leave at "+
			"out, or give the pass a tempo of its own.")
	}
	by := p.guidedBy()
	var words []string // of the section, where the play follows the guide
	for i := range pass.Events {
		ev, e := &pass.Events[i], from[i]
		moves := ev.Kind.MovesTempo() || ev.Kind == timeline.Hold || ev.Kind == timeline.Caesura
		if !moves && e.landing == nil || !slices.ContainsFunc(parts, func(g part) bool {
			return ev.Tick < g.to && max(ev.End, ev.Tick+1) > g.from
		}) {
			continue
		}
		word := e.kind.String()
		switch {
		case !moves:
			r.rep.Errorf(e.landing.rng, "A time where the band follows the guide",
				"The guide says when this bar comes. "+
					"Leave at out, or give the bar a tempo: bars \"%d\" { tempo = 60 }.", pass.NumberOf(ev.Bar))
		case e.depth >= 0 && by != nil:
			if !slices.Contains(words, word) {
				words = append(words, word)
			}
		default:
			r.rep.Errorf(e.word, wording.Sentence("%s where the band follows the guide", withArticle(word)),
				"The guide makes the tempo here, with rits and holds of its own. Leave the %s out, or give the bar a "+
					"tempo: bars \"%d\" { tempo = 60 }.", word, pass.NumberOf(ev.Bar))
		}
	}
	if words != nil {
		has := make([]string, len(words))
		for i, word := range words {
			has[i] = withArticle(word)
		}
		r.rep.Errorf(by.rng, "Two who make the tempo", "Section %q has %s, and here the band follows the guide. "+
			"Leave out in this play what moves the tempo: without = [%s].", p.section.name, wording.And(has),
			strings.Join(wording.Quoted(words), ", "))
	}
}

// guidedBy is where a play itself says that the tempo is the guide's; nil where its section does, or
// the song.
func (p *play) guidedBy() *said[meter.BPM] {
	if or(p.tempo, 0) == guided {
		return p.tempo
	}
	for _, in := range p.inside {
		if or(in.tempo, 0) == guided {
			return in.tempo
		}
	}
	return nil
}

// follow puts the guide's tempo, smoothed to what a click can be, into the passes where the band
// follows it, and into the bars in front where the song begins so.
func (r *resolver) follow() {
	t := r.tl
	first := &t.Passes[0]
	// A hold or a rit on the first beat does not begin in the bars in front.
	r.front = []timeline.Tempo{{Micros: microsFor(first.BPMAt(0), first.Meter)}}
	leader, ok := r.f.Leader()
	if len(r.guided) == 0 || r.env.Guide == nil || !ok {
		return
	}
	v := r.f.vocals[leader]
	if len(r.env.Guide.Tempos) == 0 {
		r.rep.Errorf(v.ref.Range, "A guide without a tempo", "%q has no tempo in it, so there is nothing to follow. "+
			"Export it with its tempo map, or write the tempo as a number.", v.ref.Path)
		return
	}
	tempos := r.env.Guide.TempoMap(t, t.Vocals[leader].From)
	if tempos == nil {
		return // it begins at no bar of the song, which guide.Place reports
	}
	if len(tempos) == 1 {
		bpm := bpmOf(1, tempos[0].Micros, first.Meter)
		r.rep.Warnf(r.f.guided.rng, "A guide with one tempo",
			"%q keeps one tempo, %s. If it was sung freely, export it "+
				"with its tempo map; otherwise write tempo = %s.", v.ref.Path, bpm, bpm)
	}
	sung := timeline.NewClock(tempos)
	if t.Lead > 0 && r.start(r.guided[0]) == t.Lead { // by itself, so that bar 1 comes when it does in the guide
		r.front = guide.Smooth(guide.Clicks(t, 0, t.Lead), sung)
	}
	for parts := r.guided; len(parts) > 0; {
		n := 1
		for n < len(parts) && r.start(parts[n]) == r.end(parts[n-1]) {
			n++
		}
		steps := guide.Smooth(guide.Clicks(t, r.start(parts[0]), r.end(parts[n-1])), sung)
		for _, g := range parts[:n] {
			pass := &t.Passes[g.pass]
			in := between(steps, r.start(g), r.end(g), pass.Start)
			pass.Tempos = settled(withSteps(pass.Tempos, g.from, g.to, in), pass.Length)
		}
		parts = parts[n:]
	}
	r.guidedPaces(v)
}

// start and end are where a part begins and ends in the song, in absolute ticks.
func (r *resolver) start(g part) int64 { return r.tl.Passes[g.pass].Start + g.from }
func (r *resolver) end(g part) int64   { return r.tl.Passes[g.pass].Start + g.to }

// between are the tempos from one tick to another, with ticks counted from a third.
func between(steps []timeline.Tempo, from, to, zero int64) []timeline.Tempo {
	out := []timeline.Tempo{{Tick: from - zero, Micros: tempoAt(steps, from)}}
	next := sort.Search(len(steps), func(i int) bool { return steps[i].Tick > from })
	for ; next < len(steps) && steps[next].Tick < to; next++ {
		out = append(out, timeline.Tempo{Tick: steps[next].Tick - zero, Micros: steps[next].Micros})
	}
	return out
}

// guidedPaces gives the passes and bars that follow the guide its mean tempo there, and doubts what
// does not go with it. A guide that is quicker than any song may be has its bars in another place, or
// another unit: that is an error.
func (r *resolver) guidedPaces(v *vocal) {
	ticks, time := map[int]int64{}, map[int]int64{} // by pass
	var clock *timeline.Clock
	for k, g := range r.guided {
		pass := &r.tl.Passes[g.pass]
		if k == 0 || r.guided[k-1].pass != g.pass {
			clock = timeline.NewClock(pass.Tempos)
		}
		lasts := clock.Exact(g.to) - clock.Exact(g.from)
		ticks[g.pass] += g.to - g.from
		time[g.pass] += lasts
		for i := pass.BarAt(g.from); i < len(pass.Bars) && pass.Bars[i].Start < g.to; i++ {
			b := &pass.Bars[i]
			if b.Start == g.from && b.Pace != nil {
				b.Pace.BPM = bpmOf(g.to-g.from, lasts, pass.Meter)
			}
			bpm := bpmOf(b.Length, clock.Exact(b.Start+b.Length)-clock.Exact(b.Start), pass.Meter)
			if bpm > meter.Whole(MaxTempo) {
				r.rep.Errorf(v.ref.Range, "A guide too quick to follow",
					"Its tempo in %s is %s, and the band plays up to %d. "+
						"Check its tempo map, and from, the bar where it begins.", pass.BarWords(i, ""), bpm,
					MaxTempo)
				return
			}
		}
	}
	for _, f := range r.guidedFeels {
		pass := &r.tl.Passes[f.pass]
		if ticks[f.pass] > 0 {
			pass.BPM = bpmOf(ticks[f.pass], time[f.pass], pass.Meter)
			r.tempoFits(f.feel, pass.BPM, f.set)
		}
	}
}

// bpmOf is the mean tempo of some ticks that last so long, in microseconds times ticks a quarter,
// to a tenth of a beat a minute.
func bpmOf(ticks, time int64, m meter.Meter) meter.BPM {
	num := big.NewInt(ticks)
	num.Mul(num, big.NewInt(600_000_000*meter.TicksPerQuarter))
	den := big.NewInt(time)
	den.Mul(den, big.NewInt(m.TempoTicks()))
	num.Add(num, new(big.Int).Rsh(den, 1))
	return meter.BPM(100 * num.Quo(num, den).Int64())
}

// guidedUntil reports whether the band follows the guide at a tick of a pass, and up to which tick
// that stays so.
func (r *resolver) guidedUntil(pass int, tick int64) (bool, int64) {
	i := sort.Search(len(r.guided), func(i int) bool {
		g := r.guided[i]
		return g.pass > pass || g.pass == pass && g.to > tick
	})
	switch {
	case i == len(r.guided) || r.guided[i].pass > pass:
		return false, r.tl.Passes[pass].Length
	case r.guided[i].from <= tick:
		return true, r.guided[i].to
	}
	return false, r.guided[i].from
}
