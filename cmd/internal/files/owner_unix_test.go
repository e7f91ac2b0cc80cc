//go:build unix

package files

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A file keeps its owner and its group, also when the administrator builds.
func TestOwnerStays(t *testing.T) {
	dir := folder(t, map[string]string{"a.mid": "old"})
	path := filepath.Join(dir, "a.mid")
	if err := os.Chown(path, 4711, 4712); err != nil {
		t.Skipf("this account cannot give files away: %v", err)
	}
	if _, err := WriteAll(dir, []Output{{"a.mid", []byte("new")}}); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if s := info.Sys().(*syscall.Stat_t); s.Uid != 4711 || s.Gid != 4712 {
		t.Errorf("it belongs to %d and the group %d now", s.Uid, s.Gid)
	}
}
