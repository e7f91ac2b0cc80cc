package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// sides name the two programs in messages and files.
var sides = [2]string{"old", "new"}

// bench is one comparison.
type bench struct {
	dir      string // of the random songs, and of what differs
	programs [2]string
	also     []string
}

// result is what came of one song.
type result struct {
	name        string
	refused     bool // by both
	differences []string
}

// programOutput is what one run of a program printed, with its exit code.
type programOutput struct {
	code     int
	out, err []byte
}

// compareSong compares what both programs make of a song, and removes what is equal.
func (b *bench) compareSong(path string) (result, error) {
	r := result{name: strings.TrimSuffix(filepath.Base(path), ".song.hcl")}
	kept := map[string][]byte{}
	for _, command := range append([]string{"build"}, b.also...) {
		var runs [2]programOutput
		for i, side := range sides {
			var err error
			if runs[i], err = b.run(i, r.name, command, path); err != nil {
				return r, err
			}
			kept[side+"."+strings.Replace(command, "build", "mid", 1)] = runs[i].out
		}
		old, now := runs[0], runs[1]
		sameOut, sameErr, build := bytes.Equal(old.out, now.out), bytes.Equal(old.err, now.err), command == "build"
		r.refused = r.refused || build && old.code != 0
		switch {
		case old.code != now.code:
			r.differ("%s ends with exit code %d, now with %d", command, old.code, now.code)
		case build && old.code != 0 && !sameErr:
			r.differ("refused in other words: %s", firstLine(old.err, now.err))
		case build && !sameOut:
			r.differ("MIDI: %s", firstEvent(old.out, now.out))
		case !sameOut:
			r.differ("%s: %s", command, firstLine(old.out, now.out))
		case command == "check" && !sameErr:
			r.differ("%s, standard error: %s", command, firstLine(old.err, now.err))
		}
	}
	return r, b.keep(path, &r, kept)
}

func (r *result) differ(format string, args ...any) {
	r.differences = append(r.differences, fmt.Sprintf(format, args...))
}

// run runs a program on a song to its end. What a build puts out is the MIDI file. An error
// means that it could not be run.
func (b *bench) run(side int, name, command, path string) (programOutput, error) {
	args, dir := []string{command, path}, filepath.Join(b.dir, name+"."+sides[side])
	if command == "build" {
		args = append(args, "--out", dir)
	}
	cmd := exec.Command(b.programs[side], args...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err := cmd.Run()
	if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
		return programOutput{}, err
	}
	result := programOutput{cmd.ProcessState.ExitCode(), out.Bytes(), errs.Bytes()}
	if command != "build" {
		return result, nil
	}
	if result.out, err = os.ReadFile(filepath.Join(dir, name+".mid")); err != nil && result.code == 0 {
		return result, err
	}
	return result, os.RemoveAll(dir)
}

// keep leaves a song that differs in the folder, with what was made of it, and removes a
// random song that does not differ. An example is copied, because it may change before
// anybody reads it.
func (b *bench) keep(path string, r *result, made map[string][]byte) error {
	if len(r.differences) == 0 {
		switch in := filepath.Dir(path); in {
		case b.dir:
			return os.Remove(path)
		case filepath.Join(b.dir, r.name):
			return os.RemoveAll(in)
		}
		return nil
	}
	src, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	made["song.hcl"] = src
	for suffix, data := range made {
		if data == nil {
			continue
		}
		if err := os.WriteFile(filepath.Join(b.dir, r.name+"."+suffix), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// firstLine is the first line in which two texts differ, in both versions.
func firstLine(old, now []byte) string {
	a, b := strings.Split(string(old), "\n"), strings.Split(string(now), "\n")
	at := func(lines []string, i int) string {
		if i >= len(lines) {
			return "nothing"
		}
		return fmt.Sprintf("%q", lines[i])
	}
	i := 0
	for i < min(len(a), len(b)) && a[i] == b[i] {
		i++
	}
	return fmt.Sprintf("line %d: %s; now %s", i+1, at(a, i), at(b, i))
}
