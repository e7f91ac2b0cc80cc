package pianist

import (
	"iter"
	"math"
	"sort"

	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/cue"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// listener is what the pianist hears of the singer in one pass. A nil listener
// hears nothing: no vocal is given and no space is written.
type listener struct {
	*plan.Plan
	sung    []heardNote // in order
	heard   bool        // a vocal is given
	ceiling int         // see Ceiling
	changes []cue.Change
}

// heardNote is a sung note.
type heardNote struct {
	timeline.SungNote
	end  int64
	over int64 // where it and all notes before it have ended
	held bool  // for a beat or more
	high bool  // the comp lies under this voice, note by note: see staysBelow
}

// duck is how long a comp note ends before a sung note that it stands in the way of, in
// ticks: a thirty-second, which is more than any player strays.
const duck = quarter / 8

// soon is how far ahead the pianist hears what the singer is about to sing, in ticks: an eighth.
// A chord that the voice dips under so soon would be cut as soon as it is heard.
const soon = quarter / 2

// busyPerBeat is the number of sung notes a beat, in thousandths, from which the
// comp plays less. Ours: eighths with some sixteenths.
const busyPerBeat = 1500

// listen returns what the pianist hears of the singer in a pass.
func listen(p *plan.Plan) *listener {
	l := &listener{Plan: p, heard: len(p.Pass.Sung) > 0, changes: p.Cues.Changes(timeline.Piano)}
	l.ceiling = Ceiling(p.Song.Piano, p.Pass)
	high := staysBelow(p.Pass)
	for _, s := range p.Pass.Sung {
		l.sung = append(l.sung, heardNote{SungNote: s, end: s.Tick + s.Length, high: high[s.Singer],
			held: s.Length >= p.Pass.Bars[p.BarAt(s.Tick)].Meter.PlayedBeat()})
	}
	sort.SliceStable(l.sung, func(i, j int) bool { return l.sung[i].Tick < l.sung[j].Tick })
	over := int64(math.MinInt64)
	for i := range l.sung {
		over = max(over, l.sung[i].end)
		l.sung[i].over = over
	}
	return l
}

// staysBelow has the singers above whose notes no comp note sounds at the time. It is so for a
// voice whose lower quartile is C4 or higher. A lower voice sings in the comp's own register,
// where no chord that can be heard as one fits under it: the comp may lie above its notes.
func staysBelow(pass *timeline.Pass) (high [timeline.MaxVocals]bool) {
	for _, sung := range guide.SungIn(pass) {
		high[sung.Singer] = sung.Quarter >= ceilingFloor
	}
	return high
}

// singsLittle reports whether what a singer begins in a pass lasts for less than a quarter of it.
func singsLittle(pass *timeline.Pass, sung *guide.Singing) bool { return 4*sung.Ticks < pass.Length }

// sungIn are the sung notes that sound between two ticks.
func (l *listener) sungIn(start, end int64) iter.Seq[*heardNote] {
	return func(yield func(*heardNote) bool) {
		i := sort.Search(len(l.sung), func(i int) bool { return l.sung[i].over > start })
		for ; i < len(l.sung) && l.sung[i].Tick < end; i++ {
			if s := &l.sung[i]; s.end > start && !yield(s) {
				return
			}
		}
	}
}

// sungAt are the sung notes that sound at a tick: of each singer the last that began, nil for
// none.
func (l *listener) sungAt(tick int64) (last [timeline.MaxVocals]*heardNote) {
	for s := range l.sungIn(tick, tick+1) {
		last[s.Singer] = s
	}
	return last
}

// doublingCost is the cost of a top voice that has the pitch class of the sung note. The comp
// does not play along with a moving tune. It may double a note that the singer holds an
// octave or more above: at the height of a chorus, a way round it would take the chord down
// and away from under the voice, and that would be heard more.
func doublingCost(tune *heardNote, top int) int32 {
	if tune.held && int(tune.Key)-top >= 12 {
		return voicing.CostDoubleHeld
	}
	return voicing.CostDoubleTune
}

// tuneCosts is the cost of each voicing under the tune: for a top voice that doubles the note
// sung at the chord's attack, and for every voice in unison with it, that clashes with a held
// note or that lies above what is sung.
func (l *listener) tuneCosts(ch *cue.Change, set *voicing.Set) []int32 {
	if !l.heard {
		return nil
	}
	var at [128]int32 // what a voice costs on each key
	sings := false
	for s := range l.sungIn(ch.Start, ch.End) {
		sings = true
		l.addKeyCosts(&at, s, ch)
	}
	if !sings {
		return nil
	}
	tunes := l.sungAt(ch.Start)
	out := make([]int32, len(set.List))
	for i := range set.List {
		v := &set.List[i].Voicing
		for _, tune := range tunes {
			if tune != nil && v.Top()%12 == int(tune.Key)%12 {
				out[i] = max(out[i], doublingCost(tune, v.Top()))
			}
		}
		for _, key := range v.Notes[:v.N] {
			out[i] += at[key]
		}
	}
	return out
}

// addKeyCosts adds what one sung note makes voices of a chord cost, by key. Above the voice a
// key costs most if it could not be struck with the chord, otherwise by how long it would have
// to be silent.
func (l *listener) addKeyCosts(at *[128]int32, s *heardNote, ch *cue.Change) {
	if s.Tick <= ch.Start {
		at[s.Key] += voicing.CostUnison
	}
	over := int32(0)
	if s.high {
		over = voicing.CostOver
		if s.Tick > ch.Start+soon {
			over = int32(voicing.CostOver * s.within(ch) / (ch.End - ch.Start))
		}
	}
	for key := compFloor; key < len(at); key++ {
		if clashesIn(ch, key, s) {
			at[key] += voicing.CostClash
		}
		if key > int(s.Key) {
			at[key] += over
		}
	}
}

// dropRubs takes away or ends notes that would stand in the singer's way: that clash with a
// held note, lie above the voice or are in unison with it as they are struck. A note that was
// struck earlier ends before. Of a hit that the song file asks for the lowest key stays.
func (l *listener) dropRubs(notes []score.Note) []score.Note {
	if !l.heard {
		return notes
	}
	left := map[int64]int{} // of each hit that would go, the lowest note; -1 where some of it stays
	rubs := make([]bool, len(notes))
	for i := range notes {
		n := &notes[i]
		rubs[i] = l.rubs(n)
		low, known := left[n.At]
		switch {
		case !rubs[i]:
			left[n.At] = -1
		case n.Art.Has(score.Accent) && (!known || low >= 0 && n.Key < notes[low].Key):
			left[n.At] = i
		}
	}
	return score.Without(notes, func(i int) bool {
		low, known := left[notes[i].At]
		return rubs[i] && !(known && low == i)
	})
}

// rubs reports whether a note would stand in the singer's way as it is struck, and ends it where
// it would later.
func (l *listener) rubs(n *score.Note) bool {
	// The bass may clash, as a bassist's may.
	if n.Voice == score.Left && l.Pass.TacetAt(l.BarAt(n.At)).Has(timeline.Bass) {
		return false
	}
	for _, tune := range l.sungAt(n.At) {
		if tune != nil && tune.Key == n.Key {
			return true
		}
	}
	ch := &l.changes[max(0, cue.IndexAt(l.changes, n.At))]
	for s := range l.sungIn(n.At-duck, n.End()+duck) {
		over := s.high && n.Key > s.Key && s.end > n.At
		clash := clashesIn(ch, int(n.Key), s)
		if over && s.Tick <= n.At+soon || clash && s.Tick <= n.At+2*duck {
			return true
		}
		if (over || clash) && s.Tick-duck < n.End() { // written to where the singer comes in
			n.Value = int32(s.Tick - n.At)
			n.Hold(s.Tick - duck)
		}
	}
	return false
}

// isBusy reports whether the singers have many notes in a bar. What two sing together counts
// once.
func (l *listener) isBusy(bar int) bool {
	if !l.heard {
		return false
	}
	b := l.Pass.Bars[bar]
	from := func(tick int64) int {
		return sort.Search(len(l.sung), func(i int) bool { return l.sung[i].Tick >= tick })
	}
	sung := l.sung[from(b.Start):from(b.Start+b.Length)]
	count := int64(len(sung))
	for i := 1; i < len(sung); i++ {
		if a, b := &sung[i-1], &sung[i]; a.Singer != b.Singer && b.Tick-a.Tick < duck {
			count--
		}
	}
	return count*1000*b.Meter.PlayedBeat() >= busyPerBeat*b.Length
}
