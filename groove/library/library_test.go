package library

import (
	"io/fs"
	"reflect"
	"strings"
	"testing"
)

// TestIndexAgainstFiles: the index kept by hand says what the files say, and
// there is a file for each entry and no other.
func TestIndexAgainstFiles(t *testing.T) {
	found, err := fs.Glob(files, "grooves/*.hcl")
	if err != nil || len(found) != len(entries) {
		t.Errorf("%d groove files and %d entries (%v)", len(found), len(entries), err)
	}
	for _, e := range Index() {
		f := Load(e.Name).Feels[e.Name]
		if f.About != e.About || f.TempoLow != e.TempoLow || f.TempoHigh != e.TempoHigh {
			t.Errorf("%s: the file says %q [%d, %d], the index %q [%d, %d]", e.Name,
				f.About, f.TempoLow, f.TempoHigh, e.About, e.TempoLow, e.TempoHigh)
		}
		if want := e.ParsedMeters(); !reflect.DeepEqual(f.Meters, want) {
			t.Errorf("%s: the file says meters %v, the index %v", e.Name, f.Meters, want)
		}
	}
	fills, err := fs.Glob(files, "fills/*.hcl")
	if err != nil || len(fills) != len(families) {
		t.Errorf("%d fill files and %d families (%v)", len(fills), len(families), err)
	}
}

// TestNames: the grooves that the project promises, in their order.
func TestNames(t *testing.T) {
	want := "ballad-eighths ballad-sixteenths brushes-ballad backbeat-eighths tight-sixteenths half-time " +
		"four-on-the-floor snare-on-four shuffle swing two-beat train bossa samba one-drop second-line " +
		"slow-twelve gospel-six lilt waltz jazz-waltz ballad-in-two show-two march five seven sustain pulse"
	if got := strings.Join(Names(), " "); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for name, want := range map[string]string{"slow-twelve": "12/8", "gospel-six": "6/8", "lilt": "6/8", "waltz": "3/4",
		"jazz-waltz": "3/4", "ballad-in-two": "2/2", "show-two": "2/2", "march": "2/4", "five": "5/4", "seven": "7/8",
		"sustain": "any", "pulse": "any"} {
		if got := entryNamed(name).Meters; got != want {
			t.Errorf("%s is in %s, want %s", name, got, want)
		}
	}
}

func TestBuiltin(t *testing.T) {
	set := Builtin()
	if len(set.Feels) != len(entries) {
		t.Errorf("%d feels, want %d", len(set.Feels), len(entries))
	}
	for name, f := range set.Feels {
		if f.Fills == "" && name != "sustain" {
			t.Errorf("%s names no fills", name)
		}
		for i, lv := range f.Levels {
			if lv.Energy != i+1 || lv.Bars == 0 || lv.Bass == nil || lv.Comp == nil {
				t.Errorf("%s: level %d is not whole: %+v", name, i+1, lv)
			}
		}
	}
	if Builtin() != set {
		t.Error("the library is decoded twice")
	}
}

func TestLoad(t *testing.T) {
	set := Load("waltz", "no-such-groove", "waltz", "sustain")
	if len(set.Feels) != 2 || set.Feels["waltz"] == nil || set.Feels["sustain"] == nil {
		t.Errorf("got %v, want waltz and sustain", set.Feels)
	}
	if len(set.Fills) == 0 {
		t.Error("no fills came with waltz")
	}
	for _, f := range set.Fills {
		if f.Family != "ballad" {
			t.Errorf("fill of family %s, want the waltz's own, ballad, only", f.Family)
		}
	}
	if got := LoadFills("", "my-own"); got != nil {
		t.Errorf("LoadFills of unknown families gave %d fills", len(got))
	}
}

// TestSourceIsAnOwnGroove: what Source gives works at once as a user's file and
// decodes to the same groove.
func TestSourceIsAnOwnGroove(t *testing.T) {
	for _, name := range Names() {
		src, ok := Source(name)
		if !ok {
			t.Fatalf("no source for %s", name)
		}
		feels, fills, diags := Decode("mine.hcl", src)
		if len(diags) > 0 || len(feels) != 1 || len(fills) != 0 {
			t.Errorf("%s: %d feels, %d fills, %v", name, len(feels), len(fills), diags)
			continue
		}
		own := *feels[0]
		if own.File != "mine.hcl" {
			t.Errorf("%s: the feel says it came from %q", name, own.File)
		}
		builtin := *Load(name).Feels[name]
		own.File, builtin.File = "", ""
		if !reflect.DeepEqual(own, builtin) {
			t.Errorf("%s: decoded as an own groove it differs", name)
		}
	}
	if _, ok := Source("no-such-groove"); ok {
		t.Error("a source for a groove that is not there")
	}
}

// The cost of a cold start: what a song with one groove decodes, and all there is.
func BenchmarkOne(b *testing.B) {
	for b.Loop() {
		mustDecode("grooves/ballad-eighths.hcl")
		mustDecode("fills/straight.hcl")
	}
}

func BenchmarkBuiltinAll(b *testing.B) {
	for b.Loop() {
		for _, n := range Names() {
			mustDecode("grooves/" + n + ".hcl")
		}
		for _, n := range families {
			mustDecode("fills/" + n + ".hcl")
		}
	}
}
