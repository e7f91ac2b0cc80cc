package watch

import (
	"errors"
	"io/fs"
	"path/filepath"
	"sync"
	"time"
)

// Snapshot holds the files as they were when a save was complete. A build that reads from
// it alone cannot mix two saves.
type Snapshot struct {
	disk disk
	born time.Time
	mu   sync.Mutex
	seen map[string]view
	used map[string]bool // what the build asked for
}

// newSnapshot returns a snapshot with the views that led to the build.
func newSnapshot(d disk, views []view) *Snapshot {
	s := &Snapshot{disk: d, born: time.Now(), seen: make(map[string]view, len(views)), used: map[string]bool{}}
	for _, v := range views {
		s.seen[v.Path] = v
	}
	return s
}

// ReadFile returns the content of a file in this snapshot; the bytes must not be changed.
// A file that the watcher did not know is read from the disk at the first call and then
// belongs to the snapshot. Errors are *fs.PathError and wrap fs.ErrNotExist,
// files.ErrNotFile, ErrTooLarge or the error of the system.
func (s *Snapshot) ReadFile(path string) ([]byte, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	v := s.viewOf(abs)
	switch err = v.Err; v.Kind {
	case content:
		return v.Data, nil
	case unstable:
		err = errUnstable
	}
	if inner, ok := err.(*fs.PathError); ok {
		err = inner.Err
	}
	return nil, &fs.PathError{Op: "read", Path: path, Err: err}
}

var errUnstable = errors.New("it is being written all the time")

// viewOf is the file at an absolute path. A file that changes while it is read is tried
// again for a fifth of a second.
func (s *Snapshot) viewOf(abs string) view {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.used[abs] = true
	if v, ok := s.seen[abs]; ok {
		return v
	}
	v := s.disk.View(abs)
	for try := 0; v.Kind == unstable && try < 20; try++ {
		time.Sleep(10 * time.Millisecond)
		v = s.disk.View(abs)
	}
	s.seen[abs] = v
	return v
}

// knownView is what the build knows of a file. Of a file that it named but did not read,
// that is only how its entry looked before the build. Where nobody looked, a file that may
// be younger than the build counts as missed.
func (s *Snapshot) knownView(abs string) view {
	s.mu.Lock()
	defer s.mu.Unlock()
	v, ok := s.seen[abs]
	if ok && s.used[abs] {
		return v
	}
	if !ok {
		v.Stamp = s.disk.Stamp(abs)
		if v.Stamp.mod.After(s.born.Add(-coarse)) {
			v.Stamp = stamp{}
		}
	}
	return view{Path: abs, Kind: unread, Stamp: v.Stamp, Mod: v.Stamp.mod}
}
