// Samebytes holds two builds of plinth against each other: a change that should move no
// note is right when both make the same bytes of the same songs.
//
//	go build -o /tmp/old ./cmd/plinth    before the change
//	go build -o /tmp/new ./cmd/plinth    after it
//	go run ./cmd/internal/samebytes -songs 120 -seed 1 /tmp/old /tmp/new
//
// The songs are the examples and random ones, in words that every plinth has had; with -new they
// have every word of the language. With -also outline,room,check what those
// commands say is compared, too. A song that both refuse in the same words is the same.
// The exit code is 1 when a song differs, and 2 when there was nothing to compare.
package main

import (
	"errors"
	"flag"
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"plinth/groove/library"
	"plinth/songspec/songtest"
)

func main() {
	songs := flag.Int("songs", 120, "random songs beside the examples")
	seed := flag.Int64("seed", 1, "another number, other random songs")
	examples := flag.String("examples", "examples", "the folder with songs (*.song.hcl)")
	newer := flag.Bool("new", false, "random songs with every word of the language")
	also := flag.String("also", "", "commands to compare beside build: outline,room,check")
	flag.Parse()
	differ, err := run(flag.Args(), *songs, *seed, *newer, *examples, *also)
	switch {
	case err != nil:
		fmt.Fprintln(os.Stderr, "samebytes:", err)
		os.Exit(2)
	case differ > 0:
		os.Exit(1)
	}
}

func run(programs []string, songs int, seed int64, newer bool, examples, also string) (differ int, err error) {
	if len(programs) != 2 {
		return 0, fmt.Errorf("two programs are compared, OLD and NEW, not %d", len(programs))
	}
	var more []string
	if also != "" {
		more = strings.Split(also, ",")
	}
	for _, m := range more {
		if m != "outline" && m != "room" && m != "check" {
			return 0, fmt.Errorf("-also takes outline, room and check, not %q", m)
		}
	}
	dir, err := os.MkdirTemp("", "samebytes")
	if err != nil {
		return 0, err
	}
	defer func() {
		if differ == 0 {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	b := &bench{dir: dir, also: more}
	for i, p := range programs {
		if b.programs[i], err = filepath.Abs(p); err != nil {
			return 0, err
		}
	}
	files, err := filepath.Glob(filepath.Join(examples, "*.song.hcl"))
	if err != nil {
		return 0, err
	}
	found := len(files)
	random, err := write(dir, songs, seed, newer)
	if err != nil {
		return 0, err
	}
	files = append(files, random...)
	if len(files) == 0 {
		return 0, fmt.Errorf("no songs: none in %s, and -songs is 0", examples)
	}
	results, err := b.all(files)
	if err != nil {
		return 0, err
	}
	refused := 0
	for _, r := range results {
		for _, line := range r.differences {
			fmt.Printf("%s: %s\n", r.name, line)
		}
		if len(r.differences) > 0 {
			differ++
		} else if r.refused {
			refused++
		}
	}
	fmt.Printf("%d songs and %d examples: %d equal", songs, found, len(files)-differ)
	if refused > 0 {
		fmt.Printf(" (%d of them refused by both)", refused)
	}
	if differ > 0 {
		fmt.Printf(", %d different: %s", differ, dir)
	}
	fmt.Println()
	return differ, nil
}

// write writes the random songs, each with the files that it names, and returns their paths.
func write(dir string, songs int, seed int64, newer bool) ([]string, error) {
	var feels []songtest.Feel
	for _, e := range library.Index() {
		f := songtest.Feel{Name: e.Name, Meters: e.ParsedMeters(), TempoLow: e.TempoLow, TempoHigh: e.TempoHigh}
		feels = append(feels, f)
	}
	r := rand.New(rand.NewSource(seed))
	var files []string
	for i := range songs {
		name := fmt.Sprintf("random-%d-%03d", seed, i+1)
		at, song := dir, songtest.Song{}
		if newer {
			at, song = filepath.Join(dir, name), songtest.Random(r, feels)
		} else {
			song.Text = songtest.Old(r, feels)
		}
		path := filepath.Join(at, name+".song.hcl")
		texts := map[string]string{path: song.Text}
		for file, text := range song.Files {
			texts[filepath.Join(at, file)] = text
		}
		if err := os.MkdirAll(at, 0o755); err != nil {
			return nil, err
		}
		for file, text := range texts {
			if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
				return nil, err
			}
		}
		files = append(files, path)
	}
	return files, nil
}

// all compares the songs, as many at a time as there are processors. The results are in
// the order of the songs.
func (b *bench) all(files []string) ([]result, error) {
	results, faults := make([]result, len(files)), make([]error, len(files))
	jobs := make(chan int)
	var wait sync.WaitGroup
	for range runtime.NumCPU() {
		wait.Go(func() {
			for i := range jobs {
				results[i], faults[i] = b.compareSong(files[i])
			}
		})
	}
	for i := range files {
		jobs <- i
	}
	close(jobs)
	wait.Wait()
	if i := slices.IndexFunc(faults, func(err error) bool { return err != nil }); i >= 0 {
		return nil, fmt.Errorf("%s: %w", files[i], faults[i])
	}
	return results, nil
}
