package hcltext

import (
	"fmt"
	"slices"
	"strings"
)

// Lines that musicians get wrong in ways that HCL's parser has no words for.
var (
	noEquals      = Pattern(`^\s*([a-z_]+)\s*:?\s+("?[^={]*"?)\s*$`)
	colonValue    = Pattern(`^\s*([a-z_]+)\s*:\s*=?\s*(.*\S)\s*$`)
	unquotedPlace = Pattern(`^\s*([a-z]+)\s+([^"={]+?)\s*\{`)
	oddNumber     = Pattern(`=\s*([-.0-9][0-9a-zA-Z_.]*)`)
	blockHead     = Pattern(`^\s*([a-z_]+)(\s+"[^"]*")?\s*$`)
	bareHead      = Pattern(`^\s*([a-z_]+)\s+([^"={}]+?)\s*$`)
	equalsHead    = Pattern(`^\s*([a-z_]+)\s*("[^"]*")?\s*=\s*("[^"]*")?\s*\{`)
	colonHead     = Pattern(`^\s*([a-z_]+)\s*(:)\s*([^:={}]*?)\s*\{\s*$`)
	twoEquals     = Pattern(`^\s*([a-z_]+)\s*(==+)`)
	wellWritten   = Pattern(`^(-?[0-9]+(\.[0-9]+)?$|"|\[|<<)`)
	nextValue     = Pattern(`^([a-z_]+)\s*=[^=]`)
	nameHead      = Pattern(`^\s*("[^"]*")\s*\{`)
	inBraces      = Pattern(`^\s*([a-z_]+)\s*\{\s*([^{}=]*[^{}=\s])\s*\}\s*$`)
	openQuote     = Pattern(`^\s*([a-z_]+)\s*=\s*([^"\s=\[{<'“][^"=]*")\s*$`)
	partHeading   = Pattern(`^\s*\[?\s*([A-Za-z-]+)\s*([0-9]*)\s*\]?\s*:?\s*$`)
	playTimes     = Pattern(`^\s*([a-z_]+)\s+("[^"]*")\s*([^{}"\s][^{}]*?)\s*$`)
	timesAfter    = Pattern(`^(?:[x×*]\s*([0-9]{1,2})|([0-9]{1,2})\s*[x×])$`)
	optionAfter   = Pattern(`^\s*([a-z_]+)\s+("[^"]*")\s+([a-z_]+\s*=\s*[^={}]*[^={}\s])\s*$`)
	headOnly      = Pattern(`^\s*[a-z_]+\s+"[^"]*"`)
	listedPlace   = Pattern(`^\s*([a-z]+)\s+(\[[^\]{}=]*\])\s*\{`)
	bareOption    = Pattern(`^\s*([a-z0-9_*×]+)\s*\}?\s*$`)
	clockTime     = Pattern(`^\s*([a-z_]+)\s*=\s*([0-9]+:[0-9:;.,]*[0-9])\s*$`)
	bareInBraces  = Pattern(`([a-z_]+)\s*=\s*([\p{L}][^"=;,#\[{<}]*[^"=;,#\s}])\s*\}\s*$`)
	wordsOnly     = Pattern(`^\s*([A-Z][\p{L}'’.,!?-]*(\s+[\p{L}0-9'’.,!?-]+)+)\s*$`)
	bareText      = Pattern(`^\s*([a-z_]+)\s*=\s*([\p{L}][^"=;,#\[{<]*[^"=;,#\s])\s*$`)
	// HeredocHead is the head of a text of several lines, with its closing word.
	HeredocHead = Pattern(`<<-?([\p{L}_][\p{L}\p{N}_-]*)`)
)

// halfQuoted reports a line with a quote that has no partner.
func halfQuoted(line string) bool {
	return strings.Count(strings.ReplaceAll(line, `\"`, ""), `"`)%2 == 1
}

// neverClosed is the slip of a block without its closing brace: from is its opening brace, and
// next a byte of the line where it shows, -1 for the end of the text.
func (s *Source) neverClosed(from, next int) Slip {
	above := ""
	if next >= 0 {
		above = fmt.Sprintf(", above line %d", s.LineOf(next))
	}
	return Slip{From: from, To: from + 1, Summary: "A brace is never closed", Noise: true,
		Detail: "The block that opens here needs a closing brace } on a line of its own" + above + "."}
}

