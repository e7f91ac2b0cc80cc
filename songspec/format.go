package songspec

import (
	"bytes"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclwrite"

	"plinth/songspec/hcltext"
)

// Format is a song file in canonical layout: HCL's own layout of values and
// blocks, and in every chart the bar lines under one another. Comments, blank
// lines and line ends stay; a byte-order mark goes. What the song says never
// changes, and formatting twice is formatting once. A file with errors is not
// touched: the result is nil then, with Parse's diagnostics.
func Format(name string, src []byte) ([]byte, hcl.Diagnostics) {
	_, diags := Parse(name, src)
	if diags.HasErrors() {
		return nil, diags
	}
	out := bytes.TrimPrefix(src, hcltext.ByteOrderMark)
	// Once is enough, but for blanks at the ends of some lines, which HCL's layout
	// takes away only when it sees them again.
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

// layout lays a good song file out, once.
func layout(name string, src []byte) ([]byte, hcl.Diagnostics) {
	out := layoutHCL(src)
	s := hcltext.NewSource(name, out)
	if d := guard(s); d.HasErrors() {
		return nil, d // too long once laid out
	}
	body, d := s.Parse()
	if d.HasErrors() {
		panic("songspec: formatting broke a song file: " + d.Error())
	}
	var b bytes.Buffer
	at := 0
	for _, block := range body.Blocks {
		attr := block.Body.Attributes["chords"]
		if block.Type != "section" || attr == nil {
			continue
		}
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
				for at < len(out) && (out[at] == ' ' || out[at] == '\t') {
					at++
				}
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

// layoutHCL is hclwrite's layout. What would be a template there is hidden from
// it behind a character that the text does not have.
func layoutHCL(src []byte) []byte {
	hidden := ""
	for r := rune(0xe000); ; r++ {
		if hidden = string(r); !bytes.Contains(src, []byte(hidden)) {
			break
		}
	}
	veiled := strings.NewReplacer("${", "$"+hidden, "%{", "%"+hidden).Replace(string(src))
	return []byte(strings.ReplaceAll(string(hclwrite.Format([]byte(veiled))), hidden, "{"))
}

func leadingBlanks(line []byte) string {
	return string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
}

// gridRow is a line of a chart: bar lines with cells between, or, in a line
// without music, its text alone.
type gridRow struct {
	signs []gridSign
	cells []string // cells[i] stands after signs[i]
	other string
	eol   string
}

// gridSign is a bar line: what stands before its strokes, they, and what stands
// after.
type gridSign struct{ left, strokes, right string }

// gridChart lays a chart's bar lines under one another.
func gridChart(text, indent string) string {
	var rows []gridRow
	for _, line := range strings.SplitAfter(text, "\n") {
		if line != "" {
			rows = append(rows, readRow(line))
		}
	}
	var left, strokes, right, cell []int
	widen := func(to *[]int, i, w int) {
		for len(*to) <= i {
			*to = append(*to, 0)
		}
		(*to)[i] = max((*to)[i], w)
	}
	for _, r := range rows {
		for i, g := range r.signs {
			widen(&left, i, len(g.left))
			widen(&strokes, i, len(g.strokes))
			if i+1 < len(r.signs) || i < len(r.cells) {
				widen(&right, i, len(g.right))
			} else {
				widen(&right, i, 0)
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
			line += strings.Repeat(" ", left[i]-len(g.left)) + g.left + g.strokes
			line += strings.Repeat(" ", strokes[i]-len(g.strokes)) + g.right
			if i < len(r.cells) {
				line += strings.Repeat(" ", max(0, right[i]-len(g.right)))
				line += " " + r.cells[i] + strings.Repeat(" ", cell[i]-hcltext.Columns(r.cells[i])) + " "
			}
		}
		if line = strings.TrimRight(line, " \t"); line != "" {
			line = indent + line
		}
		b.WriteString(line + r.eol)
	}
	return b.String()
}

// readRow splits a line of a chart that has been found good.
func readRow(line string) gridRow {
	body := strings.TrimRight(line, "\r\n")
	r := gridRow{eol: line[len(body):]}
	body = strings.Trim(body, " \t\r")
	if body == "" || isChartComment([]byte(body)) {
		r.other = body
		return r
	}
	cell := ""
	flush := func() {
		if len(r.signs) == 0 {
			if cell == "" {
				return
			}
			r.signs = append(r.signs, gridSign{}) // a line that begins without a bar line
		}
		r.cells = append(r.cells, strings.Join(strings.Fields(cell), " "))
		cell = ""
	}
	for i := 0; i < len(body); {
		if body[i] != '|' && !(body[i] == ':' && i+1 < len(body) && body[i+1] == '|') {
			cell += body[i : i+1]
			i++
			continue
		}
		flush()
		j := i
		for j < len(body) && (body[j] == '|' || body[j] == ':') {
			j++
		}
		run := body[i:j]
		strokes := strings.Trim(run, ":")
		k := strings.Index(run, strokes)
		g := gridSign{left: run[:k], strokes: strokes, right: run[k+len(strokes):]}
		if g.left != "" && g.right == "" {
			figure := repeatFigure().FindString(body[j:])
			g.right = strings.TrimLeft(figure, " \t")
			j += len(figure)
		}
		r.signs = append(r.signs, g)
		i = j
	}
	if strings.TrimSpace(cell) != "" {
		flush()
	}
	return r
}
