package songspec

import (
	"bytes"
	"strings"
	"unicode"
	"unicode/utf8"

	"plinth/songspec/meter"
)

// chart is the text of a section's chords, split into bars. What a bar's words
// mean, and whether it adds up, is found out later, when key and meter are known.
type chart struct {
	text    rawText
	written []writtenBar
	order   []int32 // indexes into written, the repeats written out
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
	lo, hi int
	text   string
	slash  bool
	bad    bool // no chord, and reported
}

// maxTimes bounds the figure of :|x3.
const maxTimes = 64

// chartReader assembles bars from the pieces that the scanner hands it.
type chartReader struct {
	s   *source
	rep *report
	c   *chart

	cur      writtenBar
	filled   bool // cur holds something
	lastSign *sign
	blank    bool // only blanks since lastSign, on the same line

	open      int // index in order where an open |: began; -1 none
	openSign  sign
	closed    bool // a :| was read
	tooMany   bool
	hasErrors bool
}

// sign is a bar line with what stands on either side of it.
type sign struct {
	lo, hi     int
	end, start bool // :| and |:
	double     bool
	times      int
}

// readChart splits chord text into bars and writes its repeats out. Mistakes go
// to rep; ok is false when there were any.
func (s *source) readChart(t rawText, rep *report) (*chart, bool) {
	r := &chartReader{s: s, rep: rep, c: &chart{text: t}, open: -1}
	r.cur.like = -1
	if t.hi-t.lo > MaxChordBytes {
		rep.errorf(s.rng(t.lo, t.lo), "Chord text too long", "The text of one chart has at most %d KiB.", MaxChordBytes>>10)
		return nil, false
	}
	r.scan()
	r.finish()
	if r.open >= 0 {
		r.errorf(r.openSign.lo, r.openSign.hi, "Repeat without an end", "The repeat that begins here is never closed: write :| after its last bar.")
	}
	if len(r.c.written) == 0 && !r.hasErrors {
		r.errorf(t.lo, t.hi, "A chart without bars", "Write chords between bar lines, like | C | Am7 | F / G / | C |.")
	}
	return r.c, !r.hasErrors
}

func (r *chartReader) errorf(lo, hi int, summary, detail string, args ...any) {
	r.hasErrors = true
	r.rep.errorf(r.s.rng(lo, hi), summary, detail, args...)
}

func (r *chartReader) scan() {
	src, i, hi := r.s.src, r.c.text.lo, r.c.text.hi
	lineStart := true
	for i < hi {
		b := src[i]
		switch {
		case b == '\n':
			r.newline()
			lineStart = true
			i++
			continue
		case b == ' ' || b == '\t' || b == '\r':
			i++
			continue
		case b == '\\' && !r.c.text.heredoc && i+1 < hi && (src[i+1] == 'n' || src[i+1] == 't' || src[i+1] == 'r'):
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
			for i < hi && src[i] != '\n' {
				i++
			}
			continue
		case lineStart && r.c.text.heredoc:
			lineStart = false
			if end, ok := r.prose(i, hi); ok {
				i = end
			}
			continue
		case b == '#' || b == '/':
			if end, ok := r.comment(i, hi); ok {
				i = end
			} else {
				i = r.word(i, hi)
			}
		case b == '|' || b == ':':
			i = r.barLine(i, hi)
		case b == '(':
			i = r.meterSign(i, hi)
		default:
			i = r.word(i, hi)
		}
		lineStart = false
	}
}

// isChartComment reports a comment line of a chart: // or #, but for a # that
// begins a raised numeral, so that #ivo7 at the start of a line stays a chord and
// a line of bars is taken out by a # in front of it.
func isChartComment(b []byte) bool {
	if len(b) >= 2 && b[0] == '/' && b[1] == '/' {
		return true
	}
	rest := bytes.TrimLeft(b, "#")
	return len(rest) < len(b) && (len(rest) == 0 || !strings.ContainsRune("iIvV", rune(rest[0])))
}

// blankAt is the length of a blank that is not the keyboard's at the start of b, as
// web pages and word processors write it; 0 when there is none.
func blankAt(b []byte) int {
	if b[0] < utf8.RuneSelf {
		if b[0] == '\v' || b[0] == '\f' {
			return 1
		}
		return 0
	}
	if r, n := utf8.DecodeRune(b); unicode.IsSpace(r) {
		return n
	}
	return 0
}

