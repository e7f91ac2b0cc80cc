package drummer

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

func TestClosingFillInProportion(t *testing.T) {
	set := groovetest.Set(nil)
	for _, row := range []struct {
		name     string
		from, to int
		min, max int64 // beats
	}{
		{"into 1 there is none", 1, 1, 0, 0},
		{"into 2 a beat", 1, 2, 1, 1},
		{"into 3 one or two", 2, 3, 1, 2},
		{"into 4 two or three", 2, 4, 2, 3},
		{"into 5 a whole bar", 4, 5, 4, 4},
		{"down into 1 there is none", 4, 1, 0, 0},
		{"down into a full band at most one", 5, 4, 0, 1},
	} {
		for take := 1; take <= 6; take++ {
			tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: row.from},
				groovetest.Section{Name: "b", Chords: "C|F", Energy: row.to})
			tl.Take = take
			d := drummerOf(tl, 0, set)
			beats := int64(0)
			for _, f := range d.chooseFills() {
				beats += (f.End - f.Start) / quarter
			}
			if beats < row.min || beats > row.max {
				t.Errorf("%s: take %d has %d beats", row.name, take, beats)
			}
		}
	}
}

func TestWhereNoFillStands(t *testing.T) {
	set := groovetest.Set(nil)
	for _, row := range []struct {
		name   string
		last   bool
		change func(s, next *groovetest.Section)
	}{
		{"the song's end", true, func(_, _ *groovetest.Section) {}},
		{"fills = false", false, func(s, _ *groovetest.Section) { s.NoFills = true }},
		{"over a stop", false, func(s, _ *groovetest.Section) {
			s.Change = func(p *timeline.Pass) { groovetest.Event(p, timeline.Stop, 3, 2*quarter, nil) }
		}},
		{"over a held beat", false, func(s, _ *groovetest.Section) {
			s.Change = func(p *timeline.Pass) {
				groovetest.Event(p, timeline.Hold, 3, 3*quarter, func(e *timeline.Event) { e.Extra = quarter })
			}
		}},
		{"a bar of written hits", false, func(s, _ *groovetest.Section) {
			s.Change = func(p *timeline.Pass) {
				groovetest.Event(p, timeline.Accent, 3, 0, func(e *timeline.Event) { e.Alone = true })
			}
		}},
		{"where the singer comes in", false, func(s, _ *groovetest.Section) {
			s.Change = func(p *timeline.Pass) {
				p.Sung = []timeline.SungNote{{Tick: p.Length - quarter, Length: quarter, Key: 64}}
			}
		}},
		{"before a section without drums", false, func(_, next *groovetest.Section) {
			next.Tacet = timeline.Only(timeline.Drums)
		}},
	} {
		s := groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 4}
		next := groovetest.Section{Name: "b", Chords: "C|F", Energy: 5}
		row.change(&s, &next)
		sections := []groovetest.Section{s, next}
		if row.last {
			sections = sections[:1]
		}
		tl := groovetest.Song(t, sections...)
		if f := drummerOf(tl, 0, set).chooseFills(); len(f) != 0 {
			t.Errorf("%s: %d fills", row.name, len(f))
		}
	}
}

// A singer who breathes for a quarter begins a phrase after it, and no fill stands there;
// one who breathes for less goes on singing. Design of the band.
func TestClosingFillAndTheSingersBreath(t *testing.T) {
	for _, row := range []struct {
		rest  int64 // before a note on the last beat
		fills int
	}{{quarter, 0}, {quarter - 1, 1}} {
		s := groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 2, Change: func(p *timeline.Pass) {
			at := p.Length - quarter
			p.Sung = []timeline.SungNote{{Tick: 0, Length: at - row.rest, Key: 64},
				{Tick: at, Length: quarter, Key: 64}}
		}}
		tl := groovetest.Song(t, s, groovetest.Section{Name: "b", Chords: "C|F", Energy: 2})
		if f := drummerOf(tl, 0, groovetest.Set(nil)).chooseFills(); len(f) != row.fills {
			t.Errorf("%d fills after a breath of %d ticks", len(f), row.rest)
		}
	}
}

