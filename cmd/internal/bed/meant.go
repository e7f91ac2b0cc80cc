package bed

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"plinth/cmd/internal/files"
	"plinth/songspec/wording"
)

// SongError is why there is no song to read: the name leads nowhere, or to
// something that is no file, or the system would not.
type SongError struct {
	Path string
	Err  error
}

func (e *SongError) Error() string {
	text := fmt.Sprintf("cannot read %s: %s", e.Path, files.Reason(e.Err))
	if e.Misnamed() {
		text += IsIt(e.Path)
	}
	return text
}

// Unwrap is the system's error.
func (e *SongError) Unwrap() error { return e.Err }

// Misnamed says that the user named something that is no file, rather than that
// the machine failed.
func (e *SongError) Misnamed() bool {
	return errors.Is(e.Err, fs.ErrNotExist) || errors.Is(e.Err, files.ErrNotFile)
}

// IsIt asks for the song file that a path is meant for which leads to none: `; is it "dawn.song.hcl"?`.
// It is "" where there is none.
func IsIt(path string) string {
	if song, _ := Meant(path); song != "" {
		return `; is it "` + song + `"?`
	}
	return ""
}

// Meant is the song file that a path is meant for which leads to none: one of the same folder whose
// name is near. same says that they differ in the ending and in capitals alone. It is "" where there
// is none.
func Meant(path string) (song string, same bool) {
	dir, _ := filepath.Split(path)
	beside, err := os.ReadDir(filepath.Clean(dir))
	if err != nil {
		return "", false
	}
	var paths, names []string
	for _, f := range beside {
		file := strings.ToLower(f.Name())
		if f.IsDir() || filepath.Ext(file) != ".hcl" || strings.HasSuffix(file, ".groove.hcl") {
			continue
		}
		paths, names = append(paths, dir+f.Name()), append(names, Name(f.Name()))
	}
	near := wording.Nearest(Name(path), names)
	if near == "" {
		return "", false
	}
	return paths[slices.Index(names, near)], strings.EqualFold(near, Name(path))
}
