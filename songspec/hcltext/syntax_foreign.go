package songspec

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
)

// Habits of other languages, and of other countries.
var (
	decimalComma = pattern(`=\s*(-?[0-9]+),([0-9]+)\s*(?:#.*|//.*)?$`)
	quotedName   = pattern(`^\s*"([a-z_]+)"\s*[=:]\s*(.*\S)\s*$`)
	bracedValue  = pattern(`^\s*([a-z_]+)\s*=\s*\{`)
)

// rewordForeign is for what is right somewhere else: a decimal comma, a name in
// quotes, round brackets and braces where HCL has square ones.
func (s wording) rewordForeign(rng hcl.Range, line string, d *hcl.Diagnostic) (hcl.Range, string, string) {
	switch d.Summary {
	case "Unexpected comma after argument":
		if m := decimalComma().FindStringSubmatch(line); m != nil {
			return rng, "A decimal comma", fmt.Sprintf("A number is written with a point: %s.%s.", m[1], m[2])
		}
		return rng, "A comma too many", "Each value stands on a line of its own, without a comma at its end."
	case "Argument definition required":
		return rng, "More on one line than fits", "A block in a block stands on a line of its own, and so does the closing brace."
	case "Invalid argument name":
		if m := quotedName().FindStringSubmatch(line); m != nil {
			return rng, "A name in quotes", fmt.Sprintf("Write %s = %s.", m[1], strings.TrimRight(m[2], ","))
		}
		return rng, "A name in quotes", fmt.Sprintf("The name of a value stands without quotes: %s.", s.Value)
	case "Unbalanced parentheses":
		return rng, "Round brackets", fmt.Sprintf("A list stands in square brackets: %s.", s.Pair)
	case "Missing argument separator", "Unterminated function call", "Missing open parenthesis", "Missing closing parenthesis", "Missing function name":
		return rng, "Round brackets", "Nothing is called here by its name and round brackets. " + s.Quoted
	case "Missing close bracket on index", "Missing close bracket on splat index":
		return s.openList(rng), "A bracket out of place", fmt.Sprintf("A list stands alone after the equals sign, and ends with ]: %s.", s.List)
	case "Unsupported operator", "Missing false expression in conditional":
		return rng, "A sign that means nothing here", s.Quoted
	case "Missing attribute value", "Missing key/value separator", "Missing attribute separator", "Unterminated object constructor expression":
		for n := rng.Start.Line; n >= 1; n-- {
			at := s.lineText(n)
			m := bracedValue().FindSubmatchIndex(at)
			if m == nil {
				continue
			}
			lo := s.lines[n-1]
			if form := s.Blocks[string(at[m[2]:m[3]])]; form != "" {
				return s.rng(lo+m[2], lo+m[3]), "A block written as a value", fmt.Sprintf("Write it without the equals sign: %s.", form)
			}
			return s.rng(lo+m[1]-1, lo+m[1]), "Braces where a value belongs", fmt.Sprintf("A list stands in square brackets: %s.", s.Pair)
		}
		return rng, "Braces where a value belongs", fmt.Sprintf("A list stands in square brackets: %s.", s.Pair)
	}
	// What is left is the arithmetic and the loops of a language that nobody meant
	// to write here.
	return rng, "Something out of place", fmt.Sprintf("Nothing like this stands in such a file. A line is a value, like %s, or the head of a block, like %s. %s", s.Value, s.Head, s.Quoted)
}

// textHead is the summary of a text of several lines that does not begin as it
// should. What HCL says about the lines below is noise.
const textHead = "Not the head of a text"

var (
	foreignHead = pattern(`=\s*("""|<<-?\s*$|<<-?\s+\S|<<-?["'])`)
	crowdedHead = pattern(`=\s*(<<-?[\p{L}_][\p{L}\p{N}_-]*)[^\p{L}\p{N}_-]`)
)

// songLine looks for chords where none can stand, and at a line on which a text
// of several lines was to begin.
func songLine(line string) (from, to int, summary, detail string, ok bool) {
	if m := unquotedChords().FindStringSubmatchIndex(line); m != nil {
		return m[2], m[3], "Chord text needs quotes", `Write chords = "| C | F |", or several lines between <<-EOT and EOT.`, true
	}
	if m := foreignHead().FindStringSubmatchIndex(line); m != nil {
		return m[2], m[3], textHead, "Several lines of chords begin with <<-EOT, in one word, and end with a line that holds EOT alone.", true
	}
	if m := crowdedHead().FindStringSubmatchIndex(line); m != nil {
		return m[2], m[3], textHead, fmt.Sprintf("Nothing may follow %s on its line. The chords begin on the next one.", line[m[2]:m[3]]), true
	}
	if m := chordLine().FindStringIndex(line); m != nil {
		return m[1] - 1, m[1], "Chords outside a text", "Chord lines stand between chords = <<-EOT and a line with EOT alone.", true
	}
	return 0, 0, "", "", false
}

// chordLine is a line that begins with a bar line.
var chordLine = pattern(`^\s*:?\|`)

// oddBlanks are blanks of other keyboards and of typesetters, which look like one.
const oddBlanks = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u200b\u202f\u205f\u2060\u3000\ufeff"

const (
	blankThatIsNone = "A blank that is none"
	blankHelp       = "The blank here is a special one, as web pages and word processors write it. Delete it and type a blank."
)

// oddBlank is the first of them on a line outside of quotes.
func oddBlank(line string) (from, to int, ok bool) {
	quoted := false
	for i, r := range line {
		switch {
		case r == '"':
			quoted = !quoted
		case !quoted && strings.ContainsRune(oddBlanks, r):
			return i, i + utf8.RuneLen(r), true
		}
	}
	return 0, 0, false
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
		if strings.HasPrefix(line, "}") || strings.HasSuffix(line, "{") || valueLine().MatchString(line) {
			return n
		}
	}
	return 0
}

// valueLine is name = value; no chord has an equals sign.
var valueLine = pattern(`^[a-z_]+\s*=`)
