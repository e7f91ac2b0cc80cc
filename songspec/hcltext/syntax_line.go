package hcltext

import (
	"slices"
	"strings"
)

// rewordLine looks at a line that is neither a value nor a block.
func (s *stumble) rewordLine() Slip {
	trimmed := strings.TrimSpace(s.line)
	if trimmed == "}" || strings.HasPrefix(string(s.Src[s.lo:]), "}") {
		return s.here("A closing brace too many",
			"No block is open here. Delete the brace, or look for one above that closes too early.")
	}
	if m := twoEquals().FindStringSubmatchIndex(s.line); m != nil {
		slip := s.part(m[4], m[5], "Two equals signs", "One is enough: %s.", s.Value)
		if s.Blocks[s.line[m[2]:m[3]]] == "" {
			slip = slip.Write(m[4], m[5], "=")
		}
		return slip
	}
	if m := inBraces().FindStringSubmatchIndex(s.line); m != nil && s.Blocks[s.line[m[2]:m[3]]] == "" {
		name, value := s.line[m[2]:m[3]], s.line[m[4]:m[5]]
		slip := s.part(m[2], m[3], "A value written as a block",
			"Write it with an equals sign and without braces: %s = %s.", name, value)
		return s.assigned(slip, m[2], len(strings.TrimRight(s.line, " \t")), name, value)
	}
	if m := colonValue().FindStringSubmatchIndex(s.line); m != nil && !strings.ContainsAny(s.line[m[4]:m[5]], "={}") {
		name, value := s.line[m[2]:m[3]], s.line[m[4]:m[5]]
		slip := s.here("A colon for an equals sign", "Write %s = %s.", name, asWritten(value))
		return s.assigned(slip, m[2], m[5], name, value)
	}
	if slip, ok := s.proseLine(); ok {
		return slip
	}
	if m := bareHead().FindStringSubmatchIndex(s.line); m != nil && s.Blocks[s.line[m[2]:m[3]]] != "" {
		return s.rewordBareHead(m)
	}
	if m := blockHead().FindStringSubmatch(s.line); m != nil && s.Blocks[m[1]] != "" {
		return s.rewordHead()
	}
	if m := noEquals().FindStringSubmatchIndex(s.line); m != nil {
		return s.noEquals(m)
	}
	if strings.HasPrefix(trimmed, "/*") {
		return s.here("A comment is never closed",
			"A comment that begins with /* ends with */. A # makes one of the rest of its line.")
	}
	if m := bareOption().FindStringSubmatchIndex(s.line[s.at():]); m != nil {
		word := s.rest()[m[2]:m[3]]
		if slices.Contains(s.Truths, word) {
			return s.here("No equals sign", "Write %s = true.", word).Write(s.at()+m[2], s.at()+m[3], word+" = true")
		}
		if n := timesAfter().FindStringSubmatch(word); n != nil && s.Times != "" {
			text := "times = " + n[1] + n[2]
			return s.here("A number of times", "Write %s.", text).Write(s.at()+m[2], s.at()+m[3], text)
		}
	}
	return s.here("Neither a value nor a block", "A line is a value, like %s, or the head of a block, like %s.",
		s.Value, s.Head)
}

// noEquals is for a name and a value without a sign between.
func (s *stumble) noEquals(m []int) Slip {
	name, value := s.line[m[2]:m[3]], strings.TrimSpace(s.line[m[4]:m[5]])
	slip := s.here("No equals sign", "Write %s = %s.", name, asWritten(value))
	return s.assigned(slip, m[2], len(strings.TrimRight(s.line, " \t")), name, value)
}