// The fill for a span is the shortest that is as long, or the longest there is, in
// whatever order the family stands.
func TestFillForASpan(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 3})
	d := drummerOf(tl, 0, groovetest.Set(nil))
	for _, order := range []string{"from the shortest", "from the longest"} {
		for beats, want := range map[int64]int{1: 1, 2: 2, 3: 4, 4: 4, 5: 4} {
			if f := d.chooseFill(cue.Stretch{End: beats * quarter}, variation{}, 3); f.fill.Beats != want {
				t.Errorf("%s: a fill of %d beats for a span of %d", order, f.fill.Beats, beats)
			}
		}
		slices.Reverse(d.family)
	}
}

func TestFillTakesBothHands(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t, groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 4},
		groovetest.Section{Name: "b", Chords: "C|F", Energy: 5})
	d := drummerOf(tl, 0, set)
	for _, n := range d.Play(nil).Notes {
		if n.At >= d.Pass.Bars[3].Start && n.Voice.Limb() == feel.Hand && n.Group == 0 {
			t.Errorf("key %d at %d goes on under the fill", n.Key, n.At)
		}
	}
}

// A fill of a late pair leaves the beat before it to the time: the backbeat on 4 is
// struck and the hands go over only with the fill's first stroke. Common practice,
// no single source.
func TestTimeGoesOnUntilTheFill(t *testing.T) {
	set := groovetest.Set(nil)
	for i := range set.Fills {
		f := &set.Fills[i]
		f.Rows = groovetest.Rows("snare", strings.Repeat("----", f.Beats-1)+"--gx")
	}
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 3, Change: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Fill, 1, 3*quarter, nil)
		}}, groovetest.Section{Name: "b", Chords: "C", Energy: 1})
	d := drummerOf(tl, 0, set)
	four := d.Pass.Bars[1].Start + 3*quarter
	backbeat := false
	for _, n := range d.Play(nil).Notes {
		switch {
		case n.Voice.Limb() != feel.Hand || n.At < four || n.At >= four+quarter:
		case n.At == four && n.Group == 0:
			backbeat = backbeat || n.Voice == score.Kit(snareVoice)
		case n.At >= four+quarter/2 && n.Group == 0:
			t.Errorf("key %d at %d goes on under the fill", n.Key, n.At)
		}
	}
	if !backbeat {
		t.Error("the backbeat on 4 is lost to a fill that begins after it")
	}
}

func TestWrittenFillRunsToTheBarLine(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 3, Change: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Fill, 1, 2*quarter, nil)
		}}, groovetest.Section{Name: "b", Chords: "C", Energy: 1})
	d := drummerOf(tl, 0, set)
	first, last := int64(-1), int64(0)
	for _, n := range d.Play(nil).Notes {
		if n.Group != 0 {
			if first < 0 {
				first = n.At
			}
			last = n.At
		}
	}
	bar := d.Pass.Bars[1]
	if first < bar.Start+2*quarter || first > bar.Start+3*quarter || last < bar.Start+3*quarter ||
		last >= bar.Start+bar.Length {
		t.Errorf("the fill runs from %d to %d, its bar from %d to %d", first, last, bar.Start, bar.Start+bar.Length)
	}
}

