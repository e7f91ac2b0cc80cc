package library

import (
	"strings"
	"testing"

	"plinth/songspec/hcltext/sliptest"
)

// writingMistakes are slips in how HCL is written, each of which the parser has
// words of its own for. One message at the slip, and what to write.
var writingMistakes = []mistake{
	{"level without quotes", "a number is no name to the parser", `level "1" {`, "level 1 {", "4:9",
		[]string{`Write level "1" { … }`}},
	{"level in curly quotes", "a word processor's", `level "1" {`, "level “1” {", "4:9",
		[]string{`Write level "1" { … }`}},
	{"level with a colon", "another language's", `level "1" {`, `level: "1" {`, "4:8",
		[]string{`Write it without the colon: level "1" {`}},
	{"level with an equals sign", "another language's", `level "1" {`, `level "1" = {`, "4:3",
		[]string{`Write it without the equals sign: level "1" {`}},
	{"level with an equals sign first", "likewise", `level "1" {`, `level = "1" {`, "4:3",
		[]string{`Write it without the equals sign: level "1" {`}},
	{"level as a value", "one message, not two", `level "1" {`, `level = {`, "4:3", []string{`level "3" { … }`}},
	{"brace on the next line", "the parser wants it on the same", `level "1" {`, "level \"1\"\n  {", "4:12",
		[]string{`stands on the same line: level "1" {`}},
	{"bare name and brace on the next line", "two slips, the brace is said", `level "1" {`, "level 1\n  {", "4:3",
		[]string{`level "1" {`}},
	{"name of two words", "bare words are names to the parser", `groove "mine"`, "groove my waltz", "1:11",
		[]string{`groove "my waltz" { … }`}},
	{"level's name alone", "the parser speaks of names of arguments", `level "1" {`, `"1" {`, "4:3",
		[]string{`as in level "3" {`}},
	{"row without quotes", "the parser makes a sum of it", `"x-------x-------"`, "x-------x-------", "5:12",
		[]string{`kick = "x-------x-------"`}},
	{"row without quotes that rests at the end", "and misses a number after the last minus", `"x-------x-------"`,
		"x---------------", "5:12", []string{`kick = "x---------------"`}},
	{"held row without quotes", "equals signs in a row", `"1==============="`, "1===============", "6:12",
		[]string{`bass = "1==============="`}},
	{"long rest without quotes", "over the bound of signs in a row", `"x-------x-------"`,
		"--------------------------------", "5:12", []string{`kick = "--------------------------------"`}},
	{"row with one quote in front", "the text runs to the line's end", `"x-------x-------"`, `"x-------x-------`,
		"5:12", []string{`ends with a quote on its line: kick = "x-------x-------"`}},
	{"row with one quote behind", "what follows is turned inside out and not spoken of", `"x-------x-------"`,
		`x-------x-------"`, "5:12", []string{`kick = "x-------x-------"`}},
	{"row in single quotes", "another language's", `"x-------x-------"`, `'x-------x-------'`, "5:12",
		[]string{`straight double quotes: kick = "x-------x-------"`}},
	{"row in curly quotes", "a word processor's", `"x-------x-------"`, `“x-------x-------”`, "5:12",
		[]string{`straight double quotes: kick = "x-------x-------"`}},
	{"row with a colon", "another language's", "kick = ", "kick: ", "5:5", []string{`Write kick = "x-------x-------"`}},
	{"row without an equals sign", "braces would be no help", "kick = ", "kick ", "5:5",
		[]string{`Write kick = "x-------x-------"`}},
	{"row in braces", "a value written as a block", `kick = "x-------x-------"`, `kick { "x-------x-------" }`, "5:5",
		[]string{`kick = "x-------x-------"`}},
	{"row as a block", "likewise, over lines", `kick = "x-------x-------"`, "kick {\n    }", "5:5",
		[]string{`Write it with an equals sign and without braces: kick = "x---x---"`}},
	{"row over lines", "a heredoc is the song file's", `"x-------x-------"`, "<<EOT\nx---\nEOT", "5:12",
		[]string{"A row stands on one line"}},
	{"row twice", "both lines are named", `kick = "x-------x-------"`,
		"kick = \"x-------x-------\"\n    kick = \"x---\"", "6:5", []string{"Kick is said twice", "stands on line 5"}},
	{"comma after a row", "another language's", `"x-------x-------"`, `"x-------x-------",`, "5:30",
		[]string{"without a comma at its end"}},
	{"colon before a number", "not a condition", "grid  = 16", "grid: 16", "3:3", []string{"Write grid = 16"}},
	{"grid without an equals sign", "the parser asks for an argument", "grid  = 16", "grid 16", "3:3",
		[]string{"Write grid = 16"}},
	{"grid as a block", "one message, not also that it is missing", "grid  = 16", "grid {\n  }", "3:3",
		[]string{"grid = 16"}},
	{"grid twice", "both lines are named", "grid  = 16", "grid  = 16\n  grid = 8", "4:3",
		[]string{"Grid is said twice", "stands on line 3"}},
	{"meter without quotes", "the parser divides", `"4/4"`, "4/4", "2:11", []string{`meter = "4/4"`}},
	{"meter with one quote", "one message", `"4/4"`, `4/4"`, "2:11",
		[]string{`Text has a quote on either side: meter = "4/4"`}},
	{"meter with a capital", "one message, not also that it is missing", "meter =", "Meter =", "2:3",
		[]string{`Did you mean "meter"?`}},
	{"tempo with a hyphen", "musicians write ranges so", "grid  = 16", "grid  = 16\n  tempo = 60-90", "4:11",
		[]string{"tempo = [20, 400]"}},
	{"tempo without brackets", "a list, not a comma too many", "grid  = 16", "grid  = 16\n  tempo = 60, 90", "4:11",
		[]string{"tempo = [60, 90]"}},
	{"tempo without a comma", "with its own figures", "grid  = 16", "grid  = 16\n  tempo = [60 90]", "4:12",
		[]string{"tempo = [60, 90]"}},
	{"decimal comma", "half of the world writes it", "grid  = 16", "grid  = 16\n  swing = 1,5", "4:12",
		[]string{"with a point: 1.5"}},
	{"lag as a value", "not: did you mean lag", "grid  = 16", "grid  = 16\n  lag = { snare = 6 }", "4:3",
		[]string{"without the equals sign: lag { … }"}},
	{"lag on one line", "the parser speaks of single-argument blocks", "grid  = 16",
		"grid  = 16\n  lag { snare = 6, kick = 2 }", "4:18", []string{"holds one option"}},
	{"answer as a value", "a block", "  }\n}\n", "    answer = {\n      kick = \"x---\"\n    }\n  }\n}\n", "8:5",
		[]string{"without the equals sign: answer { … }"}},
	{"level in a level", "a brace is missing, or it stands in the wrong place", "  }\n}\n",
		"    level \"2\" {\n    }\n  }\n}\n", "8:5", []string{"It belongs in a groove"}},
	{"level not closed", "the level is shown, not the groove", "  }\n}\n",
		"  level \"2\" {\n    kick = \"x---------------\"\n  }\n}\n", "4:13", []string{"closing brace"}},
	{"groove not closed before another", "the first one is shown", "  }\n}\n",
		"  }\ngroove \"b\" {\n  meter = \"any\"\n  level \"1\" {}\n}\n", "1:15", []string{"above line 9"}},
	{"brace too many", "the parser asks for an argument", "  }\n}\n", "  }\n}\n}\n", "10:1",
		[]string{"Delete the brace"}},
}

