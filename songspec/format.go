package songspec

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/hashicorp/hcl/v2/hclwrite"

	"plinth/songspec/hcltext"
)

// Format is a song file in canonical layout: HCL's own layout of values and
// blocks, and in every chart the bar lines under one another. Comments, blank
// lines and line ends stay; a byte-order mark goes. What the song says never
// changes, and formatting the result again changes nothing. A block with more on its line than
// fits there gets a line for each thing. A file with other errors is not formatted: the result is nil,
// with Parse's diagnostics.
func Format(name string, src []byte) ([]byte, hcl.Diagnostics) {
	_, diags := Parse(name, src)
	if diags.HasErrors() {
		unfolded := unfold(src, diags)
		if _, left := Parse(name, unfolded); left.HasErrors() {
			return nil, diags
		}
		src = unfolded
	}
	out := bytes.TrimPrefix(src, hcltext.ByteOrderMark)
	// Once is mostly enough, but HCL's layout takes away some blanks at the ends of lines only
	// the second time.
	for range 4 {
		next, d := layout(name, out)
		if d.HasErrors() {
			return nil, d
		}
		if bytes.Equal(next, out) {
			break
		}
		out = next
	}
	return out, diags
}

// unfold applies the fixes of blocks that have more on their line than fits there.
func unfold(src []byte, diags hcl.Diagnostics) []byte {
	for i := len(diags) - 1; i >= 0; i-- { // from the end, so that those before stay where they are
		fix, ok := hcltext.FixOf(diags[i])
		if !ok || diags[i].Summary != hcltext.OnOneLine {
			continue
		}
		if bytes.Contains(src, []byte("\r\n")) {
			fix.Text = strings.ReplaceAll(fix.Text, "\n", "\r\n")
		}
		src = fix.Apply(src)
	}
	return src
}

