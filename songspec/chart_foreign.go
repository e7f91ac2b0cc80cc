package songspec

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
)

// What comes with a chart that was pasted from elsewhere: headings, words to be
// sung, endings, signs of the engraver's. Each is said once, for its line or at its
// place, and not word by word.

var (
	chartHeading = pattern(`^\[([^\]|]*)\]\s*:?$`)
	bareHeading  = pattern(`^([A-Za-z][A-Za-z-]+)\s*([0-9]*)\s*:?$`)
	endingMark   = pattern(`^\[?[1-9]([.,-][1-9])*\.?[\])]?$|^\[[1-9]`)
	timesMark    = pattern(`^\(?\s*(?:[xX×]\s*([0-9]{1,3})|([0-9]{1,3})\s*[xX×])\s*\)?$`)
	sixthWord    = pattern(`^(?i:it|fr|ger|gr)\.?\+?(6|65|43|7)?$`)
	subFive      = pattern(`^(?i:sub)V7?(/[ivIV]+)?$`)
	formWord     = pattern(`^(?i:d\.?\s?[cs]\.?|al|fine|coda|segno|dal|da|capo|to|repeat|x[0-9]+|bis)[.,:]?$`)
)

// prose reports a line of a chart that holds no bars: a heading, or words. It
// returns the offset of the line's end when it did.
func (r *chartReader) prose(i, hi int) (end int, ok bool) {
	src := r.s.Src
	end = i
	for end < hi && src[end] != '\n' {
		end++
	}
	line := string(bytes.TrimRight(src[i:end], " \t\r"))
	if strings.ContainsAny(line, "|\\") {
		return 0, false
	}
	if m := chartHeading().FindStringSubmatch(line); m != nil {
		r.errorf(i, i+len(line), "A heading among the chords", "Each part is a section of its own, section %q { … }; or put # and a blank in front of the line, and it is left out.", strings.ToLower(strings.TrimSpace(m[1])))
		return end, true
	}
	if m := bareHeading().FindStringSubmatch(line); m != nil && len(m[1]) > 1 && partOfSong(m[1]) {
		r.errorf(i, i+len(line), "A heading among the chords", "Each part is a section of its own, section %q { … }; or put # and a blank in front of the line, and it is left out.", strings.ToLower(strings.TrimSpace(m[1]+" "+m[2])))
		return end, true
	}
	words, chords := 0, 0
	for _, w := range strings.Fields(line) {
		_, _, err := harmony.ParseEither(w, harmony.Key{})
		var se *harmony.SymbolError
		if err == nil || errors.As(err, &se) && se.Suggest != "" { // Fism is no word, either
			chords++
		} else if isWordOfText(w) {
			words++
		}
	}
	if words >= 3 && words > chords {
		r.errorf(i, i+len(line), "Words among the chords", "A chart holds chords alone. Put # and a blank in front of a line of words, and it is left out.")
		return end, true
	}
	return 0, false
}

// comment reports a comment behind the bars of its line, where a // is two beats and
// a # no chord. It returns the offset of the line's end when it did.
func (r *chartReader) comment(i, hi int) (end int, ok bool) {
	end = i
	for end < hi && r.s.Src[end] != '\n' {
		end++
	}
	line := strings.TrimRight(string(r.s.Src[i:end]), " \t\r")
	words := strings.Fields(strings.TrimLeft(line, "#/"))
	if len(words) == 0 || strings.ContainsAny(line, "|\\") {
		return 0, false
	}
	apart := strings.ContainsAny(strings.TrimLeft(line, "#/")[:1], " \t")
	switch reads := func(s string) bool { _, _, err := harmony.ParseEither(s, harmony.Key{}); return err == nil }; {
	case strings.HasPrefix(line, "//"):
		if words[0] == "%" || strings.Trim(words[0], "/") == "" || reads(words[0]) {
			return 0, false // | C // F
		}
	case line[0] != '#' || !apart && (!isChartComment([]byte(line)) || reads("C#"+words[0])):
		return 0, false // #ivo7, and C #m7
	}
	r.errorf(i, i+len(line), "A comment behind the bars", "In a chart a comment has a line of its own, with # and a blank in front of it.")
	return end, true
}

// isWordOfText reports a word that is letters alone, as those of a text are.
func isWordOfText(w string) bool {
	w = strings.Trim(w, ".,;:!?'\"()’“”„-")
	return w != "" && strings.IndexFunc(w, func(c rune) bool {
		return !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c > 0x7f || c == '\'' || c == '-')
	}) < 0
}

// foreignWord says what to write for a word of a chart that no chord can be; "" for
// what may be one.
func foreignWord(text string) (summary, help string) {
	switch {
	case strings.Trim(text, "-–—~_>→•·*=") == "":
		return "No chord", "Chords are parted by blanks, and bars by |: | G | D | Em | C |."
	case strings.Trim(text, ".") == "":
		return "Dots for beats", "A chord that lasts has a / for each further beat: | C / / / |, or it stands alone in its bar."
	case strings.ContainsAny(text, hcltext.OddBlanks):
		return hcltext.BlankThatIsNone, hcltext.BlankHelp
	case strings.Trim(text, "∕⁄") == "":
		return "A slash of another kind", "The slash that holds a chord for a beat is the plain one of the keyboard: /."
	case strings.ContainsAny(text, "‖𝄀𝄁𝄂𝄆𝄇¦│┃"), text == "]", text == "[":
		return "A bar line of another kind", "Bar lines are the plain ones of the keyboard: |, |: and :|."
	case text == "𝄎" || text == "𝄎𝄎" || text == "%%" || text == ".%." || text == "٪":
		return "A repeat sign of another kind", "A % alone in its bar plays the bar before again."
	case timesMark().MatchString(text):
		m := timesMark().FindStringSubmatch(text)
		return "A number of times", fmt.Sprintf("Bars that are played again stand between |: and :|, with the number after it: |: C | F :|x%s.", m[1]+m[2])
	case strings.HasPrefix(text, "[") && endingMark().MatchString(text):
		return "An ending", "First and second endings have no sign here: write the bars out, once for each time."
	case sixthWord().MatchString(text):
		return "An augmented sixth", "It is written as it sounds: bVI7."
	case subFive().MatchString(text):
		return "A dominant by its use", "The dominant a half step above is written as it sounds: bII7, and bII7/V before V."
	case formWord().MatchString(text):
		return "The way through the form", "Where the song goes from here is said in the form: play \"verse\" {} for each section in turn. Bars are repeated with |: and :|."
	}
	return "", ""
}
