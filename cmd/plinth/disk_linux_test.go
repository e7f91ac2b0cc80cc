package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A disk that is really full: the build says so, ends with exit code 3, and
// leaves the earlier file byte for byte and nothing else.
func TestFullDisk(t *testing.T) {
	disk := filepath.Join(t.TempDir(), "disk")
	if err := os.Mkdir(disk, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("none", disk, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	// Detached, should somebody be looking at it just now.
	defer syscall.Unmount(disk, syscall.MNT_DETACH)
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	plinth := filepath.Join(t.TempDir(), "plinth")
	if err := os.Symlink(exe, plinth); err != nil { // by that name the test binary is plinth
		t.Fatal(err)
	}
	song := filepath.Join(t.TempDir(), "weir.song.hcl")
	build := func(bars string) (string, error) {
		if err := os.WriteFile(song, []byte("section \"verse\" {\n  chords = \""+bars+"|\"\n}\n"), 0o666); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(plinth, "build", song, "--out", disk).CombinedOutput()
		return string(out), err
	}
	if out, err := build("| C "); err != nil {
		t.Fatal(out, err)
	}
	before, err := os.ReadFile(filepath.Join(disk, "weir.mid"))
	if err != nil {
		t.Fatal(err)
	}
	out, err := build(strings.Repeat("| C | F ", 500))
	if exit, ok := err.(*exec.ExitError); !ok || exit.ExitCode() != machineFails ||
		!strings.Contains(out, "no space left on device") {
		t.Errorf("a full disk gives %v and says %s", err, out)
	}
	after, err := os.ReadFile(filepath.Join(disk, "weir.mid"))
	if err != nil || !bytes.Equal(before, after) {
		t.Errorf("the earlier file has changed (%v)", err)
	}
	if entries, _ := os.ReadDir(disk); len(entries) != 1 {
		t.Errorf("%d files are left instead of one", len(entries))
	}
}
