package watch

import (
	"context"
	"flag"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// A rig is a watcher at work in a folder of its own. Its build understands
// these words at the start of a line: "read NAME" reads a file beside the song,
// "name NAME" only says that it counts, "late NAME" does so and then makes it, "slow"
// lasts until openGate is called, "broken" makes the build fail, and "again" makes it
// ask for another try.
type rig struct {
	t    *testing.T
	dir  string // the folder that a scenario may do anything to; the song is in dir/songs
	song string

	mu      sync.Mutex
	builds  []string // what each build saw: the song and all that it reads
	good    int
	running int
	notices []Notice
	stop    context.CancelFunc
	ended   chan error

	gate chan struct{} // closed by finish

	late   bool      // something took longer than the scenario can bear
	mark   time.Time // when the last step of the scenario began; zero: it does not matter
	atMost int       // what may lie between that and the end of the next step, in milliseconds
	began  time.Time // when its first step began
}

const first = "title = \"Lanterns\"\n# one\n# two\n# three\n"

// settings of a rig: a zero value watches with events.
type settings struct {
	options Options
	open    func() (notifier, error)
	text    string // the song at the start; first when empty
	prepare func(r *rig)
	bare    bool // do not wait for the first build
	noPoll  bool // nothing but the events
}

func newRig(t *testing.T, s settings) *rig {
	t.Helper()
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	r := &rig{t: t, dir: dir, song: filepath.Join(dir, "songs", "lanterns.song.hcl"), ended: make(chan error, 1),
		gate: make(chan struct{})}
	r.must(os.Mkdir(filepath.Dir(r.song), 0o755))
	if s.text == "" {
		s.text = first
	}
	r.write(r.song, s.text)
	if s.prepare != nil {
		s.prepare(r)
	}
	if s.open == nil && !s.options.Poll {
		needWatcher(t)
	}
	ctx, stop := context.WithCancel(context.Background())
	r.stop = stop
	o := s.options
	o.Song, o.Build, o.Tell = r.song, r.build, r.tell
	if s.open == nil && !s.noPoll {
		go func() { r.ended <- Run(ctx, o) }()
	} else {
		if s.open == nil {
			s.open = newFsnotify
		}
		o.Quiet, o.PollEvery = defaultQuiet, defaultPollEvery
		l := newLoop(o, realDisk{defaultLimit}, s.open)
		if s.noPoll {
			l.every = time.Hour
		}
		go func() { r.ended <- l.run(ctx) }()
	}
	t.Cleanup(r.close)
	if !s.bare {
		r.await(1)
	}
	r.unhurry()
	r.late, r.began = false, time.Now()
	return r
}

// needWatcher skips a test where other programs have used up the system's watchers. Other
// tests show what the watcher does then.
func needWatcher(t *testing.T) {
	t.Helper()
	n, err := newFsnotify()
	if err != nil {
		t.Skipf("the system gives no watcher: %v", err)
	}
	n.Close()
}

// close ends the watcher; it may be called twice.
func (r *rig) close() {
	if r.stop == nil {
		return
	}
	r.stop()
	r.stop = nil
	r.openGate()
	if err := <-r.ended; err != nil {
		r.t.Errorf("the watcher ended with %v", err)
	}
	if r.running != 0 {
		r.t.Errorf("%d builds are still running after the watcher's end", r.running)
	}
}

func (r *rig) build(_ context.Context, files *Snapshot) Outcome {
	r.mu.Lock()
	if r.running++; r.running > 1 {
		r.t.Error("two builds at once")
	}
	r.mu.Unlock()
	out := Outcome{Read: []string{r.song}}
	song, err := files.ReadFile(r.song)
	saw, good := string(song), err == nil
	if err != nil {
		saw = "error: " + strings.ReplaceAll(err.Error(), r.song, "SONG")
	}
	for _, line := range strings.Split(string(song), "\n") {
		word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		switch word {
		case "read":
			path := filepath.Join(filepath.Dir(r.song), rest)
			out.Read = append(out.Read, path)
			data, err := files.ReadFile(path)
			if err != nil {
				saw, good = saw+"error: "+rest, false
			}
			saw += string(data)
		case "name":
			out.Read = append(out.Read, filepath.Join(filepath.Dir(r.song), rest))
		case "late":
			path := filepath.Join(filepath.Dir(r.song), rest)
			out.Read = append(out.Read, path)
			if _, err := os.Stat(path); err != nil {
				r.must(os.WriteFile(path, []byte("# it comes just after the build has looked\n"), 0o644))
			}
		case "again":
			out.Again = true
		case "slow":
			<-r.gate
		case "broken":
			good = false
		}
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.running--
	r.builds = append(r.builds, saw)
	if good {
		r.good++
	}
	return out
}

func (r *rig) tell(n Notice) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.running > 0 {
		r.t.Error("a notice in the middle of a build: " + n.String())
	}
	r.notices = append(r.notices, n)
}

func (r *rig) buildCount() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.builds)
}

