package songspec

import (
	"path"
	"strings"
)

const (
	maxGrooves = 16
	maxPath    = 1024
)

// ref checks a path as text: it must stay in the song file's folder. The check is the same on
// every machine, so a song that builds on one reads no other file on another. ok is false for
// a mistake, and when t is nil.
func (d *decoder) ref(t *said[string]) (ref Ref, ok bool) {
	if t == nil {
		return Ref{}, false
	}
	p := t.v
	bad := func(summary, detail string, args ...any) (Ref, bool) {
		d.rep.Errorf(t.rng, summary, detail, args...)
		return Ref{}, false
	}
	switch {
	case strings.TrimSpace(p) == "":
		return bad("No file named", "Write the file's name, relative to the song file's folder.")
	case len(p) > maxPath:
		return bad("File name too long", "A file name has at most %d characters.", maxPath)
	case strings.Contains(p, "://"):
		return bad("Not a file of the song's folder",
			"A song file opens no connection. Put the file beside the song and name it here.")
	case strings.Contains(p, "\\"):
		return bad("Backslash in a file name", "Folders are parted by / on every machine: \"%s\".",
			strings.ReplaceAll(p, "\\", "/"))
	case strings.HasPrefix(p, "/"), strings.HasPrefix(p, "~"), strings.Contains(p, ":"):
		return bad("Not a file of the song's folder",
			"A file is named relative to the song file's folder, like \"guide/voice.mid\". Nothing outside that "+
				"folder is read.")
	case strings.ContainsFunc(p, func(r rune) bool { return r < 0x20 || r == 0x7f }):
		return bad("Control character in a file name", "Write the name without it.")
	}
	clean := path.Clean(p)
	switch {
	case clean == ".." || strings.HasPrefix(clean, "../"):
		return bad("Not a file of the song's folder",
			"The path leads out of the song file's folder, and nothing outside is read. Put the file beside the song.")
	case clean == "." || strings.HasSuffix(p, "/"):
		return bad("A folder where a file belongs", "Name the file in it: \"%s/FILE\".", strings.TrimSuffix(p, "/"))
	}
	return Ref{Path: clean, Range: d.s.Range(t.rng.Start.Byte, t.rng.End.Byte)}, true
}
