//go:build go1.25

package watch

import (
	"cmp"
	"context"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/fsnotify/fsnotify"
)

// memDisk is a folder in memory whose clock is the test's.
type memDisk struct {
	mu    *sync.Mutex
	files map[string]view
}

func (d memDisk) Stamp(path string) stamp { return d.View(path).Stamp }
func (d memDisk) View(path string) view {
	d.mu.Lock()
	defer d.mu.Unlock()
	if v, ok := d.files[path]; ok {
		return v
	}
	return view{Path: path, Kind: missing, Err: filepath.ErrBadPattern}
}
func (d memDisk) Trail(path string) ([]string, bool) { return []string{path}, true }

func (d memDisk) put(path, text string) {
	now := time.Now()
	d.mu.Lock()
	defer d.mu.Unlock()
	d.files[path] = view{Path: path, Data: []byte(text), Mod: now,
		Stamp: stamp{there: true, size: int64(len(text)), mod: now}}
}

// TestLoop runs the whole loop with a fake clock: to the millisecond, without waiting.
func TestLoop(t *testing.T) {
	song, err := filepath.Abs("lanterns.song.hcl")
	if err != nil {
		t.Fatal(err)
	}
	write := fsnotify.Event{Name: song, Op: fsnotify.Write}
	for _, c := range []struct {
		name, why string
		do        func(d memDisk, n deadNotifier)
		builds    []int // ms after the start of do
		slow      int   // ms that a build takes; 50 when 0
	}{
		{"an event", "the quiet window", func(d memDisk, n deadNotifier) { d.put(song, "two"); n.events <- write },
			[]int{75}, 0},
		{"two events 74 ms apart", "the window starts again", func(d memDisk, n deadNotifier) {
			d.put(song, "two")
			n.events <- write
			time.Sleep(74 * time.Millisecond)
			d.put(song, "three")
			n.events <- write
		}, []int{149}, 0},
		{"no event", "the next look of the safety poll, 400 ms from here, finds it old enough",
			func(d memDisk, n deadNotifier) { d.put(song, "two") }, []int{400}, 0},
		{"an event while the build runs", "a build takes 50 ms here: one more after it",
			func(d memDisk, n deadNotifier) {
				d.put(song, "two")
				n.events <- write
				time.Sleep(80 * time.Millisecond)
				d.put(song, "three")
				n.events <- write
			}, []int{75, 155}, 0},
		{"a change while the build runs, and no event", "the look after the build finds it",
			func(d memDisk, n deadNotifier) {
				d.put(song, "two")
				n.events <- write
				time.Sleep(80 * time.Millisecond)
				d.put(song, "three")
			}, []int{75, 155}, 0},
		{"two saves within a tick of the file's clock, one event",
			"a fresh file is read again at the next look, 400 ms from here", func(d memDisk, n deadNotifier) {
				d.put(song, "two")
				n.events <- write
				time.Sleep(140 * time.Millisecond) // built at 75, ended at 125
				d.mu.Lock()
				v := d.files[song]
				v.Data = []byte("owt")
				d.files[song] = v
				d.mu.Unlock()
			}, []int{75, 400}, 0},
		{"another file's event", "nothing", func(d memDisk, n deadNotifier) {
			n.events <- fsnotify.Event{Name: song + "~", Op: fsnotify.Write}
		}, nil, 0},
		{"an event early in a long build", "one more, and no sign of a folder that sends no word",
			func(d memDisk, n deadNotifier) {
				d.put(song, "two")
				n.events <- write
				time.Sleep(100 * time.Millisecond)
				d.put(song, "three")
				n.events <- write
			}, []int{75, 375}, 300},
	} {
		t.Run(c.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				d := memDisk{new(sync.Mutex), map[string]view{}}
				d.files[filepath.Dir(song)] = view{Stamp: stamp{there: true}}
				d.put(song, "one")
				n := dead()
				n.events, n.errs = make(chan fsnotify.Event), make(chan error)
				var mu sync.Mutex
				var got []int
				start := time.Now()
				o := Options{Song: song, Quiet: defaultQuiet, PollEvery: defaultPollEvery,
					Tell: func(x Notice) { t.Error(x) }}
				o.Build = func(_ context.Context, files *Snapshot) Outcome {
					mu.Lock()
					got = append(got, int(time.Since(start)/time.Millisecond))
					mu.Unlock()
					if _, err := files.ReadFile(song); err != nil {
						t.Error(err)
					}
					time.Sleep(time.Duration(cmp.Or(c.slow, 50)) * time.Millisecond)
					return Outcome{Read: []string{song}}
				}
				ctx, stop := context.WithCancel(context.Background())
				ended := make(chan error)
				l := newLoop(o, d, func() (notifier, error) { return n, nil })
				go func() { ended <- l.run(ctx) }()
				time.Sleep(3100 * time.Millisecond) // past the time in which a fresh file is read again
				mu.Lock()
				got, start = nil, time.Now()
				mu.Unlock()
				c.do(d, n)
				time.Sleep(3 * time.Second)
				stop()
				if err := <-ended; err != nil {
					t.Error(err)
				}
				if !equal(got, c.builds) {
					t.Errorf("builds at %v ms, want %v: %s", got, c.builds, c.why)
				}
				if told := strings.Contains(c.name, "an event"); told && l.silent != 0 {
					t.Errorf("%d changes count as unannounced", l.silent)
				}
			})
		})
	}
}

// TestLoopSilent: the watcher falls back to polling after the second change in a row that no
// event reports, and says so once.
func TestLoopSilent(t *testing.T) {
	song, err := filepath.Abs("lanterns.song.hcl")
	if err != nil {
		t.Fatal(err)
	}
	synctest.Test(t, func(t *testing.T) {
		d := memDisk{new(sync.Mutex), map[string]view{}}
		d.files[filepath.Dir(song)] = view{Stamp: stamp{there: true}}
		d.put(song, "one")
		n := dead()
		n.events, n.errs = make(chan fsnotify.Event), make(chan error)
		var said []int // when, in ms
		built, start := 0, time.Now()
		o := Options{Song: song, Quiet: defaultQuiet, PollEvery: defaultPollEvery}
		o.Tell = func(x Notice) {
			if x.Kind != Polling {
				t.Error(x)
			}
			said = append(said, int(time.Since(start)/time.Millisecond))
		}
		o.Build = func(context.Context, *Snapshot) Outcome { built++; return Outcome{Read: []string{song}} }
		ctx, stop := context.WithCancel(context.Background())
		ended := make(chan error)
		l := newLoop(o, d, func() (notifier, error) { return n, nil })
		go func() { ended <- l.run(ctx) }()
		time.Sleep(3100 * time.Millisecond)
		for _, text := range []string{"two", "three", "four", "five"} {
			d.put(song, text)
			time.Sleep(time.Second)
		}
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
		// The second change is made at 4100 ms; a look comes every 500.
		if !equal(said, []int{4500}) || built != 5 {
			t.Errorf("said at %v ms, want at 4500; %d builds, want 5", said, built)
		}
	})
}
