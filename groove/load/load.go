// Package load reads a song and the files that it names, which are groove files of its own
// and a guide vocal. In go the text of a song file and the folder that it lies in; out come
// the timeline, the grooves that the band plays it from, and the mistakes and doubts, each
// with its place in the text. The built-in grooves need no file.
package load

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/guide"
	"plinth/songspec/hcltext"
	"plinth/songspec/timeline"
)

// ErrOutside is the error for a path that leads out of the song's folder, itself or by a link.
var ErrOutside = errors.New("outside the folder")

// Song is a song that was read.
type Song struct {
	Timeline *timeline.Timeline // nil when there is an error among Diags
	Feels    *feel.Set          // the grooves that the band plays it from; nil without a Timeline
	// Diags are the mistakes and doubts of song and groove files, sorted by place; their
	// texts are in Sources, by the names that the diagnostics carry.
	Diags   hcl.Diagnostics
	Remarks hcl.Diagnostics // warnings that nobody needs at every build
	Sources map[string][]byte
	vocalAt []hcl.Range // where the song names its guide vocals
	untimed func() *timeline.Timeline
}

// Untimed is, for a song in which nothing is wrong but a time that the tempo cannot keep (at), the
// song in which that time can be looked up; nil for any other. See songspec.Env.
func (s *Song) Untimed() *timeline.Timeline {
	if s.untimed == nil {
		return nil
	}
	return s.untimed()
}

// Read reads a song: its text, and the files that it names from the folder that it lies in.
// Messages call the song file by name, and groove files by their place beside it. Read asks
// the folder for slash-separated paths that do not begin with "../". The folder may refuse a
// path with ErrOutside, and reports a missing file with fs.ErrNotExist. os.DirFS makes such a
// folder; the FS of an os.Root follows no links out of it.
func Read(name string, text []byte, folder fs.FS) *Song {
	return ReadWith(name, text, folder, songspec.Override{})
}

// ReadWith is Read with values in place of those that the song states.
func ReadWith(name string, text []byte, folder fs.FS, o songspec.Override) *Song {
	l := &loader{
		Song: &Song{Sources: map[string][]byte{name: text}}, name: name, folder: folder, override: o,
		own: map[string]*feel.Feel{}, fills: map[string][]feel.Fill{},
	}
	l.read(text)
	hcltext.SortDiagnostics(l.Diags)
	if l.Diags.HasErrors() {
		l.Timeline, l.Feels = nil, nil
	}
	return l.Song
}

// loader reads a song and the files that it names.
type loader struct {
	*Song
	name   string
	folder fs.FS

	own   map[string]*feel.Feel  // the song's own grooves by name
	fills map[string][]feel.Fill // the song's own fills by family

	override songspec.Override
	broken   bool // a groove file has a mistake or could not be read
}

func (l *loader) read(text []byte) {
	file, diags := songspec.Parse(l.name, text)
	l.add(diags)
	if file == nil {
		return
	}
	l.Remarks = file.Remarks()
	l.lend(file)
	l.ownGrooves(file.GrooveFiles())
	env := l.feelInfos()
	env.Override = l.override
	vocals := l.vocals(file)
	if leader, ok := file.Leader(); ok {
		env.Guide = vocals[leader]
	}
	sound := !l.Diags.HasErrors()
	tl, diags := file.Resolve(env)
	l.add(diags)
	if tl == nil && sound {
		l.untimed = func() *timeline.Timeline {
			env.Untimed = true
			tl, _ := file.Resolve(env)
			return tl
		}
	}
	if tl == nil || l.Diags.HasErrors() {
		return
	}
	l.Timeline, l.Feels = tl, l.set(tl)
	for i, f := range vocals {
		if f != nil {
			l.add(l.atVocal(i, guide.Place(tl, i, f)))
		}
	}
	l.joinSingers()
}

func (l *loader) add(diags hcl.Diagnostics) { l.Diags = append(l.Diags, diags...) }

