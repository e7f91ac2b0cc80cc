package audio

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// parallel does the jobs 0 to n-1 on all cores. work gives each core a function with its own memory. A job
// writes where no other does, so the outcome does not depend on the number of cores.
func parallel(n int, work func() func(job int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			do := work()
			for job := int(next.Add(1)) - 1; job < n; job = int(next.Add(1)) - 1 {
				do(job)
			}
		})
	}
	wait.Wait()
}
