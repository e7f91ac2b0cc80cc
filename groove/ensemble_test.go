package groove_test

import (
	"reflect"
	"runtime"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/groovetest"
	"plinth/songspec/timeline"
)

// playedAlone is what is played of a pass where the song has no other.
func playedAlone(tl *timeline.Timeline, pass timeline.Pass, set *feel.Set) groove.PassPart {
	one := *tl
	one.Passes = []timeline.Pass{pass}
	return groove.Perform(&one, set).Passes[0]
}

// Passes are played side by side and after one another on one scratch; each comes out
// as it does alone, on any number of processors.
func TestPassesSideBySide(t *testing.T) {
	var sections []groovetest.Section
	for i := range 24 {
		s := groovetest.Long(4+i%9, 1+i%5)
		s.Name = string(rune('a' + i%5))
		s.BPM = 60 + 10*(i%7)
		sections = append(sections, s)
	}
	tl := groovetest.Song(t, sections...)
	tl.Looseness = 700
	set := groovetest.Set(nil)
	var alone []groove.PassPart
	for i := range tl.Passes {
		alone = append(alone, playedAlone(tl, tl.Passes[i], set))
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, processors := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(processors)
		got := groove.Perform(tl, set)
		for i := range alone {
			if !reflect.DeepEqual(got.Passes[i], alone[i]) {
				t.Errorf("on %d processors pass %d is not what it is alone", processors, i)
			}
		}
	}
}

// A player's panic reaches the caller, who may have files to put in order, and says
// where it came from.
func TestPanicReachesTheCaller(t *testing.T) {
	tl := groovetest.Song(t, groovetest.Long(4, 3), groovetest.Long(4, 3), groovetest.Long(4, 3))
	defer func() {
		p, ok := recover().(*groove.Panic)
		if !ok || !strings.Contains(p.Error(), "no feel") || !strings.Contains(p.Error(), "plan.New") {
			t.Errorf("recovered %v", p)
		}
	}()
	groove.Perform(tl, &feel.Set{})
	t.Error("played without a feel")
}
