package files

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// folder is a folder of the given files.
func folder(t *testing.T, content map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range content {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// expect says what a folder must hold, and that it holds nothing else.
func expect(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	got := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.IsDir() {
			got[e.Name()] = "a folder"
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		got[e.Name()] = string(b)
	}
	for name, text := range want {
		if got[name] != text {
			t.Errorf("%s holds %q, expected %q", name, got[name], text)
		}
		delete(got, name)
	}
	for name := range got {
		t.Errorf("%s should not be there", name)
	}
}

func TestWriteAll(t *testing.T) {
	dir := folder(t, map[string]string{"same.mid": "same", "old.mid": "old"})
	before := time.Now().Add(-time.Hour).Truncate(time.Second)
	if err := os.Chtimes(filepath.Join(dir, "same.mid"), before, before); err != nil {
		t.Fatal(err)
	}
	written, err := WriteAll(dir, []Output{{"same.mid", []byte("same")}, {"old.mid", []byte("new")},
		{"first.mid", []byte("first")}})
	if err != nil || strings.Join(written, " ") != "old.mid first.mid" {
		t.Errorf("written: %v, %v", written, err)
	}
	expect(t, dir, map[string]string{"same.mid": "same", "old.mid": "new", "first.mid": "first"})
	info, err := os.Stat(filepath.Join(dir, "same.mid"))
	if err != nil || !info.ModTime().Equal(before) {
		t.Error("a file that had its bytes was touched")
	}
}

func TestWriteAllMakesTheFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "bed")
	if _, err := WriteAll(dir, []Output{{"x.mid", []byte("x")}}); err != nil {
		t.Fatal(err)
	}
	expect(t, dir, map[string]string{"x.mid": "x"})
}

// full is a file on a full disk: it takes some bytes, then no more.
type full struct {
	file
	at string
}

func (f full) Write(b []byte) (int, error) {
	if f.at != "write" {
		return f.file.Write(b)
	}
	n, _ := f.file.Write(b[:len(b)/2])
	return n, &fs.PathError{Op: "write", Path: f.Name(), Err: errFull}
}

func (f full) Close() error {
	err := f.file.Close()
	if f.at == "close" {
		return &fs.PathError{Op: "close", Path: f.Name(), Err: errFull}
	}
	return err
}

var errFull = errors.New("no space left on device")

// Whatever fails, and at whichever file, every earlier file stays as it was and
// no temporary one remains.
func TestFailureLeavesEverything(t *testing.T) {
	for _, at := range []string{"create", "write", "close", "rename"} {
		for failing := range 2 {
			if at == "rename" && failing == 1 {
				continue // the documented exception
			}
			before := map[string]string{"a.mid": "old a", "b.mid": "old b"}
			dir := folder(t, before)
			n := 0
			s := system{
				create: func(dir, pattern string) (file, error) {
					f, err := createTemp(dir, pattern)
					if n++; err != nil || n-1 != failing {
						return f, err
					}
					if at == "create" {
						f.Close()
						os.Remove(f.Name())
						return nil, &fs.PathError{Op: "open", Path: f.Name(), Err: errFull}
					}
					return full{f, at}, nil
				},
				rename: func(from, to string) error {
					if at == "rename" {
						return &os.LinkError{Op: "rename", Old: from, New: to, Err: errFull}
					}
					return rename(from, to)
				},
			}
			written, err := s.writeAll(dir, []Output{{"a.mid", []byte("new a")}, {"b.mid", []byte("new b")}})
			if err == nil || !strings.Contains(err.Error(), "no space left on device") || len(written) > 0 {
				t.Errorf("%s of file %d fails: %v, %v", at, failing, written, err)
			}
			expect(t, dir, before)
		}
	}
}

