package songspec

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/hashicorp/hcl/v2"
)

// Lines that musicians get wrong in ways that HCL's parser has no words for.
var (
	unquotedChords = regexp.MustCompile(`^\s*chords\s*=\s*[^"<\s]`)
	noEquals       = regexp.MustCompile(`^\s*([a-z_]+)\s*:?\s+("?[^={]*"?)\s*$`)
	colonValue     = regexp.MustCompile(`^\s*([a-z_]+)\s*:\s*=?\s*(.*\S)\s*$`)
	unquotedPlace  = regexp.MustCompile(`^\s*([a-z]+)\s+([^"={]+?)\s*\{`)
	oddNumber      = regexp.MustCompile(`=\s*([-.0-9][0-9a-zA-Z_.]*)`)
	blockHead      = regexp.MustCompile(`^\s*([a-z_]+)(\s+"[^"]*")?\s*$`)
	heredocHead    = regexp.MustCompile(`<<-?([\p{L}_][\p{L}\p{N}_-]*)`)
)

// syntax puts HCL's own messages into our words. Of several on one line only
// the first is kept: the others follow from it.
func (s *source) syntax(diags hcl.Diagnostics) hcl.Diagnostics {
	SortDiagnostics(diags)
	rep := report{s: s}
	lines := map[int]bool{}
	for _, d := range diags {
		if d.Severity != hcl.DiagError {
			continue
		}
		rng := s.rng(0, 0)
		if d.Subject != nil {
			rng = s.rng(d.Subject.Start.Byte, d.Subject.End.Byte)
		}
		rng, summary, detail := s.reword(rng, d)
		if lines[rng.Start.Line] {
			continue
		}
		lines[rng.Start.Line] = true
		rep.errorf(rng, summary, "%s", detail)
		if d.Summary == "Unterminated template string" || d.Summary == "Invalid multi-line string" || summary == textHead {
			break // inside and outside have changed places: all that follows is noise
		}
	}
	return rep.sorted()
}

func (s *source) reword(rng hcl.Range, d *hcl.Diagnostic) (hcl.Range, string, string) {
	line := string(s.lineText(rng.Start.Line))
	if unquotedChords.MatchString(line) {
		lo := s.lines[rng.Start.Line-1] + strings.IndexByte(line, '=') + 1
		hi := s.lines[rng.Start.Line-1] + len(line)
		for lo < hi && (s.src[lo] == ' ' || s.src[lo] == '\t') {
			lo++
		}
		return s.rng(lo, hi), "Chord text needs quotes", `Write chords = "| C | F |", or several lines between <<-EOT and EOT.`
	}
	if rng, detail, ok := s.rewordHead(rng, line); ok {
		return rng, textHead, detail
	}
	switch d.Summary {
	case "Invalid single-argument block definition":
		return rng, "More on one line than fits", "A block on one line holds one option and then its closing brace. Put each option, and the closing brace, on a line of its own."
	case "Argument or block definition required":
		return s.rewordLine(rng, line)
	case "Invalid block definition":
		if m := blockHead.FindStringSubmatch(line); m != nil {
			return rng, "A block without braces", fmt.Sprintf("Write braces on the same line, even when there is nothing in them: %s%s {}.", m[1], m[2])
		}
		if m := unquotedPlace.FindStringSubmatch(line); m != nil {
			return rng, "A place or a name without quotes", fmt.Sprintf("Write %s \"%s\" { … }.", m[1], bare(m[2]))
		}
		return rng, "A block without braces", `After the name comes an opening brace on the same line: section "verse" {.`
	case "Invalid escape sequence":
		return rng, "Backslash in a text", "A backslash has no place here. A chord over another bass is written with a slash, C/G, and so are folders."
	case "Unterminated template string", "Invalid multi-line string":
		return s.rewordOpenText(rng, line)
	case "Unclosed configuration block":
		return rng, "A brace is never closed", "The block that opens here needs a closing brace } on a line of its own."
	case "Attribute redefined":
		name := string(s.src[rng.Start.Byte:min(rng.End.Byte, len(s.src))])
		return rng, fmt.Sprintf("%s is said twice", sentence("%s", name)), strings.Replace(firstPlace(d.Detail), "NAME", name, 1)
	case "Invalid number literal":
		return rng, "Not a number", "A number is written with digits, and a point where it is not whole: 72, 0.4."
	case "Missing newline after argument":
		if m := oddNumber.FindStringSubmatch(line); m != nil {
			return rng, "Not a number", fmt.Sprintf("%q is no number here. Write digits alone, and a point where it is not whole: 72, 0.4.", m[1])
		}
		return rng, "Something after the value", "Nothing may follow the value on its line; text with blanks in it stands in quotes."
	case "Invalid attribute name":
		if oddNumber.MatchString(line) {
			return rng, "Not a number", "Digits stand on both sides of a point: 5.0, 0.5."
		}
	case "Invalid expression":
		if m := oddNumber.FindStringSubmatch(line); m != nil && strings.HasPrefix(m[1], ".") {
			return rng, "Not a number", fmt.Sprintf("Digits stand on both sides of a point: 0%s.", m[1])
		}
		return rng, "No value here", "After the equals sign comes a number, or text in quotes, or a list in square brackets."
	case "Invalid character":
		switch string(s.src[rng.Start.Byte:min(rng.End.Byte, len(s.src))]) {
		case "'":
			return rng, "Single quotes", `Text stands in double quotes: "…".`
		case "“", "”", "„", "‘", "’", "«", "»":
			return rng, "Curly quotes", `Text stands in straight double quotes: "…". Turn off smart quotes in the editor.`
		case ";":
			return rng, "A semicolon", "Each value stands on a line of its own, without a semicolon."
		}
		return rng, "A character that means nothing here", "Text, chords and places stand in quotes."
	case "Missing item separator":
		if b := s.src[min(rng.Start.Byte, len(s.src)-1)]; b == '}' || b == '\n' || b == '\r' || rng.Start.Byte >= len(s.src) {
			return s.openList(rng), "A list is never closed", `A list begins with [ and ends with ]: ["drums", "piano"].`
		}
		return rng, "A comma is missing", `The items of a list have commas between: ["drums", "piano"].`
	}
	return s.rewordForeign(rng, line, d)
}

