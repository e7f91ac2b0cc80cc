package hcltext

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// Habits of other languages, and of other countries.
var (
	decimalComma = Pattern(`([a-z_]*)\s*=\s*((-?[0-9]+),([0-9]+))\s*(?:#.*|//.*)?$`)
	quotedName   = Pattern(`^\s*("([a-z_]+)"\s*[=:]\s*(.*\S))\s*$`)
	bracedValue  = Pattern(`^\s*([a-z_]+)\s*=\s*\{`)
	roundList    = Pattern(`=\s*(\(([^()]*,[^()]*)\))\s*$`)
	positive     = Pattern(`^[0-9]+(\.[0-9]+)?\s*\}?\s*$`)
	bracedList   = Pattern(`^\s*(\{([^{}=:]*,[^{}=:]*)\})\s*$`)
	oddQuoted    = Pattern("['`“”„‘’«»‟″]([^'`“”„‘’«»‟″]*)['`“”„‘’«»‟″]")
)

// rewordForeign is for what is right somewhere else: a decimal comma, a name in
// quotes, round brackets and braces where HCL has square ones.
func (s *stumble) rewordForeign() Slip {
	switch s.said {
	case "Unexpected comma after argument":
		if m := decimalComma().FindStringSubmatchIndex(s.line); m != nil {
			number := s.line[m[6]:m[7]] + "." + s.line[m[8]:m[9]]
			slip := s.here("A decimal comma", "A number is written with a point: %s.", number)
			if lastIn(s.line[m[2]:m[3]], s.Decimals) {
				slip = slip.Write(m[4], m[5], number)
			}
			return slip
		}
		slip := s.here("A comma too many", "Each value stands on a line of its own, without a comma at its end.")
		if strings.TrimSpace(s.rest()) == "," {
			slip = slip.Write(s.at(), s.at()+1, "")
		}
		return slip
	case "Argument definition required":
		return s.unfolded(s.here(OnOneLine,
			"A block in a block stands on a line of its own, and so does the closing brace."))
	case "Invalid argument name":
		if m := quotedName().FindStringSubmatchIndex(s.line); m != nil {
			name, value := s.line[m[4]:m[5]], strings.TrimRight(s.line[m[6]:m[7]], ",")
			return s.assigned(s.here("A name in quotes", "Write %s = %s.", name, value), m[2], m[3], name, value)
		}
		return s.here("A name in quotes", "The name of a value stands without quotes: %s.", s.Value)
	case "Unbalanced parentheses":
		slip := s.here("Round brackets", "A list stands in square brackets: %s.", s.Pair)
		if m := roundList().FindStringSubmatchIndex(s.line); m != nil {
			slip = slip.Write(m[2], m[3], "["+s.line[m[4]:m[5]]+"]")
		}
		return slip
	case "Missing argument separator", "Unterminated function call", "Missing open parenthesis",
		"Missing closing parenthesis", "Missing function name":
		return s.here("Round brackets", "Nothing is called here by its name and round brackets. %s", s.Quoted)
	case "Missing close bracket on index", "Missing close bracket on splat index":
		return s.openList("A bracket out of place", "A list stands alone after the equals sign, and ends with ]: %s.",
			s.List)
	case "Unsupported operator", "Missing false expression in conditional":
		return s.here("A sign that means nothing here", "%s", s.Quoted)
	case "Missing attribute value", "Missing key/value separator", "Missing attribute separator",
		"Unterminated object constructor expression":
		return s.rewordBraces()
	}
	// What is left is the arithmetic and the loops of a language that nobody meant
	// to write here.
	return s.here("Something out of place", "Nothing like this stands in such a file. A line is a value, like %s, "+
		"or the head of a block, like %s. %s", s.Value, s.Head, s.Quoted)
}

