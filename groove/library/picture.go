package library

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"plinth/groove/feel"
)

// pictureWidth is how many columns of steps a picture puts in one line before
// it goes on below.
const pictureWidth = 66

// Picture draws the pattern of one energy, 1 to 5, as a tab: a line of counts,
// the rows of the kit from the top down, bass and comp. Each step is two columns
// wide. A row is text that a groove file takes as it is.
func Picture(f *feel.Feel, energy int) string {
	lv := &f.Levels[energy-1]
	var b strings.Builder
	fmt.Fprintf(&b, "energy %d: the comp in %d voices\n", energy, lv.Voices)
	drawLevel(&b, f, lv, lv)
	if lv.Answer != nil {
		b.WriteString("and in answer\n")
		drawLevel(&b, f, lv.Answer, lv)
	}
	return b.String()
}

// PictureAll draws a groove whole: a head and its five energies.
func PictureAll(w io.Writer, f *feel.Feel) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", f.Name, f.About)
	fmt.Fprintf(&b, "%s, tempo %d to %d", meterText(f), f.TempoLow, f.TempoHigh)
	if s := swingText(f.Swing); s != "" {
		b.WriteString(", " + s)
	}
	if f.Kit != "standard" {
		b.WriteString(", " + f.Kit)
	}
	if f.BassSound == "acoustic" {
		b.WriteString(", acoustic bass")
	}
	b.WriteString("\n")
	if len(f.Meters) == 0 {
		b.WriteString("1 is the bar's first beat, + each other beat\n")
	}
	for e := 1; e <= 5; e++ {
		b.WriteString("\n" + Picture(f, e))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func meterText(f *feel.Feel) string {
	if len(f.Meters) == 0 {
		return "any meter"
	}
	var out []string
	for _, m := range f.Meters {
		out = append(out, m.String())
	}
	return strings.Join(out, ", ")
}

func swingText(s feel.Swing) string {
	switch s.Mode {
	case "tempo":
		return s.Unit + "s swing, wider when slow"
	case "ratio":
		ratio := strings.TrimRight(fmt.Sprintf("%d.%03d", s.PerMille/1000, s.PerMille%1000), "0")
		return s.Unit + "s swing " + strings.TrimSuffix(ratio, ".") + " to 1"
	}
	return ""
}

// drawLevel draws the rows that l has, or all rows of an answer that changes
// only some; bars and steps are those of whole.
func drawLevel(b *strings.Builder, f *feel.Feel, l, whole *feel.Level) {
	var rows []pictureRow
	add := func(name, signs string) { rows = append(rows, pictureRow{name, signs}) }
	for _, r := range l.Drums {
		same := func(o feel.Row) bool { return o.Voice == r.Voice && slices.Equal(o.Steps, r.Steps) }
		if l != whole && slices.ContainsFunc(whole.Drums, same) {
			continue
		}
		add(r.Voice.Word, signsOf(r.Steps, strokeSign))
	}
	if l != whole && l.Drums != nil {
		for _, r := range whole.Drums {
			if !slices.ContainsFunc(l.Drums, func(o feel.Row) bool { return o.Voice == r.Voice }) {
				add(r.Voice.Word, strings.Repeat("-", len(r.Steps)))
			}
		}
	}
	if l.Bass != nil {
		add("bass", signsOf(l.Bass, bassSign))
	}
	if len(l.Comp) == 1 {
		rows = append(rows, handRows(&l.Comp[0], "comp")...)
	}
	if len(rows) == 0 && len(l.Comp) == 0 {
		b.WriteString("nothing more\n")
		return
	}
	drawRows(b, f, rows, whole.Bars)
	if len(l.Comp) < 2 {
		return
	}
	rows = nil
	for i := range l.Comp {
		rows = append(rows, handRows(&l.Comp[i], fmt.Sprintf("comp %d", i+1))...)
	}
	b.WriteString("of which a phrase deals out, the last to close it\n")
	drawRows(b, f, rows, 1)
}

// pictureRow is a row of a picture.
type pictureRow struct{ name, signs string }

// handRows are the rows of a figure of the comp: one for both hands, or one for each.
func handRows(f *feel.Figure, name string) []pictureRow {
	out := []pictureRow{{name, signsOf(f.Right, compSign)}}
	if f.Left != nil {
		out = append(out, pictureRow{"  left", signsOf(f.Left, compSign)})
	}
	return out
}

// drawRows draws rows of so many bars under their counts.
func drawRows(b *strings.Builder, f *feel.Feel, rows []pictureRow, bars int) {
	if len(rows) == 0 {
		return
	}
	perLine := max(1, pictureWidth/(2*f.Grid+1))
	for bar := 0; bar < bars; bar += perLine {
		n := min(perLine, bars-bar)
		line(b, "", strings.Repeat(countLine(f)+"|", n))
		for _, r := range rows {
			text := ""
			for i := bar; i < bar+n; i++ {
				text += strings.Join(strings.Split(r.signs[i*f.Grid:(i+1)*f.Grid], ""), " ") + " |"
			}
			line(b, r.name, text)
		}
	}
}

func line(b *strings.Builder, name, text string) {
	fmt.Fprintf(b, "%-11s  %s\n", name, text)
}

// countLine is what is spoken over the steps of a bar, two columns a step. What
// has no spoken count is a dot.
func countLine(f *feel.Feel) string {
	if len(f.Meters) == 0 {
		return "1 + "
	}
	m := f.Meters[0]
	step := m.BarTicks() / int64(f.Grid)
	unit := m.UnitTicks()
	inner := map[int64]string{}
	switch n := unit / step; {
	case unit%step != 0:
	case m.Compound() || m.Den > 4:
		if n%2 == 0 {
			inner[unit/2] = "&"
		}
	case n == 2:
		inner[step] = "&"
	case n == 3:
		inner[step], inner[2*step] = "t", "l"
	case n%4 == 0:
		inner[unit/4], inner[unit/2], inner[3*unit/4] = "e", "&", "a"
	case n%2 == 0:
		inner[unit/2] = "&"
	}
	var b strings.Builder
	for t := int64(0); t < m.BarTicks(); t += step {
		sign, spoken := inner[t%unit]
		switch {
		case t%unit == 0:
			fmt.Fprintf(&b, "%-2d", t/unit+1)
		case spoken:
			b.WriteString(sign + " ")
		default:
			b.WriteString(". ")
		}
	}
	return b.String()
}

// signsOf are the signs of a row's steps.
func signsOf[S any](steps []S, sign func(S) byte) string {
	var out []byte
	for _, s := range steps {
		out = append(out, sign(s))
	}
	return string(out)
}

func strokeSign(s feel.Stroke) byte {
	switch {
	case s.Flam:
		return 'f'
	case s.Drag:
		return 'd'
	case s.Touch == feel.Sound:
		return '~'
	}
	return touches[s.Touch]
}

func bassSign(s feel.BassStep) byte {
	if s.Degree != 0 {
		return s.Degree
	}
	return touches[s.Touch]
}

func compSign(s feel.CompStep) byte {
	if s.Part != 0 && s.Part != 'c' {
		return s.Part
	}
	return touches[s.Touch]
}
