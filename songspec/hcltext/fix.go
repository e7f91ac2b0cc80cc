package hcltext

import (
	"strings"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/wording"
)

// Fix mends what a diagnostic is about: the text to stand in a range of the file
// instead of what stands there. There is one only where that is right beyond doubt.
type Fix struct {
	Range hcl.Range
	Text  string
	Title string // what it does, for a menu: Write "verse"
}

// FixOf is the fix of a diagnostic, where it has one.
func FixOf(d *hcl.Diagnostic) (Fix, bool) {
	f, ok := d.Extra.(Fix)
	return f, ok
}

// Apply is the text with the fix in it.
func (f Fix) Apply(src []byte) []byte {
	return []byte(string(src[:f.Range.Start.Byte]) + f.Text + string(src[f.Range.End.Byte:]))
}

// fix is the fix that writes a text in place of the bytes lo up to hi.
func (s *Source) fix(lo, hi int, text string) Fix {
	title := "Write " + wording.Clip(strings.Join(strings.Fields(text), " "), 40)
	switch old := string(s.Src[lo:hi]); {
	case strings.ContainsAny(old, OddBlanks):
		title = "Write the blanks of the keyboard"
	case strings.Trim(text, " ") == "":
		title = "Delete " + strings.TrimSpace(old)
	case strings.TrimSpace(text) == "":
		title = "Begin a new line"
	}
	return Fix{Range: s.Range(lo, hi), Text: text, Title: title}
}
