package songspec

import (
	"fmt"
	"strings"

	"github.com/hashicorp/hcl/v2"
)

// Lines that musicians get wrong in ways that HCL's parser has no words for.
var (
	unquotedChords = pattern(`^\s*chords\s*=?\s*([^"<=:\x27“”„‘’«»\s].*)$`)
	noEquals       = pattern(`^\s*([a-z_]+)\s*:?\s+("?[^={]*"?)\s*$`)
	colonValue     = pattern(`^\s*([a-z_]+)\s*:\s*=?\s*(.*\S)\s*$`)
	unquotedPlace  = pattern(`^\s*([a-z]+)\s+([^"={]+?)\s*\{`)
	oddNumber      = pattern(`=\s*([-.0-9][0-9a-zA-Z_.]*)`)
	blockHead      = pattern(`^\s*([a-z_]+)(\s+"[^"]*")?\s*$`)
	bareHead       = pattern(`^\s*([a-z_]+)\s+([^"={}]+?)\s*$`)
	equalsHead     = pattern(`^\s*([a-z_]+)\s*("[^"]*")?\s*=\s*("[^"]*")?\s*\{`)
	colonHead      = pattern(`^\s*([a-z_]+)\s*(:)\s*([^:={}]*?)\s*\{\s*$`)
	twoEquals      = pattern(`^\s*[a-z_]+\s*(==+)`)
	wellWritten    = pattern(`^(-?[0-9]+(\.[0-9]+)?$|"|\[|<<)`)
	nextValue      = pattern(`^([a-z_]+)\s*=[^=]`)
	nameHead       = pattern(`^\s*("[^"]*")\s*\{`)
	inBraces       = pattern(`^\s*([a-z_]+)\s*\{\s*([^{}=]*[^{}=\s])\s*\}\s*$`)
	openQuote      = pattern(`^\s*([a-z_]+)\s*=\s*([^"\s=\[{<'“][^"=]*")\s*$`)
	partHeading    = pattern(`^\s*\[?\s*([A-Za-z-]+)\s*([0-9]*)\s*\]?\s*:?\s*$`)
	playTimes      = pattern(`^\s*([a-z_]+)\s+("[^"]*")\s+[^{}"\s][^{}"]*$`)
	wordsOnly      = pattern(`^\s*[A-Z][\p{L}'’.,!?-]*(\s+[\p{L}0-9'’.,!?-]+)+\s*$`)
	bareText       = pattern(`^\s*([a-z_]+)\s*=\s*([\p{L}][^"=;,#\[{<]*[^"=;,#\s])\s*$`)
	heredocHead    = pattern(`<<-?([\p{L}_][\p{L}\p{N}_-]*)`)
)

// syntax puts HCL's own messages into our words. Of several on one line only
// the first is kept: the others follow from it.
func (s *source) syntax(diags hcl.Diagnostics, dialect *Dialect) hcl.Diagnostics {
	SortDiagnostics(diags)
	rep := report{s: s}
	lines := map[int]bool{}
	w := wording{s, dialect}
	for _, d := range diags {
		if d.Severity != hcl.DiagError {
			continue
		}
		rng := s.rng(0, 0)
		if d.Subject != nil {
			rng = s.rng(d.Subject.Start.Byte, d.Subject.End.Byte)
		}
		rng, summary, detail := w.reword(rng, d)
		if lines[rng.Start.Line] {
			continue
		}
		lines[rng.Start.Line] = true
		rep.errorf(rng, summary, "%s", detail)
		if d.Summary == "Unterminated template string" || d.Summary == "Invalid multi-line string" || summary == textHead || summary == neverClosed || halfQuoted(string(s.lineText(rng.Start.Line))) {
			break // inside and outside have changed places: all that follows is noise
		}
	}
	return rep.sorted()
}

// halfQuoted reports a line with a quote that has no partner.
func halfQuoted(line string) bool {
	return strings.Count(strings.ReplaceAll(line, `\"`, ""), `"`)%2 == 1
}

// neverClosed is the summary of a block without its closing brace.
const neverClosed = "A brace is never closed"

// wording puts messages into the words of a kind of file.
type wording struct {
	*source
	*Dialect
}

