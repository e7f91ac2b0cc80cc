// Package page takes a built song and writes what its page in the browser is told: the state of the
// song, its passes with what is heard and read in them, and the room that they leave, as JSON. The
// page's own files are in the folder web.
//
// A pass is a chunk, named by the hash of its bytes. It says nothing of its place in the song, so that
// a pass that was moved is the same chunk, and the page has to load only what has changed.
package page

import (
	"embed"
	"encoding/json"
	"io/fs"
	"strings"
	"unicode"
	"unicode/utf8"
)

//go:embed web
var web embed.FS

// Files are the page's own files: page.html and what it loads.
func Files() fs.FS {
	files, err := fs.Sub(web, "web")
	if err != nil {
		panic(err)
	}
	return files
}

// plain is a text without control characters and marks that turn the direction of writing: the page shows
// a box for each. It has as many UTF-16 units as before.
func plain(s string) string { return plainBut(s, '\t') }

// plainLines is the same for a text that may have several lines.
func plainLines(s string) string { return plainBut(s, '\n') }

func plainBut(s string, may rune) string {
	if isPlain(s) {
		return s
	}
	return strings.Map(func(r rune) rune {
		if r == may || !unicode.IsControl(r) && !turns(r) {
			return r
		}
		return utf8.RuneError
	}, s)
}

// isPlain reports whether a text is printable ASCII.
func isPlain(s string) bool {
	return !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || r > '~' })
}

// turns reports whether a character turns the direction of writing or breaks the line.
func turns(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0xfeff ||
		r == 0x2028 || r == 0x2029
}

// appendText adds a text as JSON.
func appendText(b []byte, s string) []byte {
	if isPlain(s) && !strings.ContainsAny(s, `"\<>&`) {
		return append(append(append(b, '"'), s...), '"')
	}
	return append(b, encode(plain(s))...)
}

// encode is a value of ours as JSON.
func encode(v any) []byte {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err)
	}
	return b
}
