package library

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
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

// dialect is the groove file's, for messages about how it is written.
var dialect = hcltext.Dialect{
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
	Texts: append(voiceWords(), "bass", "comp", "about", "meter", "kit", "bass_sound", "fills", "swing_unit", "from",
		"centre", "changes"),
	Others:   []string{"tempo", "grid", "swing", "syncopation", "voices", "without", "colour", "energy", "piano"},
	Decimals: []string{"swing"},
	Parts:    []string{"swing"},
	Line:     rowLine,
}

var (
	bareRow  = hcltext.Pattern(`^\s*([a-z_]+)\s*[=:]?\s*([^\s"=:\[{][^"#]*?)"?\s*(#.*)?$`)
	openRow  = hcltext.Pattern(`^\s*([a-z_]+)\s*[=:]?\s*("[^"]*?)\s*$`)
	runTempo = hcltext.Pattern(`^\s*tempo\s*=\s*(\[?\s*(\d+)\s*(?:-|–|to|\.\.|,|;|\s)\s*(\d+)\s*\]?)\s*$`)
)

// rowLine finds a row without its quotes, or with one of them: HCL would make a
// sum of it, or a text that never ends.
func rowLine(line string) (hcltext.Slip, bool) {
	if m := openRow().FindStringSubmatchIndex(line); m != nil && isRow(line[m[2]:m[3]]) {
		row := strings.TrimSpace(strings.TrimLeft(line[m[4]:m[5]], `"`))
		return rowSlip(line, m, row, "A row is never closed", "A row ends with a quote on its line"), true
	}
	if m := bareRow().FindStringSubmatchIndex(line); m != nil && isRow(line[m[2]:m[3]]) {
		row := strings.Trim(strings.TrimSpace(line[m[4]:m[5]]), "'`“”„‘’«»")
		return rowSlip(line, m, row, "A row without quotes", "Rows stand in straight double quotes"), true
	}
	if m := runTempo().FindStringSubmatchIndex(line); m != nil {
		tempo := fmt.Sprintf("[%s, %s]", line[m[4]:m[5]], line[m[6]:m[7]])
		slip := hcltext.Slip{From: m[4], To: m[7], Summary: "Not a range",
			Detail: "The slowest and the quickest tempo stand in brackets with a comma between: " +
				"tempo = " + tempo + "."}
		return slip.Write(m[2], m[3], tempo), true
	}
	return hcltext.Slip{}, false
}

// rowSlip is a slip in the quotes of a row: m has the places of its word and of what
// stands for it.
func rowSlip(line string, m []int, row, summary, rule string) hcltext.Slip {
	word, to := line[m[2]:m[3]], m[5]
	if to < len(line) && line[to] == '"' {
		to++
	}
	slip := hcltext.Slip{From: m[4], To: m[5], Summary: summary,
		Detail: fmt.Sprintf(`%s: %s = "%s".`, rule, word, wording.Clip(row, 40))}
	if row = readableRow(word, row); row != "" {
		slip = slip.Write(m[2], to, fmt.Sprintf(`%s = "%s"`, word, row))
	}
	return slip
}

// readableRow is the row if it can be read and "" if not: bass 13 may be a lag.
func readableRow(word, row string) string {
	if set, _ := signs(word); strings.Trim(row, set+" |") != "" || strings.Trim(row, "0123456789") == "" {
		return ""
	}
	return row
}

// isRow reports a word that has a drum tab after it.
func isRow(word string) bool {
	_, drum := feel.VoiceNamed(word)
	return drum || word == "bass" || word == "comp"
}

// stray reports a block where only values, or other blocks, belong.
func (d *decoder) stray(b *hclsyntax.Block, where string, values, blocks []string) {
	switch {
	case slices.Contains(values, b.Type):
		d.rep.Errorf(b.TypeRange, "A value written as a block",
			"Write it with an equals sign and without braces: %s.", valueForm(b.Type))
	case blockForms[b.Type] != "":
		d.rep.Errorf(b.TypeRange, "Unknown block", "%s has no block %q. It belongs %s.", where, b.Type, home[b.Type])
	case len(blocks) == 0:
		d.rep.Errorf(b.TypeRange, "Unknown block", "%s has no block %q.", where, b.Type)
	default:
		says, word := hint(b.Type, slices.Concat(blocks, values))
		e := d.rep.Errorf(b.TypeRange, "Unknown block", "%s has no block %q.%s", where, b.Type, says)
		if slices.Contains(blocks, word) && dialect.Named(word) == (len(b.Labels) == 1) {
			e.WriteWord(b.TypeRange, word)
		}
	}
}

// misnamed reports a value of that name that stands as a block, or is misspelt,
// which is reported there.
func misnamed(b *hclsyntax.Block, name string) bool {
	for _, a := range b.Body.Attributes {
		if !slices.Contains(grooveWords, a.Name) && nearest(a.Name, grooveWords) == name {
			return true
		}
	}
	return slices.ContainsFunc(b.Body.Blocks, func(x *hclsyntax.Block) bool { return x.Type == name })
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

// valueForms are values as they are written, of what is neither a row nor a text.
var valueForms = map[string]string{
	"tempo": "[60, 90]", "grid": "16", "syncopation": "3", "voices": "3", "colour": "3", "swing": "2",
	"energy": "[2, 4]", "meter": `"4/4"`, "from": `"1"`, "without": `["hat"]`,
}

// valueForm shows how a value is written.
func valueForm(word string) string {
	form := cmp.Or(valueForms[word], `"…"`)
	if isRow(word) {
		form = `"x---x---"`
	}
	return word + " = " + form
}