func TestWriteAllRefuses(t *testing.T) {
	dir := folder(t, map[string]string{"a.mid": "old", "x.mid/inside": "", "plain": ""})
	for _, row := range []struct{ name, dir, out, want string }{
		{"a folder has the name", dir, "x.mid", "a folder of that name is there"},
		{"a file has the folder's name", filepath.Join(dir, "plain"), "y.mid", "cannot make the folder"},
		{"a file has the parent's name", filepath.Join(dir, "plain", "bed"), "y.mid", "cannot make the folder"},
	} {
		_, err := WriteAll(row.dir, []Output{{"a.mid", []byte("new")}, {row.out, []byte("new")}})
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, expected %q", row.name, err, row.want)
		}
	}
	expect(t, dir, map[string]string{"a.mid": "old", "x.mid": "a folder", "plain": ""})
}

// A file that was made read-only stays as it is, also for the administrator; one
// that has its bytes already is no reason to complain.
func TestReadOnlyFileStays(t *testing.T) {
	dir := folder(t, map[string]string{"a.mid": "old", "b.mid": "old"})
	frozen := filepath.Join(dir, "b.mid")
	if err := os.Chmod(frozen, 0o444); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(frozen, 0o644) // or Windows cannot take it away
	for name, write := range map[string]func(data string) error{
		"WriteAll": func(data string) error {
			_, err := WriteAll(dir, []Output{{"a.mid", []byte(data)}, {"b.mid", []byte(data)}})
			return err
		},
		"Rewrite": func(data string) error { _, err := Rewrite(frozen, []byte(data)); return err },
	} {
		if err := write("new"); err == nil || !strings.HasSuffix(err.Error(), "b.mid: it is read-only") {
			t.Errorf("%s: %v", name, err)
		}
		if err := write("old"); err != nil {
			t.Errorf("%s of the same bytes: %v", name, err)
		}
	}
	expect(t, dir, map[string]string{"a.mid": "old", "b.mid": "old"})
}

// Where a link leads to nothing the file comes there, and the link stays.
func TestLinkToNothing(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links need a privilege there")
	}
	dir := folder(t, map[string]string{"bed/keep": "", "music/keep": ""})
	for _, l := range [][2]string{{"../music/x.mid", "x.mid"}, {"x.mid", "twice.mid"}, {"../gone/y.mid", "y.mid"},
		{"z.mid", "z.mid"}} {
		if err := os.Symlink(l[0], filepath.Join(dir, "bed", l[1])); err != nil {
			t.Fatal(err)
		}
	}
	if written, err := WriteAll(filepath.Join(dir, "bed"), []Output{{"twice.mid", []byte("new")}}); err != nil ||
		len(written) != 1 {
		t.Errorf("%v, %v", written, err)
	}
	expect(t, filepath.Join(dir, "music"), map[string]string{"keep": "", "x.mid": "new"})
	for _, name := range []string{"x.mid", "twice.mid"} {
		if info, err := os.Lstat(filepath.Join(dir, "bed", name)); err != nil || info.Mode()&fs.ModeSymlink == 0 {
			t.Errorf("the link %s was replaced by a file", name)
		}
	}
	if _, err := WriteAll(filepath.Join(dir, "bed"), []Output{{"y.mid", []byte("new")}}); err == nil ||
		!strings.Contains(err.Error(), "gone, which is not there") {
		t.Errorf("into a folder that is not there: %v", err)
	}
	if _, err := WriteAll(filepath.Join(dir, "bed"), []Output{{"z.mid", []byte("new")}}); err == nil {
		t.Error("through a link to itself")
	}
}

// The longest name that a folder takes has room for a temporary one.
func TestLongestName(t *testing.T) {
	for _, name := range []string{strings.Repeat("l", 251) + ".mid", strings.Repeat("é", 125) + ".mid"} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o666); err != nil {
			t.Skipf("no such long names here: %v", err)
		}
		if _, err := WriteAll(dir, []Output{{name, []byte("new")}}); err != nil {
			t.Error(err)
		}
		expect(t, dir, map[string]string{name: "new"})
	}
}

