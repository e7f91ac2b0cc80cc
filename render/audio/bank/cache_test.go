package bank

import (
	"sync"
	"sync/atomic"
	"testing"
)

// of is a sound of so many frames.
func of(frames int) Sound {
	return Sound{Left: make([]float32, frames), Right: make([]float32, frames)}
}

// A time is rounded up, and has the release behind it; at the end of what may be rendered all is.
func TestFrames(t *testing.T) {
	for _, row := range []struct {
		hold    int
		release float64
		want    int
	}{
		{0, 0, Rate},
		{Rate, 0, Rate},
		{Rate + 1, 0, 2 * Rate},
		{5 * Rate / 2, 0.1, 3*Rate + 44285},
		{8 * Rate, 0.3, 8*Rate + 132855},
		{8 * Rate, 0.33, MaxFrames},
		{9 * Rate, 0, MaxFrames},
		{3600 * Rate, 0, MaxFrames},
		{0, 100, MaxFrames},
	} {
		if got := Frames(row.hold, row.release); got != row.want {
			t.Errorf("%v, %g: %d, expected %d", row.hold, row.release, got, row.want)
		}
	}
}

// A note is rendered again only where it is too short; one that is whole never is.
func TestCacheKeepsTheLonger(t *testing.T) {
	c := &Cache{}
	const whole = 500
	made := 0
	for _, row := range []struct{ ask, want, made int }{
		{100, 100, 1}, {50, 100, 1}, {200, 200, 2}, {200, 200, 2}, {100, 200, 2}, {1000, whole, 3}, {2000, whole, 3},
	} {
		got := c.Get(Note{}, row.ask, func(frames int) Sound { made++; return of(min(frames, whole)) })
		if len(got.Left) != row.want || made != row.made || c.samples != 2*row.want {
			t.Errorf("%d frames asked for: %d and not %d, rendered %d times and not %d, %d samples counted", row.ask,
				len(got.Left), row.want, made, row.made, c.samples)
		}
	}
}

// A note that many ask for is rendered once.
func TestCacheAtOnce(t *testing.T) {
	c := &Cache{}
	var made atomic.Int32
	hold := make(chan struct{})
	var all sync.WaitGroup
	for range 20 {
		all.Go(func() {
			if got := c.Get(Note{}, 10, func(int) Sound { <-hold; made.Add(1); return of(10) }); len(got.Left) != 10 {
				t.Errorf("%d frames", len(got.Left))
			}
		})
	}
	close(hold)
	all.Wait()
	if made.Load() != 1 {
		t.Errorf("rendered %d times", made.Load())
	}
}

// While a longer one is rendered, who waits for the shorter gets that, and the longer one stays.
func TestCacheLongerMeanwhile(t *testing.T) {
	c := &Cache{}
	begun, longer := make(chan struct{}), make(chan struct{})
	var all sync.WaitGroup
	all.Go(func() {
		got := c.Get(Note{}, 10, func(int) Sound { close(begun); <-longer; return of(10) })
		if len(got.Left) != 10 {
			t.Errorf("the shorter has %d frames", len(got.Left))
		}
	})
	<-begun
	c.Get(Note{}, 20, func(int) Sound { return of(20) })
	close(longer)
	all.Wait()
	if got := c.Get(Note{}, 5, nil); len(got.Left) != 20 || c.samples != 40 {
		t.Errorf("%d frames are kept, %d samples counted", len(got.Left), c.samples)
	}
}

// What is kept is bounded: what was asked for longest ago goes. Both sides count, but one that is both counts once.
func TestCacheIsBounded(t *testing.T) {
	c := &Cache{}
	made := 0
	get := func(key uint8) {
		c.Get(Note{Key: key}, MaxFrames, func(int) Sound { made++; return of(mostKept / 8) })
	}
	for key := range uint8(8) {
		get(key)
		get(0) // stays
	}
	if made != 8 || len(c.notes) != 4 || c.notes[Note{Key: 0}] == nil || c.notes[Note{Key: 1}] != nil ||
		c.samples > mostKept {
		t.Errorf("%d made, %d samples of %d notes", made, c.samples, len(c.notes))
	}
	before := c.samples
	c.Get(Note{Key: 100}, 10, func(int) Sound { one := make([]float32, 10); return Sound{Left: one, Right: one} })
	if len(c.notes) != 4 || c.samples != before-mostKept/4+10 {
		t.Errorf("%d samples of %d notes", c.samples, len(c.notes))
	}
}

// A panic reaches all who asked, and is not kept.
func TestCachePanic(t *testing.T) {
	c := &Cache{}
	get := func(render func(int) Sound) (got any) {
		defer func() { got = recover() }()
		c.Get(Note{}, 10, render)
		return nil
	}
	var all sync.WaitGroup
	for range 5 {
		all.Go(func() {
			if got := get(func(int) Sound { panic("a wrong note") }); got != "a wrong note" {
				t.Errorf("%v", got)
			}
		})
	}
	all.Wait()
	if got := get(func(int) Sound { return of(10) }); got != nil || c.samples != 20 {
		t.Errorf("%v, %d samples", got, c.samples)
	}
}
