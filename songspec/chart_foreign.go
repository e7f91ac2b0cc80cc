package songspec

import (
	"bytes"
	"errors"
	"regexp"
	"strings"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
)

// A chart that is pasted from elsewhere may have headings, lyrics, endings and engraver's
// signs. Each is reported once, for its line or at its place, and not for every word.

var (
	chartHeading = pattern(`^\[([^\]|]*)\]\s*:?$`)
	bareHeading  = pattern(`^([A-Za-z][A-Za-z-]+)\s*([0-9]*)\s*:?$`)
	timesMark    = pattern(`^\(?\s*(?:[xX×*]\s*([0-9]{1,3})|([0-9]{1,3})\s*[xX×])\s*\)?$`)
)

// prose reports a line of a chart that has no bars but a heading or words. ok says that it
// did; end is the offset of the line's end.
func (r *chartReader) prose(i, hi int) (end int, ok bool) {
	whole, _, _ := bytes.Cut(r.s.Src[i:hi], []byte("\n"))
	end, line := i+len(whole), string(bytes.TrimRight(whole, " \t\r"))
	if strings.ContainsAny(line, "|\\") {
		return 0, false
	}
	if m := chartHeading().FindStringSubmatch(line); m != nil {
		r.heading(i, line, m[1])
		return end, true
	}
	if m := bareHeading().FindStringSubmatch(line); m != nil && len(m[1]) > 1 && partOfSong(m[1]) {
		r.heading(i, line, m[1]+" "+m[2])
		return end, true
	}
	words, chords := 0, 0
	for _, w := range strings.Fields(line) {
		_, _, err := harmony.ParseEither(w, harmony.Key{})
		var se *harmony.SymbolError
		if err == nil || errors.As(err, &se) && se.Suggest != "" { // a misspelt chord such as Fism counts as a chord
			chords++
		} else if isWordOfText(w) {
			words++
		}
	}
	if words >= 3 && words > chords {
		r.errorf(i, i+len(line), "Words among the chords",
			"A chart holds chords alone. Put # and a blank in front of a line of words, and it is left out.")
		return end, true
	}
	return 0, false
}

func (r *chartReader) heading(at int, line, section string) {
	r.errorf(at, at+len(line), "A heading among the chords",
		"Each part is a section of its own, section %q { … }; "+
			"or put # and a blank in front of the line, and it is left out.",
		strings.ToLower(strings.TrimSpace(section)))
}

// comment reports a comment that follows bars on its line, where // would be read as two
// beats and # as a bad chord. ok says that it did; end is the offset of the line's end.
func (r *chartReader) comment(i, hi int) (end int, ok bool) {
	whole, _, _ := bytes.Cut(r.s.Src[i:hi], []byte("\n"))
	end, line := i+len(whole), string(bytes.TrimRight(whole, " \t\r"))
	words := strings.Fields(strings.TrimLeft(line, "#/"))
	if len(words) == 0 || strings.ContainsAny(line, "|\\") {
		return 0, false
	}
	apart := strings.ContainsAny(strings.TrimLeft(line, "#/")[:1], " \t")
	reads := func(s string) bool {
		_, _, err := harmony.ParseEither(s, harmony.Key{})
		return err == nil
	}
	switch {
	case strings.HasPrefix(line, "//"):
		if words[0] == "%" || strings.Trim(words[0], "/") == "" || reads(words[0]) {
			return 0, false // | C // F
		}
	case line[0] != '#' || !apart && (!isChartComment([]byte(line)) || reads("C#"+words[0])):
		return 0, false // #ivo7, and C #m7
	}
	r.errorf(i, i+len(line), "A comment behind the bars",
		"In a chart a comment has a line of its own, with # and a blank in front of it.")
	return end, true
}

