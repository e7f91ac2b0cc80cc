package songtest

import (
	"regexp"
	"strings"
)

var (
	movesTempo = regexp.MustCompile(`(?m)^ *(rit|accel|hold|caesura) "[^"]*" \{[^}]*\}\n`)
	hasTime    = regexp.MustCompile(`(?m)^ *at = ".*"\n`)
	anyTempo   = regexp.MustCompile(`(?m)^( *)tempo = [0-9.]+$`)
)

// free has the band of a song with a guide follow it in some places, in one such song of two. What
// else would make the tempo goes.
func (w *writer) free(s Song) Song {
	if s.Files["guide.mid"] == "" || w.later(2) {
		return s
	}
	plain := func(text string) string { return hasTime.ReplaceAllString(movesTempo.ReplaceAllString(text, ""), "") }
	for name, text := range s.Files {
		if strings.HasSuffix(name, ".song.hcl") {
			s.Files[name] = plain(text)
		}
	}
	s.Text = anyTempo.ReplaceAllStringFunc(plain(s.Text), func(line string) string {
		if w.later(2) {
			return line
		}
		return line[:strings.Index(line, "=")] + `= "guide"`
	})
	if w.later(2) {
		s.Text = strings.Replace(s.Text, "vocal \"guide.mid\" {\n", "vocal \"guide.mid\" {\n  leads = true\n", 1)
	}
	return s
}
