// Package files takes paths and returns bytes, or takes bytes and writes them: it is how
// plinth touches the disk. It reads nothing outside the song's folder, and it replaces a
// file whole or not at all.
package files

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// ErrNotFile is the error for a name under which there is no regular file but a folder, a
// pipe or a device.
var ErrNotFile = errors.New("it is not a regular file")

// ErrOutside is the error for a path that leads out of its folder.
var ErrOutside = errors.New("it leads out of the folder")

// Read returns the content of a regular file, up to limit bytes and one more, so that the
// caller sees when it is too long. It never waits on a pipe. Errors are *fs.PathError and
// wrap ErrNotFile or the error of the system.
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
	out := bytes.NewBuffer(make([]byte, 0, min(info.Size(), limit)+bytes.MinRead))
	_, err = out.ReadFrom(io.LimitReader(f, limit+1))
	return out.Bytes(), err
}

// ReadPipe is Read for a file or a named pipe, such as the one that a shell makes of
// <(COMMAND). It waits for the pipe's end.
func ReadPipe(path string, limit int64) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil || info.Mode().Type() != fs.ModeNamedPipe {
		return Read(path, limit)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, limit+1))
}

// Inside returns the path of a file in a folder; rel has slashes. ErrOutside means that
// the path, or a link on its way, leads out of the folder; other errors are those of the
// system, such as fs.ErrNotExist. The path is returned even with an error, so that the
// caller can wait for the file.
func Inside(dir, rel string) (string, error) {
	local := filepath.FromSlash(rel)
	path := filepath.Join(dir, local)
	if !filepath.IsLocal(local) {
		return path, ErrOutside
	}
	var real [2]string
	for i, name := range []string{dir, path} {
		name, err := filepath.EvalSymlinks(name)
		if err == nil {
			real[i], err = filepath.Abs(name)
		}
		if err != nil {
			return path, err
		}
	}
	if way, err := filepath.Rel(real[0], real[1]); err != nil || !filepath.IsLocal(way) {
		return path, ErrOutside
	}
	return path, nil
}

// Reason is an error in words that follow a name and a colon: the system's text without
// the path.
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
