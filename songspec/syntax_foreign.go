package songspec

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/hashicorp/hcl/v2"
)

// Habits of other languages, and of other countries.
var (
	decimalComma = regexp.MustCompile(`=\s*(-?[0-9]+),([0-9]+)\s*(?:#.*|//.*)?$`)
	quotedName   = regexp.MustCompile(`^\s*"([a-z_]+)"\s*[=:]\s*(.*\S)\s*$`)
	bracedValue  = regexp.MustCompile(`^\s*([a-z_]+)\s*=\s*\{`)
)

// rewordForeign is for what is right somewhere else: a decimal comma, a name in
// quotes, round brackets and braces where HCL has square ones.
func (s *source) rewordForeign(rng hcl.Range, line string, d *hcl.Diagnostic) (hcl.Range, string, string) {
	switch d.Summary {
	case "Unexpected comma after argument":
		if m := decimalComma.FindStringSubmatch(line); m != nil {
			return rng, "A decimal comma", fmt.Sprintf("A number is written with a point: %s.%s.", m[1], m[2])
		}
		return rng, "A comma too many", "Each value stands on a line of its own, without a comma at its end."
	case "Argument definition required":
		return rng, "More on one line than fits", "A block in a block stands on a line of its own, and so does the closing brace."
	case "Invalid argument name":
		if m := quotedName.FindStringSubmatch(line); m != nil {
			return rng, "A name in quotes", fmt.Sprintf("Write %s = %s.", m[1], strings.TrimRight(m[2], ","))
		}
		return rng, "A name in quotes", "The name of a value stands without quotes: tempo = 72."
	case "Unbalanced parentheses":
		return rng, "Round brackets", "A list stands in square brackets: [2, 4]."
	case "Missing attribute value", "Missing key/value separator":
		for n := rng.Start.Line; n >= 1; n-- {
			at := s.lineText(n)
			m := bracedValue.FindSubmatchIndex(at)
			if m == nil {
				continue
			}
			name, lo := string(at[m[2]:m[3]]), s.lines[n-1]
			if contains(topBlocks, name) || contains(eventWords, name) || name == "play" {
				return s.rng(lo+m[2], lo+m[3]), "A block written as a value", fmt.Sprintf("Write it without the equals sign: %s.", blockForm(name))
			}
			return s.rng(lo+m[1]-1, lo+m[1]), "Braces where a value belongs", "A list stands in square brackets: [2, 4]."
		}
	}
	return rng, strings.TrimSuffix(d.Summary, "."), d.Detail
}

// textHead is the summary of a text of several lines that does not begin as it
// should. What HCL says about the lines below is noise.
const textHead = "Not the head of a text"

var (
	foreignHead = regexp.MustCompile(`=\s*("""|<<-?\s*$|<<-?\s+\S|<<-?["'])`)
	crowdedHead = regexp.MustCompile(`=\s*(<<-?[\p{L}_][\p{L}\p{N}_-]*)[^\p{L}\p{N}_-]`)
)

// rewordHead looks at a line on which a text of several lines was to begin.
func (s *source) rewordHead(rng hcl.Range, line string) (hcl.Range, string, bool) {
	lo := s.lines[rng.Start.Line-1]
	if m := foreignHead.FindStringSubmatchIndex(line); m != nil {
		return s.rng(lo+m[2], lo+m[3]), "Several lines of chords begin with <<-EOT, in one word, and end with a line that holds EOT alone.", true
	}
	if m := crowdedHead.FindStringSubmatchIndex(line); m != nil {
		return s.rng(lo+m[2], lo+m[3]), fmt.Sprintf("Nothing may follow %s on its line. The chords begin on the next one.", line[m[2]:m[3]]), true
	}
	return rng, "", false
}

// bare is a name or place without the quotes and the colon that do not belong
// to it.
func bare(word string) string {
	return strings.Trim(word, " '`“”„‘’«»:()")
}

// openList is the bracket of the list that is still open at a place.
func (s *source) openList(rng hcl.Range) hcl.Range {
	if at := strings.LastIndexByte(string(s.masked[:min(rng.Start.Byte, len(s.masked))]), '['); at >= 0 {
		return s.rng(at, at+1)
	}
	return rng
}

// runaway looks for the sign that a text of several lines was meant to end
// earlier: a line that opens or closes a block, or sets a value. It returns the
// number of that line, 0 when there is none.
func (s *source) runaway(lo, hi int) int {
	for n := s.line(lo); n <= len(s.lines) && s.lines[n-1] < hi; n++ {
		line := strings.TrimSpace(string(s.lineText(n)))
		if s.lines[n-1] < lo || isChartComment([]byte(line)) {
			continue
		}
		if strings.HasPrefix(line, "}") || strings.HasSuffix(line, "{") || valueLine.MatchString(line) {
			return n
		}
	}
	return 0
}

// valueLine is name = value; no chord has an equals sign.
var valueLine = regexp.MustCompile(`^[a-z_]+\s*=`)
