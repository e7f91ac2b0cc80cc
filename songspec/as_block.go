package songspec

import (
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// keepOut is how a player is silenced.
func keepOut(player string) string {
	return fmt.Sprintf("tacet = [%q], in a section, a play or a bars block", player)
}

// silence are the words by which musicians switch something off.
var silence = map[string]bool{"off": true, "none": true, "no": true, "false": true, "mute": true, "silent": true,
	"tacet": true}

// silences reports whether a value switches a player off, as in drums = "off".
func (d *decoder) silences(a *hclsyntax.Attribute) bool {
	return slices.Contains(bandBlocks, a.Name) &&
		(silence[strings.ToLower(d.plainText(a.Expr))] || silence[d.written(a.Expr.Range())])
}

// asBlock is a block as it is written with a value, or a text, that belongs in it; good says that the
// whole line may be written so. value is nil for a text that is no value.
func (d *decoder) asBlock(word string, value hclsyntax.Expression, said string) (text string, good bool) {
	form := blockForm(word)
	written := ""
	if value != nil {
		written = d.show(value.Range())
	}
	switch {
	case slices.Contains(bandBlocks, word):
		if inside := playersWord(word, said); inside != "" {
			return word + " { " + inside + " }", true
		}
	case word == "play" && said != "":
		return fmt.Sprintf("play %s {}", hcltext.Quote(said)), true
	case word == "bars" && said == "" && plainNumber().MatchString(written) && goodLabel(word, written):
		return fmt.Sprintf("bars %q { … }", written), false
	case word == "rit" || word == "accel":
		if value != nil && d.accepts("to", value) && said == "" {
			return fmt.Sprintf("%s \"7-8\" { to = %s }", word, written), false
		}
		if goodLabel(word, said) {
			return strings.Replace(form, "7-8", said, 1), false
		}
	case slices.Contains(eventWords, word) || word == "bars" || word == "vocal":
		if m := blockLine().FindStringSubmatch(form); m != nil && goodLabel(word, said) {
			empty := word != "bars" && strings.Contains(m[2], "…")
			if empty {
				m[2] = "{}"
			}
			return fmt.Sprintf("%s %s %s", word, hcltext.Quote(said), m[2]), empty
		}
	}
	return form, false
}

// playersWord is how a word is written in a player's block; "" where none has it.
func playersWord(player, word string) string {
	word = strings.ToLower(word)
	switch {
	case player == "drums" && slices.Contains(kits, word):
		return fmt.Sprintf("kit = %q", word)
	case player == "bass" && slices.Contains(bassLines, word):
		return fmt.Sprintf("line = %q", word)
	}
	for _, s := range map[string][]sound{"bass": bassSounds, "piano": pianoSounds}[player] {
		if s.word == word || s.word == soundCalled[word] {
			return fmt.Sprintf("sound = %q", s.word)
		}
	}
	return ""
}

// home is where a word may stand, in words.
func home(word string) string {
	var in []string
	for _, b := range []struct {
		name  string
		words [][]string
	}{
		{"a section", [][]string{sectionAttrs, partBlocks}},
		{"a play", [][]string{playAttrs, partBlocks}},
		{"a bars block", [][]string{insideAttrs, bandBlocks}},
		{"the bars of a play", [][]string{{"lift"}}},
		{"the form", [][]string{{"play"}}},
		{"a vocal block", [][]string{vocalAttrs}},
		{"the picture block", [][]string{pictureAttrs}},
		{"the drums block", [][]string{drumsAttrs}},
		{"the bass block", [][]string{bassAttrs}},
		{"the piano block", [][]string{pianoAttrs}},
	} {
		if slices.Contains(slices.Concat(b.words...), word) {
			in = append(in, b.name)
		}
	}
	for kind, rule := range eventRules {
		if slices.Contains(rule.attrs, word) {
			in = append(in, withArticle(eventWords[kind]))
		}
	}
	// by is the song's writer there, and nobody who writes the word elsewhere means that.
	top := word != "by" && slices.Contains(topAttrs, word) || slices.Contains(topBlocks, word)
	switch {
	case word == "text":
		return "in a cue: " + blockForm("cue")
	case top && len(in) == 0:
		return "at the top of the file, outside all blocks"
	case top:
		return "at the top of the file, or in " + wording.Or(in)
	case len(in) > 0:
		return "in " + wording.Or(in)
	}
	return ""
}
