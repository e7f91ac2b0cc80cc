package library

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plinth/groove/feel"
)

// small is a groove that is right; mistakes are made in it.
const small = `groove "mine" {
  meter = "4/4"
  grid  = 16
  level "1" {
    kick = "x-------x-------"
    bass = "1==============="
    comp = "x==============="
  }
}
`

// mistake is one change to small (or a file of its own) and what must be said of it.
type mistake struct {
	name   string
	reason string
	old    string // what is replaced in small; "": the file is new alone
	new    string
	at     string // "line:column" of every message, in order
	says   []string
}

var mistakes = []mistake{
	{"wrong length", "the commonest slip", `"x-------x-------"`, `"x-------x------"`, "5:12",
		[]string{"kick has 15 steps. A bar of this groove has 16", "16, 32 or 64"}},
	{"wrong sign", "the column is that of the sign", `"x-------x-------"`, `"x---o---x---o---"`, "5:17",
		[]string{`"o" means nothing in the row kick (and 1 more in this row). Write - rest, x X s g a stroke`}},
	{"sign of another row", "a held note in the kit", `"x-------x-------"`, `"x=------x-------"`, "5:14",
		[]string{`"=" means nothing in the row kick`}},
	{"accented letter", "columns count letters, not bytes", `"x-------x-------"`, `"éx------x------é"`, "5:13",
		[]string{`"é" means nothing`}},
	{"bar line", "it stands where a bar ends", `"x-------x-------"`, `"x-------|x-------"`, "5:21",
		[]string{"This bar line stands after 8 steps; a bar of this groove has 16"}},
	{"held after rest", "nothing sounds there", `"x==============="`, `"x==-============"`, "7:17",
		[]string{`"=" holds on what sounds in the step before`}},
	{"held at the start", "nor there", `"x==============="`, `"================"`, "7:13", []string{"Nothing to hold"}},
	{"unknown row", "nearest word offered", "kick =", "kik  =", "5:5",
		[]string{`A level has no "kik". Did you mean "kick"?`}},
	{"row called otherwise", "rim is the cross-stick, and nothing like from", "kick =", "rim  =", "5:5",
		[]string{`A level has no "rim". Did you mean "cross_stick"?`}},
	{"row in short", "as drum tabs have it", "kick =", "HH   =", "5:5", []string{`Did you mean "hat"?`}},
	{"unknown row with a hyphen", "cross-stick is a word with an underscore", "kick =", "cros-stik =", "5:5",
		[]string{`Did you mean "cross_stick"?`}},
	{"unknown setting", "nearest word offered", "grid  = 16", "grid  = 16\n  tempoo = [60, 90]", "4:3",
		[]string{`Did you mean "tempo"?`}},
	{"no meter", "rows need it", `  meter = "4/4"`, "", "1:1", []string{`A groove needs a meter: meter = "4/4"`}},
	{"bad meter", "said by the meter's own rule", `"4/4"`, `"4/5"`, "2:11",
		[]string{"the lower number of a meter is 1, 2, 4, 8, 16 or 32"}},
	{"no grid", "with a proposal", "  grid  = 16\n", "", "1:1", []string{"grid = 16"}},
	{"grid that misses beats", "with a proposal", "grid  = 16", "grid  = 7", "3:11",
		[]string{"do not put every beat of 4/4 on a step. Write for example grid = 16"}},
	{"grid of zero", "no division by it", "grid  = 16", "grid  = 0", "3:11",
		[]string{"grid is a whole number from 1 to 64"}},
	{"infinite grid", "HCL makes infinity of 1/0", "grid  = 16", "grid  = 1/0", "3:11",
		[]string{"grid takes a plain value"}},
	{"huge grid", "not printed, not counted to", "grid  = 16", "grid  = 1e999999", "3:11",
		[]string{"grid is a whole number from 1 to 64"}},
	{"grid of a half", "a step is whole", "grid  = 16", "grid  = 16.5", "3:11", []string{"whole number"}},
	{"null grid", "HCL passes null on", "grid  = 16", "grid  = null", "3:11", []string{"grid cannot be null"}},
	{"word without quotes", "HCL takes it for a variable", `"4/4"`, `any`, "2:11",
		[]string{`meter takes texts in quotes`}},
	{"row of digits", "a number is not a row", `"1==============="`, `1357`, "6:12",
		[]string{`bass takes a text in quotes`}},
	{"level six", "energies are five", `level "1"`, `level "6"`, "4:3",
		[]string{`named by its energy in quotes, "1" to "5"`}},
	{"level without a name", "own words, not HCL's", `level "1"`, `level`, "4:3", []string{`level "3" { … }`}},
	{"no level", "a groove without a part", small, "groove \"mine\" {\n  meter = \"4/4\"\n  grid = 16\n}\n", "1:1",
		[]string{"at least one level"}},
	{"two levels alike", "HCL keeps both silently", "}\n}\n", "}\n  level \"1\" {}\n}\n", "9:9",
		[]string{`level "1" stands in line 4 already`}},
	{"two grooves alike", "likewise", small, "groove \"a\" {\n meter=\"any\"\n level \"1\" {}\n}\ngroove \"a\" {\n " +
		"meter=\"any\"\n level \"1\" {}\n}\n", "5:8", []string{`groove "a" stands in line 1 already`}},
	{"from nowhere", "the level is not written", `kick = "x-------x-------"`, `from = "2"`, "5:12",
		[]string{"This groove writes no level 2 to start from"}},
	{"from itself", "the shortest circle", `kick = "x-------x-------"`, `from = "1"`, "5:12", []string{"from itself"}},
	{"without what is not there", "a slip of the pen", "}\n}\n",
		"}\n  level \"2\" {\n    from = \"1\"\n    without = [\"hat\"]\n  }\n}\n", "11:15",
		[]string{"does not get from level 1"}},
	{"without an unknown row", "nearest word offered", "}\n}\n",
		"}\n  level \"2\" {\n    from = \"1\"\n    without = [\"kik\"]\n  }\n}\n", "11:16",
		[]string{`Did you mean "kick"?`}},
	{"brush without brushes", "on a drum kit it is something else", "kick =", "sweep =", "5:5",
		[]string{`Write kit = "brushes" in the groove`}},
	{"three hands", "at the stroke that is one too many", `kick = "x-------x-------"`,
		"hat = \"x-x-x-x-x-x-x-x-\"\n    tambourine = \"x---------------\"\n    snare = \"x---x-------x---\"", "7:14",
		[]string{"Step 1 of level 1: hat, tambourine, snare need 3 hands, and a drummer has two"}},
	{"hat twice", "one instrument", `kick = "x-------x-------"`,
		"hat = \"x-x-x-x-x-x-x-x-\"\n    hat_foot = \"----x-------x---\"", "6:21",
		[]string{"hat and hat_foot are one hi-hat"}},
	{"hat twice over a kick", "the kick is innocent", `kick = "x-------x-------"`,
		"hat = \"x-x-x-x-x-x-x-x-\"\n    hat_foot = \"----x-------x---\"\n    kick = \"x---x---x---x---\"", "6:21",
		[]string{"hat and hat_foot are one hi-hat"}},
	{"hat twice, taken over", "said once, where it is written", "comp = \"x===============\"\n  }",
		"hat = \"x-x-x-x-x-x-x-x-\"\n    hat_foot = \"----x-------x---\"\n    answer {\n      kick = " +
			"\"x---------------\"\n    }\n  }\n  level \"2\" {\n    from = \"1\"\n    kick = \"x---x---x---x---\"\n  }",
		"8:21", []string{"hat and hat_foot are one hi-hat"}},
	{"hat twice, and again", "another hat is another clash", "comp = \"x===============\"\n  }",
		"hat = \"x-x-x-x-x-x-x-x-\"\n    hat_foot = \"----x-------x---\"\n  }\n  level \"2\" {\n    from = \"1\"\n  " +
			"  hat = \"x---x---x---x---\"\n  }", "8:21 12:16", []string{"hat and hat_foot are one hi-hat"}},
	{"unknown fills", "families are named", "grid  = 16", "grid  = 16\n  fills = \"strait\"", "4:11",
		[]string{`Did you mean "straight"?`}},
	{"unknown kit", "kits are named", "grid  = 16", "grid  = 16\n  kit = \"broms\"", "4:9",
		[]string{"There is standard, brushes and sticks"}},
	{"unknown bass", "basses are named", "grid  = 16", "grid  = 16\n  bass_sound = \"acustic\"", "4:16",
		[]string{`Did you mean "acoustic"?`}},
	{"swing below even", "short before long is not swing", "grid  = 16", "grid  = 16\n  swing = 0.5", "4:11",
		[]string{"from 1 to 4: 2 is a triplet"}},
	{"tempo turned round", "low first", "grid  = 16", "grid  = 16\n  tempo = [120, 90]", "4:11",
		[]string{"the lower one first: tempo = [20, 400]"}},
	{"lag of a second", "feel is in milliseconds", "grid  = 16", "grid  = 16\n  lag {\n    snare = 1000\n  }", "5:13",
		[]string{"snare is a whole number from -40 to 40"}},
	{"centre off the keyboard's middle", "a note with its octave", `kick = "x-------x-------"`, `centre = "C"`, "5:14",
		[]string{"from C3 to C5"}},
	{"voices", "two to four", `kick = "x-------x-------"`, `voices = 7`, "5:14",
		[]string{"voices is a whole number from 2 to 4"}},
	{"unknown block", "nearest offered", "level ", "levle ", "1:1 4:3", []string{`Did you mean "level"?`}},
	{"unknown block outside", "nearest offered", `groove "mine"`, `grove "mine"`, "1:1",
		[]string{`Did you mean "groove"?`}},
	{"groove without a name", "own words", `groove "mine"`, `groove`, "1:1", []string{`groove "NAME" { … }`}},
	{"setting outside", "where it belongs", small, "tempo = 3\n" + `fills "f" {
  grid = 4
  fill "a" {
    colour = 0
    snare = "xxxx"
  }
}
`, "1:1", []string{"tempo belongs inside one of them"}},
	{"any meter with a grid", "it has two steps", `meter = "4/4"`, `meter = "any"`, "3:3", []string{"two steps a row"}},
	{"fill of five beats", "shorter ones make those", small,
		"fills \"f\" {\n  grid = 4\n  fill \"a\" {\n    colour = 0\n " +
			"   snare = \"xxxx|xxxx|xxxx|xxxx|xxxx\"\n  }\n}\n", "5:13",
		[]string{"a fill is 1 to 4 beats long: 4, 8, 12 or 16 steps"}},
	{"fill rows of two lengths", "they sound together", small,
		"fills \"f\" {\n  grid = 4\n  fill \"a\" {\n    colour = 0\n    snare = \"xxxx\"\n    kick = \"x---x---\"\n " +
			" }\n}\n", "6:12", []string{"kick has 8 steps, and snare above it has 4"}},
	{"fill without a colour", "chance needs it", small,
		"fills \"f\" {\n  grid = 4\n  fill \"a\" {\n    snare = \"xxxx\"\n  }\n}\n", "3:3",
		[]string{"0 to 2 when it closes a section"}},
	{"two fills of one colour", "nothing to choose by", small,
		"fills \"f\" {\n  grid = 1\n  fill \"a\" {\n    colour = 0\n    snare = \"x\"\n  }\n  fill \"b\" {\n    " +
			"colour = 0\n    snare = \"s\"\n  }\n}\n", "1:1",
		[]string{`"a" and "b" are both of 1 beat, colour 0, at energy 1`}},
	{"syncopation too low", "the groove's own figure", `"x-------x-------"`,
		"\"x-----x---------\"\n  }\n  syncopation = 1\n  level \"2\" {", "7:17",
		[]string{"Kick and snare of level 1 reach 2 in a bar. Write syncopation = 2"}},
	{"empty file", "a whole sentence", small, "", "1:1", []string{"at least one groove"}},
	{"not closed", "the brace that opens, alone", small, "groove \"a\" {\n", "1:12", []string{"closing brace"}},
}

