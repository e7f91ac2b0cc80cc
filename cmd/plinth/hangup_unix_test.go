//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// A closed terminal ends the watch as Ctrl-C does, with all that --then has started, which
// the system would let run on.
func TestHangUp(t *testing.T) {
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	plinth, song, alive := filepath.Join(dir, "plinth"), filepath.Join(dir, "weir.song.hcl"),
		filepath.Join(dir, "alive")
	if err := os.Symlink(exe, plinth); err != nil { // by that name the test binary is plinth
		t.Fatal(err)
	}
	if err := os.WriteFile(song, []byte("section \"verse\" {\n  chords = \"| C | F |\"\n}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	// The reader of a pipe is told when the last writer has ended: this process and
	// all that it has started.
	from, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	var said bytes.Buffer
	cmd := exec.Command(plinth, "watch", song, "--then", "echo > "+alive+"; exec sleep 1000 >&3")
	cmd.Stderr, cmd.ExtraFiles = &said, []*os.File{to}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	to.Close()
	defer cmd.Process.Kill()
	// This limit is for a busy machine and does not measure the program.
	for end := time.Now().Add(2 * time.Minute); ; time.Sleep(5 * time.Millisecond) {
		if info, err := os.Stat(alive); err == nil && info.Size() > 0 {
			break
		}
		if time.Now().After(end) {
			t.Fatal("the command does not run")
		}
	}
	if err := cmd.Process.Signal(syscall.SIGHUP); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err != nil {
		t.Errorf("the watch ends with %v: %s", err, said.String())
	}
	from.SetReadDeadline(time.Now().Add(2 * time.Minute))
	if _, err := from.Read(make([]byte, 1)); err != io.EOF {
		t.Errorf("the command outlives the watch: %v", err)
	}
}