// noticeCount counts the notices of a kind.
func (r *rig) noticeCount(k NoticeKind) int {
	r.mu.Lock()
	defer r.mu.Unlock()
	n := 0
	for _, x := range r.notices {
		if x.Kind == k {
			n++
		}
	}
	return n
}

// allNotices counts the notices that a user must see.
func (r *rig) allNotices() int {
	n := 0
	for _, k := range []NoticeKind{Missing, Blank, Back} {
		n += r.noticeCount(k)
	}
	return n
}

func (r *rig) saidMissing() bool { return r.noticeCount(Missing) == 1 }

// hopeless is how long to wait for what must come. It is for a busy machine and does not
// measure the program.
const hopeless = 2 * time.Minute

// until waits for a condition.
func (r *rig) until(what string, ok func() bool) {
	r.t.Helper()
	for deadline := time.Now().Add(hopeless); !ok(); {
		if time.Now().After(deadline) {
			r.mu.Lock()
			defer r.mu.Unlock()
			r.t.Fatalf("waited in vain for %s; builds: %q; notices: %v", what, r.builds, r.notices)
		}
		time.Sleep(2 * time.Millisecond)
	}
	r.unhurry()
}

// building reports whether a build is at work.
func (r *rig) building() bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.running > 0
}

// openGate lets the slow builds end. It may be called twice.
func (r *rig) openGate() {
	r.mu.Lock()
	defer r.mu.Unlock()
	select {
	case <-r.gate:
	default:
		close(r.gate)
	}
}

// await waits for that many builds since the start.
func (r *rig) await(n int) {
	r.t.Helper()
	r.until("a build", func() bool { return r.buildCount() >= n })
}

// silence is how long a test waits for more builds after its last step: longer than every
// wait of the watcher.
const silence = 700 * time.Millisecond

// The steps of a scenario.

func (r *rig) must(err error) {
	r.t.Helper()
	if err != nil {
		r.t.Fatal(err)
	}
}

// step does one thing to the disk. The watcher sees it between the step's start and its end.
// So it has waited for the next step at most from the start of this one to the end of the
// next. Where that is longer than the scenario allows, the machine was busy, and the run
// does not count.
func (r *rig) step(do func() error) {
	r.t.Helper()
	started := time.Now()
	r.must(do())
	over := time.Now().Add(-time.Duration(r.atMost) * time.Millisecond)
	r.late = r.late || started.Before(over) || !r.mark.IsZero() && r.mark.Before(over)
	r.mark, r.atMost = started, unhurried
}

// unhurried is how many milliseconds may lie between two steps unless a pause says
// otherwise: less than the watcher waits for half a save.
const unhurried = 350

// unhurry allows any time before the next step.
func (r *rig) unhurry() { r.mark, r.atMost = time.Time{}, unhurried }

// pause sleeps. At most atMost milliseconds may lie between the start of the step before and
// the end of the step after. For two steps that must be one save that is less than the
// quiet window, less a tick of the file system's clock, which can be 10.
func (r *rig) pause(ms, atMost int) {
	r.atMost = atMost
	time.Sleep(time.Duration(ms) * time.Millisecond)
}

// whole makes the run not count when it took longer than that so far.
func (r *rig) whole(ms int) {
	r.late = r.late || time.Since(r.began) > time.Duration(ms)*time.Millisecond
}

// write writes in place: it truncates, then writes all bytes.
func (r *rig) write(path, text string) {
	r.t.Helper()
	r.step(func() error { return os.WriteFile(path, []byte(text), 0o644) })
}

// writeInPieces truncates and writes the parts with a pause before each but the first.
func (r *rig) writeInPieces(ms, atMost int, parts ...string) {
	r.t.Helper()
	var f *os.File
	r.step(func() (err error) {
		f, err = os.OpenFile(r.song, os.O_WRONLY|os.O_TRUNC|os.O_CREATE, 0o644)
		return err
	})
	defer f.Close()
	for i, p := range parts {
		if i > 0 {
			r.pause(ms, atMost)
		}
		if p == "" {
			continue // it was truncated already
		}
		r.step(func() error { _, err := f.WriteString(p); return err })
	}
}

func (r *rig) rename(from, to string) {
	r.t.Helper()
	r.step(func() error { return os.Rename(from, to) })
}

func (r *rig) remove(path string) {
	r.t.Helper()
	r.step(func() error { return os.RemoveAll(path) })
}

func (r *rig) beside(name string) string { return filepath.Join(filepath.Dir(r.song), name) }

// TestMain lets many tests run in parallel, because they mostly wait.
func TestMain(m *testing.M) {
	flag.Parse()
	if f := flag.Lookup("test.parallel"); f.Value.String() == strconv.Itoa(runtime.GOMAXPROCS(0)) {
		flag.Set("test.parallel", "16")
	}
	os.Exit(m.Run())
}
