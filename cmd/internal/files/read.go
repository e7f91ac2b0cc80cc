// Package files is how plinth touches the disk: it reads what a song names and
// nothing outside the song's folder, and it replaces what it makes whole or not
// at all.
package files

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// ErrNotFile is the error for a name that is there and is no regular file: a
// folder, a pipe, a device.
var ErrNotFile = errors.New("it is not a regular file")

// ErrOutside is the error for a path that leads out of its folder.
var ErrOutside = errors.New("it leads out of the folder")

// Read reads a regular file, at most limit bytes of it and one more, so that
// whoever bounds the content sees that it is over. It never waits on a pipe.
// Errors are *fs.PathError and wrap ErrNotFile or what the system said.
func Read(path string, limit int64) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "read", Path: path, Err: ErrNotFile}
	}
	// Not blocking, in case a pipe has taken the file's place since.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "read", Path: path, Err: ErrNotFile}
	}
	return io.ReadAll(io.LimitReader(f, limit+1))
}

// Inside is where a slash-separated path of a folder lies. ErrOutside says that
// the path, or a link on its way, leads out of the folder; any other error is the
// system's, fs.ErrNotExist among them. The path is returned even then, for whoever
// waits until it is there.
func Inside(dir, rel string) (string, error) {
	local := filepath.FromSlash(rel)
	path := filepath.Join(dir, local)
	if !filepath.IsLocal(local) {
		return path, ErrOutside
	}
	root, err := filepath.EvalSymlinks(dir)
	if err != nil {
		return path, err
	}
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return path, err
	}
	if root, err = filepath.Abs(root); err != nil {
		return path, err
	}
	if real, err = filepath.Abs(real); err != nil {
		return path, err
	}
	if way, err := filepath.Rel(root, real); err != nil || !filepath.IsLocal(way) {
		return path, ErrOutside
	}
	return path, nil
}

// Reason is an error in words that follow a name and a colon: the system's own
// text without the path, which the sentence has already.
func Reason(err error) string {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "this account may not"
	case errors.As(err, &path):
		return path.Err.Error()
	case errors.As(err, &link):
		return link.Err.Error()
	}
	return strings.TrimSpace(fmt.Sprint(err))
}