// slipped is a groove file in which slips are made.
const slipped = `groove "mine" {
  meter = "4/4"
  tempo = [60, 90]
  grid  = 16
  swing = 1.5
  fills = "own"
  lag {
    snare = 6
  }
  level "1" {
    kick = "x-------x-------"
    comp = "x==============="
    answer {
      without = ["kick"]
    }
  }
}
fills "own" {
  grid = 4
  fill "up" {
    colour = 0
    energy = [2, 4]
    snare  = "x-x-"
  }
}
`

// TestOwnWords: no single slip in a groove file brings out a word of the parser's.
func TestOwnWords(t *testing.T) {
	if _, _, diags := Decode("m.hcl", []byte(slipped)); len(diags) > 0 {
		t.Fatal(diags)
	}
	n := 0
	seen := map[string]bool{}
	try := func(m string) {
		n++
		_, _, diags := Decode("m.hcl", []byte(m))
		for _, d := range diags {
			// "No templates here" is our own: it is what people who write ${ have in mind.
			said := strings.TrimPrefix(d.Summary+": "+d.Detail, "No templates here")
			s := d.Subject
			if s == nil || s.Start.Byte < 0 || s.End.Byte > len(m) || s.Start.Byte > s.End.Byte {
				t.Fatalf("%q has no place in\n%s", said, m)
			}
			if w := sliptest.ParserWords.FindString(said); w != "" && !seen[d.Summary+w] {
				seen[d.Summary+w] = true
				lines := strings.Split(m, "\n")
				t.Errorf("%q is a word of the parser's:\n%s\n%s", w, lines[s.Start.Line-1], said)
			}
		}
	}
	sliptest.Mutants(slipped, try)
	if n < 4000 {
		t.Errorf("only %d slips were tried", n)
	}
}
