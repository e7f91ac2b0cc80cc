package live

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"plinth/cmd/internal/bed"
)

const weir = `title = "Weir"
section "verse" {
  energy = 2
  chords = "| C | Am | F | G |"
}
section "bridge" {
  energy = 3
  chords = "| Am | F | C | G | F | G | C | C |"
}
form {
  play "verse" {}
  play "bridge" {}
}
`

// desk is a watch at work on a song in a folder of its own.
type desk struct {
	t    *testing.T
	song string
	stop context.CancelFunc
	done chan error
	mu   sync.Mutex
	text bytes.Buffer
}

func (d *desk) Write(p []byte) (int, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.text.Write(p)
}

func (d *desk) said() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.text.String()
}

func open(t *testing.T, change func(o *Options)) *desk {
	d := &desk{t: t, song: filepath.Join(t.TempDir(), "weir.song.hcl"), done: make(chan error, 1)}
	d.save(weir)
	o := Options{Song: d.song, To: d, MaxDiags: 10}
	if change != nil {
		change(&o)
	}
	ctx, stop := context.WithCancel(context.Background())
	d.stop = stop
	go func() { d.done <- Run(ctx, o) }()
	t.Cleanup(d.close)
	return d
}

func (d *desk) close() {
	if d.stop == nil {
		return
	}
	d.stop()
	d.stop = nil
	if err := <-d.done; err != nil {
		d.t.Error(err)
	}
}

func (d *desk) save(text string) {
	d.t.Helper()
	if err := os.WriteFile(d.song, []byte(text), 0o644); err != nil {
		d.t.Fatal(err)
	}
}

