package files

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// WriteAll writes outputs into a folder, which it makes where it is missing, and returns
// the names of those that it wrote. A file that has its bytes already is left as it is.
func WriteAll(dir string, outputs []Output) (written []string, err error) {
	return realSystem.writeAll(dir, outputs)
}

func (s system) writeAll(dir string, outputs []Output) (written []string, err error) {
	set, err := s.begin(dir)
	if err != nil {
		return nil, err
	}
	defer set.Close()
	for _, o := range outputs {
		if err := set.Add(o); err != nil {
			return nil, err
		}
	}
	return set.Commit()
}

// Set is files that are replaced together. Everything is written under temporary names and
// renamed last: a reader sees each file old or new and never half, and an error while writing
// (a full disk) leaves every file as it was. New files can stand beside old ones only when a rename
// fails after another has succeeded, which takes a file held open on Windows. Nothing is synced to
// the disk, because it can be built again.
type Set struct {
	system system
	dir    string

	mu      sync.Mutex
	closed  bool
	temps   []string // all temporary names that were given
	todo    []pending
	folders []string // that files go to
	made    []string // of these, those that were not there before
	gone    []string // paths of files that are to go
}

// pending is a file that is written and not yet in its place.
type pending struct{ temp, final, name string }

// Begin begins a set in a folder, which it makes where it is missing. Whoever begins one
// closes it.
func Begin(dir string) (*Set, error) { return realSystem.begin(dir) }

func (s system) begin(dir string) (*Set, error) {
	set := &Set{system: s, dir: dir}
	set.system.create = func(dir, pattern string) (file, error) {
		set.mu.Lock()
		defer set.mu.Unlock()
		if set.closed {
			return nil, fs.ErrClosed
		}
		f, err := s.create(dir, pattern)
		if err == nil {
			set.temps = append(set.temps, f.Name())
		}
		return f, err
	}
	return set, set.folder(dir)
}

// Add adds a file of the given bytes. The name may have folders, with slashes.
func (s *Set) Add(o Output) error { return s.add(o.Name, whole(o.Data)) }

// Stream adds a file that write writes. Several may be written at once.
func (s *Set) Stream(name string, write func(io.WriteSeeker) error) error {
	return s.add(name, content{stream: write})
}

// Drop has a file removed when the set is in its place. It need not be there.
func (s *Set) Drop(name string) {
	s.gone = append(s.gone, filepath.Join(s.dir, filepath.FromSlash(name)))
}

func (s *Set) add(name string, c content) error {
	path := filepath.Join(s.dir, filepath.FromSlash(name))
	if err := s.folder(filepath.Dir(path)); err != nil {
		return err
	}
	temp, final, err := s.system.writeBeside(path, c, false)
	if err != nil || temp == "" {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.todo = append(s.todo, pending{temp, final, name})
	return nil
}

// folder makes a folder of the set, or takes away what a killed run left in it.
func (s *Set) folder(dir string) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if slices.Contains(s.folders, dir) {
		return nil
	}
	_, missing := os.Stat(dir)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("cannot make the folder %s: %s", dir, Reason(err))
	}
	s.folders = append(s.folders, dir)
	if missing != nil {
		s.made = append(s.made, dir)
	}
	removeStale(dir)
	return nil
}

// Commit puts all files of the set in their places and returns the names of those that were
// written: not of those that had their content already.
func (s *Set) Commit() (written []string, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for len(s.todo) > 0 {
		p := s.todo[0]
		if err := s.system.replace(p.temp, p.final); err != nil {
			return written, err
		}
		written = append(written, p.name)
		s.todo = s.todo[1:]
	}
	for _, path := range s.gone {
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return written, fmt.Errorf("cannot remove the old %s: %s", path, Reason(err))
		}
	}
	return written, nil
}

// Close takes back what is not in its place, also while files are still being written, and has nothing more
// come. It waits for a Commit that has begun.
func (s *Set) Close() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	for _, temp := range s.temps {
		os.Remove(temp) // where it was not renamed
	}
	for _, dir := range slices.Backward(s.made) {
		os.Remove(dir) // where nothing came into it
	}
}

// content is what a file is to hold: bytes, or what is written to it.
type content struct {
	data   []byte // not nil: all of it
	stream func(io.WriteSeeker) error
}

// whole is content that is there already.
func whole(data []byte) content {
	if data == nil {
		data = []byte{}
	}
	return content{data: data}
}

func (c content) write(f file) error {
	if c.data == nil {
		return c.stream(f)
	}
	_, err := f.Write(c.data)
	return err
}

// isThere reports whether a file has the content already.
func (c content) isThere(path string) bool {
	was, err := os.ReadFile(path)
	return err == nil && bytes.Equal(was, c.data)
}

// sameFiles reports whether two files have the same content. What cannot be read has not.
func sameFiles(a, b string) bool {
	f, err := os.Open(a)
	if err != nil {
		return false
	}
	defer f.Close()
	g, err := os.Open(b)
	if err != nil {
		return false
	}
	defer g.Close()
	fi, err := f.Stat()
	gi, err2 := g.Stat()
	if err != nil || err2 != nil || fi.Size() != gi.Size() {
		return false
	}
	x, y := bufio.NewReaderSize(f, 1<<16), bufio.NewReaderSize(g, 1<<16)
	for {
		p, err := x.Peek(1 << 16)
		q, err2 := y.Peek(1 << 16)
		if !bytes.Equal(p, q) || err != nil && err != io.EOF || err2 != nil && err2 != io.EOF {
			return false
		}
		if len(p) == 0 {
			return true
		}
		x.Discard(len(p))
		y.Discard(len(q))
	}
}