// Random forms, with sections that have no fill at all among them, in every feel of
// the library that has fills: of two fills that follow each other with at most two
// passes between, none has the strokes and accents of the other.
func TestNeverTheSameFillTwiceRunning(t *testing.T) {
	set := library.Builtin()
	var names []string
	for _, n := range library.Names() {
		if set.Feels[n].Fills != "" {
			names = append(names, n)
		}
	}
	r := rand.New(rand.NewSource(1))
	compared := 0
	for round := 0; round < 600; round++ {
		name := names[round%len(names)]
		m := meter.Common
		if len(set.Feels[name].Meters) > 0 {
			m = set.Feels[name].Meters[0]
		}
		var sections []groovetest.Section
		for i := 0; i < 3+r.Intn(10); i++ {
			s := groovetest.Section{Name: string(rune('a' + r.Intn(4))), Chords: "C|F|G|C", Energy: 1 + r.Intn(5),
				Feel: name, Meter: m}
			inside := r.Intn(3)
			s.Change = func(p *timeline.Pass) {
				for k := 0; k < inside; k++ {
					groovetest.Event(p, timeline.Fill, k, m.BarTicks()-m.PlayedBeat(), nil)
				}
			}
			sections = append(sections, s)
		}
		tl := groovetest.Song(t, sections...)
		before, pass := "", -9
		var last drumFill
		for i := range tl.Passes {
			d := drummerOf(tl, i, set)
			for _, f := range d.chooseFills() {
				strokes := ""
				for _, n := range d.playFills([]drumFill{f}) {
					strokes += fmt.Sprint(n.Key, "@", f.End-n.At, "/", n.Roll, "!", n.Touch, " ")
				}
				if i-pass <= 3 && strokes != "" {
					compared++
					if strokes == before {
						t.Fatalf("%s, round %d: passes %d and %d play the same fill (%q turn %d, %q turn %d): %s",
							name, round, pass, i, last.fill.Name, last.varied, f.fill.Name, f.varied, strokes)
					}
				}
				before, pass, last = strokes, i, f
			}
		}
	}
	if compared < 2000 {
		t.Fatalf("only %d pairs compared", compared)
	}
}

// Two fills that the song file has in one bar follow each other, each whole in its own share.
func TestTwoFillsInABar(t *testing.T) {
	set := groovetest.Set(nil)
	tl := groovetest.Song(t,
		groovetest.Section{Name: "a", Chords: "C|F|G|C", Energy: 4, Change: func(p *timeline.Pass) {
			groovetest.Event(p, timeline.Fill, 1, 0, nil)
			groovetest.Event(p, timeline.Fill, 1, 3*quarter, nil)
		}}, groovetest.Section{Name: "b", Chords: "C", Energy: 1})
	d := drummerOf(tl, 0, set)
	var fills []drumFill
	end, ends := int64(4*quarter), []int64(nil)
	for _, f := range d.chooseFills() {
		if f.cue < 0 {
			continue
		}
		if f.Start != end {
			t.Errorf("a fill begins at %d, the one before ends at %d", f.Start, end)
		}
		end, ends, fills = f.End, append(ends, f.End), append(fills, f)
	}
	if end != 8*quarter || !slices.Contains(ends, 7*quarter) {
		t.Fatalf("the fills are %+v", fills)
	}
	strokes := map[bool]int{}
	for _, n := range d.playFills(fills) {
		first := n.Cue == fills[0].cue
		strokes[first]++
		if at := n.At - 4*quarter; (at < 3*quarter) != first {
			t.Errorf("a stroke of fill %d at %d", n.Group, at)
		}
	}
	if strokes[true] < 4 || strokes[false] < 2 {
		t.Errorf("the fills have %v strokes", strokes)
	}
}

// A fill before a push out of the section leads to the push and is played whole before it:
// it has as many strokes as a fill of its length before the bar line, where it is shorter than
// the bar.
func TestFillLeadsToThePush(t *testing.T) {
	set := library.Builtin()
	for _, name := range []string{"backbeat-eighths", "ballad-eighths", "shuffle", "swing", "tight-sixteenths"} {
		for energy := 2; energy <= 4; energy++ {
			for take := 1; take <= 10; take++ {
				strokes := [2]int{}
				for i, change := range []func(p *timeline.Pass){nil, func(p *timeline.Pass) {
					groovetest.Event(p, timeline.Push, 3, quarter*7/2, nil)
				}} {
					a := grooveSection(name, "a", "C|F|G|C", 2)
					a.Change = change
					tl := takeOf(t, take, a, grooveSection(name, "b", "C|F", energy))
					d := drummerOf(tl, 0, set)
					for _, n := range d.playFills(d.chooseFills()) {
						strokes[i]++
						if end := d.Swung(d.Cues.End(timeline.Drums)); d.Swung(n.At) >= end {
							t.Errorf("%s into %d, take %d: a stroke at %d in a fill to %d", name, energy, take, n.At,
								end)
						}
					}
				}
				if strokes[1] < strokes[0]-1 || strokes[1] == 0 {
					t.Errorf("%s into %d, take %d: %d strokes before a push, %d before the line", name, energy, take,
						strokes[1], strokes[0])
				}
			}
		}
	}
}