func (l *loader) mistake(at hcl.Range, summary, detail string, args ...any) {
	l.say(hcl.DiagError, at, summary, detail, args...)
}

func (l *loader) say(severity hcl.DiagnosticSeverity, at hcl.Range, summary, detail string, args ...any) {
	l.add(hcl.Diagnostics{{Severity: severity, Summary: summary, Detail: fmt.Sprintf(detail, args...), Subject: &at}})
}

// open reads a file that the song names. A mistake is reported at the place that names the
// file. If without is not empty, a missing file is only a warning, and without says what
// happens then.
func (l *loader) open(ref songspec.Ref, what, without string) ([]byte, bool) {
	src, err := fs.ReadFile(l.folder, ref.Path)
	var path *fs.PathError
	switch {
	case err == nil:
		return src, true
	case errors.Is(err, ErrOutside):
		l.mistake(ref.Range, "Not a file of the song's folder",
			"The path %q, or a link on its way, leads out of the song file's folder, and nothing outside is read."+
				" Put the file itself beside the song.", ref.Path)
	case errors.Is(err, fs.ErrNotExist):
		l.unusable(ref, "No "+what+" of that name", without,
			"There is no file %q in the song file's folder. Put it there, or write the name that it has.", ref.Path)
	default:
		if errors.As(err, &path) {
			err = path.Err // the message has the path already
		}
		l.unusable(ref, "A "+what+" that cannot be read", without, "%q cannot be read: %s.", ref.Path, err)
	}
	return nil, false
}

// unusable reports a file of no use: a mistake, or only a warning where without says what happens
// then.
func (l *loader) unusable(ref songspec.Ref, summary, without, detail string, args ...any) {
	severity := hcl.DiagError
	if without != "" {
		severity, detail = hcl.DiagWarning, detail+" "+without
	}
	l.say(severity, ref.Range, summary, detail, args...)
}

// lend reads the song files that lend their sections, and gives the sections to the song. Of
// what a lender says wrong, only mistakes are told: its doubts are its own affair.
func (l *loader) lend(file *songspec.File) {
	var lent []songspec.Lent
	for _, ref := range file.SectionFiles() {
		of := songspec.Lent{Ref: ref}
		name := l.beside(ref)
		switch _, twice := l.Sources[name]; {
		case name == filepath.Clean(l.name):
			l.mistake(ref.Range, "A song that lends to itself",
				"Its own sections are there already: name another song.")
		case twice:
			l.mistake(ref.Range, "The same song file twice", "%q stands in the list already.", ref.Path)
		default:
			if src, ok := l.open(ref, "song file", ""); ok {
				l.Sources[name] = src
				var diags hcl.Diagnostics
				of.File, diags = songspec.Parse(name, src)
				l.add(slices.DeleteFunc(diags, func(d *hcl.Diagnostic) bool { return d.Severity != hcl.DiagError }))
			}
		}
		lent = append(lent, of)
	}
	l.add(file.Lend(lent))
}

// beside is the name of a file that the song names, as messages call it.
func (l *loader) beside(ref songspec.Ref) string {
	return filepath.Join(filepath.Dir(l.name), filepath.FromSlash(ref.Path))
}