// layout lays out a song file that has no mistakes, once.
func layout(name string, src []byte) ([]byte, hcl.Diagnostics) {
	out := layoutHCL(src)
	s := hcltext.NewSource(name, out)
	if d, _ := guard(s); d.HasErrors() {
		return nil, d // too long once laid out
	}
	body, d := s.Parse()
	if d.HasErrors() {
		panic("songspec: formatting broke a song file: " + d.Error())
	}
	var b bytes.Buffer
	at := 0
	for _, attr := range chartsIn(body) {
		t, ok := s.Raw(attr.Expr)
		if !ok {
			continue
		}
		b.Write(out[at:t.Lo])
		at = t.Hi
		text := string(out[t.Lo:t.Hi])
		switch {
		case !t.Heredoc && strings.Contains(text, `\`):
			b.WriteString(text)
		case !t.Heredoc:
			b.WriteString(strings.TrimSpace(gridChart(text, "")))
		default:
			indent := leadingBlanks(s.LineText(s.LineOf(attr.NameRange.Start.Byte)))
			b.WriteString(gridChart(text, indent+"  "))
			// The closing word stands under the attribute, where <<- lets it.
			if bytes.HasPrefix(out[attr.Expr.Range().Start.Byte:], []byte("<<-")) {
				at += len(leadingBlanks(out[at:]))
				b.WriteString(indent)
			}
		}
	}
	b.Write(out[at:])
	if n := b.Len(); n > 0 && b.Bytes()[n-1] != '\n' {
		b.WriteByte('\n')
	}
	return b.Bytes(), nil
}

// chartsIn are the charts of sections and of bars blocks, in their order in the text.
func chartsIn(body *hclsyntax.Body) (charts []*hclsyntax.Attribute) {
	for _, block := range body.Blocks {
		if attr := block.Body.Attributes["chords"]; attr != nil && (block.Type == "section" || block.Type == "bars") {
			charts = append(charts, attr)
		}
		charts = append(charts, chartsIn(block.Body)...)
	}
	slices.SortFunc(charts, func(a, b *hclsyntax.Attribute) int {
		return cmp.Compare(a.NameRange.Start.Byte, b.NameRange.Start.Byte)
	})
	return charts
}

// layoutHCL is hclwrite's layout. Text that hclwrite would take for a template is hidden from
// it behind a character that the text does not have.
func layoutHCL(src []byte) []byte {
	hidden := '\ue000'
	for bytes.ContainsRune(src, hidden) {
		hidden++
	}
	veiled := strings.NewReplacer("${", "$"+string(hidden), "%{", "%"+string(hidden)).Replace(string(src))
	return bytes.ReplaceAll(hclwrite.Format([]byte(veiled)), []byte(string(hidden)), []byte("{"))
}

func leadingBlanks(line []byte) string {
	return string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
}

// gridRow is a line of a chart: bar lines with cells between them, or only text in a line
// without music.
type gridRow struct {
	signs []gridSign
	cells []string // cells[i] stands after signs[i]
	other string
	eol   string
}

// gridSign is a bar line: what stands before its first stroke, and the strokes with what
// belongs behind them. Neither is ever torn apart.
type gridSign struct{ left, rest string }

// gridChart lays a chart's bar lines under one another.
func gridChart(text, indent string) string {
	var rows []gridRow
	for _, line := range strings.SplitAfter(text, "\n") {
		if line != "" {
			rows = append(rows, readRow(line))
		}
	}
	var left, rest, cell []int
	widen := func(to *[]int, i, w int) {
		for len(*to) <= i {
			*to = append(*to, 0)
		}
		(*to)[i] = max((*to)[i], w)
	}
	for _, r := range rows {
		for i, g := range r.signs {
			widen(&left, i, len(g.left))
			if widen(&rest, i, 0); i < len(r.cells) {
				widen(&rest, i, len(g.rest))
			}
		}
		for i, c := range r.cells {
			widen(&cell, i, hcltext.Columns(c))
		}
	}
	var b strings.Builder
	for _, r := range rows {
		line := r.other
		for i, g := range r.signs {
			line += strings.Repeat(" ", left[i]-len(g.left)) + g.left + g.rest
			if i < len(r.cells) {
				line += strings.Repeat(" ", rest[i]-len(g.rest)+1)
				line += r.cells[i] + strings.Repeat(" ", cell[i]-hcltext.Columns(r.cells[i])+1)
			}
		}
		if line = strings.TrimRight(line, " \t"); line != "" {
			line = indent + line
		}
		b.WriteString(line + r.eol)
	}
	return b.String()
}

// gridLine is a bar line of a chart without mistakes, with the figures of a repeat and of an
// ending. An ending may stand without a bar line at the start of a line.
var gridLine = pattern(`(:?)(\|\|?:?)([ \t]*[xX][0-9]+)?[ \t]*(` + endingText + `)?|^(` + endingText + `)`)

// readRow splits a line of a chart without mistakes.
func readRow(line string) gridRow {
	body := strings.TrimRight(line, "\r\n")
	r := gridRow{eol: line[len(body):]}
	body = strings.Trim(body, " \t\r")
	if body == "" || isChartComment([]byte(body)) {
		r.other = body
		return r
	}
	at := 0
	for _, m := range gridLine().FindAllStringSubmatchIndex(body, -1) {
		group := func(i int) string {
			return strings.Join(strings.Fields(body[max(m[2*i], 0):max(m[2*i+1], 0)]), "")
		}
		r.cell(body[at:m[0]])
		at = m[1]
		g := gridSign{left: group(1), rest: group(2) + group(3)}
		if ending := group(4) + group(5); ending != "" && group(3) != "" {
			g.rest += " " + ending
		} else {
			g.rest += ending
		}
		r.signs = append(r.signs, g)
	}
	if rest := body[at:]; strings.TrimSpace(rest) != "" {
		r.cell(rest)
	}
	return r
}

// cell adds the text after the last bar line. A line that begins with a cell gets an empty
// bar line in front.
func (r *gridRow) cell(text string) {
	if len(r.signs) == 0 {
		if text == "" {
			return
		}
		r.signs = append(r.signs, gridSign{}) // a line that begins without a bar line
	}
	r.cells = append(r.cells, strings.Join(strings.Fields(text), " "))
}
