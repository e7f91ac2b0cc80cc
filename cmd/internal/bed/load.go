package bed

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/cmd/internal/files"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// loader reads a song and what it names.
type loader struct {
	req Request
	res *Result
	dir string // the song's folder, absolute
	// held says that the caller holds the files, so that nothing is read from a disk
	// that may be elsewhere already.
	held bool

	own   map[string]*feel.Feel  // the song's own grooves by name
	fills map[string][]feel.Fill // the song's own fills by family

	broken bool // a groove file has a mistake or could not be read
}

func (l *loader) song(src []byte) {
	l.res.Sources[l.req.Song] = src
	file, diags := songspec.Parse(l.req.Song, src)
	l.add(diags)
	if file == nil {
		return
	}
	l.ownGrooves(file.GrooveFiles())
	tl, diags := file.Resolve(l.env())
	l.add(diags)
	vocal := l.vocal(file.VocalFile())
	if tl == nil || l.res.Diags.HasErrors() {
		return
	}
	l.res.Timeline, l.res.Feels = tl, l.set(tl)
	if vocal != nil {
		l.res.vocalAt = file.VocalFile().Range
		l.add(l.res.voice(guide.Apply(tl, vocal)))
	}
}

func (l *loader) add(diags hcl.Diagnostics) { l.res.Diags = append(l.res.Diags, diags...) }

func (l *loader) mistake(at hcl.Range, summary, detail string, args ...any) {
	l.say(hcl.DiagError, at, summary, detail, args...)
}

func (l *loader) say(severity hcl.DiagnosticSeverity, at hcl.Range, summary, detail string, args ...any) {
	l.add(hcl.Diagnostics{{Severity: severity, Summary: summary, Detail: fmt.Sprintf(detail, args...), Subject: &at}})
}

// open reads a file that the song names, if it lies in the song's folder with all
// links followed. A mistake is reported where the song names it; without, when it
// is not empty, says what happens if there is no such file, and makes that a
// warning.
func (l *loader) open(ref songspec.Ref, what, without string) ([]byte, bool) {
	severity := hcl.DiagError
	if without != "" {
		severity, without = hcl.DiagWarning, " "+without
	}
	path, err := files.Inside(l.dir, ref.Path)
	l.res.Read = append(l.res.Read, path)
	var src []byte
	// A caller that holds the files may still have one that a save is just about to
	// put back.
	if err == nil || l.held && errors.Is(err, fs.ErrNotExist) {
		src, err = l.req.ReadFile(path)
	}
	switch {
	case err == nil:
		return src, true
	case errors.Is(err, files.ErrOutside):
		l.mistake(ref.Range, "Not a file of the song's folder",
			"The path %q, or a link on its way, leads out of the song file's folder, and nothing outside is read. Put the file itself beside the song.", ref.Path)
	case errors.Is(err, fs.ErrNotExist):
		l.say(severity, ref.Range, "No "+what+" of that name",
			"There is no file %q in the song file's folder. Put it there, or write the name that it has.%s", ref.Path, without)
	default:
		l.say(severity, ref.Range, "A "+what+" that cannot be read", "%q cannot be read: %s.%s", ref.Path, files.Reason(err), without)
	}
	return nil, false
}

// ownGrooves reads the song's groove files. A groove or a family of fills of the
// song's own stands in for the built-in one of the same name, in this song; two
// of its own with one name are a mistake.
func (l *loader) ownGrooves(refs []songspec.Ref) {
	l.own, l.fills = map[string]*feel.Feel{}, map[string][]feel.Fill{}
	from := map[string]string{}
	family := map[string]string{}
	for _, ref := range refs {
		src, ok := l.open(ref, "groove file", "")
		if !ok {
			l.broken = true
			continue
		}
		name := filepath.Join(filepath.Dir(l.req.Song), filepath.FromSlash(ref.Path))
		if name == filepath.Clean(l.req.Song) {
			l.mistake(ref.Range, "The song is no groove file", "A groove stands in a file of its own; name that one here.")
			continue
		}
		if _, twice := l.res.Sources[name]; twice {
			l.mistake(ref.Range, "The same groove file twice", "%q stands in the list already.", ref.Path)
			continue
		}
		l.res.Sources[name] = src
		feels, fills, diags := library.Decode(name, src)
		l.add(diags)
		l.broken = l.broken || diags.HasErrors()
		for _, f := range feels {
			if first, twice := from[f.Name]; twice {
				l.mistake(ref.Range, "The same groove twice", "The groove %q is in %q and in %q. Give one of them another name.", f.Name, first, ref.Path)
				continue
			}
			from[f.Name], l.own[f.Name] = ref.Path, f
		}
		for _, f := range fills {
			if first, known := family[f.Family]; known && first != ref.Path {
				l.mistake(ref.Range, "The same fills twice", "The fills %q are in %q and in %q. Give one family another name.", f.Family, first, ref.Path)
				break
			}
			family[f.Family] = ref.Path
			l.fills[f.Family] = append(l.fills[f.Family], f)
		}
	}
}

// env is what songspec may know of grooves. Where a groove file could not be read
// it is nothing, and any feel's name is taken: the mistake is in that file, and
// not wherever the song names what is in it.
func (l *loader) env() songspec.Env {
	if l.broken {
		return songspec.Env{}
	}
	feels := map[string]songspec.FeelInfo{}
	for _, e := range library.Index() {
		feels[e.Name] = songspec.FeelInfo{Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	for name, f := range l.own {
		feels[name] = songspec.FeelInfo{Meters: f.Meters, TempoLow: f.TempoLow, TempoHigh: f.TempoHigh, File: f.File}
	}
	return songspec.Env{Feels: feels}
}

// set is the grooves that the song plays, and the fills of those grooves.
func (l *loader) set(tl *timeline.Timeline) *feel.Set {
	out := &feel.Set{Feels: map[string]*feel.Feel{}}
	var names, families []string
	for i := range tl.Passes {
		name := tl.Passes[i].Feel
		if f := l.own[name]; f != nil {
			out.Feels[name] = f
		} else {
			names = append(names, name)
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

// vocal reads the guide vocal; nil when there is none or it cannot be read.
func (l *loader) vocal(ref *songspec.Ref) []byte {
	if ref == nil {
		return nil
	}
	src, ok := l.open(*ref, "guide vocal", "The band plays as if no vocal were given.")
	if !ok {
		return nil
	}
	if src == nil {
		src = []byte{}
	}
	return src
}
