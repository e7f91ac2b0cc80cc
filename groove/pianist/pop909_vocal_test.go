package pianist

import (
	"fmt"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// roundSinger counts what an accompaniment does round a singer.
type roundSinger struct {
	under, clashing    int // notes under a held sung note, and those a semitone from it in any octave
	onsets, ringsOver  int // sung onsets, and those above which something rings
	all, unisons       int // notes, and those struck in unison with a voice
	struck, struckOver int // notes struck under the voice, and those above what is sung then
	moved              moved
	low                int // how often the lowest voice goes in octaves with the bass
	guides, guided     int // the thirds and sevenths of the chords, and those that are held
}

func (r *roundSinger) String() string {
	return fmt.Sprintf("%d of %d notes clash, %d of %d onsets rung over, %d of %d notes struck over; "+
		"%s, %d with the lowest voice; %d of %d guide tones", r.clashing, r.under, r.ringsOver, r.onsets, r.struckOver,
		r.struck, r.moved.String(), r.low, r.guided, r.guides)
}

// hear adds what notes do round the singer of a pass. What is above the voice counts where
// the comp is to lie under it.
func (r *roundSinger) hear(pass *timeline.Pass, notes []timeline.SungNote) {
	below := staysBelow(pass)
	for _, n := range notes {
		held, clash, sings, over, unison := false, false, false, false, false
		for _, s := range pass.Sung {
			if s.Length >= quarter && s.Tick < n.Tick+n.Length && s.Tick+s.Length > n.Tick {
				held, clash = true, clash || clashes(int(n.Key), int(s.Key))
			}
			unison = unison || s.Tick <= n.Tick && n.Tick < s.Tick+s.Length && n.Key == s.Key
			if below[s.Singer] && s.Tick <= n.Tick && n.Tick < s.Tick+s.Length {
				sings, over = true, over || n.Key > s.Key
			}
		}
		r.all, r.unisons = r.all+1, r.unisons+one(unison)
		r.under, r.clashing = r.under+one(held), r.clashing+one(clash)
		r.struck, r.struckOver = r.struck+one(sings), r.struckOver+one(over)
	}
	for _, s := range pass.Sung {
		if !below[s.Singer] || s.Tick < 0 || s.Tick >= pass.Length {
			continue
		}
		over := false
		for _, n := range notes {
			over = over || n.Tick < s.Tick && n.Tick+n.Length > s.Tick && n.Key > s.Key
		}
		r.onsets, r.ringsOver = r.onsets+1, r.ringsOver+one(over)
	}
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

// measure adds how the voicings of a pass move over its bass, and which guide tones they have.
func (r *roundSinger) measure(c *Pianist, bass []score.Note) {
	for i := range c.changes {
		ch, v := &c.changes[i], &c.voicings[i]
		if v.N == 0 || ch.Same {
			continue
		}
		for _, t := range ch.Chord.Tones() {
			pc := (ch.Chord.Root.PC() + int(t.Semitones)) % 12
			if (t.Degree == 3 || t.Degree == 7) && pc != ch.Chord.Bass.PC() {
				r.guides, r.guided = r.guides+1, r.guided+one(soundsPC(*v, pc))
			}
		}
		if i == 0 || c.voicings[i-1].N == 0 {
			continue
		}
		u := &c.voicings[i-1]
		r.moved.add(*u, *v, c.changes[i-1].Chord.Bass.PC(), ch.Chord.Bass.PC())
		from, to, lead := int(u.Notes[0]), int(v.Notes[0]), leadInto(bass, ch.Start)
		r.low += one(lead.From != lead.To && from%12+1 == int(lead.From) && to%12+1 == int(lead.To) &&
			(to-from)*int(lead.Way) > 0)
	}
}

// play plays a pass and adds what it does round the singer.
func (r *roundSinger) play(t *testing.T, p *plan.Plan) {
	t.Helper()
	c, bass := withBassist(p)
	if len(c.changes) == 0 {
		return
	}
	var played []timeline.SungNote
	for _, n := range c.hands() {
		played = append(played, timeline.SungNote{Tick: n.At, Length: n.End() - n.At, Key: n.Key})
		if high := Ceiling(p.Song.Piano, p.Pass); int(n.Key) > high {
			t.Errorf("%s over the ceiling %s", groovetest.KeyName(int(n.Key)), groovetest.KeyName(high))
		}
	}
	r.hear(p.Pass, played)
	r.measure(c, bass)
}

// With the thirty real vocals, in passes of eight bars: the comp clashes with held notes at
// most a quarter as often as the human accompaniment, is never above the voice, and its
// chords can be told by their guide tones. With and without a voice its top voice goes by
// step but does not stand still, and neither outer voice goes in octaves with the bass.
func TestPop909Vocals(t *testing.T) {
	set := library.Builtin()
	var human, alone roundSinger
	var sung [6]roundSinger
	for _, s := range popSongs(t) {
		vocal := s.midiNotes(t, "vocal.mid")
		piano := s.midiNotes(t, "piano.mid")
		for energy := 1; energy <= 5; energy++ {
			whole := s.pass(t, energy)
			whole.Feel = "ballad-eighths"
			for from := 0; from < len(whole.Bars); from += 8 {
				pass := cutPass(whole, from, min(from+8, len(whole.Bars)), vocal)
				if energy == 1 {
					human.hear(pass, overBass(piano, whole.Bars[from].Start, pass.Length))
				}
				tl := &timeline.Timeline{Piano: timeline.PianoSetup{Span: 14}, Take: 1}
				sung[energy].play(t, plan.New(tl, pass, set))
				pass.Sung = nil
				alone.play(t, plan.New(tl, pass, set))
			}
		}
	}
	t.Logf("human: %d of %d notes clash, %d of %d onsets rung over", human.clashing, human.under, human.ringsOver,
		human.onsets)
	for e, r := range append(sung[1:], alone) {
		t.Logf("energy %d (6: all without the voice): %s", e+1, r.String())
		m := &r.moved
		if r.clashing*human.under*4 > human.clashing*r.under {
			t.Error("more than a quarter of the human's clashes")
		}
		if r.ringsOver+r.struckOver > 0 {
			t.Error("the comp is above the voice")
		}
		if r.guided*100 < r.guides*95 {
			t.Error("guide tones are missing")
		}
		if m.topSteps*100 < m.changes*85 || m.topStays*100 > m.changes*35 {
			t.Error("the top voice leaps, or stands still")
		}
		if m.octaves > 0 || r.low*1000 > m.changes {
			t.Error("octaves with the bass")
		}
	}
}

// overBass are the human's notes from C3 up in a stretch of the song, from its start.
func overBass(notes []timeline.SungNote, start, length int64) []timeline.SungNote {
	var out []timeline.SungNote
	for _, n := range notes {
		n.Tick -= start
		if n.Tick >= 0 && n.Tick < length && n.Key >= compFloor {
			out = append(out, n)
		}
	}
	return out
}

// cutPass makes bars of a long pass one of its own, with what is sung over it.
func cutPass(in *timeline.Pass, from, to int, vocal []timeline.SungNote) *timeline.Pass {
	start, end := in.Bars[from].Start, in.Bars[to-1].Start+in.Bars[to-1].Length
	out := *in
	out.Bars, out.Chords, out.Sung = nil, nil, []timeline.SungNote{}
	for _, b := range in.Bars[from:to] {
		b.Start -= start
		out.Bars = append(out.Bars, b)
	}
	for _, c := range in.Chords {
		if c.Start >= start && c.Start < end {
			c.Start, c.End = c.Start-start, min(c.End, end)-start
			out.Chords = append(out.Chords, c)
		}
	}
	bar := in.Bars[from].Length
	for _, s := range vocal {
		if s.Tick+s.Length > start-bar && s.Tick < end+bar {
			s.Tick -= start
			out.Sung = append(out.Sung, s)
		}
	}
	out.Length = end - start
	return &out
}
