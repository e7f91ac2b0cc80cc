//go:build unix

package files

import (
	"io/fs"
	"syscall"
)

// keepOwner gives a new file the owner and the group of the file that it replaces. Only the
// administrator may change the owner; others may still give it to another of their groups.
// Where neither is allowed, the file belongs to whoever wrote it, as with an editor.
func keepOwner(f file, old fs.FileInfo) {
	was, ok := old.Sys().(*syscall.Stat_t)
	if !ok {
		return
	}
	if f.Chown(int(was.Uid), int(was.Gid)) != nil {
		f.Chown(-1, int(was.Gid))
	}
}