func TestMistakes(t *testing.T) {
	for _, m := range slices.Concat(mistakes, writingMistakes) {
		t.Run(m.name, func(t *testing.T) {
			src := strings.Replace(small, m.old, m.new, 1)
			if m.old != "" && !strings.Contains(small, m.old) {
				t.Fatalf("small does not hold %q", m.old)
			}
			_, _, diags := Decode("mine.hcl", []byte(src))
			var at, text []string
			for _, d := range diags {
				at = append(at, fmt.Sprintf("%d:%d", d.Subject.Start.Line, d.Subject.Start.Column))
				text = append(text, d.Summary+": "+d.Detail)
				if d.Summary == "" || !strings.HasSuffix(d.Detail, ".") && !strings.HasSuffix(d.Detail, "?") {
					t.Errorf("not a full sentence: %q: %q", d.Summary, d.Detail)
				}
			}
			all := strings.Join(text, "\n")
			if got := strings.Join(at, " "); got != m.at {
				t.Errorf("messages at %q, want %q (%s)\n%s", got, m.at, m.reason, all)
			}
			for _, s := range m.says {
				if !strings.Contains(all, s) {
					t.Errorf("no message says %q (%s):\n%s", s, m.reason, all)
				}
			}
		})
	}
}

// TestGuards: what must be refused before HCL parses; deep nesting ends the
// process inside it.
func TestGuards(t *testing.T) {
	for _, c := range []struct{ name, src, says string }{
		{"sixty thousand brackets", "a = " + strings.Repeat("[", 60_000), "nest at most 64 deep"},
		{"sixty thousand blocks", strings.Repeat("a {\n", 60_000), "nest at most 64 deep"},
		{"sixty thousand signs", "a = " + strings.Repeat("!", 60_000) + "true", "At most 16 of the signs"},
		{"conditions", "a = " + strings.Repeat("b ? c : ", 20_000) + "d", "plain values only"},
		{"a template", `a = "%{ if true }x%{ endif }"`, "plain values only"},
		{"too large", strings.Repeat("# a line of a comment\n", 20_000), "at most 256 KiB"},
		{"too many words", strings.Repeat("a\n", 110_000), "200000 words"},
		{"not UTF-8", "groove \"a\xff\" {}", "text in UTF-8"},
		{"a NUL", "groove \"a\x00\" {}", "byte of value 0"},
		{"a long line of wrong characters", "g" + strings.Repeat("\r", 100_000) + "\n", "A line is a value"},
		{"a loop", "groove \"a\" {\n meter = [for x in [1, 2] : x]\n}", "plain values only"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, diags := Decode("mine.hcl", []byte(c.src))
			if len(diags) != 1 || !strings.Contains(diags[0].Detail, c.says) {
				t.Errorf("got %v, want one message that says %q", diags, c.says)
			}
		})
	}
}

