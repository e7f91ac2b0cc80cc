package bed

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/groove/library"
	"plinth/render/midi"
)

func TestName(t *testing.T) {
	for _, row := range []struct{ song, want, why string }{
		{"lanterns.song.hcl", "lanterns", "the usual name"},
		{"songs/lanterns.hcl", "lanterns", "the short ending"},
		{"lanterns.v2.song.hcl", "lanterns.v2", "a dot in the name"},
		{"LANTERNS.SONG.HCL", "LANTERNS", "capitals"},
		{"lanterns.txt", "lanterns.txt", "another ending stays"},
		{".hcl", ".hcl", "nothing but the ending"},
	} {
		if got := Name(row.song); got != row.want {
			t.Errorf("%s (%s): %q, expected %q", row.song, row.why, got, row.want)
		}
	}
}

// memory is a Request for a song with files in memory beside it.
func memory(song string, content map[string]string) Request {
	return Request{Song: song, ReadFile: func(path string) ([]byte, error) {
		if text, ok := content[filepath.Base(path)]; ok {
			return []byte(text), nil
		}
		return nil, &fs.PathError{Op: "read", Path: path, Err: fs.ErrNotExist}
	}}
}

const plainSong = "section \"verse\" {\n  chords = \"| C | F |\"\n}\n"

func TestBuild(t *testing.T) {
	res, err := Build(memory("weir.song.hcl", map[string]string{"weir.song.hcl": plainSong}))
	if err != nil || res.Failed() || len(res.Outputs) != 1 {
		t.Fatal(err, res.Diags, len(res.Outputs))
	}
	if o := res.Outputs[0]; o.Name != "weir.mid" || midi.Check(o.Data) != nil {
		t.Errorf("%s of %d bytes", o.Name, len(o.Data))
	}
	for range 5 {
		again, err := Build(memory("weir.song.hcl", map[string]string{"weir.song.hcl": plainSong}))
		if err != nil || string(again.Outputs[0].Data) != string(res.Outputs[0].Data) {
			t.Fatal("another run gives other bytes", err)
		}
	}
}

// The result names what was read or looked for, also when the build failed: the watcher
// waits for missing files by their names.
func TestReadIsTold(t *testing.T) {
	here, err := filepath.Abs(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name, text string
		read       []string
	}{
		{"a plain song", plainSong, nil},
		{"a song that does not parse", "section {", nil},
		{"files that are missing", "grooves = [\"a.hcl\", \"sub/b.hcl\"]\nvocal \"v.mid\" {}\n" + plainSong,
			[]string{"a.hcl", "sub/b.hcl", "v.mid"}},
		{"a missing file and a mistake", "grooves = [\"a.hcl\"]\ntempo = 7\n" + plainSong, []string{"a.hcl"}},
	} {
		res, err := Build(memory("weir.song.hcl", map[string]string{"weir.song.hcl": row.text}))
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
		}
		want := []string{filepath.Join(here, "weir.song.hcl")}
		for _, r := range row.read {
			want = append(want, filepath.Join(here, filepath.FromSlash(r)))
		}
		if strings.Join(res.Read, "\n") != strings.Join(want, "\n") {
			t.Errorf("%s: read %v, expected %v", row.name, res.Read, want)
		}
	}
	res, err := Build(memory("weir.song.hcl", nil))
	var unread *SongError
	if !errors.As(err, &unread) || !unread.Misnamed() || len(res.Read) != 1 {
		t.Errorf("no song at all: %v, %v", err, res.Read)
	}
}

// A failed song leaves nothing to write or to play.
func TestFailedSongMakesNothing(t *testing.T) {
	for _, text := range []string{"", "section {", "tempo = 7\n" + plainSong, "vocal \"../none.mid\" {}\n" + plainSong,
		"grooves = [\"none.hcl\"]\n" + plainSong} {
		res, err := Build(memory("weir.song.hcl", map[string]string{"weir.song.hcl": text}))
		if err != nil || !res.Failed() || res.Timeline != nil || res.Performance != nil || res.Outputs != nil {
			t.Errorf("%q: %v, %d mistakes, %d outputs", text, err, len(res.Diags), len(res.Outputs))
		}
		for _, d := range res.Diags {
			if d.Subject == nil || res.Sources[d.Subject.Filename] == nil && text != "" {
				t.Errorf("%q: %q points into no text", text, d.Summary)
			}
		}
	}
}

// A song's own groove and its own fills stand in for the built-in ones of the
// same name, in that song alone.
func TestOwnGroovesWin(t *testing.T) {
	waltz, _ := library.Source("waltz")
	if !strings.Contains(string(waltz), "bass on 1, chords on 2 and 3\"") {
		t.Fatal("the waltz has another description: the test changes nothing")
	}
	family := library.Load("waltz").Feels["waltz"].Fills
	fills, err := os.ReadFile(filepath.Join("..", "..", "..", "groove", "library", "fills", family+".hcl"))
	if err != nil {
		t.Fatal(err)
	}
	content := map[string]string{
		"own.hcl": strings.Replace(string(waltz), "bass on 1, chords on 2 and 3\"", "ours\"", 1) + "\n" + string(fills),
		"a.hcl":   "grooves = [\"own.hcl\"]\nmeter = \"3/4\"\nfeel = \"waltz\"\n" + plainSong,
		"b.hcl":   "meter = \"3/4\"\nfeel = \"waltz\"\n" + plainSong,
		"c.hcl":   "grooves = [\"own.hcl\"]\n" + plainSong,
	}
	dir := t.TempDir()
	for name, text := range content {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, row := range []struct {
		song, feel, about string
		fills             int
	}{
		{"a.hcl", "waltz", "ours", len(library.LoadFills(family))},
		{"b.hcl", "waltz", "bass on 1, chords on 2 and 3", len(library.LoadFills(family))},
		{"c.hcl", "ballad-eighths", library.Load("ballad-eighths").Feels["ballad-eighths"].About,
			len(library.LoadFills("straight"))},
	} {
		res, err := Load(Request{Song: filepath.Join(dir, row.song)})
		if err != nil || res.Failed() {
			t.Errorf("%s: %v, %v", row.song, err, res.Diags)
			continue
		}
		if f := res.Feels.Feels[row.feel]; len(res.Feels.Feels) != 1 || f == nil || f.About != row.about ||
			len(res.Feels.Fills) != row.fills {
			t.Errorf("%s plays %+v and %d fills, expected %q and %d", row.song, f, len(res.Feels.Fills), row.about,
				row.fills)
		}
	}
}
