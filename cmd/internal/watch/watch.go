// Package watch takes a file and a build, and calls the build again after every save. The
// build says which other files it read, and those are watched too. The package knows
// nothing of songs. It is the only one that imports fsnotify.
//
// The files, from the inside out: core.go decides and touches nothing; disk.go reads;
// tree.go says which folders to watch; loop.go joins clock, events, disk and core;
// watch.go is what the commands see.
package watch

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"syscall"
	"time"
)

// Outcome is what a build reports.
type Outcome struct {
	// Read are the paths (absolute, or relative to the working folder) that the build
	// read or did not find, also when it failed. They are watched from then on.
	Read []string
	// Again asks for a build at the next save even if no file has changed, because this
	// one failed for a reason outside the files, such as a full disk.
	Again bool
}

// Options say what to watch and how. Zero durations stand for the defaults.
type Options struct {
	// Song is the file that must be there for a build.
	Song string
	// Build is called with the files as they were when a save was complete, and reads
	// them from nowhere else. Two never run at once. It runs beside the watcher, so
	// that a save during a build leads to one more.
	Build func(ctx context.Context, files *Snapshot) Outcome
	// Tell is called with notices, never while Build runs.
	Tell func(Notice)

	// Poll uses no events: the files are looked at every PollEvery.
	Poll bool
	// PollEvery is how often files are looked at with Poll, and where the system sends no
	// events: 250 ms, at least 10 ms.
	PollEvery time.Duration
	// Quiet is how long nothing may happen before a save counts as done. 75 ms.
	Quiet time.Duration
}

// The defaults of Options, the largest file that is read, in bytes, and how often the files
// are looked at beside the events.
const (
	defaultQuiet     = 75 * time.Millisecond
	defaultPollEvery = 250 * time.Millisecond
	defaultLimit     = 8 << 20
	safetyPoll       = 500 * time.Millisecond
)

// NoticeKind is the sort of a Notice.
type NoticeKind uint8

const (
	// Polling: from now on the files are looked at, because no events come.
	Polling NoticeKind = iota
	// Missing: the song is gone, and not only for a moment.
	Missing
	// Blank: the song holds nothing but white space, and not only for a moment.
	Blank
	// Back: the song is there again, unchanged since the last build.
	Back
)

// Notice is something that the user should know and that is no build.
type Notice struct {
	Kind  NoticeKind
	Path  string        // the song
	Every time.Duration // Polling: how often
	Err   error         // Polling: why; nil when asked for
	Kept  bool          // Missing, Blank: what a good build has written is still there
}

// String is the notice as one sentence.
func (n Notice) String() string {
	name := filepath.Base(n.Path)
	switch n.Kind {
	case Polling:
		if n.Err == nil {
			return fmt.Sprintf("looking at the files every %v", n.Every)
		}
		return fmt.Sprintf("falling back to looking at the files every %v: %s", n.Every, reason(n.Err))
	case Missing:
		return name + " is not there; " + n.kept() + ", waiting for it"
	case Blank:
		return name + " is empty; " + n.kept()
	case Back:
		return name + " is back, unchanged"
	}
	return ""
}

func (n Notice) kept() string {
	if n.Kept {
		return "keeping the last good output"
	}
	return "nothing to play yet"
}

// errSilent is why the watcher polls after changes that no event reported.
var errSilent = errors.New("the system sends no word of changes in this folder, as network and shared folders do not")

// reason is an error in words. It explains those of the system that mislead, such as a
// full disk for a full table of watches.
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

// Run builds at once and again after every save, until ctx is done. Then it waits for a
// running build and returns nil. An error means that watching could not begin.
func Run(ctx context.Context, o Options) error {
	song, err := filepath.Abs(o.Song)
	if err != nil {
		return err
	}
	o.Song = song
	if o.Quiet <= 0 {
		o.Quiet = defaultQuiet
	}
	if o.PollEvery <= 0 {
		o.PollEvery = defaultPollEvery
	}
	o.PollEvery = max(o.PollEvery, 10*time.Millisecond)
	l := newLoop(o, realDisk{defaultLimit}, newFsnotify)
	return l.run(ctx)
}
