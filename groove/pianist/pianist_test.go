package pianist

import (
	"fmt"
	"reflect"
	"testing"

	"plinth/groove/groovetest"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// struck are the ticks of the attacks, each once.
func struck(notes []score.Note) []int64 {
	var out []int64
	for _, n := range notes {
		if len(out) == 0 || out[len(out)-1] != n.At {
			out = append(out, n.At)
		}
	}
	return out
}

// soundingAt are the keys down at a tick, in order.
func soundingAt(notes []score.Note, tick int64) []int {
	var on [128]bool
	for _, n := range notes {
		if n.At <= tick && n.End() > tick {
			on[n.Key] = true
		}
	}
	var out []int
	for k, b := range on {
		if b {
			out = append(out, k)
		}
	}
	return out
}

// Common practice, no single source, for the rows' reasons.
func TestCompRhythm(t *testing.T) {
	const bar = bar44
	tests := []struct {
		name   string
		row    string
		chart  string
		energy int
		change func(p *timeline.Pass)
		want   []int64
		why    string
	}{
		{"whole bars", "c===============", "C|F", 2, nil, []int64{0, bar}, "the tab alone"},
		{"change inside", "c===============", "C F|G", 2, nil, []int64{0, bar / 2, bar},
			"a change of chord is struck though the tab holds"},
		{"same chord again", "--------c=======", "C|C", 2, nil, []int64{0, bar / 2, bar + bar/2},
			"the pass begins with its chord; the same chord again is no change"},
		{"push", "c===============", "C|F", 2, func(p *timeline.Pass) { groovetest.AddPush(p, 0, bar-eighth) },
			[]int64{0, bar - eighth}, "the downbeat is not struck again"},
		{"push over a busy tab", "c-c-c-c-c-c-c-c-", "C|F", 5,
			func(p *timeline.Pass) { groovetest.AddPush(p, 0, bar-quarter) },
			[]int64{0, eighth, 2 * eighth, 3 * eighth, 4 * eighth, 5 * eighth, 6 * eighth,
				bar + eighth, bar + 2*eighth, bar + 3*eighth, bar + 4*eighth, bar + 5*eighth, bar + 6*eighth,
				bar + 7*eighth},
			"nothing between the push and its target, nor on it"},
		{"stop", "c---c---c---c---", "C|F", 2,
			func(p *timeline.Pass) { groovetest.AddEvent(p, timeline.Stop, 0, bar/2, bar) },
			[]int64{0, quarter, bar, bar + quarter, bar + 2*quarter, bar + 3*quarter}, "nothing begins in a stop"},
		{"stop over a change", "c===============", "C F|G", 2,
			func(p *timeline.Pass) { groovetest.AddEvent(p, timeline.Stop, 0, bar/2, bar) },
			[]int64{0, bar}, "nor a chord that changes in it"},
		{"accents", "c===============", "C", 2, func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 0, quarter, quarter)
			groovetest.AddEvent(p, timeline.Accent, 0, 3*quarter, 3*quarter)
		}, []int64{0, quarter, 3 * quarter}, "time goes on and the hits are struck"},
		{"accents of others", "c===============", "C", 2, func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 0, quarter, quarter).By = timeline.Only(timeline.Drums)
		}, []int64{0}, "not ours"},
		{"alone", "c---c---c---c---", "C|F|G", 2, func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 1, eighth, eighth).Alone = true
			groovetest.AddEvent(p, timeline.Accent, 1, 3*quarter, 3*quarter).Alone = true
		}, []int64{0, quarter, 2 * quarter, 3 * quarter, bar + eighth, bar + 3*quarter,
			2 * bar, 2*bar + quarter, 2*bar + 2*quarter, 2*bar + 3*quarter}, "nothing but the hits in that bar"},
		{"no chord", "c---c---c---c---", "C|N.C.|F", 2, nil,
			[]int64{0, quarter, 2 * quarter, 3 * quarter,
				2 * bar, 2*bar + quarter, 2*bar + 2*quarter, 2*bar + 3*quarter},
			"silence under N.C."},
		{"hold", "c---c---c---c---", "C", 2,
			func(p *timeline.Pass) { groovetest.AddEvent(p, timeline.Hold, 0, quarter, 3*quarter) },
			[]int64{0, quarter, 3 * quarter}, "a held beat is struck once"},
		{"too many at 2", "c-c-c-c-c-c-c-c-", "C", 2, nil, []int64{0, eighth, 2 * eighth, 3 * eighth},
			"1.2 attacks a beat are four in a bar; of equals the last go first"},
		{"soft ones first", "c-s-c-s-c-s-c-s-", "C", 2, nil,
			[]int64{0, 2 * eighth, 4 * eighth, 6 * eighth}, "the softest go first"},
		{"changes before the tab", "c-c-c-c-c-c-c-c-", "C F G C", 2, nil,
			[]int64{0, quarter, 2 * quarter, 3 * quarter}, "what the chart asks for stays"},
		{"off the grid", "c---c---c---c---", "C|F", 2,
			func(p *timeline.Pass) { groovetest.AddPush(p, 0, bar-quarter/3) },
			[]int64{0, quarter, 2 * quarter, 3 * quarter, bar - quarter/3, bar + quarter, bar + 2*quarter,
				bar + 3*quarter},
			"a triplet's last third is struck where it is, and the tab goes on before it"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pass := groovetest.PassOf(t, tt.chart, tt.energy)
			if tt.change != nil {
				tt.change(pass)
			}
			got := struck(comp(groovetest.PlanOf(pass, groovetest.CompFeel(tt.row))))
			if !reflect.DeepEqual(got, tt.want) {
				t.Errorf("struck at %v, want %v: %s", inBars(got), inBars(tt.want), tt.why)
			}
		})
	}
}