// rewordLine looks at a line that is neither a value nor a block.
func (s *source) rewordLine(rng hcl.Range, line string) (hcl.Range, string, string) {
	trimmed := strings.TrimSpace(line)
	if trimmed == "}" || strings.HasPrefix(string(s.src[rng.Start.Byte:]), "}") {
		return rng, "A closing brace too many", "No block is open here. Delete the brace, or look for one above that closes too early."
	}
	if m := unquotedPlace.FindStringSubmatch(line); m != nil {
		return rng, "A place or a name without quotes", fmt.Sprintf("Write %s \"%s\" { … }.", m[1], bare(m[2]))
	}
	if m := colonValue.FindStringSubmatch(line); m != nil {
		return rng, "A colon for an equals sign", fmt.Sprintf("Write %s = %s.", m[1], m[2])
	}
	if m := noEquals.FindStringSubmatch(line); m != nil {
		return rng, "No equals sign", fmt.Sprintf("Write %s = %s.", m[1], strings.TrimSpace(m[2]))
	}
	if strings.HasPrefix(trimmed, "|") || strings.HasPrefix(trimmed, ":|") {
		return rng, "Chords outside a text", "Chord lines stand between chords = <<-EOT and a line with EOT alone."
	}
	if strings.HasPrefix(trimmed, "/*") {
		return rng, "A comment is never closed", "A comment that begins with /* ends with */. A # makes one of the rest of its line."
	}
	return rng, "Neither a value nor a block", `A line is a value, like tempo = 72, or the head of a block, like section "verse" {.`
}

// rewordOpenText points at where a text begins that is never closed.
func (s *source) rewordOpenText(rng hcl.Range, line string) (hcl.Range, string, string) {
	if strings.Contains(line, `"`) && rng.Start.Byte < len(s.src) {
		return rng, "A text is never closed", "A text in quotes ends with a quote on the same line. Several lines of chords stand between <<-EOT and EOT."
	}
	for n := rng.Start.Line; n >= 1; n-- {
		if m := heredocHead.FindSubmatchIndex(s.lineText(n)); m != nil {
			word := string(s.lineText(n)[m[2]:m[3]])
			lo := s.lines[n-1]
			return s.rng(lo+m[0], lo+m[1]), "A text is never closed", fmt.Sprintf("The text that begins here ends with a line that holds %s and nothing else, and a line break after it.", word)
		}
	}
	return rng, "A text is never closed", "Close it with a quote on the same line."
}

// firstPlace takes the line out of HCL's sentence about a value set before.
func firstPlace(detail string) string {
	if i := strings.LastIndexByte(detail, ':'); i >= 0 {
		rest := detail[i+1:]
		if j := strings.IndexByte(rest, ','); j > 0 {
			return fmt.Sprintf("The first NAME stands on line %s. Keep one of the two.", rest[:j])
		}
	}
	return "Keep one of the two."
}
