package watch

import (
	"errors"
	"os"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
)

// deadNotifier accepts every watch and sends no event, as on a network folder.
type deadNotifier struct {
	events chan fsnotify.Event
	errs   chan error
	addErr error
}

func (d deadNotifier) Add(string) error              { return d.addErr }
func (d deadNotifier) Remove(string) error           { return nil }
func (d deadNotifier) Events() <-chan fsnotify.Event { return d.events }
func (d deadNotifier) Errors() <-chan error          { return d.errs }
func (d deadNotifier) Close() error                  { return nil }

func dead() deadNotifier {
	return deadNotifier{events: make(chan fsnotify.Event), errs: make(chan error)}
}

// Without events the watcher polls, and says so once.
func TestFallBack(t *testing.T) {
	for _, c := range []struct {
		name, why string
		open      func() (notifier, error)
		says      string
	}{
		{"no watcher to be had", "too many of them run",
			func() (notifier, error) { return nil, &os.SyscallError{Syscall: "inotify_init1", Err: syscall.EMFILE} },
			"max_user_instances"},
		{"no watch to be had", "the table of watches is full, and the system calls that a full disk",
			func() (notifier, error) {
				d := dead()
				d.addErr = syscall.ENOSPC
				return d, nil
			}, "max_user_watches"},
		{"the notifier ends by itself", "its channels close", func() (notifier, error) {
			d := dead()
			close(d.events)
			close(d.errs)
			return d, nil
		}, "closed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := newRig(t, settings{open: c.open})
			r.write(r.song, second)
			r.await(2)
			r.write(r.song, first)
			r.await(3)
			r.close()
			if n := r.noticeCount(Polling); n != 1 {
				t.Fatalf("said %d times that it polls: %v", n, r.notices)
			}
			if s := r.notices[0].String(); !strings.Contains(s, c.says) || !strings.Contains(s, "every 250ms") {
				t.Errorf("the notice %q does not name %q and the interval", s, c.says)
			}
		})
	}
}

// Where watches are accepted and no events come, two changes are enough to notice it.
func TestSilentFolder(t *testing.T) {
	t.Parallel()
	r := newRig(t, settings{open: func() (notifier, error) { return dead(), nil }})
	// TestLoop counts them; here a change may lie too near to a look to be one of the two.
	for i := 0; i < 2 || r.noticeCount(Polling) == 0 && i < 20; i++ {
		time.Sleep(100 * time.Millisecond)
		r.write(r.song, []string{second, first}[i%2])
		r.await(2 + i)
	}
	r.close()
	if n := r.noticeCount(Polling); n != 1 || !strings.Contains(r.notices[0].String(), "network") {
		t.Errorf("want one notice about polling: %v", r.notices)
	}
}

// A local folder is never taken for a silent one.
func TestNotSilent(t *testing.T) {
	t.Parallel()
	r := newRig(t, settings{})
	for i := 0; i < 6; i++ {
		r.write(r.song, strings.Repeat("# six\n", i+1))
		r.await(2 + i)
		time.Sleep(time.Duration(i*97) * time.Millisecond)
	}
	r.close()
	if r.noticeCount(Polling) != 0 {
		t.Errorf("notices without need: %v", r.notices)
	}
}

// An emptied song is read again and again while it is fresh. It does not count as a change
// that no event reported.
func TestBlankIsNotSilent(t *testing.T) {
	t.Parallel()
	r := newRig(t, settings{})
	r.write(r.song, "")
	r.until("word of the blank song", func() bool { return r.noticeCount(Blank) == 1 })
	time.Sleep(coarse + silence) // four safety polls, and the end of being fresh
	r.close()
	if n := r.noticeCount(Polling); n != 0 {
		t.Errorf("a local folder is taken for a silent one: %v", r.notices)
	}
}

// After an overflow anything may have happened.
func TestOverflow(t *testing.T) {
	t.Parallel()
	d := dead()
	r := newRig(t, settings{open: func() (notifier, error) { return d, nil }})
	r.write(r.song, second)
	d.errs <- fsnotify.ErrEventOverflow
	r.await(2)
	d.errs <- errors.New("something else") // drained, and not taken for a save
	time.Sleep(silence)
	r.close()
	if len(r.builds) != 2 {
		t.Errorf("%d builds, want 2", len(r.builds))
	}
}

