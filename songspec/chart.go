package songspec

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
)

// chart is the text of a section's chords, split into bars. The words of a bar are read, and
// their number is checked, later, when key and meter are known.
type chart struct {
	src     *hcltext.Source // the file that it stands in
	text    hcltext.RawText
	written []writtenBar
	order   []int32  // the bars as they are played, with repeats: indexes into written
	rounds  [][2]int // of the repeats, each from an index in order to another, the second not included
}

// writtenBar is a bar as it stands in the chart. Offsets are bytes of the file.
type writtenBar struct {
	lo, hi int
	line   int
	meter  *meter.Meter // nil: the section's
	words  []chartWord  // of a % bar: the words of the bar it repeats
	like   int          // of a % bar: the index of the bar it repeats; else -1
	text   string       // the words with one blank between
}

// chartWord is a chord or a lone slash.
type chartWord struct {
	src    *hcltext.Source // the file that it stands in
	lo, hi int
	text   string
	slash  bool
	bad    bool        // not a chord, and already reported
	count  meter.Count // on which it comes, with its place in the file; N is 0: nothing is said
}

// rng is where the word stands.
func (w *chartWord) rng() hcl.Range { return w.src.Range(w.lo, w.hi) }

// maxTimes is the greatest number of times of a repeat, as in :|x3.
const maxTimes = 64

// chartReader reads the text of a chart, sign by sign, and assembles the bars.
type chartReader struct {
	s   *hcltext.Source
	rep *hcltext.Report
	c   *chart

	cur      writtenBar
	filled   bool // cur holds something
	lastSign *sign
	blank    bool // only blanks since lastSign, on the same line

	open      int // index in order where an open |: began; -1: none is open
	openSign  sign
	closed    bool // a :| was read
	endings   *endings
	tooMany   bool
	hasErrors bool
}

// sign is a bar line, which may end or start a repeat.
type sign struct {
	lo, hi     int
	end, start bool // :| and |:
	times      int
	figure     bool // the times are written: x3
}

// readChart splits chord text into bars and writes out its repeats. Mistakes go to rep; the
// second result is false when there are any.
func readChart(s *hcltext.Source, t hcltext.RawText, rep *hcltext.Report) (*chart, bool) {
	r := &chartReader{s: s, rep: rep, c: &chart{src: s, text: t}, open: -1}
	r.cur.like = -1
	if t.Hi-t.Lo > MaxChordBytes {
		rep.Errorf(s.Range(t.Lo, t.Lo), "Chord text too long", "The text of one chart has at most %d KiB.",
			MaxChordBytes>>10)
		return nil, false
	}
	r.scan()
	r.endBar()
	r.finishEndings(false)
	if r.open >= 0 {
		r.errorf(r.openSign.lo, r.openSign.hi, "Repeat without an end",
			"The repeat that begins here is never closed: write :| after its last bar.")
	}
	if len(r.c.written) == 0 && !r.hasErrors {
		r.errorf(t.Lo, t.Hi, "A chart without bars", "Write chords between bar lines, like | C | Am7 | F / G / | C |.")
	}
	return r.c, !r.hasErrors
}

func (r *chartReader) errorf(lo, hi int, summary, detail string, args ...any) hcltext.Entry {
	r.hasErrors = true
	return r.rep.Errorf(r.s.Range(lo, hi), summary, detail, args...)
}