// inBars writes ticks as bar:eighth, from 1.
func inBars(ticks []int64) (out []string) {
	for _, t := range ticks {
		out = append(out, fmt.Sprintf("%d:%.2f", t/bar44+1, float64(t%bar44)/quarter+1))
	}
	return out
}

func TestCompLengths(t *testing.T) {
	const bar = bar44
	stop := func(p *timeline.Pass) { groovetest.AddEvent(p, timeline.Stop, 0, bar/2, bar) }
	push := func(p *timeline.Pass) { groovetest.AddPush(p, 0, bar-eighth) }
	tests := []struct {
		name   string
		row    string
		chart  string
		change func(p *timeline.Pass)
		at     int64
		sounds bool
		why    string
	}{
		{"held", "c===============", "C|F", nil, bar - 1, true, "to the next chord"},
		{"short", "c---c===========", "C", nil, quarter / 2, false, "a rest of the tab ends it"},
		{"change under a short tab", "c---------------", "C F", nil, bar/2 + quarter - 1, true,
			"an added attack lasts a beat"},
		{"and no longer", "c---------------", "C F", nil, bar/2 + quarter, false, "then the tab rests"},
		{"stop", "c===============", "C", stop, bar / 2, false, "nothing rings into a stop"},
		{"before the stop", "c===============", "C", stop, bar/2 - 1, true, "it sounds up to it"},
		{"tied push", "c===============", "C|F", push, bar, true, "tied over"},
		{"tied push over a resting tab", "c---c---c---c---", "C|F", push, bar + eighth - 1, true,
			"tied over for as long as a downbeat"},
		{"N.C.", "c===============", "C|N.C.", nil, bar, false, "nothing rings into N.C."},
		{"alone before", "c===============", "C|C", func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 1, quarter, quarter).Alone = true
		}, bar, false, "nothing rings into a bar of hits"},
		{"alone after", "c===============", "C|C|C", func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 1, quarter, quarter).Alone = true
		}, bar + 2*quarter, false, "a hit of weight 2 lasts a beat"},
		{"heavy", "c---------------", "C", func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 0, quarter, quarter).Weight = 3
		}, bar - 1, true, "a hit of weight 3 rings"},
		{"light", "c---------------", "C", func(p *timeline.Pass) {
			groovetest.AddEvent(p, timeline.Accent, 0, quarter, quarter).Weight = 1
		}, quarter + eighth, false, "a hit of weight 1 is short"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pass := groovetest.PassOf(t, tt.chart, 2)
			if tt.change != nil {
				tt.change(pass)
			}
			notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel(tt.row)))
			if got := len(soundingAt(notes, tt.at)) > 0; got != tt.sounds {
				t.Errorf("at %v sounding is %v, want %v: %s", inBars([]int64{tt.at}), got, tt.sounds, tt.why)
			}
		})
	}
}

