package groove_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/timeline"
)

// The tests of this package that begin with a song file's text use these helpers.

// feelsOf is what songspec may know of the grooves: the library's, and a song's own.
func feelsOf(own []*feel.Feel) songspec.Env {
	env := songspec.Env{Feels: map[string]songspec.FeelInfo{}}
	for _, e := range library.Index() {
		env.Feels[e.Name] = songspec.FeelInfo{Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
	}
	for _, f := range own {
		env.Feels[f.Name] = songspec.FeelInfo{Meters: f.Meters, TempoLow: f.TempoLow, TempoHigh: f.TempoHigh}
	}
	return env
}

// resolve reads a song file's text, with the library's grooves. Warnings pass.
func resolve(src string) (*timeline.Timeline, hcl.Diagnostics) {
	file, diags := songspec.Parse("t.song.hcl", []byte(src))
	if file == nil {
		return nil, diags
	}
	tl, more := file.Resolve(feelsOf(nil))
	return tl, append(diags, more...)
}

// songOf resolves a text that has no mistake.
func songOf(t testing.TB, src string) *timeline.Timeline {
	t.Helper()
	tl, diags := resolve(src)
	if diags.HasErrors() || tl == nil {
		t.Fatalf("%v\n%s", diags, src)
	}
	return tl
}

// example reads a song of the examples with the grooves that it brings.
func example(t testing.TB, path string) (src string, tl *timeline.Timeline, set *feel.Set) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	tl, set = exampleText(t, path, string(data))
	return string(data), tl, set
}

// exampleText is example for a text that stands in for the file.
func exampleText(t testing.TB, path, src string) (*timeline.Timeline, *feel.Set) {
	t.Helper()
	file, diags := songspec.Parse(path, []byte(src))
	if diags.HasErrors() {
		t.Fatalf("%v\n%s", diags, src)
	}
	set := &feel.Set{Feels: map[string]*feel.Feel{}}
	for name, f := range library.Builtin().Feels {
		set.Feels[name] = f
	}
	set.Fills = append(set.Fills, library.Builtin().Fills...)
	var own []*feel.Feel
	for _, ref := range file.GrooveFiles() {
		name := filepath.Join(filepath.Dir(path), filepath.FromSlash(ref.Path))
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		feels, fills, diags := library.Decode(name, data)
		if diags.HasErrors() {
			t.Fatal(diags)
		}
		for _, f := range feels {
			set.Feels[f.Name] = f
			own = append(own, f)
		}
		set.Fills = append(set.Fills, fills...)
	}
	tl, diags := file.Resolve(feelsOf(own))
	if diags.HasErrors() {
		t.Fatalf("%v\n%s", diags, src)
	}
	return tl, set
}

func examples(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../examples/*.song.hcl")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples (%v)", len(files), err)
	}
	return files
}

// again gives a resolved song another take and looseness, as its file might.
func again(tl *timeline.Timeline, take, looseness int) {
	tl.Take, tl.Looseness = take, looseness
	timeline.VaryFills(tl.Passes, take)
}

// findingsOf are the findings of a performance as text, at most some of them.
func findingsOf(r *groove.AuditReport, most int) string {
	var b strings.Builder
	for i, f := range r.Findings {
		if i == most {
			b.WriteString("…\n")
			break
		}
		p := r.Passes[f.Pass]
		b.WriteString(f.Severity.String() + " " + f.Rule + " (" + f.Player.String() + "), " + p.String()[:strings.Index(p.String(), ":")] +
			", bar of the song " + itoa(f.SongBar) + ": " + f.Text + "\n")
	}
	return b.String()
}

// resolves reports whether a text that stands in for an example has no mistake.
func resolves(path, src string) bool {
	file, diags := songspec.Parse(path, []byte(src))
	if diags.HasErrors() {
		return false
	}
	var own []*feel.Feel
	for _, ref := range file.GrooveFiles() {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(path), filepath.FromSlash(ref.Path)))
		if err != nil {
			return false
		}
		feels, _, _ := library.Decode(ref.Path, data)
		own = append(own, feels...)
	}
	_, diags = file.Resolve(feelsOf(own))
	return !diags.HasErrors()
}
