// Package compare reads songs by themselves, without the files that they name,
// and says what changed from one to the other: what `plinth diff` does, and what
// git needs of us. A song out of a version that is long gone has no folder, so
// its grooves are known by name alone.
package compare

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"github.com/hashicorp/hcl/v2"

	"plinth/cmd/internal/files"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// maxRead is one byte more than a song may have, several times over: songspec
// explains its own bound.
const maxRead = 2 << 20

// Song is a song file by itself.
type Song struct {
	Name     string // as messages show it
	Source   []byte
	Timeline *timeline.Timeline // nil when the song has an error
	Diags    hcl.Diagnostics
}

// Read reads a song file, or in for the name "-". An error says that there is
// nothing to read; mistakes in the song are in its Diags.
func Read(name string, in io.Reader) (*Song, error) {
	if name == "-" {
		src, err := io.ReadAll(io.LimitReader(in, maxRead))
		if err != nil {
			return nil, fmt.Errorf("cannot read the standard input: %s", files.Reason(err))
		}
		return Parse("standard input", src), nil
	}
	src, err := files.Read(name, maxRead)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %s", name, files.Reason(err))
	}
	return Parse(name, src), nil
}

// Parse resolves a song's text.
func Parse(name string, src []byte) *Song {
	s := &Song{Name: name, Source: src}
	file, diags := songspec.Parse(name, src)
	s.Diags = diags
	if file == nil {
		return s
	}
	tl, diags := file.Resolve(env(file))
	s.Diags = append(s.Diags, diags...)
	hcltext.SortDiagnostics(s.Diags)
	if !s.Diags.HasErrors() {
		s.Timeline = tl
	}
	return s
}

// env knows the built-in feels; where a song has grooves of its own, any name may
// be one of them.
func env(file *songspec.File) songspec.Env {
	if len(file.GrooveFiles()) > 0 {
		return songspec.Env{}
	}
	feels := map[string]songspec.FeelInfo{}
	for _, e := range library.Index() {
		feels[e.Name] = songspec.FeelInfo{Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	return songspec.Env{Feels: feels}
}

// WriteMistakes writes what is wrong with a song. Doubts are left out: they are
// for the one who edits it.
func (s *Song) WriteMistakes(w io.Writer, o hcltext.DiagOptions) error {
	var errs hcl.Diagnostics
	for _, d := range s.Diags {
		if d.Severity == hcl.DiagError {
			errs = append(errs, d)
		}
	}
	if len(errs) == 0 {
		return nil
	}
	return hcltext.WriteDiagnostics(w, map[string][]byte{s.Name: s.Source}, errs, o)
}

// WriteJSON writes changes as one JSON object.
func WriteJSON(w io.Writer, changes []outline.Change) error {
	if changes == nil {
		changes = []outline.Change{} // an empty list is [] in JSON
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(struct {
		Same    bool             `json:"same"`
		Changes []outline.Change `json:"changes"`
	}{len(changes) == 0, changes})
}

// Outline writes a song as outline.Write does, for git to compare line by
// line; a song with a mistake as the text that it is, since the comparison must go on.
func (s *Song) Outline(w io.Writer) error {
	if s.Timeline == nil {
		_, err := w.Write(s.Source)
		return err
	}
	out := bufio.NewWriter(w)
	if err := outline.Write(out, s.Timeline); err != nil {
		return err
	}
	return out.Flush()
}
