package watch

import (
	"context"
	"path/filepath"
	"runtime"
	"time"

	"github.com/fsnotify/fsnotify"
)

// loop is one run of the watcher. All its fields belong to the goroutine of run; only the
// build runs beside it.
type loop struct {
	Options
	disk disk
	core *core
	open func() (notifier, error)

	note    notifier // nil while there is none
	tree    tree
	planted watchSet

	paths []string         // the other files of the last build, absolute
	seen  map[string]stamp // how each file's entry looked last
	fresh map[string]view  // files read so soon after a write that a second one may not show in their entry
	gone  map[string]bool  // files that are away by the last event

	polling bool          // the user was told that no events come
	every   time.Duration // how often the files are looked at
	heard   time.Time     // when the last event that matters came
	polls   int
	silent  int // changes in a row that no event announced

	building *Snapshot // nil while no build runs
	untold   []Notice
	done     chan Outcome
}

func newLoop(o Options, d disk, open func() (notifier, error)) *loop {
	return &loop{
		Options: o, disk: d, open: open, core: newCore(defaultWaits(o.Quiet)),
		seen: map[string]stamp{}, fresh: map[string]view{}, gone: map[string]bool{},
		planted: watchSet{}, every: safetyPoll, done: make(chan Outcome, 1),
	}
}

// run handles events, polls and finished builds, one at a time, until ctx is done.
func (l *loop) run(ctx context.Context) error {
	l.startWatching()
	defer func() {
		if l.note != nil {
			l.note.Close()
		}
	}()
	poll := time.NewTicker(l.every)
	defer poll.Stop()
	timer := time.NewTimer(0)
	defer timer.Stop()
	for every := l.every; ; {
		if every != l.every {
			every = l.every
			poll.Reset(every)
		}
		var look <-chan time.Time
		if at, ok := l.core.nextLook(); ok && l.building == nil {
			timer.Reset(time.Until(at))
			look = timer.C
		}
		var events <-chan fsnotify.Event
		var errs <-chan error
		if l.note != nil {
			events, errs = l.note.Events(), l.note.Errors()
		}
		select {
		case ev, ok := <-events:
			if !ok {
				l.notifierClosed()
				continue
			}
			l.takeEvent(time.Now(), ev)
		case err, ok := <-errs:
			if !ok {
				l.notifierClosed()
				continue
			}
			l.notifierFailed(time.Now(), err)
		case <-look:
			l.readAndJudge(ctx)
		case <-poll.C:
			l.pollFiles(time.Now())
		case out := <-l.done:
			l.afterBuild(time.Now(), out)
		case <-ctx.Done():
			if l.building != nil {
				<-l.done
			}
			return nil
		}
	}
}

// startWatching adds the watches before anything is read, so that no save between the two
// is lost.
func (l *loop) startWatching() {
	if l.Poll {
		l.fallBackToPolling(nil)
	} else if n, err := l.open(); err != nil {
		l.fallBackToPolling(err)
	} else {
		l.note = n
	}
	l.fitWatches()
	// The first look need not wait, unless the file was written just now.
	l.core.noteChange(time.Now().Add(-l.core.waits.Quiet), false)
}

// notifierClosed goes on without a notifier that has closed its channels.
func (l *loop) notifierClosed() {
	l.note = nil
	l.fallBackToPolling(fsnotify.ErrClosed)
}

// fallBackToPolling goes on with polling alone, and tells the user once. There is no error
// where the user has asked for it.
func (l *loop) fallBackToPolling(err error) {
	if l.polling {
		return
	}
	l.polling, l.every = true, l.PollEvery
	l.tell(Notice{Kind: Polling, Path: l.Song, Every: l.every, Err: err})
}

// tell passes a notice on, after the running build if there is one, because both write to
// the same terminal.
func (l *loop) tell(n Notice) {
	if l.building != nil {
		l.untold = append(l.untold, n)
		return
	}
	l.Tell(n)
}

// fitWatches makes the watches fit the files of the last build.
func (l *loop) fitWatches() {
	if l.note == nil {
		return
	}
	l.tree = newTree(l.disk, append([]string{l.Song}, l.paths...))
	if err := l.planted.sync(l.note, l.disk, l.tree); err != nil {
		l.fallBackToPolling(err)
	}
}

// takeEvent notes the change that an event reports.
func (l *loop) takeEvent(now time.Time, ev fsnotify.Event) {
	name := filepath.Clean(ev.Name)
	role := l.tree.role(name)
	if role == stranger || ev.Op == fsnotify.Chmod && role == onTheWay {
		return
	}
	l.heard, l.silent = now, 0
	swap := ev.Op == fsnotify.Chmod // says nothing of how the file was written
	if role == aFile {
		swap = swap || quickSwap && ev.Op == fsnotify.Create && !l.gone[name]
		switch {
		case ev.Has(fsnotify.Remove), ev.Has(fsnotify.Rename):
			l.gone[name] = true
		case ev.Has(fsnotify.Create):
			delete(l.gone, name)
		}
	} else {
		l.fitWatches() // a folder or a link was replaced
	}
	l.core.noteChange(now, swap)
}

// quickSwap reports whether an event for a new file whose name was never free proves that
// a finished file was renamed over the old one. Linux reports every step; other systems
// may leave some out.
const quickSwap = runtime.GOOS == "linux"

