package groove

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// playAll plays the passes whose indices are in which and puts each into parts at its
// index. No pass depends on how another was played, so several are played at a time, and
// the result is the same on any number of processors.
func playAll(tl *timeline.Timeline, set *feel.Set, which []int, parts []PassPart) {
	workers := min(runtime.GOMAXPROCS(0), len(which))
	var next atomic.Int64
	var fault atomic.Pointer[Panic]
	work := func() {
		defer func() {
			if p := recover(); p != nil {
				fault.CompareAndSwap(nil, &Panic{Value: p, Stack: debug.Stack()})
			}
		}()
		b := newBand()
		for i := next.Add(1) - 1; i < int64(len(which)) && fault.Load() == nil; i = next.Add(1) - 1 {
			at := which[i]
			parts[at] = b.play(tl, &tl.Passes[at], set)
		}
	}
	var others sync.WaitGroup
	for range workers - 1 {
		others.Go(work)
	}
	work()
	others.Wait()
	// A panic in another goroutine would end the process, and no caller could recover it.
	// So it is raised again here.
	if f := fault.Load(); f != nil {
		panic(f)
	}
}

// Panic is the value that Perform panics with when a player panics: our own mistake.
type Panic struct {
	Value any    // what the player panicked with
	Stack []byte // where
}

func (f *Panic) Error() string { return fmt.Sprintf("%v\n%s", f.Value, f.Stack) }
