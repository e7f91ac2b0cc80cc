package songspec

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// dialect is what messages about syntax have to know of song files.
var dialect = hcltext.Dialect{
	Value:  "tempo = 72",
	Head:   `section "verse" {`,
	List:   `["drums", "piano"]`,
	Pair:   "[2, 4]",
	Number: "72, 0.4",
	Quoted: "Text, chords and places stand in quotes.",
	Lines:  "Several lines of chords stand between <<-EOT and EOT.",
	Slash:  "A chord over another bass is written with a slash, C/G, and so are folders.",
	Blocks: blockForms(),
	Top:    topBlocks,
	Places: append([]string{"bars"}, eventWords...),
	Empty:  append([]string{"play", "vocal"}, eventWords...),
	Texts: []string{"title", "by", "key", "meter", "feel", "kit", "sound", "highest", "track", "like", "chords",
		"text", "start", "at", "name", "only", "vamp", "line"},
	Others: []string{"tempo", "energy", "looseness", "take", "count_in", "pickup", "grooves", "strings", "span",
		"from", "range", "tacet", "fills", "lead", "lift", "by", "weight", "alone", "short", "beats",
		"to", "times", "transpose", "rate", "rough", "leads", "sections", "without", "each_time"},
	Truths:   []string{"fills", "lead", "alone", "short", "rough", "leads", "each_time"},
	Times:    "play",
	Decimals: []string{"looseness", "beats", "pickup", "tempo", "to", "rate"},
	Parts:    []string{"looseness", "beats", "pickup"},
	Part:     partOfSong,
	Line:     songLine,
}

func blockForms() map[string]string {
	out := map[string]string{"play": blockForm("play")}
	for _, w := range slices.Concat(topBlocks, eventWords, []string{"bars"}) {
		out[w] = blockForm(w)
	}
	return out
}

var (
	unquotedChords = pattern(`^\s*(chords)\s*=?\s*([^"<=:\x27“”„‘’«»\s].*)$`)
	foreignHead    = pattern(`=\s*("""|<<-?\s*$|<<-?\s+\S|<<-?["'])`)
	crowdedHead    = pattern(`=\s*(<<-?[\p{L}_][\p{L}\p{N}_-]*)[^\p{L}\p{N}_-]`)
	playList       = pattern(`^\s*(play)\s*=?\s*\[((?:\s*"[^"\\]*"\s*,?)+)\]\s*(?:\{\s*\})?\s*$`)
	roadSign       = pattern(`^\s*((?i:d\.? ?[cs]\.?|da capo|dal segno|segno|to coda|al coda|al fine|fine)` +
		`(?: [a-z. ]*)?)\s*$`)
	chordLine = pattern(`^\s*:?\|`) // begins with a bar line
)

// songLine finds mistakes in a line: chords where none are allowed, and a wrong beginning of a
// text of several lines.
func songLine(line string) (hcltext.Slip, bool) {
	if m := unquotedChords().FindStringSubmatchIndex(line); m != nil {
		slip := hcltext.Slip{From: m[4], To: m[5], Summary: "Chord text needs quotes",
			Detail: `Write chords = "| C | F |", or several lines between <<-EOT and EOT.`}
		if text := strings.TrimRight(line[m[4]:], " \t"); !strings.ContainsAny(text, "\"\\{}<=") {
			slip = slip.Write(m[2], m[4]+len(text), "chords = "+hcltext.Quote(text))
		}
		return slip, true
	}
	if m := playList().FindStringSubmatchIndex(line); m != nil {
		plays := strings.FieldsFunc(line[m[4]:m[5]], func(r rune) bool { return strings.ContainsRune("\", \t", r) })
		for i, name := range plays {
			plays[i] = "play " + hcltext.Quote(name) + " {}"
		}
		if len(plays) > 0 {
			return hcltext.Slip{From: m[2], To: m[5] + 1, Summary: "A list of sections",
				Detail: "Each has a play of its own, on a line of its own: " + wording.And(plays) + "."}.
				Write(m[2], m[5]+1, strings.Join(plays, "\n"+line[:m[2]])), true
		}
	}
	if m := roadSign().FindStringSubmatchIndex(line); m != nil {
		return hcltext.Slip{From: m[2], To: m[3], Summary: "The way through the form", Detail: wayBack}, true
	}
	// After a wrong first line, the parser's messages about the lines below do not help.
	head := hcltext.Slip{Summary: "Not the head of a text", Noise: true}
	if m := foreignHead().FindStringSubmatchIndex(line); m != nil {
		head.From, head.To = m[2], m[3]
		head.Detail = "Several lines of chords begin with <<-EOT, in one word, and end with a line that holds EOT " +
			"alone."
		return head, true
	}
	if m := crowdedHead().FindStringSubmatchIndex(line); m != nil {
		head.From, head.To = m[2], m[3]
		head.Detail = fmt.Sprintf("Nothing may follow %s on its line. The chords begin on the next one.",
			line[m[2]:m[3]])
		if rest := strings.TrimLeft(line[m[3]:], " \t"); strings.HasPrefix(rest, "|") {
			head = head.Write(m[3], len(line)-len(rest), "\n")
		}
		return head, true
	}
	if m := chordLine().FindStringIndex(line); m != nil {
		return hcltext.Slip{From: m[1] - 1, To: m[1], Summary: "Chords outside a text",
			Detail: "Chord lines stand between chords = <<-EOT and a line with EOT alone."}, true
	}
	return hcltext.Slip{}, false
}
