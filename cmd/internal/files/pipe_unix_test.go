//go:build unix

package files

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A pipe is read to its end and no further than the limit; Read does not wait for it.
func TestReadPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skipf("this file system has no pipes: %v", err)
	}
	if _, err := Read(pipe, 10); !errors.Is(err, ErrNotFile) {
		t.Errorf("Read: %v", err)
	}
	for _, row := range []struct {
		limit int64
		want  string
	}{{10, "ten things"}, {3, "ten "}} {
		written := make(chan error)
		go func() { written <- os.WriteFile(pipe, []byte("ten things"), 0) }()
		if got, err := ReadPipe(pipe, row.limit); string(got) != row.want || err != nil {
			t.Errorf("limit %d: %q, %v", row.limit, got, err)
		}
		if err := <-written; err != nil && !errors.Is(err, syscall.EPIPE) {
			t.Fatal(err)
		}
	}
	if _, err := ReadPipe(filepath.Dir(pipe), 10); !errors.Is(err, ErrNotFile) {
		t.Errorf("a folder: %v", err)
	}
	if _, err := ReadPipe(os.DevNull, 10); !errors.Is(err, ErrNotFile) {
		t.Errorf("a device: %v", err)
	}
}