func (d *desk) midi() []byte {
	data, err := os.ReadFile(filepath.Join(filepath.Dir(d.song), "bed", "weir.mid"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		d.t.Error(err)
	}
	return data
}

// wait waits for the nth line that matches, and returns it.
func (d *desk) wait(n int, pattern string) string {
	d.t.Helper()
	re := regexp.MustCompile(`(?m)^` + pattern + `$`)
	// This limit is for a busy machine and does not measure the program.
	for end := time.Now().Add(2 * time.Minute); ; time.Sleep(2 * time.Millisecond) {
		if all := re.FindAllString(d.said(), -1); len(all) >= n {
			return all[n-1]
		}
		if time.Now().After(end) {
			d.t.Fatalf("waited in vain for %q, time %d, in:\n%s", pattern, n, d.said())
		}
	}
}

const clock = `\d\d:\d\d:\d\d  `

// TestSession is a morning with a song: the lines that are said and what is on the disk.
func TestSession(t *testing.T) {
	d := open(t, nil)
	d.wait(1, clock+`.*weir\.mid: 12 bars, .*\(\d+ ms\)`)
	first := d.midi()
	if !bytes.HasPrefix(first, []byte("MThd")) {
		t.Fatalf("no MIDI file: %q", first)
	}

	d.save(strings.NewReplacer("| F | G | C | C |", "| Fm | G | C | C |", "energy = 3", "energy = 4").Replace(weir))
	d.wait(1, clock+`12 bars  bridge: chords of bar 5, energy 3 to 4  \(\d+ ms\)`)
	second := d.midi()
	if bytes.Equal(first, second) {
		t.Error("the file is as it was")
	}

	d.save(weir + "sektion \"x\" {}\n")
	d.wait(1, clock+`still playing the last good one`)
	if !strings.Contains(d.said(), "sektion") || !bytes.Equal(second, d.midi()) {
		t.Errorf("no diagnostic, or the file has changed:\n%s", d.said())
	}

	d.save("# slower\n" + strings.Replace(weir, "\nsection", "\ntempo = 60\nsection", 1))
	d.wait(1, clock+`12 bars  fixed: tempo 96 to 60; bridge: chords of bar 5, energy 4 to 3  \(\d+ ms\)`)
	third := d.midi()

	d.save("# slower, with more words\n" + strings.Replace(weir, "\nsection", "\ntempo = 60\nsection", 1))
	d.wait(1, clock+`12 bars  nothing that is heard  \(\d+ ms\)`)
	if !bytes.Equal(third, d.midi()) {
		t.Error("a comment has changed the file")
	}

	if err := os.Remove(d.song); err != nil {
		t.Fatal(err)
	}
	d.wait(1, clock+`weir.song.hcl is not there; keeping the last good output, waiting for it`)
	d.close()
	left, err := os.ReadDir(filepath.Join(filepath.Dir(d.song), "bed"))
	if err != nil || len(left) != 1 {
		t.Errorf("in the folder at the end: %v, %v", left, err)
	}
}

// A song that is not there yet has no last good output, unless an earlier run has left one.
func TestSongToCome(t *testing.T) {
	remove := func(o *Options) {
		if err := os.Remove(o.Song); err != nil {
			t.Fatal(err)
		}
	}
	d := open(t, remove)
	d.wait(1, clock+`weir.song.hcl is not there; nothing to play yet, waiting for it`)
	d.save(" ")
	d.wait(1, clock+`weir.song.hcl is empty; nothing to play yet`)
	d.save(weir)
	d.wait(1, clock+`.*weir\.mid: 12 bars.*`)

	left := open(t, func(o *Options) {
		remove(o)
		bed := filepath.Join(filepath.Dir(o.Song), "bed")
		err := os.Mkdir(bed, 0o777)
		if err = errors.Join(err, os.WriteFile(filepath.Join(bed, "weir.mid"), nil, 0o666)); err != nil {
			t.Fatal(err)
		}
	})
	left.wait(1, clock+`weir.song.hcl is not there; keeping the last good output, waiting for it`)
}

// A name with another ending leads to no song, and that is said at once; one that is only near may be
// a song to come, and is waited for with a word about the other.
func TestNameNearby(t *testing.T) {
	folder := t.TempDir()
	song := filepath.Join(folder, "weir.song.hcl")
	if err := os.WriteFile(song, []byte(weir), 0o644); err != nil {
		t.Fatal(err)
	}
	var unread *bed.SongError
	err := Run(context.Background(), Options{Song: filepath.Join(folder, "weir")})
	if !errors.As(err, &unread) || !strings.HasSuffix(err.Error(), `there is no such file; is it "`+song+`"?`) {
		t.Errorf("%v", err)
	}
	d := open(t, func(o *Options) {
		o.Song = filepath.Join(folder, "weis.song.hcl")
	})
	d.wait(1, clock+`weis.song.hcl is not there; nothing to play yet, waiting for it; is it "`+
		regexp.QuoteMeta(song)+`"\?`)
}

// A part that the song does not play is a mistake that a save can mend.
func TestOnly(t *testing.T) {
	d := open(t, func(o *Options) { o.Only = "tag" })
	d.wait(1, `the song plays no section "tag"; it plays "verse", "bridge"`)
	d.wait(1, clock+`nothing to play yet`)
	tag := strings.Replace(weir, "form {", "section \"tag\" { chords = \"| C |\" }\nform {\n  play \"tag\" {}", 1)
	d.save(tag)
	d.wait(1, clock+`.*weir\.tag\.mid: 1 bar, .* bar 1 of the song  \(\d+ ms\)`)
	d.save(strings.Replace(tag, "| Am |", "| A7 |", 1)) // of the verse
	d.wait(1, clock+`1 bars?  nothing that is heard  \(\d+ ms\)`)
	if d.midi() != nil {
		t.Error("the whole song is written too")
	}
}

// A folder that cannot be written to is reported, and the next save tries again even if it
// changes nothing.
func TestReadOnlyFolder(t *testing.T) {
	if runtime.GOOS == "windows" || os.Getuid() == 0 {
		// The administrator may write anywhere: a file in the folder's place stops everybody.
		d := open(t, func(o *Options) {
			if err := os.WriteFile(filepath.Join(filepath.Dir(o.Song), "bed"), nil, 0o644); err != nil {
				t.Fatal(err)
			}
		})
		retry(d, func() error { return os.Remove(filepath.Join(filepath.Dir(d.song), "bed")) })
		return
	}
	var bed string
	d := open(t, func(o *Options) {
		bed = filepath.Join(filepath.Dir(o.Song), "bed")
		if err := os.Mkdir(bed, 0o555); err != nil {
			t.Fatal(err)
		}
	})
	retry(d, func() error { return os.Chmod(bed, 0o755) })
}

func retry(d *desk, repair func() error) {
	d.wait(1, `cannot .*`)
	d.wait(1, clock+`nothing to play yet`)
	if err := repair(); err != nil {
		d.t.Fatal(err)
	}
	d.save(weir)
	d.wait(1, clock+`.*weir\.mid: 12 bars.*`)
}

// A panic in a build is reported, and the next save is built.
func TestPanic(t *testing.T) {
	first := true
	d := open(t, func(o *Options) {
		o.builder = func(req bed.Request) (*bed.Result, error) {
			if first {
				first = false
				panic("a wrong note")
			}
			return bed.Build(req)
		}
	})
	d.wait(1, `a wrong note`)
	d.save(weir + "\n")
	d.wait(1, clock+`.*weir\.mid: 12 bars.*`)
}

// The command runs after a good build, not after a bad one.
func TestThen(t *testing.T) {
	d := open(t, func(o *Options) { o.Then = "echo played" })
	d.wait(1, `  then \| played`)
	d.save("broken")
	d.wait(1, clock+`still playing the last good one`)
	d.save(weir + "\n")
	d.wait(2, `  then \| played`)
	d.close()
	if n := strings.Count(d.said(), "played"); n != 2 {
		t.Errorf("%d times, want 2:\n%s", n, d.said())
	}
}

// A name that is not a file is reported at once.
func TestNotAFile(t *testing.T) {
	err := Run(context.Background(), Options{Song: t.TempDir(), To: &bytes.Buffer{}})
	var song *bed.SongError
	if !errors.As(err, &song) || !song.Misnamed() {
		t.Errorf("%v", err)
	}
}