// TestLevels: how a level takes over from another, and what a missing one is.
func TestLevels(t *testing.T) {
	src := `groove "mine" {
  meter = "3/4"
  grid  = 6
  level "4" {
    from   = "2"
    ride   = "x-x-x-"
    without = ["hat"]
  }
  level "2" {
    hat    = "x-x-x-"
    kick   = "x----- | x---x-"
    bass   = "1====="
    comp   = "--u-u-"
    voices = 3
    centre = "Bb3"
    answer {
      kick = "x-----"
      without = ["comp"]
    }
  }
}
`
	feels, _, diags := Decode("mine.hcl", []byte(src))
	if len(diags) > 0 {
		t.Fatal(diags)
	}
	f := feels[0]
	words := func(lv *feel.Level) string {
		var out []string
		for _, r := range lv.Drums {
			out = append(out, r.Voice.Word)
		}
		return strings.Join(out, " ")
	}
	for i, want := range []string{"hat kick", "hat kick", "hat kick", "ride kick", "ride kick"} {
		lv := &f.Levels[i]
		if got := words(lv); got != want {
			t.Errorf("level %d has %q, want %q", i+1, got, want)
		}
		if lv.Energy != i+1 || lv.Bars != 2 || lv.Voices != 3 || lv.Centre != 58 || len(lv.Bass) != 12 {
			t.Errorf("level %d: energy %d, %d bars, %d voices about %d, %d steps of bass", i+1, lv.Energy, lv.Bars,
				lv.Voices, lv.Centre, len(lv.Bass))
		}
		if (lv.Answer != nil) != (i < 3) {
			t.Errorf("level %d: answer %v; an answer is not taken over by from", i+1, lv.Answer)
		}
	}
	a := f.Levels[1].Answer
	if words(a) != "hat kick" || a.Bass != nil || a.Comp == nil {
		t.Errorf("the answer has %q, bass %v, comp %v; want the kit whole, bass as in the level, comp silent", words(a),
			a.Bass, a.Comp)
	}
	for i, s := range a.Comp[0].Right {
		if s.Touch != feel.Rest {
			t.Errorf("the answer's comp sounds at %d", i)
		}
	}
	if f.Syncopation != 0 || f.Kit != "standard" || f.BassSound != "" {
		t.Errorf("syncopation %d, kit %q and bass %q where the groove says nothing", f.Syncopation, f.Kit, f.BassSound)
	}
}