func TestStaleFilesGo(t *testing.T) {
	dir := folder(t, map[string]string{
		".a.mid" + tempMark + "1-0": "left by a killed run", ".b.mid" + tempMark + "2-0": "of a run beside this one",
		".notes" + "-tmp": "the user's own", "a" + tempMark: "the user's own",
		"stems/.c.wav" + tempMark + "1-1": "left by a killed run, too",
	})
	old := time.Now().Add(-2 * staleAfter)
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".b.mid") {
			if err := os.Chtimes(filepath.Join(dir, e.Name()), old, old); err != nil {
				t.Fatal(err)
			}
		}
	}
	left := filepath.Join(dir, "stems", ".c.wav"+tempMark+"1-1")
	if err := os.Chtimes(left, old, old); err != nil {
		t.Fatal(err)
	}
	if _, err := WriteAll(dir, []Output{{"stems/c.wav", []byte("c")}}); err != nil {
		t.Fatal(err)
	}
	expect(t, filepath.Join(dir, "stems"), map[string]string{"c.wav": "c"})
	if err := os.RemoveAll(filepath.Join(dir, "stems")); err != nil {
		t.Fatal(err)
	}
	expect(t, dir, map[string]string{".b.mid" + tempMark + "2-0": "of a run beside this one",
		".notes" + "-tmp": "the user's own", "a" + tempMark: "the user's own"})
}

func TestRewriteKeepsModeAndLink(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links and modes are other things there")
	}
	dir := folder(t, map[string]string{"real/song.hcl": "old"})
	real, link := filepath.Join(dir, "real", "song.hcl"), filepath.Join(dir, "link.hcl")
	if err := errors.Join(os.Chmod(real, 0o640), os.Symlink(real, link)); err != nil {
		t.Fatal(err)
	}
	if changed, err := Rewrite(link, []byte("new")); !changed || err != nil {
		t.Errorf("%v, %v", changed, err)
	}
	if changed, err := Rewrite(link, []byte("new")); changed || err != nil {
		t.Errorf("the second time: %v, %v", changed, err)
	}
	expect(t, filepath.Join(dir, "real"), map[string]string{"song.hcl": "new"})
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Error("the link was replaced by a file")
	}
	if info, err := os.Stat(real); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the mode is %v", info.Mode())
	}
}

func TestCreateNeverOverwrites(t *testing.T) {
	dir := folder(t, map[string]string{"song.hcl": "old"})
	if err := Create(filepath.Join(dir, "song.hcl"), []byte("new")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over an old file: %v", err)
	}
	if err := Create(filepath.Join(dir, "next.hcl"), []byte("new")); err != nil {
		t.Error(err)
	}
	expect(t, dir, map[string]string{"song.hcl": "old", "next.hcl": "new"})
}

func TestInside(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links need a privilege there")
	}
	dir := folder(t, map[string]string{"song/a.hcl": "", "song/sub/b.hcl": "", "out.hcl": ""})
	song := filepath.Join(dir, "song")
	for _, l := range [][2]string{{"a.hcl", "in.hcl"}, {"../out.hcl", "escape.hcl"}, {"..", "up"},
		{"loop.hcl", "loop.hcl"}} {
		if err := os.Symlink(l[0], filepath.Join(song, l[1])); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(song, filepath.Join(dir, "other")); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name, rel string
		want      error
	}{
		{"beside the song", "a.hcl", nil},
		{"in a sub-folder", "sub/b.hcl", nil},
		{"up and down again inside", "sub/../a.hcl", nil},
		{"a link that stays inside", "in.hcl", nil},
		{"missing", "c.hcl", fs.ErrNotExist},
		{"one up", "../out.hcl", ErrOutside},
		{"absolute", filepath.Join(song, "a.hcl"), ErrOutside},
		{"a link to a file outside", "escape.hcl", ErrOutside},
		{"through a folder that is a link outside", "up/out.hcl", ErrOutside},
		{"empty", "", ErrOutside},
	} {
		for _, d := range []string{song, filepath.Join(dir, "other")} {
			if _, err := Inside(d, row.rel); !errors.Is(err, row.want) || (err == nil) != (row.want == nil) {
				t.Errorf("%s: %v, expected %v", row.name, err, row.want)
			}
		}
	}
	if _, err := Inside(song, "loop.hcl"); err == nil {
		t.Error("a link to itself passes")
	}
}

