package groove

import (
	"reflect"
	"runtime"
	"strings"
	"testing"

	"plinth/groove/feel"
)

// Passes are played side by side and after one another on one scratch; each comes out
// as it does alone, on any number of processors.
func TestPassesSideBySide(t *testing.T) {
	var sections []section
	for i := range 24 {
		s := long(4+i%9, 1+i%5)
		s.name = string(rune('a' + i%5))
		s.bpm = 60 + 10*(i%7)
		sections = append(sections, s)
	}
	tl := song(t, sections...)
	tl.Looseness = 700
	set := testSet(nil)
	var alone []PassPart
	for i := range tl.Passes {
		alone = append(alone, PerformPass(tl, &tl.Passes[i], set))
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, processors := range []int{1, 2, 5} {
		runtime.GOMAXPROCS(processors)
		got := Perform(tl, set)
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
	tl := song(t, long(4, 3), long(4, 3), long(4, 3))
	defer func() {
		p, ok := recover().(*Panic)
		if !ok || !strings.Contains(p.Error(), "no feel") || !strings.Contains(p.Error(), "newPlan") {
			t.Errorf("recovered %v", p)
		}
	}()
	Perform(tl, &feel.Set{})
	t.Error("played without a feel")
}
