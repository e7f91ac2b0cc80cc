//go:build !windows

package main

import "os"

// takesEscapes says whether a terminal reads escape sequences as colours.
func takesEscapes(*os.File) bool { return true }