func TestRead(t *testing.T) {
	dir := folder(t, map[string]string{"ten": "0123456789"})
	for _, row := range []struct {
		limit int64
		want  string
	}{{20, "0123456789"}, {10, "0123456789"}, {9, "0123456789"}, {4, "01234"}} {
		if got, err := Read(filepath.Join(dir, "ten"), row.limit); string(got) != row.want || err != nil {
			t.Errorf("at most %d: %q, %v", row.limit, got, err)
		}
	}
	if _, err := Read(dir, 10); !errors.Is(err, ErrNotFile) {
		t.Errorf("a folder: %v", err)
	}
	if _, err := Read(filepath.Join(dir, "none"), 10); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
}

// wholeTree is a folder's files by their paths, with those of its folders.
func wholeTree(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, _ := filepath.Rel(dir, path)
		if d.IsDir() {
			got[filepath.ToSlash(name)+"/"] = ""
			return nil
		}
		b, err := os.ReadFile(path)
		got[filepath.ToSlash(name)] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// A set has files in folders of its own, files that are written piece by piece, and files that go; what is the same
// stays as it is.
func TestSet(t *testing.T) {
	dir := folder(t, map[string]string{"same.wav": "same", "old/b.wav": "b", "old/gone.wav": "x"})
	set, err := Begin(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer set.Close()
	text := func(s string) func(io.WriteSeeker) error {
		return func(w io.WriteSeeker) error {
			io.WriteString(w, "-"+s[1:])
			if _, err := w.Seek(0, io.SeekStart); err != nil {
				return err
			}
			_, err := io.WriteString(w, s[:1])
			return err
		}
	}
	for _, row := range [][2]string{{"same.wav", "same"}, {"old/b.wav", "new b"}, {"new/deep/c.wav", "c"}} {
		if err := set.Stream(row[0], text(row[1])); err != nil {
			t.Fatal(err)
		}
	}
	set.Drop("old/gone.wav")
	set.Drop("old/never.wav")
	if got := wholeTree(t, dir); got["old/b.wav"] != "b" || got["old/gone.wav"] != "x" || got["new/deep/c.wav"] != "" {
		t.Errorf("before all is written: %q", got)
	}
	written, err := set.Commit()
	if err != nil || strings.Join(written, " ") != "old/b.wav new/deep/c.wav" {
		t.Errorf("written: %v, %v", written, err)
	}
	want := map[string]string{"same.wav": "same", "old/": "", "old/b.wav": "new b", "new/": "", "new/deep/": "",
		"new/deep/c.wav": "c"}
	if got := wholeTree(t, dir); !maps.Equal(got, want) {
		t.Errorf("%q, expected %q", got, want)
	}
}

// A set that is not finished leaves nothing, and no folder either.
func TestSetTakenBack(t *testing.T) {
	before := map[string]string{"a.mid": "old a"}
	dir := folder(t, before)
	set, err := Begin(dir)
	if err != nil {
		t.Fatal(err)
	}
	failed := errors.New("it cannot be mixed")
	if err := set.Add(Output{"a.mid", []byte("new")}); err != nil {
		t.Fatal(err)
	}
	err = set.Stream("stems/a.wav", func(io.WriteSeeker) error { return failed })
	if err == nil || !strings.Contains(err.Error(), failed.Error()) {
		t.Errorf("error %v", err)
	}
	set.Drop("a.mid")
	set.Close()
	if got := wholeTree(t, dir); !maps.Equal(got, before) {
		t.Errorf("%q is left", got)
	}
}

// A set that is closed while a file is being written leaves nothing either, nor does one into which nothing came
// leave its folder.
func TestSetClosedEarly(t *testing.T) {
	top := t.TempDir()
	set, err := Begin(filepath.Join(top, "bed"))
	if err != nil {
		t.Fatal(err)
	}
	writing, closed := make(chan bool), make(chan bool)
	go func() {
		<-writing
		set.Close()
		close(closed)
	}()
	set.Stream("stems/a.wav", func(io.WriteSeeker) error {
		close(writing)
		<-closed
		return nil
	})
	if err := set.Add(Output{"a.mid", []byte("a")}); err == nil {
		t.Error("a file was added to a set that is closed")
	}
	if got := wholeTree(t, top); len(got) > 0 {
		t.Errorf("%q is left", got)
	}
}
