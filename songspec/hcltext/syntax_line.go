package songspec

import (
	"fmt"
	"strings"

	"github.com/hashicorp/hcl/v2"
)

// rewordLine looks at a line that is neither a value nor a block.
func (s wording) rewordLine(rng hcl.Range, line string) (hcl.Range, string, string) {
	trimmed := strings.TrimSpace(line)
	if trimmed == "}" || strings.HasPrefix(string(s.src[rng.Start.Byte:]), "}") {
		return rng, "A closing brace too many", "No block is open here. Delete the brace, or look for one above that closes too early."
	}
	lo := s.lines[rng.Start.Line-1]
	if m := twoEquals().FindStringSubmatchIndex(line); m != nil {
		return s.rng(lo+m[2], lo+m[3]), "Two equals signs", fmt.Sprintf("One is enough: %s.", s.Value)
	}
	if m := inBraces().FindStringSubmatch(line); m != nil && s.Blocks[m[1]] == "" {
		at := lo + strings.Index(line, m[1])
		return s.rng(at, at+len(m[1])), "A value written as a block", fmt.Sprintf("Write it with an equals sign and without braces: %s = %s.", m[1], m[2])
	}
	if m := colonValue().FindStringSubmatch(line); m != nil && !strings.ContainsAny(m[2], "={}") {
		return rng, "A colon for an equals sign", fmt.Sprintf("Write %s = %s.", m[1], asWritten(m[2]))
	}
	if summary, detail, ok := s.proseLine(line); ok {
		return rng, summary, detail
	}
	if m := bareHead().FindStringSubmatch(line); m != nil && s.Blocks[m[1]] != "" {
		return s.rewordBareHead(rng, m[1], m[2])
	}
	if m := noEquals().FindStringSubmatch(line); m != nil {
		return rng, "No equals sign", fmt.Sprintf("Write %s = %s.", m[1], asWritten(strings.TrimSpace(m[2])))
	}
	if strings.HasPrefix(trimmed, "/*") {
		return rng, "A comment is never closed", "A comment that begins with /* ends with */. A # makes one of the rest of its line."
	}
	return rng, "Neither a value nor a block", fmt.Sprintf("A line is a value, like %s, or the head of a block, like %s.", s.Value, s.Head)
}

// misheaded looks for the head of a block that is nearly right.
func (s wording) misheaded(rng hcl.Range, line string) (hcl.Range, string, string, bool) {
	lo := s.lines[rng.Start.Line-1]
	if m := equalsHead().FindStringSubmatchIndex(line); m != nil && s.Blocks[line[m[2]:m[3]]] != "" {
		word := line[m[2]:m[3]]
		form := s.Blocks[word]
		for _, i := range [...]int{4, 6} {
			if m[i] >= 0 {
				form = word + " " + line[m[i]:m[i+1]] + " {"
			}
		}
		return s.rng(lo+m[2], lo+m[3]), "A block written as a value", fmt.Sprintf("Write it without the equals sign: %s.", form), true
	}
	if m := colonHead().FindStringSubmatchIndex(line); m != nil && s.Blocks[line[m[2]:m[3]]] != "" {
		return s.rng(lo+m[4], lo+m[5]), "A colon too many", fmt.Sprintf("Write it without the colon: %s %s {.", line[m[2]:m[3]], strings.TrimSpace(line[m[6]:m[7]])), true
	}
	if m := nameHead().FindStringSubmatchIndex(line); m != nil {
		return s.rng(lo+m[2], lo+m[3]), "A name without its word", fmt.Sprintf("In front of the name stands what it is, as in %s.", s.Head), true
	}
	if m := unquotedPlace().FindStringSubmatchIndex(line); m != nil && s.Blocks[line[m[2]:m[3]]] != "" {
		what, word := "A name without quotes", line[m[2]:m[3]]
		if contains(eventWords, word) {
			what = "A place without quotes"
		}
		return s.rng(lo+m[4], lo+m[5]), what, fmt.Sprintf("Write %s \"%s\" { … }.", word, bare(line[m[4]:m[5]])), true
	}
	return rng, "", "", false
}