// notifierFailed counts an error of the notifier as a change, because anything may have
// happened before an overflow.
func (l *loop) notifierFailed(now time.Time, err error) {
	l.fitWatches()
	l.heard = now
	l.core.noteChange(now, false)
}

// readAndJudge reads all files and does what the core says of them. It does nothing when
// an event that came after the timer asks for more quiet.
func (l *loop) readAndJudge(ctx context.Context) {
	l.drainEvents()
	if at, ok := l.core.nextLook(); !ok || time.Until(at) > 0 {
		return
	}
	now := time.Now()
	views := []view{l.disk.View(l.Song)}
	for _, p := range l.paths {
		views = append(views, l.disk.View(p))
	}
	read := time.Now()
	for _, v := range views {
		l.rememberView(now, v)
	}
	switch l.core.judge(now, read, views) {
	case build:
		files := newSnapshot(l.disk, views)
		l.building = files
		go func() { l.done <- l.Build(ctx, files) }() // beside the loop
	case tellMissing:
		l.tell(Notice{Kind: Missing, Path: l.Song})
	case tellBlank:
		l.tell(Notice{Kind: Blank, Path: l.Song})
	case tellBack:
		l.tell(Notice{Kind: Back, Path: l.Song})
	}
}

// drainEvents takes all events that have come already.
func (l *loop) drainEvents() {
	for l.note != nil {
		select {
		case ev, ok := <-l.note.Events():
			if ok {
				l.takeEvent(time.Now(), ev)
			} else {
				l.notifierClosed()
			}
		default:
			return
		}
	}
}

// coarse is the step of the coarsest file system clock in use: two seconds on FAT.
const coarse = 2 * time.Second

// rememberView keeps how a file looked when it was read.
func (l *loop) rememberView(now time.Time, v view) {
	if v.Kind == unstable {
		return
	}
	l.seen[v.Path] = v.Stamp
	delete(l.fresh, v.Path)
	if v.Kind == content && now.Sub(v.Mod).Abs() < coarse {
		l.fresh[v.Path] = v
	}
}

// afterBuild takes the list of files from a finished build, adds their watches, and then
// looks whether one has changed since it was read.
func (l *loop) afterBuild(now time.Time, out Outcome) {
	files := l.building
	l.building = nil
	for _, n := range l.untold {
		l.Tell(n)
	}
	l.untold = nil
	l.paths = l.paths[:0]
	have := map[string]bool{l.Song: true}
	for _, p := range out.Read {
		abs, err := filepath.Abs(p)
		if err == nil && !have[abs] {
			have[abs] = true
			l.paths = append(l.paths, abs)
		}
	}
	views := []view{files.knownView(l.Song)}
	for _, p := range l.paths {
		views = append(views, files.knownView(p))
	}
	if l.core.rememberBuild(views); out.Again {
		l.core.rememberBuild(nil) // the next change leads to a build, whatever it is
	}
	for p := range l.seen {
		if !have[p] {
			delete(l.seen, p)
			delete(l.fresh, p)
		}
	}
	for _, v := range views {
		if _, old := l.seen[v.Path]; !old {
			l.rememberView(now, v)
		}
	}
	l.fitWatches()
	l.pollFiles(now)
}

// pollFiles looks at the entry of every file. It finds what no event reports: changes on
// network folders and through mapped memory, and lost watches.
func (l *loop) pollFiles(now time.Time) {
	l.drainEvents()
	changed := false
	for _, p := range append([]string{l.Song}, l.paths...) {
		st := l.disk.Stamp(p)
		old, known := l.seen[p]
		if known && st.same(old) && !l.changedBehindEntry(now, p) {
			continue
		}
		l.seen[p] = st
		changed = true
		// The quiet began when the file was written, where its clock can be trusted.
		at := now
		if st.there && st.mod.Before(now) {
			at = laterOf(st.mod, now.Add(-l.core.waits.Quiet))
		}
		l.countUnannounced(now, at)
		l.core.noteChange(at, false)
	}
	// A replaced folder shows in its files; a folder that only lost its watch does not.
	if l.polls++; changed || l.polls%replant == 0 {
		l.fitWatches()
	}
}

// replant is after how many polls the watches are gone over without a reason.
const replant = 20

// changedBehindEntry reports whether a file's content has changed since the last look
// although its entry is the same: two saves can fall into one tick of the file system's
// clock. It compares with the last look and not with the last build, because an empty song
// is never built.
func (l *loop) changedBehindEntry(now time.Time, path string) bool {
	last, ok := l.fresh[path]
	if !ok || l.building != nil {
		return false
	}
	v := l.disk.View(path)
	if v.Kind == content && now.Sub(v.Mod).Abs() >= coarse {
		delete(l.fresh, path)
	}
	return v.Kind == content && !v.same(last)
}

// countUnannounced counts changes in a row that no event reported in time. After two it
// polls. A change that is still waiting may be the one that an event has reported.
func (l *loop) countUnannounced(now, at time.Time) {
	if l.core.pending || l.polling || l.note == nil || l.building != nil || now.Sub(at) < l.core.waits.Quiet ||
		l.heard.After(at) {
		return
	}
	if l.silent++; l.silent >= 2 {
		l.fallBackToPolling(errSilent)
	}
}
