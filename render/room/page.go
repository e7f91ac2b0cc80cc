package room

import (
	"cmp"
	"embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"text/template"

	"plinth/songspec/guide"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

//go:embed page.txt page.html
var pageTexts embed.FS

// pages are the report as plain text, in lines of 80 columns unless a name is longer, and
// as a page with the picture, which has no script and loads nothing. Both ask for the words
// and figures that stand here.
var pages = template.Must(template.New("").Funcs(template.FuncMap{
	"add":           func(a, b int) int { return a + b },
	"atEnd":         func(r *Report, w guide.Window) bool { return w.End >= r.tl.End },
	"beats":         beatWords,
	"beatFigure":    beatFigure,
	"blocks":        func(block string, s Scope) string { return strings.Repeat(block, s.Most) },
	"capital":       capitalized,
	"chords":        func(r *Report, w guide.Window) string { return strings.Join(r.chordsOver(w), ", ") },
	"class":         wholeCountClass,
	"climax":        (*Report).climaxWords,
	"duration":      durationWords,
	"energy":        (*Report).energyWords,
	"escape":        escape,
	"fileBar":       (*Report).fileBarWords,
	"grid":          (*Report).gridLines,
	"held":          (*Report).heldRows,
	"hits":          (*Report).hitRows,
	"inside":        (*Report).insideWords,
	"keyWidth":      (*Report).keyWidth,
	"length":        timeline.MinSec,
	"line":          func(format string, a ...any) string { return strings.TrimRight(fmt.Sprintf(format, a...), " ") },
	"list":          wording.And,
	"marks":         (*Report).passMarks,
	"nameWidth":     (*Report).nameWidth,
	"tempoWidth":    (*Report).tempoWidth,
	"picture":       (*Report).picture,
	"parts":         (*Report).partNames,
	"partWidth":     (*Report).partWidth,
	"pitched":       pitchedNames,
	"registers":     (*Report).registerWords,
	"registerLines": (*Report).registerLines,
	"rows":          (*Report).knownRows,
	"scopes":        (*Report).scopes,
	"seats":         seatWords,
	"short":         shortCount,
	"source":        (*Report).voiceSource,
	"span":          func(s namedScope, f FreeRange) string { return s.pitchRange(f.Low, f.High) },
	"sum":           sumWindows,
	"summit":        func(marks string) string { return strings.Replace(marks, "climax", "△ climax", 1) },
	"window":        (*Report).windowName,
	"suspensions":   (*Report).suspensionRows,
	"wrap":          wording.Wrap,
}).ParseFS(pageTexts, "page.*"))

// Text writes the report as plain text. The error is that of w.
func (r *Report) Text(w io.Writer) error { return r.write(w, "page.txt") }

// HTML writes the report as one page. The error is that of w.
func (r *Report) HTML(w io.Writer) error { return r.write(w, "page.html") }

// write fills in a page. A panic of our own, which the template makes an error, stays one.
func (r *Report) write(w io.Writer, page string) error {
	err := pages.ExecuteTemplate(w, page, r)
	if ours := (template.ExecError{}); errors.As(err, &ours) {
		panic(err)
	}
	return err
}

// nameWidth is the width of the column of pass names, at most 24: longer names stick out.
func (r *Report) nameWidth() int {
	return min(24, r.columnWidth(8, func(s *Scope) string { return s.Name }))
}

// tempoWidth and keyWidth are the widths of the columns of tempos and of keys.
func (r *Report) tempoWidth() int {
	return r.columnWidth(3, func(s *Scope) string { return s.Played.String() })
}

func (r *Report) keyWidth() int {
	return r.columnWidth(7, func(s *Scope) string { return s.Key.String() })
}

// columnWidth is the width of a column with a text for each pass.
func (r *Report) columnWidth(least int, text func(*Scope) string) int {
	for i := range r.Passes {
		least = max(least, len([]rune(text(&r.Passes[i]))))
	}
	return least
}

// sumWindows has the beats and the time of all the windows.
func sumWindows(windows []guide.Window) (sum guide.Window) {
	for _, w := range windows {
		sum.Beats, sum.Micros = sum.Beats+w.Beats, sum.Micros+w.Micros
	}
	return sum
}

// registerWords says what the voice and each pitched player use in a stretch. The format is
// that of a range and of the attacks a beat.
func (r *Report) registerWords(s namedScope, format string) []string {
	var out []string
	for _, p := range s.shownRegisters() {
		switch {
		case p.part != nil:
			attacks := wording.Thousandths(int64(p.part.Attacks+5) / 10 * 10)
			out = append(out, fmt.Sprintf(format, s.pitchRange(p.part.P5, p.part.P95), attacks))
		case p.name == "voice" && len(r.tl.Vocals) == 0:
			out = append(out, "unknown")
		default:
			out = append(out, "silent")
		}
	}
	return out
}

// registerLines are the names and words of the registers of a stretch in plain text. Where all singers
// are silent, that is said once.
func (r *Report) registerLines(s namedScope) (lines [][2]string) {
	words := r.registerWords(s, "%-11s  %s attacks a beat")
	for i, p := range s.shownRegisters() {
		if single := len(s.Singers) > 1 && i >= 1 && i <= len(s.Singers); !single || s.Voice != nil {
			lines = append(lines, [2]string{p.name, words[i]})
		}
	}
	return lines
}

// seatWords names the instruments that have an octave in a free range.
func seatWords(seats []Seat) string {
	if len(seats) == 0 {
		return "no octave for anybody"
	}
	return strings.Join(instrumentNames(seats), ", ")
}

// gridLines are the table of counts in plain text.
func (r *Report) gridLines(steps []Step) []string {
	var out []string
	add := func(name string, cell func(Step) string) {
		line := fmt.Sprintf("    %-6s", name)
		for _, s := range steps {
			line += fmt.Sprintf("%-3s", cell(s))
		}
		out = append(out, strings.TrimRight(line, " "))
	}
	add("count", func(s Step) string { return shortCount(s.Count) })
	for _, row := range r.knownRows() {
		add(row.Name, func(s Step) string { return tenthsDigit(row.At(s)) })
	}
	add("free", func(s Step) string {
		if s.Free {
			return "o"
		}
		return ""
	})
	return out
}

// wholeCountClass is the class attribute of a column that stands for a whole count, "" for
// the columns between.
func wholeCountClass(s Step) string {
	if shortCount(s.Count) == s.Count {
		return ` class="one"`
	}
	return ""
}

// heldRows are the passes with what can be held in them.
func (r *Report) heldRows() (rows [][]string) {
	for i := range r.Passes {
		if !r.showsHeld(i) {
			continue
		}
		var words []string
		for _, h := range r.Passes[i].Held {
			words = append(words, heldWords(h))
		}
		rows = append(rows, []string{r.Passes[i].Name, strings.Join(words, "; ")})
	}
	return rows
}

// showsHeld reports whether pass i has a line of its own among the held tones. A later
// pass of a section has one only when it differs from the first, for example after a lift.
func (r *Report) showsHeld(i int) bool {
	s := &r.Passes[i]
	f := &r.Passes[r.firstPass(i)]
	if len(s.Held) == 0 || s == f {
		return len(s.Held) > 0
	}
	if len(s.Held) != len(f.Held) {
		return true
	}
	for k := range s.Held {
		a, b := &s.Held[k], &f.Held[k]
		if a.FirstBar-s.FirstBar != b.FirstBar-f.FirstBar || a.LastBar-a.FirstBar != b.LastBar-b.FirstBar ||
			len(a.Tones) != len(b.Tones) {
			return true
		}
		for n := range a.Tones {
			if a.Tones[n].Name != b.Tones[n].Name || (a.Tones[n].Against == "") != (b.Tones[n].Against == "") {
				return true
			}
		}
	}
	return false
}

// hitRows are the passes with the hits in them as they come; hits of one kind in a row share a line.
func (r *Report) hitRows() (rows [][]string) {
	for i := range r.Passes {
		s := &r.Passes[i]
		var places []hitPlace
		for _, k := range hitKinds {
			places = append(places, hitPlaces(s.Hits, k.kind, s.Plays)...)
		}
		slices.SortStableFunc(places, func(a, b hitPlace) int { return cmp.Compare(a.tick, b.tick) })
		for n, p := range places {
			if n > 0 && places[n-1].kind == p.kind {
				rows[len(rows)-1][2] += "; " + p.String()
			} else {
				rows = append(rows, []string{s.Name, p.kind.String(), p.String()})
			}
		}
	}
	return rows
}
