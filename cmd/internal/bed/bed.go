// Package bed is where the stages meet: a song file's name goes in, a band bed
// comes out as bytes in memory. Building, watching and the page all call the one
// Build; none of them, and nothing in here, writes.
package bed

import (
	"path/filepath"
	"strings"

	"plinth/cmd/internal/files"
	"plinth/groove"
	"plinth/groove/load"
	"plinth/render/midi"
	"plinth/songspec"
)

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
	// Override has values in place of the song's.
	Override songspec.Override
	// Only, when not empty, is a section or one of its passes, such as "chorus (2)": the
	// outputs have nothing else. See Result.Parts.
	Only string
}

// Result is what came of a request. It is never nil, and what was reached before
// a failure is in it.
type Result struct {
	*load.Song         // the song; empty where its file could not be read
	Name        string // NAME: the song file's name without .song.hcl or .hcl
	Performance *groove.Performance
	Outputs     []files.Output

	part string // with Request.Only: what it is called in the name of the file

	// Read are the absolute paths of all files that were read or looked for in vain.
	Read []string
}

// Failed says that the song or one of its files has an error, so that nothing was
// made.
func (r *Result) Failed() bool { return r.Diags.HasErrors() }

// Build reads a song, performs it and renders it to memory. Mistakes in the song
// are in the result's Diags and are no error; the error is a *SongError, a
// *NotPlayedError, or one of the MIDI writer when a song that reads well does not fit
// into a file.
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
	if req.Only != "" {
		if err := res.cutTo(req.Only); err != nil {
			return res, err
		}
	}
	data, err := midi.Write(res.Timeline, res.Performance)
	if err != nil {
		return res, err
	}
	res.Outputs = append(res.Outputs, files.Output{Name: res.outputName(req.Song), Data: data})
	return res, nil
}

// Load reads and resolves a song and goes no further. The error is a *SongError.
func Load(req Request) (*Result, error) {
	res := &Result{Name: Name(req.Song), Song: &load.Song{}}
	song, err := filepath.Abs(req.Song)
	if err != nil {
		return res, &SongError{req.Song, err}
	}
	folder := &songFolder{dir: filepath.Dir(song), callerRead: req.ReadFile, read: []string{song}}
	src, err := folder.readFile(song)
	if err == nil {
		res.Song = load.ReadWith(req.Song, src, folder, req.Override)
	}
	res.Read = folder.read
	if err != nil {
		return res, &SongError{req.Song, err}
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