// Saves without a pause must not put the build off for ever: there is a build while they go
// on, and none in the first second. TestCoreTimes tests this to the millisecond.
func TestCeiling(t *testing.T) {
	t.Parallel()
	for try := 0; try < 10; try++ {
		r := newRig(t, settings{})
		for i := 0; r.buildCount() < 2 && !r.late && time.Since(r.began) < hopeless; i++ {
			r.write(r.song, strings.Repeat("# y\n", i%60+1))
			r.pause(30, 64)
		}
		n, most := r.buildCount()-1, int(time.Since(r.began)/time.Second)
		r.write(r.song, "# and on\n") // the last pause must not have been too long either
		r.close()
		if r.late {
			continue
		}
		if n < 1 || n > most {
			t.Errorf("%d builds while saves came every 30 ms for %d s", n, most)
		}
		return
	}
	t.Skip("the machine is too busy to save every 30 ms")
}

// Two songs are written in turn, in place, without a pause. A build that sees a bit of both
// has read half a save. After three seconds the watcher needs no quiet any more, so a
// writer that the machine stops in the middle of a save is read there: such a run does not
// count.
func TestNeverTorn(t *testing.T) {
	const stopped = 5 * time.Millisecond
	for _, c := range []struct {
		name  string
		pause time.Duration
	}{{"without a pause", 0}, {"1 ms apart", time.Millisecond}, {"9 ms apart", 9 * time.Millisecond}} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			a := "# a\n" + strings.Repeat("# aaaaaaaaaaaaaaaa\n", 3000)
			b := "# b\n" + strings.Repeat("# bbbbbbbbbbbbbbbbbbbbb\n", 2600)
			for try := 0; try < 10; try++ {
				r := newRig(t, settings{text: a})
				var longest time.Duration
				save := func(text string) {
					started := time.Now()
					r.write(r.song, text)
					longest = max(longest, time.Since(started))
				}
				for i := 0; i < 500; i++ {
					save([]string{b, a}[i%2])
					time.Sleep(c.pause)
				}
				save(b)
				r.until("the last song", func() bool {
					r.mu.Lock()
					defer r.mu.Unlock()
					return r.builds[len(r.builds)-1] == b
				})
				r.close()
				torn := 0
				for i, got := range r.builds {
					if got == a || got == b {
						continue
					}
					torn++
					if longest < stopped {
						t.Errorf("build %d of %d saw neither song whole: %d bytes", i, len(r.builds), len(got))
					}
				}
				if torn == 0 || longest < stopped {
					return
				}
			}
			t.Skip("the machine is too busy to write a file in one go")
		})
	}
}

// A file that is not there yet, in a folder that is not there yet.
func TestStartsBeforeTheSong(t *testing.T) {
	t.Parallel()
	r := newRig(t, settings{bare: true, prepare: func(r *rig) {
		r.remove(r.beside("."))
	}})
	r.until("the notice", func() bool { return r.noticeCount(Missing) == 1 })
	r.must(os.Mkdir(r.beside("."), 0o755))
	r.write(r.song, second)
	r.await(1)
	r.close()
	if r.builds[0] != second || r.noticeCount(Missing) != 1 {
		t.Errorf("builds %q, notices %v", r.builds, r.notices)
	}
}

// Run waits for a running build, which may be about to rename its files.
func TestEndDuringBuild(t *testing.T) {
	t.Parallel()
	r := newRig(t, settings{})
	r.write(r.song, "slow\n")
	r.until("the slow build", r.building)
	r.stop()
	select {
	case err := <-r.ended:
		r.ended <- err
		t.Error("the watcher has ended before its build")
	case <-time.After(50 * time.Millisecond):
	}
	r.close()
	if len(r.builds) != 2 {
		t.Errorf("%d builds were finished, want 2", len(r.builds))
	}
}

// A thousand saves leave no more files open and no more goroutines than ten did.
func TestFlat(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("open files are counted in /proc")
	}
	count := func() int {
		fds, err := os.ReadDir("/proc/self/fd")
		if err != nil {
			t.Fatal(err)
		}
		return len(fds) + runtime.NumGoroutine()
	}
	r := newRig(t, settings{options: Options{Quiet: time.Millisecond}})
	at := func(saves, done int) int {
		for i := 0; i < saves; i++ {
			r.write(r.beside("n"), strings.Repeat("# flat\n", i%5+1))
			r.rename(r.beside("n"), r.song)
			r.await(done + i + 1)
		}
		return count()
	}
	few := at(10, 1)
	many := at(1000, 11)
	if many > few+3 {
		t.Errorf("%d open files and goroutines after 1000 more saves, %d before", many, few)
	}
}