// rewordHead looks at a line that HCL takes for the head of a block.
func (s wording) rewordHead(rng hcl.Range, line string) (hcl.Range, string, string) {
	if m := blockHead().FindStringSubmatch(line); m != nil {
		if s.Blocks[m[1]] == "" && m[2] != "" {
			at := s.lines[rng.Start.Line-1] + strings.Index(line, m[1])
			return s.rng(at, at+len(m[1])), "No equals sign", fmt.Sprintf("Write %s = %s.", m[1], strings.TrimSpace(m[2]))
		}
		if s.bracesBelow(rng.Start.Line) {
			return rng, braceBelow, fmt.Sprintf("The opening brace stands on the same line: %s%s {.", m[1], m[2])
		}
		if !contains(eventWords, m[1]) && m[1] != "play" && m[1] != "vocal" {
			return rng, "A block without braces", fmt.Sprintf("An opening brace follows on the same line, and a closing one stands below what belongs to it: %s%s { … }.", m[1], m[2])
		}
		return rng, "A block without braces", fmt.Sprintf("Write braces on the same line, even when there is nothing in them: %s%s {}.", m[1], m[2])
	}
	if m := playTimes().FindStringSubmatch(line); m != nil && s.Blocks[m[1]] != "" {
		return rng, "Something after the name", fmt.Sprintf("After the name come braces and nothing else. What is played twice stands twice: %s %s {}.", m[1], m[2])
	}
	if summary, detail, ok := s.proseLine(line); ok {
		return rng, summary, detail
	}
	if m := bareHead().FindStringSubmatch(line); m != nil {
		if s.Blocks[m[1]] == "" {
			return rng, "No equals sign", fmt.Sprintf("Write %s = %s.", m[1], asWritten(m[2]))
		}
		return s.rewordBareHead(rng, m[1], m[2])
	}
	return rng, "A block without braces", fmt.Sprintf("After the name comes an opening brace on the same line: %s.", s.Head)
}

// rewordBareHead is for the head of a block with its name in no quotes and no brace
// after it.
func (s wording) rewordBareHead(rng hcl.Range, word, name string) (hcl.Range, string, string) {
	if s.bracesBelow(rng.Start.Line) {
		return rng, braceBelow, fmt.Sprintf("The opening brace stands on the same line: %s \"%s\" {.", word, bare(name))
	}
	return rng, "A block without braces", fmt.Sprintf("Write the name in quotes and braces after it, even when there is nothing in them: %s \"%s\" {}.", word, bare(name))
}

// proseLine is for a line that nobody meant as a setting: a heading of a part, or
// words.
func (s wording) proseLine(line string) (summary, detail string, ok bool) {
	if m := partHeading().FindStringSubmatch(line); m != nil && s.Parts && partOfSong(m[1]) {
		name := strings.ToLower(strings.TrimSpace(m[1] + " " + m[2]))
		return "A heading", fmt.Sprintf("A part of the song is a block: section %q { on this line, then its chords, then } on a line of its own.", name), true
	}
	if wordsOnly().MatchString(line) {
		return "A line of words", fmt.Sprintf("Words that are no setting stand behind a #. A line is a value, like %s, or the head of a block, like %s.", s.Value, s.Head), true
	}
	return "", "", false
}

// asWritten is a value as it is to be written: a word gets its quotes.
func asWritten(value string) string {
	if value == "true" || value == "false" || wellWritten().MatchString(value) {
		return value
	}
	return `"` + bare(value) + `"`
}

const braceBelow = "A brace on the next line"

// bracesBelow reports that the next line with something in it opens a block.
func (s wording) bracesBelow(line int) bool {
	for n := line + 1; n <= len(s.lines); n++ {
		if text := strings.TrimSpace(string(s.lineText(n))); text != "" {
			return strings.HasPrefix(text, "{")
		}
	}
	return false
}

// afterValue is what to do about something that follows a value on its line.
func afterValue(line string) string {
	if m := bareText().FindStringSubmatch(line); m != nil {
		return fmt.Sprintf("Text with blanks in it stands in quotes: %s = \"%s\".", m[1], bare(m[2]))
	}
	if strings.Count(line, `"`) > 2 {
		return `Nothing may follow the value on its line. A quote inside a text has a backslash before it: \".`
	}
	return "Nothing may follow the value on its line; text with blanks in it stands in quotes."
}

// rewordOpenText points at where a text begins that is never closed.
func (s wording) rewordOpenText(rng hcl.Range, line string) (hcl.Range, string, string) {
	if strings.Contains(line, `"`) && rng.Start.Byte < len(s.src) {
		return rng, "A text is never closed", "A text in quotes ends with a quote on the same line. " + s.Lines
	}
	for n := rng.Start.Line; n >= 1; n-- {
		if m := heredocHead().FindSubmatchIndex(s.lineText(n)); m != nil {
			word := string(s.lineText(n)[m[2]:m[3]])
			lo := s.lines[n-1]
			return s.rng(lo+m[0], lo+m[1]), "A text is never closed", fmt.Sprintf("The text that begins here ends with a line that holds %s and nothing else, and a line break after it.", word)
		}
	}
	return rng, "A text is never closed", "Close it with a quote on the same line."
}
