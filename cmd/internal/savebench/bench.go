package main

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"plinth/cmd/internal/bed"
)

// style is a way of saving, with the quiet window that the watcher gives it.
type style struct {
	name   string
	window time.Duration
	write  func(path string, text []byte) error
}

var styles = []style{
	{"in place", 75 * time.Millisecond, func(path string, text []byte) error {
		return os.WriteFile(path, text, 0o644)
	}},
	{"another name, then over", 30 * time.Millisecond, func(path string, text []byte) error {
		if err := os.WriteFile(path+".new", text, 0o644); err != nil {
			return err
		}
		return os.Rename(path+".new", path)
	}},
	{"backup, then anew", 75 * time.Millisecond, func(path string, text []byte) error {
		if err := os.Rename(path, path+"~"); err != nil {
			return err
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			return err
		}
		return os.Remove(path + "~")
	}},
}

// bench is a song with its variants and the MIDI file of each.
type bench struct {
	plinth, song, midi string
	poll               bool
	variants           []string
	expected           map[string]string // MIDI by song text
	text               string            // what is saved now
	rnd                *rand.Rand
}

// newBench copies the song and builds eight variants of it, which differ in one chord and
// one energy, as after an edit.
func newBench(plinth, dir, song string, poll bool) (*bench, error) {
	src, err := os.ReadFile(song)
	if err != nil {
		return nil, err
	}
	// A folder below, for what happens in the system's temporary folder is none of
	// the watcher's business.
	dir = filepath.Join(dir, "songs")
	if err := os.Mkdir(dir, 0o755); err != nil {
		return nil, err
	}
	b := &bench{
		plinth: plinth, poll: poll,
		song: filepath.Join(dir, "lanterns.song.hcl"), midi: filepath.Join(dir, "bed", "lanterns.mid"),
		expected: map[string]string{}, rnd: rand.New(rand.NewPCG(1, 2)),
	}
	if err := copyOthers(song, dir); err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	for i := range 8 {
		text := strings.Replace(string(src), "| Cm7 ", []string{"| Cm7 ", "| Gm7 ", "| C7 ", "| Fm7 "}[i%4], 1)
		text = strings.Replace(text, "energy = 4", fmt.Sprintf("energy = %d", 4+i/4), 1)
		res, err := bed.Build(bed.Request{Song: b.song, ReadFile: func(path string) ([]byte, error) {
			if path == b.song {
				return []byte(text), nil
			}
			return os.ReadFile(path)
		}})
		if err != nil {
			return nil, err
		}
		if res.Failed() {
			return nil, fmt.Errorf("variant %d of %s: %v", i, song, res.Diags)
		}
		b.variants = append(b.variants, text)
		b.expected[text] = string(res.Outputs[0].Data)
		seen[b.expected[text]] = true
	}
	if len(seen) != len(b.variants) {
		return nil, errors.New("two variants of the song sound the same: the song has no Cm7 or no energy 4 to change")
	}
	b.text = b.variants[0]
	return b, os.WriteFile(b.song, []byte(b.text), 0o644)
}

// copyOthers copies the files that a song names.
func copyOthers(song, dir string) error {
	res, err := bed.Load(bed.Request{Song: song})
	if err != nil {
		return err
	}
	for _, from := range res.Read[1:] {
		data, err := os.ReadFile(from)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(filepath.Dir(res.Read[0]), from)
		if err != nil {
			return err
		}
		to := filepath.Join(dir, rel)
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(to, data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// watched is a running watch.
type watched struct {
	cmd *exec.Cmd
	mu  sync.Mutex
	out bytes.Buffer
}

func (w *watched) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.out.Len() > 1<<16 {
		w.out.Reset()
	}
	return w.out.Write(p)
}

func (w *watched) said() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.out.String()
}

func (w *watched) stop() {
	w.cmd.Process.Signal(os.Interrupt)
	w.cmd.Wait()
}

// hopeless is how long to wait for what must come, even on the busiest machine.
const hopeless = time.Minute

// start runs a watch and waits for its first build.
func (b *bench) start() (*watched, error) {
	w := &watched{}
	args := []string{"watch", b.song}
	if b.poll {
		args = append(args, "--poll")
	}
	w.cmd = exec.Command(b.plinth, args...)
	w.cmd.Stderr = w
	if err := w.cmd.Start(); err != nil {
		return nil, err
	}
	for end := time.Now().Add(hopeless); !strings.Contains(w.said(), " ms)"); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			w.cmd.Process.Kill()
			return nil, fmt.Errorf("the watch does not build: %s", w.said())
		}
	}
	return w, nil
}

// write saves another variant.
func (b *bench) write(s style) error {
	for {
		if next := b.variants[b.rnd.IntN(len(b.variants))]; next != b.text {
			b.text = next
			return s.write(b.song, []byte(next))
		}
	}
}

// save saves another variant and returns the time from the end of the save to the new
// bytes under the file's name.
func (b *bench) save(s style) (time.Duration, error) {
	before, err := os.Stat(b.midi)
	if err != nil {
		return 0, err
	}
	if err := b.write(s); err != nil {
		return 0, err
	}
	start := time.Now()
	for {
		now, err := os.Stat(b.midi)
		if err != nil {
			return 0, err // the name must never be free
		}
		if !os.SameFile(before, now) {
			break
		}
		if time.Since(start) > hopeless {
			return 0, fmt.Errorf("no new file in %v", hopeless)
		}
		time.Sleep(100 * time.Microsecond)
	}
	took := time.Since(start)
	data, err := os.ReadFile(b.midi)
	if err != nil {
		return 0, err
	}
	if string(data) != b.expected[b.text] {
		return 0, errors.New("the new file is not that of the saved song")
	}
	return took, nil
}

// pause is the time between two saves, different each time.
func (b *bench) pause() time.Duration {
	return 5*time.Millisecond + time.Duration(b.rnd.Int64N(int64(60*time.Millisecond)))
}