// misheaded looks for the head of a block that is nearly right.
func (s *stumble) misheaded() (Slip, bool) {
	if m := equalsHead().FindStringSubmatchIndex(s.line); m != nil && s.Blocks[s.line[m[2]:m[3]]] != "" {
		word, names := s.line[m[2]:m[3]], 0
		form, head := s.Blocks[word], word+" {"
		for _, i := range [...]int{4, 6} {
			if m[i] >= 0 {
				head = word + " " + s.line[m[i]:m[i+1]] + " {"
				form = head
				names++
			}
		}
		slip := s.part(m[2], m[3], "A block written as a value", "Write it without the equals sign: %s.", form)
		named, inside := s.Named(word), s.line[m[1]:]
		if (named && names == 1 || !named && names == 0) && !strings.Contains(inside, ",") {
			slip = slip.Write(m[2], m[1], head)
		}
		return slip, true
	}
	if m := colonHead().FindStringSubmatchIndex(s.line); m != nil && s.Blocks[s.line[m[2]:m[3]]] != "" {
		word, name := s.line[m[2]:m[3]], strings.TrimSpace(s.line[m[6]:m[7]])
		slip := s.part(m[4], m[5], "A colon too many", "Write it without the colon: %s %s {.", word, name)
		if s.Named(word) == (name != "") && (name == "" || name[0] == '"') {
			slip = slip.Write(m[4], m[5], "")
		}
		return slip, true
	}
	if m := nameHead().FindStringSubmatchIndex(s.line); m != nil {
		return s.part(m[2], m[3], "A name without its word", "In front of the name stands what it is, as in %s.",
			s.Head), true
	}
	m := unquotedPlace().FindStringSubmatchIndex(s.line)
	if m == nil {
		m = listedPlace().FindStringSubmatchIndex(s.line)
	}
	if m != nil && s.Blocks[s.line[m[2]:m[3]]] != "" {
		what, word, name := "A name without quotes", s.line[m[2]:m[3]], `"`+bare(unlisted(s.line[m[4]:m[5]]))+`"`
		if slices.Contains(s.Places, word) {
			what = "A place without quotes"
		}
		slip := s.part(m[4], m[5], what, "Write %s %s { … }.", word, name)
		if s.Named(word) && nameStart().MatchString(name) {
			slip = slip.Write(m[4], m[5], name)
		}
		return slip, true
	}
	return Slip{}, false
}

// unlisted is a list of places, or of names, as one text.
func unlisted(text string) string {
	return strings.NewReplacer("[", "", "]", "", `"`, "").Replace(text)
}

var nameStart = Pattern(`^"[\p{L}\p{N}]`)

// rewordHead looks at a line that HCL takes for the head of a block.
func (s *stumble) rewordHead() Slip {
	if m := blockHead().FindStringSubmatchIndex(s.line); m != nil {
		word, name := s.line[m[2]:m[3]], ""
		if m[4] >= 0 {
			name = s.line[m[4]:m[5]]
		}
		if s.Blocks[word] == "" && name != "" {
			slip := s.part(m[2], m[3], "No equals sign", "Write %s = %s.", word, strings.TrimSpace(name))
			return s.assigned(slip, m[2], m[5], word, strings.TrimSpace(name))
		}
		if s.bracesBelow() {
			return s.braceUp(s.here(braceBelow, "The opening brace stands on the same line: %s%s {.", word, name),
				word+name)
		}
		if !slices.Contains(s.Empty, word) {
			return s.here("A block without braces",
				"An opening brace follows on the same line, and a closing one stands below what belongs to it: %s%s "+
					"{ … }.", word, name)
		}
		slip := s.here("A block without braces",
			"Write braces on the same line, even when there is nothing in them: %s%s {}.", word, name)
		if name != "" && s.mayBeEmpty(word) {
			slip = slip.Write(m[5], m[5], " {}")
		}
		return slip
	}
	if slip, ok := s.afterName(); ok {
		return slip
	}
	if slip, ok := s.proseLine(); ok {
		return slip
	}
	if m := bareHead().FindStringSubmatchIndex(s.line); m != nil {
		if s.Blocks[s.line[m[2]:m[3]]] == "" {
			return s.noEquals(m)
		}
		return s.rewordBareHead(m)
	}
	head := s.Head
	if m := headOnly().FindString(s.line); m != "" {
		head = strings.TrimSpace(m) + " {"
	}
	return s.here("A block without braces", "After the name comes an opening brace on the same line: %s.", head)
}