// isWordOfText reports whether a word has only letters, as the words of lyrics have.
func isWordOfText(w string) bool {
	w = strings.Trim(w, ".,;:!?'\"()’“”„-")
	return w != "" && strings.IndexFunc(w, func(c rune) bool {
		return !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c > 0x7f || c == '\'' || c == '-')
	}) < 0
}

const chordsParted = "Chords are parted by blanks, and bars by |: | G | D | Em | C |."

// chartSigns are patterns of words that cannot be chords, with what to write instead. $1 and
// $2 in help are the groups of the pattern.
var chartSigns = []struct {
	of            func() *regexp.Regexp
	summary, help string
}{
	{pattern(`^[-–—~_>→•·*=]*$`), "No chord", chordsParted},
	{pattern(`^\.+$`), "Dots for beats",
		"A chord that lasts has a / for each further beat: | C / / / |, or it stands alone in its bar."},
	{pattern("[" + hcltext.OddBlanks + "]"), hcltext.BlankThatIsNone, hcltext.BlankHelp},
	{pattern(`^[∕⁄]+$`), "A slash of another kind",
		"The slash that holds a chord for a beat is the plain one of the keyboard: /."},
	{pattern(`[‖𝄀𝄁𝄂𝄆𝄇¦│┃]|^[][]$`), "A bar line of another kind",
		"Bar lines are the plain ones of the keyboard: |, |: and :|."},
	{pattern(`^(𝄎𝄎?|%%|\.%\.|٪)$`), "A repeat sign of another kind",
		"A % alone in its bar plays the bar before again."},
	{timesMark, "A number of times",
		"Bars that are played again stand between |: and :|, with the number after it: |: C | F :|x$1$2."},
	{pattern(`^(?:[1-9](?:st|nd|rd|th|\))|last\.)$`), "An ending",
		"It stands behind a bar line, as a number with a full stop: |: Am7 | D7 |1. Gmaj7 :|2. G6 |."},
	{pattern(`^\[[1-9]+/`), "A meter in other brackets",
		"A bar in another meter says so in round brackets: | (2/4) C |."},
	{pattern(`^\[[1-9]`), "An ending",
		"It stands behind a bar line, without a bracket: |: Am7 | D7 |1. Gmaj7 :|2. G6 |."},
	{pattern(`^(?i:it|fr|ger|gr)\.?\+?(6|65|43|7)?$`), "An augmented sixth",
		"It is written It6, Fr43 or Ger65; each has the flat sixth of the key in the bass."},
	{pattern(`^[^,;]+[,;]$`), "A sign behind a chord", chordsParted},
	{pattern(`^([A-G][b#]?|[ivIV]+)(m?7?)(-(?:[A-G][b#]?|[ivIV]+)m?7?)+$`), "Chords joined by dashes", chordsParted},
	{pattern(`^(?i:on|over|bass|with)$`), "A bass in words", "A chord over another bass is written with a slash: C/E."},
	{pattern(`^[>^<'!~]+[A-G]`), "A sign in front of a chord",
		"A hit stands beside the chords, accent \"4: 3\" {}, and so does a chord that comes early, " +
			"push \"4: 4&\" {}. A chord off the beat says its count: G@2&."},
	{pattern(`^([A-G][^@&]*)&$`), "A chord off the beat", "Its count stands behind it: $1@2&."},
	{pattern(`^[TSts]$`), "A function of harmony", "It is written as a Roman numeral: T is I, S is IV, D is V."},
	{pattern(`^(?i:sub)V7?(/[ivIV]+)?$`), "A dominant by its use",
		"The dominant a half step above is written as it sounds: bII7, and bII7/V before V."},
	{pattern(`^(?i:d\.?\s?[cs]\.?|al|fine|coda|segno|dal|da|capo|to|repeat|x[0-9]+|bis)[.,:]?$`),
		"The way through the form", "Where the song goes from here is said in the form: " +
			`play "verse" {} for each section in turn. Bars are repeated with |: and :|.`},
}

