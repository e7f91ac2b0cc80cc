package library

import (
	"fmt"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/groove/feel"
	"plinth/songspec"
)

// How the blocks of a groove file are written.
var blockForms = map[string]string{
	"groove": `groove "NAME" { … }`,
	"level":  `level "3" { … }`,
	"answer": "answer { … }",
	"lag":    "lag { … }",
	"fills":  `fills "FAMILY" { … }`,
	"fill":   `fill "NAME" { … }`,
}

// grooveDialect is the groove file's, for messages about how HCL is written.
var grooveDialect = songspec.Dialect{
	Value:  "grid = 16",
	Head:   `level "3" {`,
	List:   `["hat", "kick"]`,
	Pair:   "[60, 90]",
	Number: "16, 1.5",
	Quoted: "Names and rows stand in quotes.",
	Lines:  "A row stands on one line, its bars parted by | where that helps.",
	Slash:  `Rows are written with - and letters alone.`,
	Blocks: blockForms,
	Top:    []string{"groove", "fills"},
	Line:   rowLine,
}

// syntax puts what the parser says of a groove file into our words.
func syntax(name string, src []byte, diags hcl.Diagnostics) hcl.Diagnostics {
	return songspec.Syntax(name, src, diags, grooveDialect)
}

var (
	bareRow  = pattern(`^\s*([a-z_]+)\s*[=:]?\s*([^\s"=:\[{][^"#]*?)"?\s*(#.*)?$`)
	openRow  = pattern(`^\s*([a-z_]+)\s*[=:]?\s*("[^"]*?)\s*$`)
	runTempo = pattern(`^\s*tempo\s*=\s*\[?\s*(\d+)\s*(?:-|–|to|\.\.|,|;|\s)\s*(\d+)\s*\]?\s*$`)
)

// rowLine finds a row without its quotes, or with one of them: HCL would make a
// sum of it, or a text that never ends.
func rowLine(line string) (from, to int, summary, detail string, ok bool) {
	if m := openRow().FindStringSubmatchIndex(line); m != nil && isRow(line[m[2]:m[3]]) {
		row := strings.TrimSpace(strings.TrimLeft(line[m[4]:m[5]], `"`))
		return m[4], m[5], "A row is never closed", fmt.Sprintf(`A row ends with a quote on its line: %s = "%s".`, line[m[2]:m[3]], cut(row)), true
	}
	if m := bareRow().FindStringSubmatchIndex(line); m != nil && isRow(line[m[2]:m[3]]) {
		row := strings.Trim(strings.TrimSpace(line[m[4]:m[5]]), "'`“”„‘’«»")
		return m[4], m[5], "A row without quotes", fmt.Sprintf(`Rows stand in straight double quotes: %s = "%s".`, line[m[2]:m[3]], cut(row)), true
	}
	if m := runTempo().FindStringSubmatchIndex(line); m != nil {
		return m[2], m[5], "Not a range", fmt.Sprintf("The slowest and the quickest tempo stand in brackets with a comma between: tempo = [%s, %s].", line[m[2]:m[3]], line[m[4]:m[5]]), true
	}
	return 0, 0, "", "", false
}

// isRow reports a word that has a drum tab after it.
func isRow(word string) bool {
	_, drum := feel.VoiceNamed(word)
	return drum || word == "bass" || word == "comp"
}

// cut shortens what a message repeats.
func cut(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// stray reports a block where only values, or other blocks, belong.
func (d *decoder) stray(b *hclsyntax.Block, where string, values, blocks []string) {
	switch {
	case contains(values, b.Type):
		d.errorAt(b.TypeRange, "A value written as a block", "Write it with an equals sign and without braces: %s.", valueForm(b.Type))
	case blockForms[b.Type] != "":
		d.errorAt(b.TypeRange, "Unknown block", "%s has no block %q. It belongs %s.", where, b.Type, home[b.Type])
	case len(blocks) == 0:
		d.errorAt(b.TypeRange, "Unknown block", "%s has no block %q.", where, b.Type)
	default:
		d.errorAt(b.TypeRange, "Unknown block", "%s has no block %q.%s", where, b.Type, hint(b.Type, append(append([]string(nil), blocks...), values...)))
	}
}

// misnamed reports a value of that name that stands as a block, or is misspelt,
// which is reported there.
func misnamed(b *hclsyntax.Block, name string) bool {
	for _, a := range b.Body.Attributes {
		if !contains(grooveWords, a.Name) && nearest(a.Name, grooveWords) == name {
			return true
		}
	}
	for _, x := range b.Body.Blocks {
		if x.Type == name {
			return true
		}
	}
	return false
}

// home is where each block stands.
var home = map[string]string{
	"groove": "at the top of the file, outside all blocks",
	"fills":  "at the top of the file, outside all blocks",
	"level":  `in a groove, beside its other levels`,
	"lag":    "in a groove, beside its levels",
	"answer": "in a level",
	"fill":   "in a fills block",
}

// valueForm shows how a value is written.
func valueForm(word string) string {
	switch word {
	case "tempo":
		return "tempo = [60, 90]"
	case "grid":
		return "grid = 16"
	case "syncopation", "voices", "colour":
		return word + " = 3"
	case "swing":
		return "swing = 2"
	case "energy":
		return "energy = [2, 4]"
	case "meter":
		return `meter = "4/4"`
	case "from":
		return `from = "1"`
	case "without":
		return `without = ["hat"]`
	}
	if isRow(word) {
		return word + ` = "x---x---"`
	}
	return word + ` = "…"`
}