func (r *chartReader) scan() {
	src, i, hi := r.s.Src, r.c.text.Lo, r.c.text.Hi
	lineStart := true
	for i < hi {
		b := src[i]
		switch {
		case b == '\n':
			r.newline()
			lineStart = true
			i++
			continue
		case b == '\\' && !r.c.text.Heredoc && i+1 < hi && (src[i+1] == 'n' || src[i+1] == 't' || src[i+1] == 'r'):
			if src[i+1] == 'n' {
				r.newline()
				lineStart = true
			}
			i += 2
			continue
		case blankAt(src[i:hi]) > 0:
			i += blankAt(src[i:hi])
			continue
		case lineStart && isChartComment(src[i:hi]):
			comment, _, _ := bytes.Cut(src[i:hi], []byte("\n"))
			i += len(comment)
			continue
		case lineStart && r.c.text.Heredoc:
			lineStart = false
			if end, ok := r.prose(i, hi); ok {
				i = end
			}
			continue
		case b == '#' || b == '/':
			if end, ok := r.comment(i, hi); ok {
				i = end
			} else {
				i = r.readWord(i, hi)
			}
		case b == '|' || b == ':':
			i = r.readBarLine(i, hi)
		case b == '(':
			end, ok := i, false
			if !r.filled {
				end, ok = r.readEnding(i, hi)
			}
			if i = end; !ok {
				i = r.readMeterSign(i, hi)
			}
		case b >= '0' && b <= '9' && !r.filled:
			if end, ok := r.readEnding(i, hi); ok {
				i = end
			} else {
				i = r.readWord(i, hi)
			}
		default:
			i = r.readWord(i, hi)
		}
		lineStart = false
	}
}

// isChartComment reports whether a line of a chart is a comment: it begins with // or #. But a
// # that begins a raised numeral does not make a comment, so #ivo7 at the start of a line is a
// chord, and a # in front of a line of bars takes the line out.
func isChartComment(b []byte) bool {
	if len(b) >= 2 && b[0] == '/' && b[1] == '/' {
		return true
	}
	rest := bytes.TrimLeft(b, "#")
	return len(rest) < len(b) && (len(rest) == 0 || !strings.ContainsRune("iIvV", rune(rest[0])))
}

// blankAt is the length of the blank at the start of b; 0 when there is none. A blank may be
// one of the keyboard's, or one that web pages and word processors write.
func blankAt(b []byte) int {
	if r, n := utf8.DecodeRune(b); unicode.IsSpace(r) {
		return n
	}
	return 0
}

// readWord reads a chord, a slash or %, and returns the offset after it. Blanks inside the
// brackets of a chord belong to the chord.
func (r *chartReader) readWord(i, hi int) int {
	src, lo, depth := r.s.Src, i, 0
	for i < hi {
		b := src[i]
		if b == '|' || b == '\n' || b == '\r' || b == ':' && i+1 < hi && src[i+1] == '|' {
			break
		}
		if b == '\\' && !r.c.text.Heredoc && i > lo && i+1 < hi &&
			(src[i+1] == 'n' || src[i+1] == 't' || src[i+1] == 'r') {
			break
		}
		if depth == 0 && blankAt(src[i:hi]) > 0 {
			break
		}
		if b == '(' {
			depth++
		}
		if b == ')' && depth > 0 {
			depth--
		}
		i++
	}
	if i == lo { // a lone backslash or colon
		i++
	}
	text := strings.TrimRightFunc(string(src[lo:i]), unicode.IsSpace)
	i = lo + len(text)
	text = strings.Join(strings.Fields(text), " ")
	r.growBar(lo, i)
	switch {
	case text == "%":
		r.percent(lo, i)
	case r.cur.like >= 0:
		r.errorf(lo, i, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before.")
	case strings.Trim(text, "/") == "":
		for j := range text {
			r.cur.words = append(r.cur.words, chartWord{src: r.s, lo: lo + j, hi: lo + j + 1, text: "/", slash: true})
		}
	case strings.Contains(text, "\\"):
		e := r.errorf(lo, i, "Backslash in a chord", "A chord over another bass is written with a slash: C/G.")
		slashed := strings.NewReplacer(`\\`, "/", `\`, "/").Replace(text)
		if _, _, err := harmony.ParseEither(slashed, harmony.Key{}); err == nil {
			e.Write(r.s.Range(lo, i), slashed)
		}
	case strings.Contains(text, "@"):
		return r.readCounted(lo, i, text)
	default:
		r.cur.words = append(r.cur.words, chartWord{src: r.s, lo: lo, hi: i, text: text})
	}
	return i
}