// newline ends a bar that has something in it, as a bar line would.
func (r *chartReader) newline() {
	r.finish()
	r.blank = false
}

// barLine reads |, ||, |:, :| and what they make together, with the figure of a
// repeat, and returns the offset after it.
func (r *chartReader) barLine(i, hi int) int {
	src := r.s.src
	g := sign{lo: i, times: 2}
	for i < hi && (src[i] == '|' || src[i] == ':') {
		i++
	}
	run := string(src[g.lo:i])
	g.end = len(run) > 1 && run[0] == ':'
	g.start = len(run) > 1 && run[len(run)-1] == ':'
	bars := strings.Trim(run, ":")
	if bars != "|" && bars != "||" || strings.Count(run, ":") > 2 || run == ":|::" || strings.HasPrefix(run, "::") || strings.HasSuffix(run, "::") {
		r.errorf(g.lo, i, "Not a bar line", "Bar lines are |, |: and :|, with a figure after a repeat that goes round more than twice: :|x3.")
		r.finish()
		r.lastSign = nil
		return i
	}
	g.double = bars == "||"
	if g.end && !g.start {
		j := i
		for j < hi && (src[j] == ' ' || src[j] == '\t') {
			j++
		}
		if j < hi && (src[j] == 'x' || src[j] == 'X') {
			k := j + 1
			n := 0
			for k < hi && src[k] >= '0' && src[k] <= '9' {
				n = min(n*10+int(src[k]-'0'), 100000)
				k++
			}
			if k > j+1 {
				i, g.times = k, n
				if n < 2 || n > maxTimes {
					r.errorf(j, k, "Repeat figure out of bounds", "A repeat goes round 2 to %d times: write :|x3 for three.", maxTimes)
					g.times = 2
				}
			}
		} else if j == i && j < hi && src[j] >= '0' && src[j] <= '9' {
			for i < hi && src[i] >= '0' && src[i] <= '9' {
				i++
			}
			r.errorf(j, i, "A figure without its x", "How often a repeat goes round is written with an x: :|x%s.", string(src[j:i]))
		}
	}
	g.hi = i
	r.bar(g)
	return i
}

// bar takes a bar line in.
func (r *chartReader) bar(g sign) {
	before := r.lastSign
	empty := !r.filled
	r.finish()
	if empty && before != nil && r.blank && !g.end && !g.start && !before.end && !before.start {
		r.errorf(before.hi, g.lo, "Empty bar", "Write %% to play the bar before again, / / / / to hold its chord, or N.C. for no chord.")
	}
	if g.end {
		r.endRepeat(g)
	}
	if g.start {
		if r.open >= 0 {
			r.errorf(g.lo, g.hi, "Repeat inside a repeat", "Close the repeat that is open with :| first, or write the bars out.")
		}
		r.open, r.openSign = len(r.c.order), g
	}
	r.lastSign, r.blank = &g, true
}

func (r *chartReader) endRepeat(g sign) {
	from := r.open
	if from < 0 {
		if r.closed {
			r.errorf(g.lo, g.hi, "Repeat without a start", "Write |: before the first bar that this repeat plays again.")
			return
		}
		from = 0
	}
	r.open, r.closed = -1, true
	body := r.c.order[from:]
	if len(body) == 0 {
		r.errorf(g.lo, g.hi, "A repeat with nothing in it", "Write the bars to repeat between |: and :|.")
		return
	}
	if len(r.c.order)+len(body)*(g.times-1) > MaxBars {
		r.overflow(g.lo, g.hi)
		return
	}
	end := len(r.c.order)
	for n := 1; n < g.times; n++ {
		r.c.order = append(r.c.order, r.c.order[from:end]...)
	}
}

func (r *chartReader) overflow(lo, hi int) {
	if !r.tooMany {
		r.errorf(lo, hi, "Too many bars", "A song has at most %d bars, repeats written out.", MaxBars)
	}
	r.tooMany = true
}

