package files

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"time"
)

// Output is a file to write: its base name and its content.
type Output struct {
	Name string
	Data []byte
}

// tempMark stands in the name of every temporary file of plinth; no other file is ever
// removed. After staleAfter such a file can belong to no running build: a long song's stems take minutes.
const (
	tempMark   = ".plinth-tmp-"
	staleAfter = time.Hour
)

// system is what WriteAll does to a disk; the tests have one that fails.
type system struct {
	create func(dir, pattern string) (file, error)
	rename func(from, to string) error
}

type file interface {
	Name() string
	io.WriteSeeker
	Chmod(fs.FileMode) error
	Chown(uid, gid int) error
	Sync() error
	Close() error
}

var realSystem = system{
	create: func(dir, pattern string) (file, error) { return createTemp(dir, pattern) },
	rename: rename,
}

// Rewrite replaces one file that its user wrote. It follows a link, keeps the permissions
// and, where this account may give it away, the owner, and syncs the new text to the disk
// before the old one goes. It reports whether the bytes differed.
func Rewrite(path string, data []byte) (changed bool, err error) {
	temp, final, err := realSystem.writeBeside(path, whole(data), true)
	if err != nil || temp == "" {
		return false, err
	}
	if err := realSystem.replace(temp, final); err != nil {
		os.Remove(temp)
		return false, err
	}
	return true, nil
}

// replace puts a temporary file in place of the final one.
func (s system) replace(temp, final string) error {
	if err := s.rename(temp, final); err != nil {
		return fmt.Errorf("cannot put the new %s in place of the old one: %s", final, Reason(err))
	}
	return nil
}

// Create writes a new file. Where one is there already, the error wraps fs.ErrExist. A
// file that could not be written whole is removed again.
func Create(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(path)
	}
	return err
}

// ErrReadOnly is the error for a file that its owner has made read-only. It could be
// replaced where its folder may be written, but somebody wanted it to stay as it is.
var ErrReadOnly = errors.New("it is read-only")

// writeBeside writes the new content of a file under a temporary name in its folder. It
// returns that name, which is empty where the file has the content already, and the real name
// behind a link.
func (s system) writeBeside(path string, c content, sync bool) (temp, final string, err error) {
	old, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		final, err = linkTarget(path)
	case err != nil:
	case old.IsDir():
		err = errors.New("a folder of that name is there")
	case !old.Mode().IsRegular():
		err = ErrNotFile
	default:
		if final, err = filepath.EvalSymlinks(path); err != nil {
			break
		}
		if c.data != nil && c.isThere(final) {
			return "", final, nil
		}
		if old.Mode().Perm()&0o222 == 0 {
			err = ErrReadOnly
		}
	}
	if err != nil {
		return "", "", fmt.Errorf("cannot write %s: %s", path, Reason(err))
	}
	temp, err = s.writeTemp(final, c, old, sync)
	if err == nil && c.data == nil && old != nil && sameFiles(temp, final) {
		os.Remove(temp)
		temp = ""
	}
	return temp, final, err
}

// linkTarget is where a link to a missing file leads, so that the file comes there and the
// link stays. A name that is no link is its own target.
func linkTarget(path string) (string, error) {
	for range 40 {
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil // no link, or nothing at all
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		if _, err := os.Stat(filepath.Dir(to)); err != nil {
			return "", fmt.Errorf("it is a link into the folder %s, which is not there", filepath.Dir(to))
		}
		path = to
	}
	return "", errors.New("it is a link to itself")
}

// longestPrefix is how many bytes of a file's name its temporary name repeats, so that the
// temporary name is never too long for a folder.
const longestPrefix = 100

// writeTemp writes a temporary file in the folder of its final name, with the permissions,
// the owner and the group of the old file where there is one.
func (s system) writeTemp(final string, c content, old fs.FileInfo, sync bool) (string, error) {
	base := filepath.Base(final)
	base = strings.ToValidUTF8(base[:min(len(base), longestPrefix)], "")
	f, err := s.create(filepath.Dir(final), "."+base+tempMark)
	if err != nil {
		return "", fmt.Errorf("cannot write in the folder %s: %s", filepath.Dir(final), Reason(err))
	}
	err = c.write(f)
	if err == nil && old != nil && runtime.GOOS != "windows" {
		keepOwner(f, old)
		// Some file systems (memory sticks and cards) have no permissions and refuse to set
		// even those that they show.
		if info, e := os.Stat(f.Name()); e != nil || info.Mode().Perm() != old.Mode().Perm() {
			err = f.Chmod(old.Mode().Perm())
		}
	}
	if err == nil && sync {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(f.Name())
		return "", fmt.Errorf("cannot write %s: %s", final, Reason(err))
	}
	return f.Name(), nil
}

// createTemp makes a file with a new name that everybody may read who may read new files;
// os.CreateTemp would keep it to its owner.
func createTemp(dir, prefix string) (*os.File, error) {
	for try := 0; ; try++ {
		name := filepath.Join(dir, fmt.Sprintf("%s%d-%d", prefix, os.Getpid(), try))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) || try == 1000 {
			return f, err
		}
	}
}

// removeStale removes what an earlier run left when it was killed. Errors do not matter:
// the names are never used again.
func removeStale(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") || !strings.Contains(e.Name(), tempMark) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > staleAfter {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// rename is os.Rename. On Windows it tries again for a while, because a file that another
// program has open for a moment (a virus scanner, a player) cannot be replaced.
func rename(from, to string) error {
	err := os.Rename(from, to)
	for try := 0; err != nil && runtime.GOOS == "windows" && isInUse(err) && try < 10; try++ {
		time.Sleep(time.Duration(10<<min(try, 4)) * time.Millisecond)
		err = os.Rename(from, to)
	}
	return err
}

// isInUse recognizes Windows' access denied (5) and sharing violation (32).
func isInUse(err error) bool {
	var code syscall.Errno
	return errors.As(err, &code) && (code == 5 || code == 32)
}
