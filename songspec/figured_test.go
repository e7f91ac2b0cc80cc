package songspec

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"plinth/songspec/harmony"
)

// TestFiguresAsMeant: a 6 and a 2 behind a numeral are added tones where nothing else speaks of
// figured bass, and an inversion by its own figure is not doubted. Common practice, no single
// source.
func TestFiguresAsMeant(t *testing.T) {
	for _, c := range []struct{ name, chords string }{
		{"film harmony", "| I | iv6 | I | iv6 |"},
		{"sixths of a swing band", "| I6 vi7 | ii7 V7 | I6 | I6/9 |"},
		{"seconds of a guitarist", "| I2 | IV2 | vi7 | V2 |"},
		{"sixth over its fifth", "| I6/5 | IV6/3 |"},
		{"figures alone", "| I64 V7 | V65 I | V42 I/3 | Cad64 V7 |"},
		{"added tones by name", "| I64 V7 | Iadd6 | Vadd2 | ivadd6 | bIIadd6 |"},
		{"a six-nine beside figures", "| I64 V7 | I6/9 |"},
		{"a letter's sixth beside figures", "| I64 V7 | C6 |"},
		{"Neapolitan by its name", "| N6 V7 | I |"},
	} {
		t.Run(c.name, func(t *testing.T) { good(t, one(c.chords)) })
	}
}

// figureDoubts are the symbols that are doubted for their figures in a chart.
func figureDoubts(t *testing.T, src string) map[string]bool {
	t.Helper()
	_, diags := build(src)
	if diags.HasErrors() {
		t.Fatalf("%s\n%s", written(src, diags), src)
	}
	doubted := map[string]bool{}
	for _, d := range diags {
		if strings.Contains(d.Detail, "inversion") {
			doubted[strings.Split(d.Summary, `"`)[1]] = true
		}
	}
	return doubted
}

// Source: the harmonic analyses of 38 songs for voice and piano (When in Rome, CC BY-SA 4.0, over
// OpenScore Lieder, CC0): every 6 and 2 in them is an inversion. Where a song has no other figure,
// they are not doubted.
func TestLiederFiguresDoubted(t *testing.T) {
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set: the folder with lieder-dev")
	}
	files, err := filepath.Glob(filepath.Join(data, "lieder-dev", "*", "truth.json"))
	if err != nil || len(files) < 30 {
		t.Fatalf("%d analyses found in %s: %v", len(files), data, err)
	}
	figures, doubted, alone, left := 0, 0, 0, map[string]int{}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var song struct{ Chords []struct{ RN string } }
		if err := json.Unmarshal(b, &song); err != nil {
			t.Fatal(err)
		}
		var bars []string
		for _, c := range song.Chords {
			if _, err := harmony.ParseNumeral(c.RN, harmony.Key{}); err == nil {
				bars = append(bars, c.RN)
			}
		}
		doubts := figureDoubts(t, one("| "+strings.Join(bars, " | ")+" |"))
		for _, rn := range bars {
			head, _, _ := strings.Cut(rn, "/")
			head, _, _ = strings.Cut(head, "[")
			figure := strings.TrimLeft(head, "b#IViv°o+")
			if figure != "6" && figure != "2" {
				continue
			}
			figures++
			switch {
			case doubts[rn]:
				doubted++
			case !slices.ContainsFunc(bars, harmony.IsFigured):
				alone++
			default:
				left[filepath.Base(filepath.Dir(file))+" "+rn]++
			}
		}
	}
	t.Logf("%d of %d figures doubted, %d in songs without others; not doubted: %v", doubted, figures, alone, left)
	// Left are a 6 with a bracket behind it, and one that is doubted for its slash.
	if figures < 350 || doubted+alone < figures-4 || alone > 12 {
		t.Errorf("%d of %d figures doubted, %d in songs without others", doubted, figures, alone)
	}
}

var harteChord = regexp.MustCompile(`([A-G][b#]?):([a-z0-9]+)(\([^)\s]*\))?(?:/([b#]?[0-9]+))?`)

// billboardNumerals are the qualities of the annotations as suffixes of numerals.
var billboardNumerals = map[string]string{"maj": "", "min": "", "7": "7", "maj7": "maj7", "min7": "7", "maj6": "6",
	"min6": "6", "sus4": "sus4", "sus2": "2", "9": "9", "min9": "9", "min11": "11", "dim": "o", "hdim7": "ø7",
	"aug": "+", "maj9": "maj9", "13": "13", "11": "11", "5": "5", "maj13": "maj13"}

// Source: McGill Billboard annotations (CC0). The charts of pop songs, in numerals, with their
// added sixths, and with an added second for each suspended one: nothing of it is figured bass.
func TestBillboardFiguresNotDoubted(t *testing.T) {
	data := os.Getenv("PLINTH_DATA")
	if data == "" {
		t.Skip("PLINTH_DATA is not set: the folder with billboard-dev")
	}
	files, err := filepath.Glob(filepath.Join(data, "billboard-dev", "*.txt"))
	if err != nil || len(files) < 80 {
		t.Fatalf("%d charts found in %s: %v", len(files), data, err)
	}
	chords, figures := 0, 0
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		tonic, _ := harmony.ParseName("C")
		var bars []string
		for _, line := range strings.Split(string(b), "\n") {
			if v, ok := strings.CutPrefix(line, "# tonic: "); ok {
				if tonic, err = harmony.ParseName(strings.TrimSpace(v)); err != nil {
					t.Fatal(err)
				}
			}
			for _, m := range harteChord.FindAllStringSubmatch(line, -1) {
				root, err := harmony.ParseName(m[1])
				suffix, ok := billboardNumerals[m[2]]
				if err != nil || !ok {
					continue
				}
				steps, semis := tonic.Interval(root)
				sign := map[int]string{-1: "b", 0: "", 1: "#"}[semis-[...]int{0, 2, 4, 5, 7, 9, 11}[steps]]
				roman := [...]string{"I", "II", "III", "IV", "V", "VI", "VII"}[steps]
				if m[2][0] == 'm' && m[2][1] == 'i' || suffix == "o" || suffix == "ø7" {
					roman = strings.ToLower(roman)
				}
				if m[4] != "" && len(m[4]) == 1 {
					suffix += "/" + m[4]
				}
				if suffix == "6" || suffix == "2" {
					figures++
				}
				bars = append(bars, sign+roman+suffix)
			}
		}
		chords += len(bars)
		for len(bars) > 0 {
			n := min(len(bars), 400)
			for symbol := range figureDoubts(t, one("| "+strings.Join(bars[:n], " | ")+" |")) {
				t.Errorf("%s: %s is doubted", filepath.Base(file), symbol)
			}
			bars = bars[n:]
		}
	}
	t.Logf("%d chords, %d of them with an added sixth or second", chords, figures)
	if chords < 9000 || figures < 130 {
		t.Errorf("%d chords, %d figures", chords, figures)
	}
}

// TestFiguresOfTheWholeSong: a figure in one chart speaks for all, also for those of some bars; a
// section that is like another adds nothing.
func TestFiguresOfTheWholeSong(t *testing.T) {
	src := one("| I | V | I |",
		`bars "2" { chords = "| V65 |" }`) + "section \"b\" {\n  chords = \"| I6 | I6 |\"\n}\n" +
		"section \"c\" {\n  like = \"b\"\n}\n"
	_, diags := build(src)
	if len(diags) != 1 || diags[0].Subject.Start.Line != 6 ||
		!strings.HasPrefix(diags[0].Detail, `It stands 2 times in the song. The song has "V65",`) {
		t.Errorf("%s\n%s", written(src, diags), src)
	}
}
