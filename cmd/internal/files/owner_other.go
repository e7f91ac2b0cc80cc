//go:build !unix

package files

import "io/fs"

// keepOwner does nothing: a file takes after its folder here.
func keepOwner(file, fs.FileInfo) {}
