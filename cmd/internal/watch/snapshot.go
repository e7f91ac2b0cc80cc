package watch

import (
	"io/fs"
	"path/filepath"
	"sync"
	"time"
)

// Snapshot is what a build reads from: the files as they were when the save was
// found to be whole. A build that reads from nothing else cannot mix two saves.
type Snapshot struct {
	disk disk
	born time.Time
	mu   sync.Mutex
	seen map[string]view
	used map[string]bool // what the build asked for
}

// newSnapshot holds the views that the build was decided on.
func newSnapshot(d disk, views []view) *Snapshot {
	s := &Snapshot{disk: d, born: time.Now(), seen: make(map[string]view, len(views)), used: map[string]bool{}}
	for _, v := range views {
		s.seen[v.Path] = v
	}
	return s
}

// ReadFile is the file's content in this snapshot. A file that the watcher did
// not know of is read from the disk the first time it is asked for, and then
// belongs to the snapshot. Errors are *fs.PathError and wrap fs.ErrNotExist,
// files.ErrNotFile, ErrTooLarge or what the system said. The bytes must not be changed.
func (s *Snapshot) ReadFile(path string) ([]byte, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	v := s.viewOf(abs)
	switch v.Kind {
	case content:
		return v.Data, nil
	case unstable:
		return nil, &fs.PathError{Op: "read", Path: path, Err: errUnstable}
	}
	err = v.Err
	if inner, ok := err.(*fs.PathError); ok {
		err = inner.Err
	}
	return nil, &fs.PathError{Op: "read", Path: path, Err: err}
}

var errUnstable = unstableError{}

type unstableError struct{}

func (unstableError) Error() string { return "it is being written all the time" }

// viewOf is the file at an absolute path. One that changes while it is being read
// is tried again for a fifth of a second.
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

// knownView is what the build knownView of a file. Of one that it has named but not
// read, because it did not find it or would not have it, that is no more than how
// its entry looked before the build; where nobody has looked, a file that may be
// younger than the build counts as one that it has missed.
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
