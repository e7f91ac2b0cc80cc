package watch

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"plinth/cmd/internal/files"
)

// ErrTooLarge is wrapped by the error for a file over the limit.
var ErrTooLarge = errors.New("it is too large")

// stamp is what the entry of a file shows, with links followed. The zero stamp is that of
// a name that leads nowhere.
type stamp struct {
	there bool
	size  int64
	mod   time.Time
	mode  fs.FileMode
	info  fs.FileInfo // which file it is; nil where that cannot be told
}

// same reports whether two looks at an entry show no change.
func (s stamp) same(t stamp) bool {
	return s.there == t.there && s.size == t.size && s.mod.Equal(t.mod) && s.mode == t.mode && s.sameFile(t)
}

// sameFile reports whether both are the same file or folder, whatever its content.
func (s stamp) sameFile(t stamp) bool {
	if s.info == nil || t.info == nil {
		return s.there == t.there
	}
	return os.SameFile(s.info, t.info)
}

// disk is the file system; the tests have their own.
type disk interface {
	// Stamp follows links. A name that leads nowhere has an empty stamp.
	Stamp(path string) stamp
	// View reads a file whole, or says why not. It never blocks on a pipe.
	View(path string) view
	// Trail lists what decides where a path leads: the path, every link on the way
	// and the end of it, each as real folder and name in it. It is not whole when
	// it ends before the file, at a folder that is missing.
	Trail(path string) (names []string, whole bool)
}

// realDisk is the file system of the machine.
type realDisk struct{ limit int64 }

func (d realDisk) Stamp(path string) stamp {
	info, err := os.Stat(path)
	if err != nil {
		return stamp{}
	}
	return stamp{true, info.Size(), info.ModTime(), info.Mode(), info}
}

// View opens the file, reads all and closes it at once. On Windows an editor's save fails,
// and leaves the file empty, while another program has it open.
func (d realDisk) View(path string) view {
	v := view{Path: path, Stamp: d.Stamp(path)}
	v.Mod = v.Stamp.mod
	data, err := files.Read(path, d.limit)
	switch size := v.Stamp.size; {
	case err != nil:
		return v.unreadable(err)
	case !v.Stamp.same(d.Stamp(path)):
		v.Kind = unstable
	case size > d.limit:
		return v.unreadable(fmt.Errorf("%w: %d bytes, and at most %d are read", ErrTooLarge, size, d.limit))
	case int64(len(data)) != size:
		v.Kind = unstable
	default:
		v.Data = data
	}
	return v
}

// unreadable is the view of a file that could not be read.
func (v view) unreadable(err error) view {
	v.Kind, v.Err = refused, err
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR) {
		v.Kind, v.Stamp, v.Mod = missing, stamp{}, time.Time{}
	}
	return v
}

// maxLinks is how many links are followed before they count as a ring.
const maxLinks = 40

func (d realDisk) Trail(path string) (trail []string, whole bool) {
	add := func(p string) {
		if dir, err := filepath.EvalSymlinks(filepath.Dir(p)); err == nil {
			p = filepath.Join(dir, filepath.Base(p))
		}
		trail = append(trail, p)
	}
	add(path)
	vol := filepath.VolumeName(path)
	root := vol + string(filepath.Separator)
	at, rest := root, pathNames(path[len(vol):])
	for links := 0; len(rest) > 0; {
		name := rest[0]
		rest = rest[1:]
		if name == ".." {
			at = filepath.Dir(at)
			continue
		}
		next := filepath.Join(at, name)
		info, err := os.Lstat(next)
		if err != nil {
			add(next)
			return trail, len(rest) == 0
		}
		if info.Mode()&fs.ModeSymlink == 0 {
			at = next
			continue
		}
		add(next)
		target, err := os.Readlink(next)
		if links++; err != nil || links > maxLinks {
			return trail, false
		}
		if filepath.IsAbs(target) {
			vol = filepath.VolumeName(target)
			at, target = vol+string(filepath.Separator), target[len(vol):]
		}
		rest = append(pathNames(target), rest...)
	}
	add(at)
	return trail, true
}

// pathNames are the names in a path, without empty ones and dots.
func pathNames(path string) []string {
	var names []string
	for _, n := range strings.FieldsFunc(path, func(r rune) bool { return r < 0x80 && os.IsPathSeparator(uint8(r)) }) {
		if n != "." {
			names = append(names, n)
		}
	}
	return names
}