// ownGrooves reads the song's groove files. In this song, a groove or a family of fills from
// them replaces the built-in one of the same name. Two in the files with one name are a
// mistake.
func (l *loader) ownGrooves(refs []songspec.Ref) {
	from := map[string]string{}
	family := map[string]string{}
	for _, ref := range refs {
		src, ok := l.open(ref, "groove file", "")
		if !ok {
			l.broken = true
			continue
		}
		name := l.beside(ref)
		if name == filepath.Clean(l.name) {
			l.mistake(ref.Range, "The song is no groove file",
				"A groove stands in a file of its own; name that one here.")
			continue
		}
		if _, twice := l.Sources[name]; twice {
			l.mistake(ref.Range, "The same groove file twice", "%q stands in the list already.", ref.Path)
			continue
		}
		l.Sources[name] = src
		feels, fills, diags := library.Decode(name, src)
		l.add(diags)
		l.broken = l.broken || diags.HasErrors()
		for _, f := range feels {
			if first, twice := from[f.Name]; twice {
				l.mistake(ref.Range, "The same groove twice",
					"The groove %q is in %q and in %q. Give one of them another name.", f.Name, first, ref.Path)
				continue
			}
			from[f.Name], l.own[f.Name] = ref.Path, f
		}
		for _, f := range fills {
			if first, known := family[f.Family]; known && first != ref.Path {
				l.mistake(ref.Range, "The same fills twice",
					"The fills %q are in %q and in %q. Give one family another name.", f.Family, first, ref.Path)
				break
			}
			family[f.Family] = ref.Path
			l.fills[f.Family] = append(l.fills[f.Family], f)
		}
	}
}

// feelInfos is what songspec has to know of the grooves. It is empty where a groove file could
// not be read, and then songspec accepts any feel's name: the mistake is in that file, and not
// where the song names a groove from it.
func (l *loader) feelInfos() songspec.Env {
	if l.broken {
		return songspec.Env{}
	}
	env := BuiltinEnv()
	for name, f := range l.own {
		env.Feels[name] = songspec.FeelInfo{Meters: f.Meters, TempoLow: f.TempoLow, TempoHigh: f.TempoHigh,
			File: f.File}
	}
	return env
}

// BuiltinEnv is what songspec has to know of the built-in grooves.
func BuiltinEnv() songspec.Env {
	feels := map[string]songspec.FeelInfo{}
	for _, e := range library.Index() {
		feels[e.Name] = songspec.FeelInfo{Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	return songspec.Env{Feels: feels}
}

// set returns the grooves that the song plays, and the fills of those grooves.
func (l *loader) set(tl *timeline.Timeline) *feel.Set {
	out := &feel.Set{Feels: map[string]*feel.Feel{}}
	var names, families []string
	for i := range tl.Passes {
		for _, name := range tl.Passes[i].Feels() {
			if f := l.own[name]; f != nil {
				out.Feels[name] = f
			} else {
				names = append(names, name)
			}
		}
	}
	for name, f := range library.Load(names...).Feels {
		out.Feels[name] = f
	}
	for _, name := range slices.Sorted(maps.Keys(out.Feels)) {
		family := out.Feels[name].Fills
		if slices.Contains(families, family) {
			continue
		}
		families = append(families, family)
		if own, ok := l.fills[family]; ok {
			out.Fills = append(out.Fills, own...)
		} else {
			out.Fills = append(out.Fills, library.LoadFills(family)...)
		}
	}
	return out
}

// vocals reads the guide vocals, each file once; what cannot be read is nil. That is a mistake where
// the band follows the guide, and else a doubt.
func (l *loader) vocals(file *songspec.File) []*guide.File {
	refs := file.VocalFiles()
	leader, follows := file.Leader()
	read := map[string]*guide.File{}
	if follows { // before others, who may have the same file
		read[refs[leader].Path] = l.vocal(refs[leader], "")
	}
	out := make([]*guide.File, len(refs))
	for i, ref := range refs {
		l.vocalAt = append(l.vocalAt, ref.Range)
		if _, known := read[ref.Path]; !known {
			read[ref.Path] = l.vocal(ref, "The band plays as if no vocal were given.")
		}
		out[i] = read[ref.Path]
	}
	return out
}

// vocal reads a guide vocal, nil where it cannot. without is as open has it.
func (l *loader) vocal(ref songspec.Ref, without string) *guide.File {
	src, ok := l.open(ref, "guide vocal", without)
	if !ok {
		return nil
	}
	f, err := guide.Read(src)
	if err != nil {
		l.unusable(ref, "Unreadable guide vocal", without, "%s: %s.", ref.Path, err)
		return nil
	}
	return f
}
