// Package compare takes the text of songs, without the files that they name, and returns
// them resolved, to be compared by `plinth diff` or by git. A song of an older version has
// no folder, so any name of a groove is taken, and borrowed sections are told by their names.
package compare

import (
	"fmt"
	"io"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/groove/load"
	"plinth/songspec"
	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// maxRead is how many bytes are read of a song. The limit of songspec is far lower and has
// its own message.
const maxRead = 2 << 20

// Song is a song file without the files that it names.
type Song struct {
	Name     string // as messages show it
	Source   []byte
	Timeline *timeline.Timeline // nil when the song has an error
	Diags    hcl.Diagnostics
}

// Read reads a song file or a pipe, or in for the name "-". An error means that there is nothing to
// read; mistakes in the song are in its Diags.
func Read(name string, in io.Reader) (*Song, error) {
	if name == "-" {
		src, err := io.ReadAll(io.LimitReader(in, maxRead))
		if err != nil {
			return nil, fmt.Errorf("cannot read the standard input: %s", files.Reason(err))
		}
		return Parse("standard input", src), nil
	}
	src, err := files.ReadPipe(name, maxRead)
	if err != nil {
		return nil, &bed.SongError{Path: name, Err: err}
	}
	return Parse(name, src), nil
}

// Parse resolves the text of a song.
func Parse(name string, src []byte) *Song {
	s := &Song{Name: name, Source: src}
	file, diags := songspec.Parse(name, src)
	s.Diags = diags
	if file == nil {
		return s
	}
	s.Diags = append(s.Diags, file.LendUnread()...)
	env := load.BuiltinEnv()
	if len(file.GrooveFiles())+len(file.SectionFiles()) > 0 {
		env = songspec.Env{} // any name may stand in those
	}
	tl, diags := file.Resolve(env)
	s.Diags = append(s.Diags, diags...)
	hcltext.SortDiagnostics(s.Diags)
	if !s.Diags.HasErrors() {
		s.Timeline = tl
	}
	return s
}

// WriteMistakes writes the errors of a song. Doubts are left out: they are for the one who
// edits it.
func (s *Song) WriteMistakes(w io.Writer, o hcltext.DiagOptions) error {
	errs := slices.DeleteFunc(slices.Clone(s.Diags),
		func(d *hcl.Diagnostic) bool { return d.Severity != hcl.DiagError })
	return hcltext.WriteDiagnostics(w, map[string][]byte{s.Name: s.Source}, errs, o)
}

// Outline writes a song as outline.Write does, for git to compare by lines. A song with a
// mistake is written as its own text, because git has to go on.
func (s *Song) Outline(w io.Writer) error {
	if s.Timeline == nil {
		_, err := w.Write(s.Source)
		return err
	}
	return outline.Write(w, s.Timeline)
}