// TestOwnFills: a groove may use fills of its own file.
func TestOwnFills(t *testing.T) {
	src := `groove "mine" {
  meter = "any"
  fills = "my fills"
  level "1" {
    kick = "x|-"
  }
}
fills "my fills" {
  grid = 3
  fill "up" {
    colour = 3
    energy = [2, 4]
    snare  = "gsx"
  }
}
`
	feels, fills, diags := Decode("mine.hcl", []byte(src))
	if len(diags) > 0 || len(feels) != 1 || len(fills) != 1 {
		t.Fatal(feels, fills, diags)
	}
	got := fills[0]
	if got.Family != "my fills" || got.Name != "up" || got.Beats != 1 || got.Grid != 3 || got.Colour != 3 ||
		got.Suits(1) || !got.Suits(4) {
		t.Errorf("%+v", got)
	}
}

// TestForeignText: line ends and marks that editors leave are no mistakes.
func TestForeignText(t *testing.T) {
	right := strings.Replace(small, `kick`, `# a comment
    kick`, 1)
	for name, src := range map[string]string{
		"CRLF":            strings.ReplaceAll(right, "\n", "\r\n"),
		"byte order mark": "\ufeff" + right,
		"no last newline": strings.TrimSpace(right),
	} {
		if feels, _, diags := Decode("mine.hcl", []byte(src)); len(diags) > 0 || len(feels) != 1 {
			t.Errorf("%s: %v", name, diags)
		}
	}
}

// TestAlsoCalled: what a row is also called leads to a row, and is none itself.
func TestAlsoCalled(t *testing.T) {
	rows := append(voiceWords(), levelWords...)
	for called, row := range alsoCalled {
		if !slices.Contains(rows, row) || slices.Contains(rows, called) {
			t.Errorf("%q for the row %q", called, row)
		}
	}
}
