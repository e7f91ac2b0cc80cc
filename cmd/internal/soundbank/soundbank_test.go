package soundbank

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/audio/soundfont/fonttest"
)

// put writes files of a folder.
func put(t *testing.T, dir string, content map[string][]byte) {
	t.Helper()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	for name, data := range content {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// The flag counts before the variable, and both before what is found.
func TestNamed(t *testing.T) {
	dir := t.TempDir()
	font := fonttest.Small().Bytes()
	old := fonttest.Small()
	old.Major = 3
	melody := fonttest.Small()
	melody.Presets = melody.Presets[:1]
	put(t, dir, map[string][]byte{"m.sf2": melody.Bytes()})
	if b, err := Find(filepath.Join(dir, "m.sf2")); err != nil || b.Name() != "m.sf2, which has no drums" {
		t.Errorf("a SoundFont without a kit: %v, %v", b, err)
	}
	put(t, dir, map[string][]byte{"a.sf2": font, "b.sf2": font, "song.sf2": []byte("title = \"x\""),
		"c.sf3": old.Bytes()})
	t.Setenv(variable, filepath.Join(dir, "b.sf2"))
	for named, want := range map[string]string{filepath.Join(dir, "a.sf2"): "a.sf2", "": "b.sf2"} {
		if b, err := Find(named); err != nil || b.Name() != want || b.Sketch {
			t.Errorf("%q: %v, %v", named, b, err)
		}
	}
	for name, want := range map[string]string{
		"none.sf2": "none.sf2: there is no such file", "song.sf2": "song.sf2: it is no SoundFont (.sf2)",
		"c.sf3": "compressed", ".": "it is not a regular file",
	} {
		for _, by := range []string{"flag", variable} {
			named := filepath.Join(dir, name)
			if by == variable {
				t.Setenv(variable, named)
				named = ""
			}
			_, err := Find(named)
			if err == nil || !strings.Contains(err.Error(), want) ||
				strings.Contains(err.Error(), variable) != (named == "") {
				t.Errorf("%s by %s: %v", name, by, err)
			}
		}
	}
}

// A General MIDI bank is found; what is broken or has no drums is passed over.
func TestFound(t *testing.T) {
	dir := t.TempDir()
	t.Setenv(variable, "")
	melody := fonttest.Small()
	melody.Presets = melody.Presets[:1]
	put(t, dir, map[string][]byte{
		"default-GM.sf2": []byte("broken"), "FluidR3_GM.sf2": melody.Bytes(),
		"My General.sf2": fonttest.Small().Bytes(), "Strings.sf2": fonttest.Small().Bytes(), "gm.sf3": nil,
	})
	dirs := []string{filepath.Join(dir, "none"), dir}
	b, err := find("", dirs)
	if err != nil || b.Name() != "My General.sf2" {
		t.Errorf("found %v, %v", b, err)
	}
	got := candidates(dirs)
	for i := range got {
		got[i] = filepath.Base(got[i])
	}
	if want := []string{"default-GM.sf2", "FluidR3_GM.sf2", "My General.sf2"}; !slices.Equal(got, want) {
		t.Errorf("candidates %q", got)
	}
}

func TestFolders(t *testing.T) {
	env := func(set map[string]string) func(string) string { return func(k string) string { return set[k] } }
	for _, row := range []struct {
		system string
		env    map[string]string
		want   string // the first
		count  int
	}{
		{"linux", map[string]string{"HOME": "/h"}, "/h/.local/share/sounds/sf2", 6},
		{"linux", map[string]string{"HOME": "/h", "XDG_DATA_HOME": "/d"}, "/d/sounds/sf2", 6},
		{"linux", nil, "/usr/local/share/sounds/sf2", 4},
		{"darwin", map[string]string{"HOME": "/h"}, "/h/Library/Audio/Sounds/Banks", 6},
		{"windows", map[string]string{"APPDATA": "/a", "USERPROFILE": "/u"}, "/a/SoundFonts", 4},
	} {
		got := folders(row.system, env(row.env))
		if len(got) != row.count || filepath.ToSlash(got[0]) != row.want {
			t.Errorf("%s: %q", row.system, got)
		}
	}
}

// Where nothing is found, it is plinth's sketch, which has a piano.
func TestSketch(t *testing.T) {
	b, err := find("", []string{t.TempDir()})
	if err != nil || !b.Sketch || len(b.Sound(b.Note(bank.Patch{}, 60, 100), bank.Rate).Left) == 0 {
		t.Errorf("%v, %v", b, err)
	}
}