// rewordBraces is for braces after an equals sign.
func (s *stumble) rewordBraces() Slip {
	const summary, help = "Braces where a value belongs", "A list stands in square brackets: %s."
	for n := s.n; n >= 1; n-- {
		at := string(s.LineText(n))
		m := bracedValue().FindStringSubmatchIndex(at)
		if m == nil {
			continue
		}
		lo, word := s.lines[n-1]-s.start, at[m[2]:m[3]]
		if form := s.Blocks[word]; form != "" {
			slip := s.part(lo+m[2], lo+m[3], "A block written as a value", "Write it without the equals sign: %s.",
				form)
			if !s.Named(word) {
				slip = slip.Write(lo+m[2], lo+m[1], word+" {")
			}
			return slip
		}
		slip := s.part(lo+m[1]-1, lo+m[1], summary, help, s.Pair)
		if l := bracedList().FindStringSubmatchIndex(at[m[1]-1:]); l != nil {
			from := lo + m[1] - 1
			slip = slip.Write(from+l[2], from+l[3], "["+at[m[1]-1:][l[4]:l[5]]+"]")
		}
		return slip
	}
	return s.here(summary, help, s.Pair)
}

// rewordCharacter is for a character that HCL does not know.
func (s *stumble) rewordCharacter() Slip {
	rest := s.rest()
	switch char := string(s.Src[s.lo:s.hi]); char {
	case "'", "`":
		return s.straight(s.here("Single quotes", `Text stands in double quotes: "…".`))
	case "“", "”", "„", "‘", "’", "«", "»", "‟", "″":
		return s.straight(s.here("Curly quotes",
			`Text stands in straight double quotes: "…". Turn off smart quotes in the editor.`))
	case ";":
		slip := s.here("A semicolon", "Each value stands on a line of its own, without a semicolon.")
		next := strings.TrimLeft(rest[1:], " \t")
		if next == "" {
			return slip.Write(s.at(), s.at()+1, "")
		}
		if nextValue().MatchString(next) && !strings.ContainsAny(s.line, "{}") {
			slip = slip.Write(s.at(), len(s.line)-len(next), "\n")
		}
		return slip
	case "–", "—", "−":
		slip := s.here("A dash", "A minus sign is the plain hyphen of the keyboard.")
		if n := len(char); positive().MatchString(rest[n:]) {
			slip = slip.Write(s.at(), s.at()+n, "-")
		}
		return slip
	}
	return s.here("A character that means nothing here", "%s", s.Quoted)
}

// straight is the slip with the fix that puts straight quotes for all others in the
// rest of the line, where each of them has its partner.
func (s *stumble) straight(slip Slip) Slip {
	rest := s.rest()
	fixed := oddQuoted().ReplaceAllString(rest, `"$1"`)
	if strings.ContainsAny(rest, "\"#\\") || strings.ContainsAny(fixed, "'`“”„‘’«»‟″") {
		return slip
	}
	return slip.Write(s.at(), len(s.line), fixed)
}

// OddBlanks are blanks of other keyboards and of typesetters, which look like one, and
// noBlanks those of them that have no width.
const (
	OddBlanks = "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000" + noBlanks
	noBlanks  = "\u200b\u2060\ufeff"
)

// What is said of an odd blank.
const (
	BlankThatIsNone = "A blank that is none"
	BlankHelp       = "The blank here is a special one, as web pages and word processors write it. Delete it and " +
		"type a blank."
)

// oddBlank is the first of them on a line outside of quotes.
func oddBlank(line string) (from, to int, ok bool) {
	quoted := false
	for i, r := range line {
		switch {
		case r == '"':
			quoted = !quoted
		case !quoted && strings.ContainsRune(OddBlanks, r):
			return i, i + utf8.RuneLen(r), true
		}
	}
	return 0, 0, false
}

// keyboardBlanks is what a line from the first of them to the last is with plain blanks
// for them, and nothing for those without a width.
func keyboardBlanks(line string, from int) (end int, text string) {
	for at := from; ; at = end {
		lo, hi, ok := oddBlank(line[at:])
		if !ok {
			return end, text
		}
		text += line[at : at+lo]
		if !strings.Contains(noBlanks, line[at+lo:at+hi]) {
			text += " "
		}
		end = at + hi
	}
}

// openList is a slip at the bracket of the list that is still open.
func (s *stumble) openList(summary, detail string, args ...any) Slip {
	slip := s.here(summary, detail, args...)
	if bytes.HasPrefix(s.Src[s.lo:], []byte("[")) {
		return slip
	}
	if at := bytes.LastIndexByte(s.masked[:s.lo], '['); at >= 0 {
		slip.From, slip.To = at-s.start, at+1-s.start
	}
	return slip
}
