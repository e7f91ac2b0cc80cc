// Package songfiletest reads songs for tests that begin with a song file: in goes a text or
// an example, out come the timeline and the grooves that play it.
package songfiletest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2"

	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/songspec"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Resolve reads a song file's text, with the library's grooves. Warnings pass.
func Resolve(src string) (*timeline.Timeline, hcl.Diagnostics) {
	file, diags := songspec.Parse("t.song.hcl", []byte(src))
	if file == nil {
		return nil, diags
	}
	tl, more := file.Resolve(feelsOf(nil))
	return tl, append(diags, more...)
}

// Song resolves a text that has no mistake.
func Song(t testing.TB, src string) *timeline.Timeline {
	t.Helper()
	tl, diags := Resolve(src)
	if diags.HasErrors() || tl == nil {
		t.Fatalf("%v\n%s", diags, src)
	}
	return tl
}

// Examples are the paths of the examples in a folder.
func Examples(t testing.TB, folder string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.song.hcl"))
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples (%v)", len(files), err)
	}
	return files
}

// Example reads a song of the examples with the grooves that it brings.
func Example(t testing.TB, path string) (src string, tl *timeline.Timeline, set *feel.Set) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	tl, set, err = ExampleText(path, string(data))
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	return string(data), tl, set
}

// ExampleText is Example for a text that stands in for the file.
func ExampleText(path, src string) (*timeline.Timeline, *feel.Set, error) {
	file, diags := songspec.Parse(path, []byte(src))
	if diags.HasErrors() {
		return nil, nil, diags
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
			return nil, nil, err
		}
		feels, fills, diags := library.Decode(name, data)
		if diags.HasErrors() {
			return nil, nil, diags
		}
		for _, f := range feels {
			set.Feels[f.Name] = f
			own = append(own, f)
		}
		set.Fills = append(set.Fills, fills...)
	}
	tl, diags := file.Resolve(feelsOf(own))
	if diags.HasErrors() {
		return nil, nil, diags
	}
	return tl, set, nil
}

// feelsOf is what songspec may know of the grooves: the library's, and a song's own.
func feelsOf(own []*feel.Feel) songspec.Env {
	env := load.BuiltinEnv()
	for _, f := range own {
		env.Feels[f.Name] = songspec.FeelInfo{Meters: f.Meters, TempoLow: f.TempoLow, TempoHigh: f.TempoHigh}
	}
	return env
}

// Again gives a resolved song another take and looseness, as its file might.
func Again(tl *timeline.Timeline, take, looseness int) {
	tl.Take, tl.Looseness = take, looseness
	timeline.VaryFills(tl.Passes, tl.Title, take)
}

// OfFeel is the text of a song that plays one feel at every energy: a plain section, and
// one with every event that can be crowded, in the feel's own meter.
func OfFeel(f *feel.Feel, bpm int) string {
	m := meter.Common
	if len(f.Meters) > 0 {
		m = f.Meters[0]
	}
	last := m.Num // the last count
	var b strings.Builder
	fmt.Fprintf(&b, "title = \"Weir Street Proof\"\nkey = \"C major\"\nmeter = %q\ntempo = %d\nfeel = %q\n", m, bpm,
		f.Name)
	b.WriteString(`
section "verse" {
  chords = "| C | G/B | Am7 | F | C/E | Dm7 | G7sus4 | G7 |"
}

section "turn" {
  chords = "| Fmaj7 | E7#9 | Am7 | Abmaj7 | C/G | A7alt | Dm9 | G13 |"
`)
	fmt.Fprintf(&b, "  push \"2: %d\" {}\n", last)
	b.WriteString("  accent \"4: 1\" { weight = 3 }\n  accent \"5: 1 2\" { by = [\"drums\", \"piano\"] }\n")
	fmt.Fprintf(&b, "  stop \"6: %d\" {}\n", last)
	b.WriteString("  fill \"8: 1\" {}\n}\n\nform {\n")
	for _, section := range []string{"verse", "turn"} {
		for energy := 1; energy <= 5; energy++ {
			fmt.Fprintf(&b, "  play %q { energy = %d }\n", section, energy)
		}
	}
	b.WriteString("}\n")
	return b.String()
}