// A broken chord rings on voice by voice, is whole before the chord changes, and
// stays within one voicing.
func TestBrokenChords(t *testing.T) {
	notes := comp(groovetest.PlanOf(groovetest.PassOf(t, "C|Am", 3), groovetest.CompFeel("1---2---3---2---")))
	for i, at := range []int64{quarter - 1, 2*quarter - 1, 3*quarter - 1} {
		if got := len(soundingAt(notes, at)); got != i+1 {
			t.Errorf("%d voices ring before beat %d, want %d", got, i+2, i+1)
		}
	}
	if got := len(soundingAt(notes, bar44-1)); got != 3 {
		t.Errorf("%d voices ring at the end of the bar, want all 3", got)
	}
	if got := len(soundingAt(notes, bar44)); got != 1 {
		t.Errorf("%d notes sound as the next chord begins, want its first voice alone", got)
	}

	t.Run("cut short by the next chord", func(t *testing.T) {
		notes := comp(groovetest.PlanOf(groovetest.PassOf(t, "C F", 3), groovetest.CompFeel("1---2---3---2---")))
		if got := len(soundingAt(notes, 0)); got != 2 {
			t.Errorf("two beats leave room for two strokes: the first takes %d voices, want 2", got)
		}
		if got := len(soundingAt(notes, bar44/2-1)); got != 3 {
			t.Errorf("%d voices sound before the change, want all 3", got)
		}
	})
	t.Run("half and half", func(t *testing.T) {
		notes := comp(groovetest.PlanOf(groovetest.PassOf(t, "C", 4), groovetest.CompFeel("l===u===l===u===")))
		if got := len(soundingAt(notes, 0)); got != 2 {
			t.Errorf("the lower half is %d voices, want 2", got)
		}
		if got := len(soundingAt(notes, quarter)); got != 4 {
			t.Errorf("with the upper half over it sound %d voices, want 4", got)
		}
	})
}

// A tab may roll a chord from below, before the beat; a hit is struck together, as the band's is,
// at every energy; and no roll begins in a stop.
func TestRolls(t *testing.T) {
	for energy := 1; energy <= 5; energy++ {
		pass := groovetest.PassOf(t, "C|F|G", energy)
		groovetest.AddEvent(pass, timeline.Accent, 0, 2*quarter, 2*quarter)
		groovetest.AddEvent(pass, timeline.Stop, 1, 3*quarter, bar44)
		rolled := map[int64]int{}
		for _, n := range comp(groovetest.PlanOf(pass, groovetest.CompFeel("r==============="))) {
			if n.Roll > 0 || n.Roll%rollMS != 0 {
				t.Errorf("energy %d: a roll comes before the beat: %d ms", energy, n.Roll)
			}
			rolled[n.At] = max(rolled[n.At], -int(n.Roll))
		}
		if rolled[0] == 0 || rolled[bar44] == 0 || rolled[2*quarter] != 0 || rolled[2*bar44] != 0 {
			t.Errorf("energy %d: rolled by %v", energy, rolled)
		}
	}
}

// A push out of the pass before strikes this pass's first chord there; a push
// into the next pass ends this one's part.
func TestPushOverTheBorder(t *testing.T) {
	pass := groovetest.PassOf(t, "C|F", 2)
	pass.Before = &timeline.Neighbour{Chord: groovetest.Chord(t, "G7")}
	pass.Entry = &timeline.Event{Kind: timeline.Push, Tick: -eighth, By: timeline.All}
	e := groovetest.AddEvent(pass, timeline.Push, 1, bar44-eighth, bar44-eighth)
	e.Target = pass.Length
	notes := comp(groovetest.PlanOf(pass, groovetest.CompFeel("c=======c=======")))
	want := []int64{-eighth, bar44 / 2, bar44, bar44 + bar44/2}
	if got := struck(notes); !reflect.DeepEqual(got, want) {
		t.Errorf("struck at %v, want %v", got, want)
	}
	for _, n := range notes {
		if n.End() > pass.Length-eighth {
			t.Errorf("%s rings to %d, into the next pass's pushed chord", groovetest.KeyName(int(n.Key)), n.End())
		}
	}
}
