package drummer

import (
	"slices"
	"sort"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// drumFill is a fill to be played: where it stands, which it is, and how it is varied.
type drumFill struct {
	cue.Stretch
	fill        *feel.Fill
	asked       bool  // the song asks for it: it takes the time's place, where others leave it the ride
	varied      int   // 0 as written; 1 and 2 change a stroke of it, see varied
	cue         int32 // the cue that it answers; -1: it closes the section
	group       uint32
	line        int64 // where the fill leads: the bar line, a push before it or the next fill
	firstStroke int64 // tick of its first stroke, at Start or later: until then time goes on
	// firstOfHands and lastOfHands are the ticks of its first and last stroke of the hands; End
	// and 0: it has none.
	firstOfHands, lastOfHands int64
}

// slowTempo is the tempo of the players' beat under which fills are kept short.
const slowTempo = meter.BPM(80_000)

// wholeBar stands for as many beats as the bar has.
const wholeBar = 99

// chooseFills chooses the fills of the pass, in order: those that the song file asks for
// and the one that closes the section.
func (d *Drummer) chooseFills() []drumFill {
	out, closes := d.askedFills()
	if s := d.closingSpan(); !closes && s.Start < s.End {
		f := d.chooseFill(s, d.closingVariation(), d.closingFillEnergy())
		f.cue, f.line = -1, d.nextFill(s.Start)
		out = append(out, f)
	}
	for i := range out {
		out[i].group = uint32(i + 1)
	}
	return out
}

// nextFill is where the next fill that the song file asks for begins, or a push out of the
// pass: a fill that begins at a tick leads to there. Otherwise it is the end of the bar.
func (d *Drummer) nextFill(tick int64) int64 {
	end, list := min(d.BarEnd(d.BarAt(tick)), d.Cues.End(timeline.Drums)), d.Cues.List
	i := sort.Search(len(list), func(i int) bool { return list[i].At > tick })
	for ; i < len(list) && list[i].At < end; i++ {
		if q := &list[i]; q.Kind == cue.Fill && q.By.Has(timeline.Drums) {
			return q.At
		}
	}
	return end
}

// closingSpan is where the fill that closes the section stands. It is empty when there is no
// fill: at the song's end, where the section wants none, before a section that the drummer
// sits out (the fill would promise what does not come; common practice, no single source),
// over a stop, a held beat or a bar of written hits, where the singer comes in, and where the hands
// change sticks.
func (d *Drummer) closingSpan() cue.Stretch {
	last := len(d.Pass.Bars) - 1
	a := d.Pass.After
	if !d.Pass.Fills || a == nil || a.Tacet.Has(timeline.Drums) || last < 0 || !d.keepsTime(last) ||
		d.Cues.Alone[last] || len(d.familyIn(last)) == 0 || d.ChangesSticks(last) {
		return cue.Stretch{}
	}
	choice := closingBeats.At(a.Energy)
	beats := choice[d.Chance("fill").Below(2)]
	if d.Pass.BPMAt(last)*meter.BPM(d.Pass.Meter.QuartersAsOne()) < slowTempo {
		beats = min(choice[0], choice[1])
	}
	if a.Energy < d.Energy(last) { // before a fall the bar ends open
		beats = 0
	}
	starts := d.BeatStarts(last)
	if beats == 0 || len(starts) == 0 {
		return cue.Stretch{}
	}
	bar := d.Pass.Bars[last]
	s := cue.Stretch{Start: bar.Start + starts[max(0, len(starts)-beats)], End: bar.Start + bar.Length}
	if push := d.Cues.End(timeline.Drums); push > bar.Start && push < s.End { // the fill leads to the push
		s.Start, s.End = max(bar.Start, push-(s.End-s.Start)), push
	}
	if d.Cues.Silences(timeline.Drums).Over(s.Start, s.End) || d.Cues.Holds.Over(s.Start, s.End) || d.singerEnters(s) {
		return cue.Stretch{}
	}
	return s
}

// phraseRest is the shortest silence before a sung note that makes it begin a phrase.
const phraseRest = quarter

// singerEnters reports whether a singer begins a phrase in a span.
func (d *Drummer) singerEnters(s cue.Stretch) bool {
	var ends [timeline.MaxVocals]int64 // where each has been silent since
	for i := range ends {
		ends[i] = -1 << 62
	}
	for _, n := range d.Pass.Sung {
		end := &ends[n.Singer]
		if n.Tick >= s.Start && n.Tick < s.End && n.Tick-*end >= phraseRest {
			return true
		}
		*end = max(*end, n.Tick+n.Length)
	}
	return false
}

// variation is which fill of its length is played (the colour of the groove files), and in
// which way it is varied.
type variation struct{ number, varied int }

// variant is the number, from 0, that decides the variations of the pass. The timeline deals
// the numbers out over the form; a pass that stands alone draws its own.
func (d *Drummer) variant() int {
	if v := d.Pass.FillVariant; v > 0 {
		return (v - 1) % timeline.FillVariants
	}
	return d.Chance("variant").Below(timeline.FillVariants)
}

// closingVariation is the variation of the fill that closes the pass: colour 0 to 2, each
// in two ways.
func (d *Drummer) closingVariation() variation {
	v := d.variant()
	return variation{v % 3, v / 3}
}

// closingFillEnergy is the energy of the closing fill. It is half-way from the section's to
// the next section's and is rounded towards the next: a fill that leads down from a chorus
// already belongs to what follows.
func (d *Drummer) closingFillEnergy() int {
	from := d.Energy(len(d.Pass.Bars) - 1)
	a := d.Pass.After
	switch {
	case a == nil:
		return from
	case a.Energy < from:
		return (from + a.Energy) / 2
	}
	return (from + a.Energy + 1) / 2
}

// chooseFill picks a fill of the feel's family that is meant for the energy, among those that close a
// section or those that the song asks for, as the variation says. First it finds the length: the
// shortest that covers the span, of which only the end is played, or the longest there is. Then the
// variation picks among the fills of that length.
func (d *Drummer) chooseFill(s cue.Stretch, v variation, energy int) drumFill {
	asked := v.number >= feel.AskedColour
	out := drumFill{Stretch: s, varied: v.varied, asked: asked}
	bar := d.BarAt(s.Start)
	m, family := d.Pass.Bars[bar].Meter, d.familyIn(bar)
	length := s.End - s.Start
	best := int64(-1)
	var same []*feel.Fill // of that length
	meant := func(f feel.Fill) bool { return f.Suits(energy) && (f.Colour >= feel.AskedColour) == asked }
	all := !slices.ContainsFunc(family, meant) // a family of the song's own may have no other
	for i := range family {
		f := &family[i]
		if !f.Suits(energy) || !all && !meant(*f) {
			continue
		}
		n := beatOf(f, m) * int64(f.Beats)
		if best < 0 || best < length && n > best || n >= length && n < best {
			best, same = n, nil
		}
		if n == best {
			same = append(same, f)
		}
	}
	if len(same) == 0 {
		return out
	}
	out.fill = same[v.number%len(same)]
	for _, f := range same {
		if f.Colour == v.number {
			out.fill = f
		}
	}
	return out
}

// fillStep is the length of a fill's step in a meter: a part of the beat that the tempo
// counts, or, for a fill in twos or fours in a compound meter, a part of a quarter.
func fillStep(f *feel.Fill, m meter.Meter) int64 {
	grid := int64(max(1, f.Grid))
	if m.Compound() && grid%3 != 0 {
		return quarter / grid
	}
	return m.PlayedBeat() / grid
}

// leaveRoomForFills takes away the strokes of the time from the first stroke of a fill on:
// the fill has both hands and each foot that it uses. A foot that it does not use goes on, but under a
// fill that the song asks for the hat's alone.
// A fill that begins after the beat leaves the backbeat on that beat (common practice, no
// single source).
func leaveRoomForFills(notes []score.Note, fills []drumFill) []score.Note {
	if len(fills) == 0 {
		return notes
	}
	// reach[i] is where the first i fills have all ended, so that few of thousands are looked at.
	reach := make([]int64, len(fills)+1)
	for i := range fills {
		reach[i+1] = max(reach[i], fills[i].End)
	}
	return slices.DeleteFunc(notes, func(n score.Note) bool {
		after := sort.Search(len(fills), func(i int) bool { return fills[i].Start > n.At })
		for ; after > 0 && reach[after] > n.At; after-- {
			if f := &fills[after-1]; n.At < f.End { // the last fill that sounds here decides
				if n.Voice.Limb() == feel.Hand {
					goesOn := kindOf(n.Key) == kindRide && f.rideGoesOn() && n.At < f.lastOfHands
					return n.At >= f.firstOfHands && !goesOn
				}
				return n.At >= f.firstStroke && (f.usesLimb(n.Voice.Limb()) ||
					f.asked && n.Voice.Limb() == feel.RightFoot)
			}
		}
		return false
	})
}

// rideGoesOn reports whether one hand plays the fill and the other goes on: a pickup in swing.
func (f *drumFill) rideGoesOn() bool { return f.fill != nil && f.fill.Family == "swing" && !f.asked }

func (f *drumFill) usesLimb(limb feel.Limb) bool {
	return f.fill != nil && slices.ContainsFunc(f.fill.Rows, func(r feel.Row) bool { return r.Voice.Limb == limb })
}