// afterName is for what follows the name of a block without braces round it.
func (s *stumble) afterName() (Slip, bool) {
	const summary = "Braces are missing"
	if m := optionAfter().FindStringSubmatchIndex(s.line); m != nil && s.Blocks[s.line[m[2]:m[3]]] != "" {
		head, option := s.line[m[2]:m[5]], strings.TrimSpace(s.line[m[6]:m[7]])
		slip := s.part(m[6], m[7], summary, "What belongs to it stands in braces: %s { %s }.", head, option)
		return slip.Write(m[6], m[7], "{ "+option+" }"), true
	}
	m := playTimes().FindStringSubmatchIndex(s.line)
	if m == nil || s.Blocks[s.line[m[2]:m[3]]] == "" {
		return Slip{}, false
	}
	word, name, rest := s.line[m[2]:m[3]], s.line[m[4]:m[5]], s.line[m[6]:m[7]]
	if n := timesAfter().FindStringSubmatch(rest); n != nil && word == s.Times {
		text := "{ times = " + n[1] + n[2] + " }"
		slip := s.part(m[6], m[7], summary, "What is played several times says so in braces: %s %s %s.", word, name,
			text)
		return slip.Write(m[6], m[7], text), true
	}
	return s.part(m[6], m[7], "Something after the name", "After the name come braces and nothing else: %s %s { … }.",
		word, name), true
}

// rewordBareHead is for the head of a block with its name in no quotes and no brace
// after it.
func (s *stumble) rewordBareHead(m []int) Slip {
	word, name := s.line[m[2]:m[3]], `"`+bare(s.line[m[4]:m[5]])+`"`
	if s.bracesBelow() {
		slip := s.here(braceBelow, "The opening brace stands on the same line: %s %s {.", word, name)
		return s.braceUp(slip, word+" "+name)
	}
	slip := s.here("A block without braces", "Write the name in quotes and braces after it, even when there is "+
		"nothing in them: %s %s {}.", word, name)
	if s.mayBeEmpty(word) {
		slip = slip.Write(m[4], m[5], name+" {}")
	}
	return slip
}

// proseLine is for a line that nobody meant as a setting: a heading of a part, or
// words.
func (s *stumble) proseLine() (Slip, bool) {
	if m := partHeading().FindStringSubmatch(s.line); m != nil && s.Part != nil && s.Part(m[1]) {
		name := strings.ToLower(strings.TrimSpace(m[1] + " " + m[2]))
		return s.here("A heading", "A part of the song is a block: section %q { on this line, then its chords, then "+
			"} on a line of its own.", name), true
	}
	if m := wordsOnly().FindStringSubmatchIndex(s.line); m != nil {
		return s.here("A line of words", "Words that are no setting stand behind a #. A line is a value, like %s, "+
			"or the head of a block, like %s.", s.Value, s.Head).
			Write(m[2], m[3], "# "+s.line[m[2]:m[3]]), true
	}
	return Slip{}, false
}

const braceBelow = "A brace on the next line"

// below is the next line with something in it, 0 when there is none.
func (s *stumble) below() int {
	for n := s.n + 1; n <= len(s.lines); n++ {
		if strings.TrimSpace(string(s.LineText(n))) != "" {
			return n
		}
	}
	return 0
}

// bracesBelow reports that the next line with something in it opens a block.
func (s *stumble) bracesBelow() bool {
	return strings.HasPrefix(strings.TrimSpace(string(s.LineText(s.below()))), "{")
}

// braceUp is the slip with the fix that moves the brace below up to its head.
func (s *stumble) braceUp(slip Slip, head string) Slip {
	n := s.below()
	brace := s.lines[n-1] + strings.IndexByte(string(s.LineText(n)), '{')
	from := len(s.line) - len(strings.TrimLeft(s.line, " \t"))
	return slip.Write(from, brace+1-s.start, head+" {")
}

var openText = Pattern(`^\s*([a-z_]+)\s*=\s*("[^"\\<]*[^"\\<\s])\s*$`)

// rewordOpenText points at where a text begins that is never closed.
func (s *stumble) rewordOpenText() Slip {
	if strings.Contains(s.line, `"`) && s.lo < len(s.Src) {
		slip := s.here("A text is never closed", "A text in quotes ends with a quote on the same line. %s", s.Lines)
		if m := openText().FindStringSubmatchIndex(s.line); m != nil {
			slip = s.written(slip, m[4], m[5], s.line[m[2]:m[3]], s.line[m[4]:m[5]]+`"`)
		}
		return slip
	}
	for n := s.n; n >= 1; n-- {
		if m := HeredocHead().FindSubmatchIndex(s.LineText(n)); m != nil {
			lo := s.lines[n-1] - s.start
			return s.part(lo+m[0], lo+m[1], "A text is never closed",
				"The text that begins here ends with a line that holds %s and nothing else, and a line break after "+
					"it.", s.LineText(n)[m[2]:m[3]])
		}
	}
	return s.here("A text is never closed", "Close it with a quote on the same line.")
}
