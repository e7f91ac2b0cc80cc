package watch

import (
	"os"
	"runtime"
	"strings"
	"syscall"
	"unsafe"
)

// systemSaves need system calls that not every system has.
var systemSaves = []save{
	{name: "written through mapped memory", why: "the system sends no event at all: the poll finds it",
		do: func(r *rig) {
			f, err := os.OpenFile(r.song, os.O_RDWR, 0)
			r.must(err)
			defer f.Close()
			mem, err := syscall.Mmap(int(f.Fd()), 0, len(first), syscall.PROT_READ|syscall.PROT_WRITE,
				syscall.MAP_SHARED)
			r.must(err)
			copy(mem, strings.ToUpper(first))
			_, _, errno := syscall.Syscall(syscall.SYS_MSYNC, uintptr(unsafe.Pointer(&mem[0])), uintptr(len(mem)),
				syscall.MS_SYNC)
			if errno != 0 {
				r.t.Fatal(errno)
			}
			r.must(syscall.Munmap(mem))
		}, builds: 1, last: strings.ToUpper(first), silent: true},
	{name: "exchanged with another file", why: "renameat2 swaps two names in one step",
		do: func(r *rig) {
			number := map[string]uintptr{"amd64": 316, "arm64": 276}[runtime.GOARCH]
			if number == 0 {
				r.t.Skip("the number of renameat2 is not known here")
			}
			r.write(r.beside("n"), second)
			from, _ := syscall.BytePtrFromString(r.beside("n"))
			to, _ := syscall.BytePtrFromString(r.song)
			const atCwd, exchange = ^uintptr(99), 2
			if _, _, errno := syscall.Syscall6(number, atCwd, uintptr(unsafe.Pointer(from)), atCwd,
				uintptr(unsafe.Pointer(to)), exchange, 0); errno != 0 {
				r.t.Skip("renameat2: " + errno.Error())
			}
		}, builds: 1},
	{name: "replaced by a pipe", why: "opening it would wait for ever",
		do: func(r *rig) { r.remove(r.song); r.must(syscall.Mkfifo(r.song, 0o644)) }, builds: 1,
		last: "error: read SONG: it is not a regular file"},
}