// meterSign reads "(2/4)".
func (r *chartReader) meterSign(i, hi int) int {
	src, lo := r.s.src, i
	for i < hi && src[i] != ')' && src[i] != '|' && src[i] != '\n' {
		i++
	}
	if i >= hi || src[i] != ')' {
		r.begin(lo, i) // the bar is not empty besides
		r.errorf(lo, i, "Bracket not closed", "A bar in another meter says so in brackets: | (2/4) C |.")
		return i
	}
	i++
	r.begin(lo, i)
	m, err := meter.Parse(string(src[lo+1 : i-1]))
	times := timesMark().FindStringSubmatch(string(src[lo:i]))
	switch {
	case err != nil && times != nil:
		summary, help := foreignWord(string(src[lo:i]))
		r.errorf(lo, i, summary, "%s", help)
	case err != nil && len(r.cur.words) > 0:
		r.errorf(lo, i, "Brackets after a chord", "A bracket belongs to its chord without a blank between, C7(b9). Chords that are played in turn or not at all have no sign here.")
	case err != nil:
		r.errorf(lo, i, "Not a meter", "Brackets at the front of a bar hold its meter, like (2/4): %s.", err)
	case r.cur.meter != nil:
		r.errorf(lo, i, "Two meters in one bar", "Leave one of them out.")
	case len(r.cur.words) > 0 || r.cur.like >= 0:
		r.errorf(lo, i, "Meter in the middle of a bar", "Write the meter in front of the bar's first chord: | (%s) C |.", m)
	default:
		r.cur.meter = &m
	}
	return i
}

// word reads a chord, a slash or %. Blanks inside the brackets of a chord belong
// to it.
func (r *chartReader) word(i, hi int) int {
	src, lo, depth := r.s.src, i, 0
	for i < hi {
		b := src[i]
		if b == '|' || b == '\n' || b == '\r' || b == ':' && i+1 < hi && src[i+1] == '|' {
			break
		}
		if b == '\\' && !r.c.text.heredoc && i > lo && i+1 < hi && (src[i+1] == 'n' || src[i+1] == 't' || src[i+1] == 'r') {
			break
		}
		if depth == 0 && (b == ' ' || b == '\t' || blankAt(src[i:hi]) > 0) {
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
	if strings.IndexFunc(text, unicode.IsSpace) >= 0 {
		text = strings.Join(strings.Fields(text), " ")
	}
	r.begin(lo, i)
	switch {
	case text == "%":
		r.percent(lo, i)
	case r.cur.like >= 0:
		r.errorf(lo, i, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before.")
	case strings.Trim(text, "/") == "":
		for j := range text {
			r.cur.words = append(r.cur.words, chartWord{lo: lo + j, hi: lo + j + 1, text: "/", slash: true})
		}
	case strings.Contains(text, "\\"):
		r.errorf(lo, i, "Backslash in a chord", "A chord over another bass is written with a slash: C/G.")
	default:
		r.cur.words = append(r.cur.words, chartWord{lo: lo, hi: i, text: text})
	}
	return i
}

func (r *chartReader) percent(lo, hi int) {
	switch {
	case len(r.cur.words) > 0 || r.cur.like >= 0:
		r.errorf(lo, hi, "Something beside %", "A %% stands alone in its bar: it repeats the whole bar before.")
	case len(r.c.written) == 0:
		r.errorf(lo, hi, "Nothing to repeat", "A %% repeats the bar before, and this is the first bar. Write its chords.")
		r.cur.like = 0
	default:
		r.cur.like = len(r.c.written) - 1
	}
}

func (r *chartReader) begin(lo, hi int) {
	if !r.filled {
		r.cur.lo = lo
	}
	r.cur.hi = hi
	r.filled = true
}

// finish ends the bar that is being read, if there is anything in it.
func (r *chartReader) finish() {
	if !r.filled {
		return
	}
	bar := r.cur
	r.cur, r.filled = writtenBar{like: -1}, false
	bar.line = r.s.line(bar.lo)
	if bar.like >= 0 && bar.like < len(r.c.written) {
		before := r.c.written[bar.like]
		if before.like >= 0 {
			bar.like = before.like
		}
		bar.words, bar.text = before.words, before.text
	} else if len(bar.words) == 0 && !r.hasErrors {
		r.errorf(bar.lo, bar.hi, "A meter without chords", "Write the bar's chords after its meter: | (2/4) C |.")
	} else {
		parts := make([]string, len(bar.words))
		for i, w := range bar.words {
			parts[i] = w.text
		}
		bar.text = strings.Join(parts, " ")
	}
	if len(r.c.order) >= MaxBars {
		r.overflow(bar.lo, bar.hi)
		return
	}
	r.c.order = append(r.c.order, int32(len(r.c.written)))
	r.c.written = append(r.c.written, bar)
}
