package main

import (
	"os"
	"syscall"
)

// takesEscapes tells a console to read escape sequences as colours, and reports whether it
// does. Consoles before Windows 10 would print them.
func takesEscapes(f *os.File) bool {
	const virtualTerminal = 0x0004 // ENABLE_VIRTUAL_TERMINAL_PROCESSING
	var mode uint32
	if syscall.GetConsoleMode(syscall.Handle(f.Fd()), &mode) != nil {
		return false
	}
	if mode&virtualTerminal != 0 {
		return true
	}
	set := syscall.NewLazyDLL("kernel32.dll").NewProc("SetConsoleMode")
	ok, _, _ := set.Call(f.Fd(), uintptr(mode|virtualTerminal))
	return ok != 0
}
