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
	var built [2]programOutput
	var files [2][]byte
	for i := range sides {
		out := filepath.Join(b.dir, r.name+"."+sides[i])
		var err error
		if built[i], err = runProgram(b.programs[i], "build", path, "--out", out); err != nil {
			return r, err
		}
		if files[i], err = os.ReadFile(filepath.Join(out, r.name+".mid")); err != nil && built[i].code == 0 {
			return r, err
		}
		if err := os.RemoveAll(out); err != nil {
			return r, err
		}
		kept[sides[i]+".mid"] = files[i]
	}
	switch {
	case built[0].code != built[1].code:
		r.differ("build ends with exit code %d, now with %d", built[0].code, built[1].code)
	case built[0].code != 0 && !bytes.Equal(built[0].err, built[1].err):
		r.differ("refused in other words: %s", firstLine(built[0].err, built[1].err))
	case !bytes.Equal(files[0], files[1]):
		r.differ("MIDI: %s", firstEvent(files[0], files[1]))
	}
	r.refused = built[0].code != 0
	for _, command := range b.also {
		var runs [2]programOutput
		for i := range sides {
			var err error
			if runs[i], err = runProgram(b.programs[i], command, path); err != nil {
				return r, err
			}
			kept[sides[i]+"."+command] = runs[i].out
		}
		switch {
		case runs[0].code != runs[1].code:
			r.differ("%s ends with exit code %d, now with %d", command, runs[0].code, runs[1].code)
		case !bytes.Equal(runs[0].out, runs[1].out):
			r.differ("%s: %s", command, firstLine(runs[0].out, runs[1].out))
		case command == "check" && !bytes.Equal(runs[0].err, runs[1].err):
			r.differ("%s, standard error: %s", command, firstLine(runs[0].err, runs[1].err))
		}
	}
	return r, b.keep(path, &r, kept)
}

func (r *result) differ(format string, args ...any) {
	r.differences = append(r.differences, fmt.Sprintf(format, args...))
}

// runProgram runs a program to its end. An error means that it could not be run.
func runProgram(program string, args ...string) (programOutput, error) {
	cmd := exec.Command(program, args...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	err := cmd.Run()
	if exit := (*exec.ExitError)(nil); err != nil && !errors.As(err, &exit) {
		return programOutput{}, err
	}
	return programOutput{cmd.ProcessState.ExitCode(), out.Bytes(), errs.Bytes()}, nil
}

// keep leaves a song that differs in the folder, with what was made of it, and removes a
// random song that does not differ. An example is copied, because it may change before
// anybody reads it.
func (b *bench) keep(path string, r *result, made map[string][]byte) error {
	if len(r.differences) == 0 {
		if filepath.Dir(path) == b.dir {
			return os.Remove(path)
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
	for i := range max(len(a), len(b)) {
		if i >= len(a) || i >= len(b) || a[i] != b[i] {
			return fmt.Sprintf("line %d: %s; now %s", i+1, lineAt(a, i), lineAt(b, i))
		}
	}
	return "no difference"
}

func lineAt(lines []string, i int) string {
	if i >= len(lines) {
		return "nothing"
	}
	return fmt.Sprintf("%q", lines[i])
}
