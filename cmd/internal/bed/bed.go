// Package bed is where the stages meet: a song file's name goes in, a band bed
// comes out as bytes in memory. Building, watching and the page all call the one
// Build; none of them, and nothing in here, writes.
package bed

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/hashicorp/hcl/v2"

	"plinth/cmd/internal/files"
	"plinth/groove"
	"plinth/groove/feel"
	"plinth/render/midi"
	"plinth/songspec/hcltext"
	"plinth/songspec/timeline"
)

// maxRead bounds what is read of any one file, in bytes. The song's own bound is
// far lower and songspec's to explain; a guide vocal's is this.
const maxRead = 8 << 20

// Request says what to build.
type Request struct {
	// Song is the song file's path as the user gave it: messages show it so.
	Song string
	// ReadFile reads a file whole, for a caller that holds the files already; its
	// errors are *fs.PathError and wrap fs.ErrNotExist where nothing is there. nil
	// reads the disk.
	ReadFile func(path string) ([]byte, error)
	// Cache, when not nil, keeps the passes of the last build that used it, so that
	// only those that changed are played again. The bytes are the same without it.
	Cache *groove.Cache
}

// Result is what came of a request. It is never nil, and what was reached before
// a failure is in it.
type Result struct {
	Name        string             // NAME: the song file's name without .song.hcl or .hcl
	Timeline    *timeline.Timeline // nil when the song has an error
	Feels       *feel.Set          // what the band plays from; nil without a Timeline
	Performance *groove.Performance
	Outputs     []files.Output

	// Read are the absolute paths of all files that were read or looked for in vain.
	Read []string
	// Diags are the mistakes and doubts of song and groove files, in order; their
	// texts are in Sources, by the names that the diagnostics carry.
	Diags   hcl.Diagnostics
	vocalAt hcl.Range // where the song names its guide vocal
	Sources map[string][]byte
}

// Failed says that the song or one of its files has an error, so that nothing was
// made.
func (r *Result) Failed() bool { return r.Diags.HasErrors() }

// SongError is why there is no song to read: the name leads nowhere, or to
// something that is no file, or the system would not.
type SongError struct {
	Path string
	Err  error
}

func (e *SongError) Error() string {
	return fmt.Sprintf("cannot read %s: %s", e.Path, files.Reason(e.Err))
}

// Unwrap is the system's error.
func (e *SongError) Unwrap() error { return e.Err }

// Misnamed says that the user named something that is no file, rather than that
// the machine failed.
func (e *SongError) Misnamed() bool {
	return errors.Is(e.Err, fs.ErrNotExist) || errors.Is(e.Err, files.ErrNotFile)
}

// Build reads a song, performs it and renders it to memory. Mistakes in the song
// are in the result's Diags and are no error; the error is a *SongError, or one of
// the MIDI writer when a song that reads well does not fit into a file.
func Build(req Request) (*Result, error) {
	res, err := Load(req)
	if err != nil || res.Timeline == nil {
		return res, err
	}
	if req.Cache != nil {
		res.Performance = req.Cache.Perform(res.Timeline, res.Feels)
	} else {
		res.Performance = groove.Perform(res.Timeline, res.Feels)
	}
	data, err := midi.Write(res.Timeline, res.Performance)
	if err != nil {
		return res, err
	}
	res.Outputs = append(res.Outputs, files.Output{Name: res.Name + ".mid", Data: data})
	return res, nil
}

// Load reads and resolves a song and goes no further. The error is a *SongError.
func Load(req Request) (*Result, error) {
	res := &Result{Name: Name(req.Song), Sources: map[string][]byte{}}
	l := loader{req: req, res: res, held: req.ReadFile != nil}
	if !l.held {
		l.req.ReadFile = func(path string) ([]byte, error) { return files.Read(path, maxRead) }
	}
	song, err := filepath.Abs(req.Song)
	if err != nil {
		return res, &SongError{req.Song, err}
	}
	l.dir = filepath.Dir(song)
	res.Read = append(res.Read, song)
	src, err := l.req.ReadFile(song)
	if err != nil {
		return res, &SongError{req.Song, err}
	}
	l.song(src)
	hcltext.SortDiagnostics(res.Diags)
	if res.Diags.HasErrors() {
		res.Timeline, res.Feels = nil, nil
	}
	return res, nil
}

// Name is what a song's outputs are called: its file name less .song.hcl or .hcl.
func Name(song string) string {
	base := filepath.Base(song)
	for _, end := range []string{".song.hcl", ".hcl"} {
		if len(base) > len(end) && strings.EqualFold(base[len(base)-len(end):], end) {
			return base[:len(base)-len(end)]
		}
	}
	return base
}