// reword puts what the parser says into the words of a kind of file.
func (s *stumble) reword() Slip {
	if slip, ok := s.Line(s.line); ok {
		return slip
	}
	if from, to, ok := oddBlank(s.line); ok {
		end, text := keyboardBlanks(s.line, from)
		return s.part(from, to, BlankThatIsNone, BlankHelp).Write(from, end, text)
	}
	if slip, ok := s.misheaded(); ok {
		return slip
	}
	if m := openQuote().FindStringSubmatchIndex(s.line); m != nil && halfQuoted(s.line) {
		return s.quoted(m, bare(s.line[m[4]:m[5]-1]), "A quote is missing", "Text has a quote on either side:")
	}
	if m := clockTime().FindStringSubmatchIndex(s.line); m != nil {
		return s.quoted(m, s.line[m[4]:m[5]], "A time without quotes", "Write")
	}
	switch s.said {
	case "Invalid single-argument block definition":
		if m := bareInBraces().FindStringSubmatchIndex(s.line); m != nil && m[4] < s.at() && s.at() < m[5] {
			return s.quoted(m, bare(s.line[m[4]:m[5]]), "A word without quotes", "Text stands in quotes. Write")
		}
		return s.unfolded(s.here(OnOneLine,
			"A block on one line holds one option and then its closing brace. Put each option, and the closing "+
				"brace, on a line of its own."))
	case "Argument or block definition required":
		return s.rewordLine()
	case "Invalid block definition":
		return s.rewordHead()
	case "Invalid escape sequence":
		return s.here("Backslash in a text", "A backslash has no place here. %s", s.Slash)
	case "Unterminated template string", "Invalid multi-line string":
		slip := s.rewordOpenText()
		slip.Noise = true
		return slip
	case "Unclosed configuration block", "Unclosed configuration body":
		if brace, next, ok := s.unclosed(); ok {
			return s.neverClosed(brace-s.start, next)
		}
		return s.neverClosed(s.lo-s.start, -1)
	case "Attribute redefined":
		name := string(s.Src[s.lo:s.hi])
		line := setBefore().FindStringSubmatch(s.detail)[1]
		return saidTwice(s.lo-s.start, name, line)
	case "Invalid number literal":
		return s.here("Not a number", "A number is written with digits, and a point where it is not whole: %s.",
			s.Number)
	case "Missing newline after argument":
		return s.rewordAfter()
	case "Missing newline after block definition":
		return s.here(OnOneLine, "Nothing may follow a closing brace on its line.")
	case "Invalid attribute name":
		if oddNumber().MatchString(s.line) {
			return s.here("Not a number", "Digits stand on both sides of a point: 5.0, 0.5.")
		}
		return s.afterValue()
	case "Invalid expression", "Missing expression":
		if m := oddNumber().FindStringSubmatchIndex(s.line); m != nil && s.line[m[2]] == '.' {
			number := "0" + s.line[m[2]:m[3]]
			slip := s.here("Not a number", "Digits stand on both sides of a point: %s.", number)
			if m[3] == len(s.line) && lastIn(s.line[:m[0]], s.Parts) && wellWritten().MatchString(number) {
				slip = slip.Write(m[2], m[3], number)
			}
			return slip
		}
		return s.here("No value here", "After the equals sign comes a number, or text in quotes, or a list in "+
			"square brackets.")
	case "Invalid character":
		return s.rewordCharacter()
	case "Missing item separator", "Unterminated tuple constructor expression":
		return s.rewordList()
	}
	return s.rewordForeign()
}

// rewordAfter is for what stands behind a value on its line.
func (s *stumble) rewordAfter() Slip {
	at := s.at()
	before, after := strings.TrimRight(s.line[:at], " \t"), strings.TrimSpace(s.rest())
	if after == "}" {
		return s.here("A brace behind a value",
			"The closing brace of a block that has several lines stands on a line of its own.").
			Write(len(before), len(s.line), "\n}")
	}
	if m := nextValue().FindStringSubmatch(after); m != nil {
		slip := s.here("Two values on one line", "Each value stands on a line of its own, so %s = … begins a new one.",
			m[1])
		if !strings.Contains(s.line, "{") {
			slip = slip.Write(len(before), len(s.line)-len(strings.TrimLeft(s.rest(), " \t")), "\n")
		}
		return slip
	}
	if m := oddNumber().FindStringSubmatch(s.line); m != nil && wellWritten().MatchString(m[1]) {
		return s.here("Something after the number", "A number stands alone on its line: %s.",
			strings.TrimSpace(before))
	} else if m != nil {
		return s.here("Not a number", "%q is no number here. Write digits alone, and a point where it is not whole: "+
			"%s.", m[1], s.Number)
	}
	return s.afterValue()
}

