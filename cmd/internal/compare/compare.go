// Package compare takes the text of songs, without the files that they name, and returns
// them resolved, to be compared by `plinth diff` or by git. A song of an older version has
// no folder, so any name of a groove is taken. Borrowed sections are read from the folder of the file,
// and told by their names where there is none.
package compare

import (
	"embed"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
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

// Song is a song file without the files that it names, but for the sections that it borrows.
type Song struct {
	Name     string             // as messages show it
	Timeline *timeline.Timeline // nil when the song has an error
	Diags    hcl.Diagnostics
	Sources  map[string][]byte // the texts of the song and of those that lend to it, by their names
	Unread   bool              // it borrows sections that could not be read
}

// Read reads a song file or a pipe, or in for the name "-". An error means that there is nothing to
// read; mistakes in the song are in its Diags.
func Read(name string, in io.Reader) (*Song, error) {
	if name == "-" {
		src, err := io.ReadAll(io.LimitReader(in, maxRead))
		if err != nil {
			return nil, fmt.Errorf("cannot read the standard input: %s", files.Reason(err))
		}
		return parse("standard input", src, nowhere), nil
	}
	src, err := readText(name)
	if err != nil {
		return nil, err
	}
	return parse(name, src, bed.Folder(name)), nil
}

// readText reads a song file or a pipe and no more.
func readText(name string) ([]byte, error) {
	src, err := files.ReadPipe(name, maxRead)
	if err != nil {
		return nil, &bed.SongError{Path: name, Err: err}
	}
	return src, nil
}

// nowhere is the folder of a song that comes without one: there is no file in it.
var nowhere embed.FS

// parse resolves the text of a song. In the folder are the song files that lend it their sections.
func parse(name string, src []byte, folder fs.FS) *Song {
	s := &Song{Name: name, Sources: map[string][]byte{name: src}}
	file, diags := songspec.Parse(name, src)
	s.Diags = diags
	if file == nil {
		return s
	}
	lent := s.lend(file, folder)
	s.Diags = append(s.Diags, lent...)
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

// lend gives a song the sections that it borrows. Where one of the files cannot be read, all are told by
// their names.
func (s *Song) lend(file *songspec.File, folder fs.FS) hcl.Diagnostics {
	var lent []songspec.Lent
	for _, ref := range file.SectionFiles() {
		of := songspec.Lent{Ref: ref}
		src, err := fs.ReadFile(folder, ref.Path)
		if err == nil {
			name := filepath.Join(filepath.Dir(s.Name), filepath.FromSlash(ref.Path))
			var diags hcl.Diagnostics
			of.File, diags = songspec.Parse(name, src)
			s.Sources[name] = src
			s.Diags = append(s.Diags, diags...)
		}
		if of.File == nil {
			s.Unread = true
			return file.LendUnread()
		}
		lent = append(lent, of)
	}
	return file.Lend(lent)
}

// WriteMistakes writes the errors of a song. Doubts are left out: they are for the one who
// edits it.
func (s *Song) WriteMistakes(w io.Writer, o hcltext.DiagOptions) error {
	errs := slices.DeleteFunc(slices.Clone(s.Diags),
		func(d *hcl.Diagnostic) bool { return d.Severity != hcl.DiagError })
	return hcltext.WriteDiagnostics(w, s.Sources, errs, o)
}

// Outline writes a song as outline.Write does, for git to compare by lines. A song with a
// mistake is written as its own text, because git has to go on.
func (s *Song) Outline(w io.Writer) error {
	if s.Timeline == nil {
		_, err := w.Write(s.Sources[s.Name])
		return err
	}
	return outline.Write(w, s.Timeline)
}
