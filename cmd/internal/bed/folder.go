package bed

import (
	"errors"
	"io/fs"
	"path/filepath"

	"plinth/cmd/internal/files"
	"plinth/groove/load"
)

// maxRead bounds what is read of any one file, in bytes. The song's own bound is
// far lower and songspec's to explain; a guide vocal's is this.
const maxRead = 8 << 20

// songFolder is the folder that a song lies in, as an fs.FS: files in it can be read, with
// all links followed, and nothing outside.
type songFolder struct {
	dir string
	// callerRead reads a file for a caller that has read the files already, so that nothing is
	// read from a disk that may have moved on; nil reads the disk.
	callerRead func(path string) ([]byte, error)
	read       []string // what was read or looked for in vain; absolute where dir is
}

// Folder is the folder that a song lies in, for reading the files that it names.
func Folder(song string) fs.FS { return &songFolder{dir: filepath.Dir(song)} }

func (f *songFolder) readFile(path string) ([]byte, error) {
	if f.callerRead != nil {
		return f.callerRead(path)
	}
	return files.Read(path, maxRead)
}

// ReadFile reads a file of the folder.
func (f *songFolder) ReadFile(name string) ([]byte, error) {
	path, err := files.Inside(f.dir, name)
	f.read = append(f.read, path)
	switch {
	case err == nil, f.callerRead != nil && errors.Is(err, fs.ErrNotExist):
		// A caller that holds the files may still have one that a save is just about to
		// put back.
	case errors.Is(err, files.ErrOutside):
		return nil, load.ErrOutside
	default:
		return nil, reworded(err)
	}
	src, err := f.readFile(path)
	return src, reworded(err)
}

// reworded is an error whose text is the reason alone, in our words.
func reworded(err error) error {
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return errors.New(files.Reason(err))
}

// Open makes it an fs.FS. Files are read whole, by ReadFile.
func (f *songFolder) Open(string) (fs.File, error) { return nil, errors.ErrUnsupported }