// afterValue is what to do about something that follows a value on its line.
func (s *stumble) afterValue() Slip {
	const summary = "Something after the value"
	if m := bareText().FindStringSubmatchIndex(s.line); m != nil {
		name, text := s.line[m[2]:m[3]], `"`+bare(s.line[m[4]:m[5]])+`"`
		slip := s.here(summary, "Text with blanks in it stands in quotes: %s = %s.", name, text)
		return s.written(slip, m[4], m[5], name, text)
	}
	if strings.Count(s.line, `"`) > 2 {
		return s.here(summary, `Nothing may follow the value on its line. A quote inside a text has a backslash `+
			`before it: \".`)
	}
	return s.here(summary, "Nothing may follow the value on its line; text with blanks in it stands in quotes.")
}

// rewordList is for a list whose items or end the parser cannot find.
func (s *stumble) rewordList() Slip {
	if s.said[0] == 'U' || s.lo >= len(s.Src) || strings.IndexByte("}\n\r", s.Src[s.lo]) >= 0 {
		return s.openList("A list is never closed", "A list begins with [ and ends with ]: %s.", s.List)
	}
	slip := s.here("A comma is missing", "The items of a list have commas between: %s.", s.List)
	before := strings.TrimRight(s.line[:s.at()], " \t")
	if apart := len(before) < s.at(); apart && itemEnd().MatchString(before) && itemStart().MatchString(s.rest()) {
		slip = slip.Write(len(before), len(before), ",")
	}
	return slip
}

var (
	itemEnd   = Pattern(`[\[,]\s*("[^"]*"|[0-9.]+)$`)
	itemStart = Pattern(`^("[^"]*"|[0-9.]+)\s*[,\]]`)
)

// setBefore has the line that HCL's sentence about a value set before names.
var setBefore = Pattern(`:([0-9]+),[^:]*$`)

// assigned is the slip with the fix that sets a value as it is to be written, in place
// of some bytes of the line.
func (s *stumble) assigned(slip Slip, from, to int, name, value string) Slip {
	slip = s.written(slip, from, to, name, asWritten(value))
	if slip.fixed {
		slip.fixText = name + " = " + slip.fixText
	}
	return slip
}

// quoted is a slip in the value of a line, of which m has the name and the value, with the fix that
// writes it as text in quotes. rule is what is said in front of that.
func (s *stumble) quoted(m []int, text, summary, rule string) Slip {
	name, value := s.line[m[2]:m[3]], `"`+text+`"`
	slip := s.part(m[4], m[5], summary, "%s %s = %s.", rule, name, value)
	return s.written(slip, m[4], m[5], name, value)
}

// written is the slip with the fix that writes a value in place of some bytes of the
// line, where the value is of the kind that its name has.
func (s *stumble) written(slip Slip, from, to int, name, value string) Slip {
	if textValue().MatchString(value) && slices.Contains(s.Texts, name) ||
		otherValue().MatchString(value) && slices.Contains(s.Others, name) {
		return slip.Write(from, to, value)
	}
	return slip
}

var (
	textValue  = Pattern(`^("[^"\\#{}]+"|<<-?\w+)$`)
	otherValue = Pattern(`^(-?[0-9]+(\.[0-9]+)?|true|false|\[[^\[\]{}#]*\])$`)
)

// asWritten is a value as it is to be written: a word gets its quotes.
func asWritten(value string) string {
	if value == "true" || value == "false" || wellWritten().MatchString(value) {
		return value
	}
	return `"` + bare(value) + `"`
}

// bare is a name or place without the quotes and the colon that do not belong
// to it.
func bare(word string) string {
	return strings.Trim(word, " '`“”„‘’«»:()")
}
