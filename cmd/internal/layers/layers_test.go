// Package layers holds the rules about who may import whom, as a test.
package layers

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// order is the way the data flows; a package may import its own layer and the
// ones before it.
var order = []string{"songspec", "groove", "render", "cmd"}

// reserved names the packages that alone may import something.
var reserved = []struct {
	what string // import path prefix
	who  []string
	why  string
}{
	{"github.com/fsnotify/", []string{"cmd/internal/watch"}, "only the watcher hears the file system"},
	{"gitlab.com/gomidi/", []string{"render/midi"}, "only render/midi writes MIDI"},
	{"github.com/sinshu/", []string{"render/audio/soundfont"}, "only render/audio/soundfont renders SoundFonts"},
	{"github.com/mewkiz/", []string{"render/audio"}, "only render/audio writes FLAC"},
	{"net/http", []string{"cmd/internal/serve"}, "only the server of the page answers"},
	{"github.com/spf13/", []string{"cmd/plinth"}, "only the command line knows of flags"},
	{"github.com/hashicorp/hcl/",
		[]string{"songspec", "songspec/hcltext", "songspec/guide", "groove/library", "groove/load", "cmd"},
		"HCL stays at the two doors"},
	{"github.com/zclconf/", []string{"songspec", "groove/library"}, "HCL's values stay at the two doors"},
	{"plinth/groove/groovetest", nil, "it is for tests"},
	{"plinth/render/audio/soundfont/fonttest", nil, "it is for tests"},
	{"plinth/groove/songfiletest", nil, "it is for tests"},
	{"plinth/songspec/realsongs", []string{"cmd/internal/figures"}, "it is for tests"},
	{"plinth/songspec/hcltext/sliptest", nil, "it is for tests"},
}

// forTests are packages that only tests import: they may read files, and HCL.
var forTests = []string{"groove/groovetest", "groove/songfiletest", "songspec/hcltext/sliptest"}

// inner are the packages that say what a song is and what the band means and plays: they
// know of these of ours alone. No player knows another; the band, which is groove, knows all.
var inner = map[string][]string{
	"songspec/wording":  {},
	"songspec/hcltext":  {"songspec/wording"},
	"songspec/meter":    {"songspec/wording"},
	"songspec/harmony":  {"songspec/wording"},
	"songspec/timecode": {},
	"songspec/timeline": {"songspec/harmony", "songspec/meter", "songspec/timecode"},
	"songspec/cue":      {"songspec/harmony", "songspec/timeline"},

	"groove/nearsort": {},
	"groove/feel":     {"songspec/meter"},
	"groove/bassline": {"songspec/harmony"},
	"groove/voicing":  {"songspec/harmony"},
	"groove/library":  {"groove/feel", "songspec/hcltext", "songspec/meter", "songspec/wording"},
	"groove/load": {"groove/feel", "groove/library", "songspec", "songspec/guide", "songspec/hcltext",
		"songspec/timeline"},
	"groove/score": {"groove/feel", "groove/nearsort", "songspec/cue", "songspec/guide", "songspec/timeline"},
	"groove/plan":  {"groove/feel", "groove/score", "songspec/cue", "songspec/meter", "songspec/timeline"},
	"groove/touch": {"groove/feel", "groove/nearsort", "groove/plan", "groove/score",
		"songspec/meter", "songspec/timeline"},
	"groove/drummer": {"groove/feel", "groove/plan", "groove/score", "groove/touch",
		"songspec/cue", "songspec/meter", "songspec/timeline"},
	"groove/bassist": {"groove/bassline", "groove/feel", "groove/plan", "groove/score", "groove/touch",
		"songspec/cue", "songspec/harmony", "songspec/meter", "songspec/timeline"},
	"groove/pianist": {"groove/bassline", "groove/feel", "groove/nearsort", "groove/plan", "groove/score",
		"groove/touch", "groove/voicing", "songspec/cue", "songspec/guide", "songspec/harmony", "songspec/meter",
		"songspec/timeline"},
	"groove": {"groove/bassist", "groove/drummer", "groove/feel", "groove/pianist", "groove/plan", "groove/score",
		"groove/touch", "songspec/meter", "songspec/timeline"},
	"groove/audit": {"groove", "groove/bassist", "groove/feel", "groove/pianist", "groove/plan", "groove/touch",
		"groove/voicing", "songspec/cue", "songspec/meter", "songspec/timeline", "songspec/wording"},
	"groove/groovetest": {"groove/feel", "groove/plan", "groove/touch", "songspec/cue",
		"songspec/harmony", "songspec/meter", "songspec/timeline"},
	"groove/songfiletest": {"groove/feel", "groove/library", "groove/load", "songspec", "songspec/meter",
		"songspec/timeline"},
}

// outer are the standard packages that touch disk, clock or network: for cmd alone.
var outer = map[string]bool{"os": true, "os/exec": true, "net": true, "net/http": true, "time": true, "syscall": true}

func TestImports(t *testing.T) {
	root := filepath.Join("..", "..", "..")
	seen := 0
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && len(d.Name()) > 2 || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return nil
		}
		seen++
		rel, err := filepath.Rel(root, file)
		if err != nil {
			return err
		}
		pkg := path.Dir(filepath.ToSlash(rel))
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, imp := range f.Imports {
			name, _ := strconv.Unquote(imp.Path.Value)
			checkImport(t, rel, pkg, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if seen < 20 {
		t.Fatalf("only %d files were looked at: the walk starts in the wrong folder", seen)
	}
}

func layer(pkg string) int {
	top, _, _ := strings.Cut(pkg, "/")
	for i, name := range order {
		if top == name {
			return i
		}
	}
	return -1
}

func checkImport(t *testing.T, file, pkg, name string) {
	mine := layer(pkg)
	if mine < 0 {
		t.Errorf("%s: package %s is in no layer", file, pkg)
		return
	}
	if rest, ok := strings.CutPrefix(name, "plinth/"); ok && layer(rest) > mine {
		t.Errorf("%s imports %s, which lies after it: data flows %s", file, name, strings.Join(order, " -> "))
	}
	known, is := inner[pkg]
	if !is && order[mine] == "groove" {
		t.Errorf("%s: there is no rule for what package %s may import", file, pkg)
	}
	if is && strings.HasPrefix(name, "plinth/") && !slices.Contains(known, strings.TrimPrefix(name, "plinth/")) {
		t.Errorf("%s imports %s; %s knows of %s alone", file, name, pkg, strings.Join(known, ", "))
	}
	if slices.Contains(forTests, pkg) {
		return
	}
	if outer[name] && order[mine] != "cmd" {
		t.Errorf("%s imports %s: only cmd touches disk, clock and network", file, name)
	}
	for _, r := range reserved {
		if !strings.HasPrefix(name, r.what) {
			continue
		}
		allowed := false
		for _, w := range r.who {
			allowed = allowed || pkg == w || w == "cmd" && order[mine] == "cmd"
		}
		if !allowed {
			t.Errorf("%s imports %s: %s", file, name, r.why)
		}
	}
}