// Words that stand alone in a bar where other charts repeat the bar before, and where they
// may also leave it empty.
var (
	similes = pattern(`^(''|"|″|“|”|’’|,,|[./·]*[/·∕⁄][./·]+|[.·]*%+[.·]*|٪|𝄎𝄎?|` +
		`(?i:sim|simile|ditto|idem)[.]?)$`)
	emptySigns = pattern(`^([-–—_~=*•·.…]+|[xX×])$`)
)

// certain are words of a chart that cannot be chords, with what to write instead. $1 and $2 are the
// groups of the pattern. What is written must be a chord, or N.C.
var certain = []struct {
	of                   func() *regexp.Regexp
	summary, help, write string
}{
	{pattern(`^(?i:n\.?\s?c|no|tacet|rest)\.?$`), "A bar without harmony", "No chord is written N.C.", "N.C."},
	{pattern(`^\[([A-G][^\]]*)\]$`), "A chord in brackets", "A chord stands without brackets: $1.", "$1"},
	{pattern(`^([A-G][^,;.]*)[,;.]$`), "A sign behind a chord", chordsParted, "$1"},
	{pattern(`^([ivIV]+)([b#♭♯])((?:[^0-9].*)?)$`), "A sign behind its numeral",
		"The sign stands in front of the numeral: $2$1$3.", "$2$1$3"},
	{pattern(`^(?i:gr|ger)\.?\+?(65|7|6)?$`), "An augmented sixth",
		"It is written Ger65, and has the flat sixth of the key in the bass.", "Ger65"},
	{pattern(`^(?i:fr)\.?\+?(43|6)?$`), "An augmented sixth",
		"It is written Fr43, and has the flat sixth of the key in the bass.", "Fr43"},
	{pattern(`^(?i:it)\.?\+?6?$`), "An augmented sixth",
		"It is written It6, and has the flat sixth of the key in the bass.", "It6"},
}

// certainWord is what is certainly meant by a word that cannot be a chord; "" where that is not known.
func certainWord(text string) (summary, help, write string) {
	for _, c := range certain {
		if at := c.of().FindStringSubmatchIndex(text); at != nil {
			expand := func(s string) string { return string(c.of().ExpandString(nil, s, text, at)) }
			if _, _, err := harmony.ParseEither(expand(c.write), harmony.Key{}); err == nil {
				return c.summary, expand(c.help), expand(c.write)
			}
		}
	}
	return "", "", ""
}

// meterBefore is a meter that stands without its round brackets in front of the chords of a bar. A
// number such as 3/4 may also be a chord by number, and then others stand beside it.
func meterBefore(words []chartWord) bool {
	return len(words) > 1 && bareMeter().MatchString(words[0].text) && words[1].text[0] >= 'A'
}

var bareMeter = pattern(`^\[?(?:[2-9]|1[0-9])/[248]\]?$`)

// loneSign says what to write for a word that stands alone in its bar and cannot be a chord. fix is
// written for it where that is certain.
func loneSign(text string, firstBar bool) (summary, help, fix string) {
	switch simile := similes().MatchString(text); {
	case simile && firstBar:
		return "Nothing to repeat", "This is the first bar. Write its chords.", ""
	case simile:
		return "A repeat sign of another kind", "A % alone in its bar plays the bar before again.", "%"
	case !emptySigns().MatchString(text):
		return "", "", ""
	case firstBar:
		return "A bar without a chord", "Write its chord, or N.C. for no chord.", ""
	}
	return "A bar without a chord", "Write % to play the bar before again, or N.C. for no chord.", ""
}

// foreignWord says what to write for a word of a chart that cannot be a chord; "" for a word
// that may be one.
func foreignWord(text string) (summary, help string) {
	for _, s := range chartSigns {
		if at := s.of().FindStringSubmatchIndex(text); at != nil {
			return s.summary, string(s.of().ExpandString(nil, s.help, text, at))
		}
	}
	return "", ""
}