func (s wording) reword(rng hcl.Range, d *hcl.Diagnostic) (hcl.Range, string, string) {
	line := string(s.lineText(rng.Start.Line))
	lo := s.lines[rng.Start.Line-1]
	if from, to, summary, detail, ok := s.Line(line); ok {
		return s.rng(lo+from, lo+to), summary, detail
	}
	if from, to, ok := oddBlank(line); ok {
		return s.rng(lo+from, lo+to), blankThatIsNone, blankHelp
	}
	if rng, summary, detail, ok := s.misheaded(rng, line); ok {
		return rng, summary, detail
	}
	if m := openQuote().FindStringSubmatchIndex(line); m != nil && halfQuoted(line) {
		return s.rng(lo+m[4], lo+m[5]), "A quote is missing", fmt.Sprintf("Text has a quote on either side: %s = \"%s\".", line[m[2]:m[3]], bare(line[m[4]:m[5]-1]))
	}
	switch d.Summary {
	case "Invalid single-argument block definition":
		return rng, "More on one line than fits", "A block on one line holds one option and then its closing brace. Put each option, and the closing brace, on a line of its own."
	case "Argument or block definition required":
		return s.rewordLine(rng, line)
	case "Invalid block definition":
		return s.rewordHead(rng, line)
	case "Invalid escape sequence":
		return rng, "Backslash in a text", "A backslash has no place here. " + s.Slash
	case "Unterminated template string", "Invalid multi-line string":
		return s.rewordOpenText(rng, line)
	case "Unclosed configuration block", "Unclosed configuration body":
		if brace, next, ok := s.unclosed(s.Dialect); ok {
			return s.rng(brace, brace+1), neverClosed, fmt.Sprintf("The block that opens here needs a closing brace } on a line of its own, above line %d.", s.line(next))
		}
		return rng, neverClosed, "The block that opens here needs a closing brace } on a line of its own."
	case "Attribute redefined":
		name := string(s.src[rng.Start.Byte:min(rng.End.Byte, len(s.src))])
		return rng, fmt.Sprintf("%s is said twice", sentence("%s", name)), strings.Replace(firstPlace(d.Detail), "NAME", name, 1)
	case "Invalid number literal":
		return rng, "Not a number", fmt.Sprintf("A number is written with digits, and a point where it is not whole: %s.", s.Number)
	case "Missing newline after argument":
		after := strings.TrimSpace(line[min(max(rng.Start.Byte-lo, 0), len(line)):])
		if after == "}" {
			return rng, "A brace behind a value", "The closing brace of a block that has several lines stands on a line of its own."
		}
		if m := nextValue().FindStringSubmatch(after); m != nil {
			return rng, "Two values on one line", fmt.Sprintf("Each value stands on a line of its own, so %s = … begins a new one.", m[1])
		}
		if m := oddNumber().FindStringSubmatch(line); m != nil && wellWritten().MatchString(m[1]) {
			return rng, "Something after the number", fmt.Sprintf("A number stands alone on its line: %s.", strings.TrimSpace(line[:rng.Start.Byte-lo]))
		} else if m != nil {
			return rng, "Not a number", fmt.Sprintf("%q is no number here. Write digits alone, and a point where it is not whole: %s.", m[1], s.Number)
		}
		return rng, "Something after the value", afterValue(line)
	case "Missing newline after block definition":
		return rng, "More on one line than fits", "Nothing may follow a closing brace on its line."
	case "Invalid attribute name":
		if oddNumber().MatchString(line) {
			return rng, "Not a number", "Digits stand on both sides of a point: 5.0, 0.5."
		}
		return rng, "Something after the value", afterValue(line)
	case "Invalid expression", "Missing expression":
		if m := oddNumber().FindStringSubmatch(line); m != nil && strings.HasPrefix(m[1], ".") {
			return rng, "Not a number", fmt.Sprintf("Digits stand on both sides of a point: 0%s.", m[1])
		}
		return rng, "No value here", "After the equals sign comes a number, or text in quotes, or a list in square brackets."
	case "Invalid character":
		return s.rewordCharacter(rng)
	case "Missing item separator", "Unterminated tuple constructor expression":
		if b := s.src[min(rng.Start.Byte, len(s.src)-1)]; d.Summary[0] == 'U' || b == '}' || b == '\n' || b == '\r' || rng.Start.Byte >= len(s.src) {
			return s.openList(rng), "A list is never closed", fmt.Sprintf("A list begins with [ and ends with ]: %s.", s.List)
		}
		return rng, "A comma is missing", fmt.Sprintf("The items of a list have commas between: %s.", s.List)
	}
	return s.rewordForeign(rng, line, d)
}

// rewordCharacter is for a character that HCL does not know.
func (s wording) rewordCharacter(rng hcl.Range) (hcl.Range, string, string) {
	switch string(s.src[rng.Start.Byte:min(rng.End.Byte, len(s.src))]) {
	case "'", "`":
		return rng, "Single quotes", `Text stands in double quotes: "…".`
	case "“", "”", "„", "‘", "’", "«", "»", "‟", "″":
		return rng, "Curly quotes", `Text stands in straight double quotes: "…". Turn off smart quotes in the editor.`
	case ";":
		return rng, "A semicolon", "Each value stands on a line of its own, without a semicolon."
	case "–", "—", "−":
		return rng, "A dash", "A minus sign is the plain hyphen of the keyboard."
	}
	return rng, "A character that means nothing here", s.Quoted
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
