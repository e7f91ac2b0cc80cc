// Savebench measures `plinth watch` from outside, as an editor and a sequencer
// see it: it saves a song in one way or another and waits for the new bytes under
// the MIDI file's name.
//
//	go run ./cmd/internal/savebench              500 saves in each of three styles
//	go run ./cmd/internal/savebench -soak 10000  memory and open files over many saves
//	go run ./cmd/internal/savebench -idle 60s    processor use while nothing happens
//	go run ./cmd/internal/savebench -kill 300    kill -9 at random moments of rebuilds
//
// Every new file is compared with what a build of its own makes of the same song;
// a wrong byte ends the run with exit code 1.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

func main() {
	saves := flag.Int("saves", 500, "saves in each style")
	soak := flag.Int("soak", 0, "save this often and report memory and open files")
	idle := flag.Duration("idle", 0, "report the processor time used in this time without a save")
	kill := flag.Int("kill", 0, "kill the watch in this many rebuilds")
	song := flag.String("song", filepath.Join("examples", "lanterns.song.hcl"), "the song to save")
	poll := flag.Bool("poll", false, "measure with --poll")
	flag.Parse()
	if err := run(*song, *saves, *soak, *idle, *kill, *poll); err != nil {
		fmt.Fprintln(os.Stderr, "savebench:", err)
		os.Exit(1)
	}
}

func run(song string, saves, soak int, idle time.Duration, kill int, poll bool) error {
	dir, err := os.MkdirTemp("", "savebench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	plinth := filepath.Join(dir, "plinth.exe")
	build := exec.Command("go", "build", "-o", plinth, "plinth/cmd/plinth")
	if out, err := build.CombinedOutput(); err != nil {
		return fmt.Errorf("go build: %w\n%s", err, out)
	}
	b, err := newBench(plinth, dir, song, poll)
	if err != nil {
		return err
	}
	if kill > 0 {
		return b.measureKills(kill)
	}
	w, err := b.start()
	if err != nil {
		return err
	}
	defer w.stop()
	switch {
	case soak > 0:
		return b.measureSoak(w, soak)
	case idle > 0:
		return b.measureIdle(w, idle)
	}
	return b.measureLatency(w, saves)
}

// measureLatency prints a table: the time from the end of a save to the new
// bytes, and how much of it is not the quiet window.
func (b *bench) measureLatency(w *watched, saves int) error {
	fmt.Printf("%d saves a style, milliseconds from the end of the save to the new bytes\n\n", saves)
	fmt.Printf("%-24s %7s %7s %7s %7s   %s\n", "style", "p50", "p90", "p99", "most", "beyond the window, p50")
	for _, s := range styles {
		var took []time.Duration
		for i := range saves {
			d, err := b.save(s)
			if err != nil {
				return fmt.Errorf("%s, save %d: %w\n%s", s.name, i+1, err, w.said())
			}
			took = append(took, d)
			time.Sleep(b.pause())
		}
		slices.Sort(took)
		at := func(percent int) time.Duration { return took[min(len(took)-1, len(took)*percent/100)] }
		fmt.Printf("%-24s %7.1f %7.1f %7.1f %7.1f   %.1f\n", s.name, milliseconds(at(50)), milliseconds(at(90)),
			milliseconds(at(99)),
			milliseconds(took[len(took)-1]), milliseconds(at(50)-s.window))
	}
	return nil
}

func milliseconds(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// measureSoak saves without a pause and prints memory, open files and threads ten times on
// the way.
func (b *bench) measureSoak(w *watched, saves int) error {
	fmt.Printf("%8s %12s %12s %10s\n", "saves", "memory KiB", "open files", "threads")
	every := max(1, saves/10)
	for i := range saves + 1 {
		if i%every == 0 {
			u, err := usageOf(w.cmd.Process.Pid)
			if err != nil {
				return err
			}
			fmt.Printf("%8d %12d %12d %10d\n", i, u.memory, u.files, u.threads)
		}
		if _, err := b.save(styles[1]); err != nil {
			return fmt.Errorf("save %d: %w\n%s", i, err, w.said())
		}
	}
	return nil
}

// measureIdle prints the processor time of a watch to which nothing happens.
func (b *bench) measureIdle(w *watched, d time.Duration) error {
	time.Sleep(3 * time.Second) // past the time in which a fresh file is read again
	before, err := usageOf(w.cmd.Process.Pid)
	if err != nil {
		return err
	}
	time.Sleep(d)
	after, err := usageOf(w.cmd.Process.Pid)
	if err != nil {
		return err
	}
	used := after.processor - before.processor
	fmt.Printf("processor time in %v without a save: %v (%.3f %%)\n", d, used, 100*float64(used)/float64(d))
	return nil
}

// measureKills kills the watch at about the moment when it writes, and checks that the
// file is the whole old one or the whole new one. That moment depends on the machine: a
// kill that found the old file makes the next one later, one that found the new file
// earlier. It goes on until both were found.
func (b *bench) measureKills(times int) error {
	var olds, news, left int
	waits := make([]time.Duration, len(styles)) // from a save of each style to the kill
	for i, s := range styles {
		waits[i] = s.window + 4*time.Millisecond
	}
	for i := 0; i < times || olds == 0 || news == 0; i++ {
		s := styles[i%len(styles)]
		w, err := b.start()
		if err != nil {
			return err
		}
		old := b.text
		if err := b.write(s); err != nil {
			return err
		}
		at := &waits[i%len(styles)]
		// A few milliseconds to and fro.
		time.Sleep(*at - 3*time.Millisecond + time.Duration(b.rnd.Int64N(int64(6*time.Millisecond))))
		w.cmd.Process.Kill()
		w.cmd.Wait()
		data, err := os.ReadFile(b.midi)
		if err != nil {
			return err
		}
		switch string(data) {
		case b.expected[old]:
			olds++
			if *at += max(*at/10, time.Millisecond); *at > hopeless {
				return fmt.Errorf("%s: no new file in %v", s.name, hopeless)
			}
		case b.expected[b.text]:
			news++
			*at = max(0, *at-max(*at/10, time.Millisecond))
		default:
			return fmt.Errorf("kill %d: the file is neither the old one nor the new one, %d bytes", i+1, len(data))
		}
		entries, err := os.ReadDir(filepath.Dir(b.midi))
		if err != nil {
			return err
		}
		left = max(left, len(entries)-1)
		if i == 100*times {
			return fmt.Errorf("not one of %d kills found the old file", i+1)
		}
	}
	fmt.Printf("%d kills: %d times the whole old file, %d times the whole new one; at most %d temporary files left, "+
		"which a build a minute later takes away\n", olds+news, olds, news, left)
	return nil
}
