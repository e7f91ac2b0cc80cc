// Package watch notices saves. It knows nothing of songs: it is given a file
// and a build, finds out from the build which other files count, and calls it
// again when one of them says something new. It is the only package that
// imports fsnotify.
//
// The files, from the inside out: core.go decides, and touches nothing;
// disk.go reads; tree.go says which folders to watch; loop.go brings clock,
// events, disk and core together; watch.go is what the commands see.
package watch

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"syscall"
	"time"
)

// Outcome is what a build says about itself.
type Outcome struct {
	// Read are the paths, absolute or relative to the working folder, that the
	// build read or looked for in vain, also when it failed. They are watched from then on.
	Read []string
	// Again asks for a build at the next save even when nothing is new: this one
	// failed for a reason that lies outside the files, such as a full disk.
	Again bool
}

// Options say what to watch and how. Zero durations stand for the defaults.
type Options struct {
	// Song is the file that must be there for a build.
	Song string
	// Build is called with the files as they were when a save was found to be
	// whole, and reads them from nowhere else. Never two at once. It runs beside the
	// watcher, so that a save during a build is not lost: it leads to one more.
	Build func(ctx context.Context, files *Snapshot) Outcome
	// Tell is called with what the watcher has to say; never beside Build.
	Tell func(Notice)

	// Poll turns the system's events off; the files are looked at every PollEvery.
	Poll bool
	// PollEvery is how often files are looked at where no events come: with Poll,
	// and where the system has none to give. 250 ms; at least 10 ms.
	PollEvery time.Duration
	// Quiet is how long nothing may happen before a save counts as done. 75 ms.
	Quiet time.Duration
	// Limit is the largest file that is read, in bytes. 8 MiB.
	Limit int64
}

// The defaults of Options, and how often the files are looked at beside the events.
const (
	DefaultQuiet     = 75 * time.Millisecond
	DefaultPollEvery = 250 * time.Millisecond
	DefaultLimit     = 8 << 20
	safetyPoll       = 500 * time.Millisecond
)

// NoticeKind is the sort of a Notice.
type NoticeKind uint8

const (
	// Polling: no events are to be had; from now on the files are looked at.
	Polling NoticeKind = iota
	// Missing: the song is gone, and not for a moment.
	Missing
	// Blank: the song holds nothing but blanks, and not for a moment.
	Blank
	// Back: the song is there again, just as the last build had it.
	Back
)

// Notice is something a user should know that is no build.
type Notice struct {
	Kind  NoticeKind
	Path  string        // the song
	Every time.Duration // Polling: how often
	Err   error         // Polling: why; nil when asked for
}

// String is the notice as one plain sentence.
func (n Notice) String() string {
	name := filepath.Base(n.Path)
	switch n.Kind {
	case Polling:
		if n.Err == nil {
			return fmt.Sprintf("looking at the files every %v", n.Every)
		}
		return fmt.Sprintf("falling back to looking at the files every %v: %s", n.Every, reason(n.Err))
	case Missing:
		return name + " is not there; keeping the last good output and waiting for it"
	case Blank:
		return name + " is empty; keeping the last good output"
	case Back:
		return name + " is back, unchanged"
	}
	return ""
}

// errSilent is why the watcher polls after changes that no event announced.
var errSilent = errors.New("the system sends no word of changes in this folder, as network and shared folders do not")

// reason adds what to do about an error whose own words lead astray: the system
// calls a full table of watches a full disk.
func reason(err error) string {
	switch {
	case errors.Is(err, syscall.EMFILE):
		return fmt.Sprintf("%v (too many watchers run at once; on Linux fs.inotify.max_user_instances raises that)",
			err)
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Sprintf("%v (not the disk: too many folders are watched; on Linux fs.inotify.max_user_watches "+
			"raises that)", err)
	}
	return err.Error()
}

// Run builds, and builds again after every save, until ctx is done. Then it
// waits for a running build and returns nil. An error means that watching could not begin.
func Run(ctx context.Context, o Options) error {
	song, err := filepath.Abs(o.Song)
	if err != nil {
		return err
	}
	o.Song = song
	if o.Tell == nil {
		o.Tell = func(Notice) {}
	}
	if o.Quiet <= 0 {
		o.Quiet = DefaultQuiet
	}
	if o.PollEvery <= 0 {
		o.PollEvery = DefaultPollEvery
	}
	o.PollEvery = max(o.PollEvery, 10*time.Millisecond)
	if o.Limit <= 0 {
		o.Limit = DefaultLimit
	}
	l := newLoop(o, realDisk{o.Limit}, newFsnotify)
	return l.run(ctx)
}
