package songspec

import (
	_ "embed"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"plinth/songspec/wording"
)

// Reference is what the song file may say, word by word, as its README has it.
//
//go:embed README.md
var Reference string

// WordHelp is what the reference says of a word of the song file, in lines of 80 columns; "" where it has no
// such word. A word with a row of its own in a table has that, any other the rows, paragraphs and
// points that speak of it.
func WordHelp(word string) string {
	if word == "" || strings.ContainsAny(word, " `|\n") {
		return ""
	}
	parts := referenceParts()
	code := regexp.MustCompile("`[^`]*`")
	in := func(pattern string) func(text string) bool {
		of := regexp.MustCompile("^`" + pattern + regexp.QuoteMeta(word) + `(\W.*)?` + "`$")
		return func(text string) bool { return slices.ContainsFunc(code.FindAllString(text, -1), of.MatchString) }
	}
	begins, speaks := in(""), in(`(.*\W)?`)
	for _, is := range []func(p referencePart) bool{
		func(p referencePart) bool { return p.head != nil && begins(p.cells[0]) },
		func(p referencePart) bool { return begins(p.whole()) },
		func(p referencePart) bool { return speaks(p.whole()) },
	} {
		out, under := "", ""
		for _, p := range parts {
			if !is(p) {
				continue
			}
			if p.under != under {
				if under != "" {
					out += "\n"
				}
				under = p.under
				out += under + "\n"
			}
			out += "\n" + p.String() + "\n"
		}
		if out != "" {
			return out
		}
	}
	return ""
}

// referencePart is a row of a table, a paragraph or a point of a list.
type referencePart struct {
	under string   // the heading
	head  []string // of a table; nil for anything else
	cells []string // of a row; the text of anything else
}

func (p referencePart) whole() string { return strings.Join(p.cells, "\n") }

func (p referencePart) String() string {
	plain := strings.NewReplacer("`", "", "**", "")
	out := wording.Wrap(plain.Replace(p.cells[0]), 2, 2)
	for i, cell := range p.cells[1:] {
		if cell != "" {
			out += wording.Wrap(fmt.Sprintf("%s: %s", p.head[i+1], plain.Replace(cell)), 4, 6)
		}
	}
	return strings.TrimRight(out, "\n")
}

// referenceParts are the parts of the reference, in order, without its examples.
func referenceParts() (parts []referencePart) {
	under, example := "", false
	var head []string
	var text []string
	end := func() {
		if text != nil {
			parts = append(parts, referencePart{under: under, cells: []string{strings.Join(text, " ")}})
		}
		text = nil
	}
	for line := range strings.Lines(Reference) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "```") {
			example = !example
		}
		row := strings.HasPrefix(line, "|") && !example
		if !row {
			head = nil
		}
		switch {
		case example, line == "", strings.HasPrefix(line, "```"):
			end()
		case strings.HasPrefix(line, "#"):
			end()
			under = strings.TrimLeft(line, "# ")
		case row:
			end()
			cells := strings.Split(strings.Trim(line, "|"), "|")
			for i := range cells {
				cells[i] = strings.TrimSpace(cells[i])
			}
			if head == nil {
				head = cells
			} else if !strings.HasPrefix(cells[0], "---") {
				parts = append(parts, referencePart{under, head, cells})
			}
		case strings.HasPrefix(line, "- "):
			end()
			text = []string{line[2:]}
		default:
			text = append(text, line)
		}
	}
	end()
	return parts
}
