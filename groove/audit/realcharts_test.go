package audit_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"plinth/songspec/harmony"
)

// Real harmony: the pop charts of the McGill Billboard annotations (CC0) in the
// folder that PLINTH_DATA names, turned into song files. Chord labels there are
// Harte's: a root, a shorthand with added degrees in brackets, and the bass as a
// degree of the root: "C:maj(9)/b7".

// dataFiles are the files of a data set, in order; the test is skipped without
// the data.
func dataFiles(t testing.TB, pattern string, least int) []string {
	t.Helper()
	root := os.Getenv("PLINTH_DATA")
	if root == "" {
		t.Skip("PLINTH_DATA is not set: no charts to play")
	}
	files, err := filepath.Glob(filepath.Join(root, pattern))
	if err != nil || len(files) < least {
		t.Fatalf("%d files %s in %s (%v), want %d", len(files), pattern, root, err, least)
	}
	return files
}

// harteQualities are the shorthands, with their added degrees, as the suffixes of
// this project's symbols. A root
// alone, "1", is no chord here; it becomes the open fifth that a band makes of it.
var harteQualities = map[string]string{
	"maj": "", "min": "m", "dim": "dim", "aug": "aug", "sus2": "sus2", "sus4": "sus4", "5": "5",
	"7": "7", "maj7": "maj7", "min7": "m7", "minmaj7": "m(maj7)", "dim7": "dim7", "hdim7": "m7b5",
	"maj6": "6", "min6": "m6", "9": "9", "maj9": "maj9", "min9": "m9", "11": "11", "min11": "m11",
	"13": "13", "maj13": "maj13", "min13": "m13",
	"maj(9)": "add9", "maj(11)": "add11", "maj(#11)": "add#11",
	"min(9)": "madd9", "min(11)": "madd11", "min(b13)": "maddb13",
	"7(#9)": "7#9", "7(b9)": "7b9", "7(#11)": "7#11", "7(11)": "7add11", "9(#11)": "9#11",
	"maj7(#11)": "maj7#11", "maj7(#5)": "maj7#5",
	"maj9(#11)": "maj9#11", "maj6(9)": "69", "maj6(7)": "maj7add13", "min7(11)": "m7add11",
	"sus4(b7)": "7sus4", "sus4(b7,9)": "9sus4", "sus4(b7,9,13)": "13sus4", "sus4(9)": "sus4add9",
	"5(b7)": "7no3", "1(b7)": "7(no3no5)", "1(b5,b7,3)": "7b5", "1(3,7)": "maj7no5",
}

// harteDegree reads a bass degree: semitones from the root by the major scale.
var harteDegree = regexp.MustCompile(`^([b#]*)(\d+)$`)

var majorScale = [7]int{0, 2, 4, 5, 7, 9, 11}

// harte turns a label into a symbol; why says what could not be turned.
func harte(label string) (symbol, why string) {
	if label == "N" {
		return "N.C.", ""
	}
	root, rest, ok := strings.Cut(label, ":")
	if !ok {
		return "N.C.", "no quality in " + label
	}
	quality, degree, slash := strings.Cut(rest, "/")
	suffix, ok := harteQualities[quality]
	if quality == "1" {
		suffix, ok, why = "5", true, "a root alone"
	}
	if !ok {
		return root + "5", "no quality " + quality + " in " + label
	}
	symbol = root + suffix
	if !slash || degree == "1" {
		return symbol, why
	}
	m := harteDegree.FindStringSubmatch(degree)
	c, err := harmony.ParseChord(symbol)
	if m == nil || err != nil {
		return symbol, "no bass " + degree + " in " + label
	}
	n, _ := strconv.Atoi(m[2])
	semis := majorScale[(n-1)%7] + 12*((n-1)/7) + strings.Count(m[1], "#") - strings.Count(m[1], "b")
	bass, ok := c.Root.Up(n-1, semis)
	if !ok {
		bass = harmony.Key{Tonic: c.Root}.Spell((c.Root.PC() + semis) % 12)
	}
	return symbol + "/" + bass.String(), why
}

// realChart is a chart on its way into a song file.
type realChart struct {
	name  string
	feel  func(meter string) string
	tempo int
	parts []realPart
	lost  []string // what could not be turned as it stands
	bars  int
}

// realPart is a section: its meter, key and bars, written as in a song file.
type realPart struct {
	name, meter, key string
	bars             []string
}

// text is the song file. Every pass has the energy that energy says.
func (c *realChart) text(energy func(pass int) int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title = %q\ntempo = %d\n", "Chart "+c.name, c.tempo)
	for i, p := range c.parts {
		fmt.Fprintf(&b, "\nsection \"%s %d\" {\n  key = %q\n  meter = %q\n  feel = %q\n  energy = %d\n",
			p.name, i+1, p.key, p.meter, c.feel(p.meter), energy(i))
		b.WriteString("  chords = <<-EOT\n")
		for j, bar := range p.bars {
			switch {
			case j > 0 && j%4 == 0:
				b.WriteString(" |\n    |")
			case j == 0:
				b.WriteString("    |")
			default:
				b.WriteString(" |")
			}
			b.WriteString(" " + bar)
		}
		b.WriteString(" |\n  EOT\n}\n")
	}
	return b.String()
}

var (
	billboardName = regexp.MustCompile(`^([A-Z]'*), ([a-z ]+),? *$`)
	billboardTime = regexp.MustCompile(`^\((\d+/\d+)\)$`)
	billboardRep  = regexp.MustCompile(`x(\d+)`)
)

// billboard reads one annotation.
func billboard(t testing.TB, path string) *realChart {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	c := &realChart{name: strings.TrimSuffix(filepath.Base(path), ".txt")}
	meterNow, tonic := "4/4", "C"
	first, last := -1.0, 0.0
	quarters := 0.0
	for _, line := range strings.Split(string(data), "\n") {
		if v, ok := strings.CutPrefix(line, "# metre: "); ok {
			meterNow = strings.TrimSpace(v)
		}
		if v, ok := strings.CutPrefix(line, "# tonic: "); ok {
			tonic = strings.TrimSpace(v)
		}
		stamp, rest, ok := strings.Cut(line, "\t")
		if !ok || !strings.Contains(rest, "|") {
			if at, err := strconv.ParseFloat(stamp, 64); ok && err == nil && first >= 0 {
				last = max(last, at)
			}
			continue
		}
		at, err := strconv.ParseFloat(stamp, 64)
		if err != nil {
			t.Fatalf("%s: %q", path, line)
		}
		if first < 0 {
			first = at
		}
		last = max(last, at)
		lo, hi := strings.Index(rest, "|"), strings.LastIndex(rest, "|")
		name := "part"
		if m := billboardName.FindStringSubmatch(strings.TrimSpace(rest[:lo])); m != nil {
			name = m[2]
		}
		if n := len(c.parts) - 1; n < 0 || name != "part" || c.parts[n].meter != meterNow ||
			c.parts[n].key != tonic+" major" {
			c.parts = append(c.parts, realPart{name: name, meter: meterNow, key: tonic + " major"})
		}
		bars := c.billboardBars(strings.Split(rest[lo+1:hi], "|"), meterNow)
		times := 1
		if m := billboardRep.FindStringSubmatch(rest[hi:]); m != nil {
			times, _ = strconv.Atoi(m[1])
		}
		part := &c.parts[len(c.parts)-1]
		for range times {
			part.bars = append(part.bars, bars...)
		}
		c.bars += times * len(bars)
		quarters += float64(times*len(bars)) * quartersOf(meterNow)
	}
	beat := 1.0
	if strings.HasSuffix(meterNow, "/8") {
		beat = 1.5
	}
	c.tempo = min(max(int(quarters/beat*60/max(last-first, 1)), 40), 220)
	return c
}

func quartersOf(meter string) float64 {
	num, den, _ := strings.Cut(meter, "/")
	n, _ := strconv.Atoi(num)
	d, _ := strconv.Atoi(den)
	return 4 * float64(n) / float64(max(d, 1))
}

// billboardBars turns the bars of a line. A dot is a beat more of the chord before
// it; * is a bar that nobody could transcribe, and &pause one without time: both
// become a bar without a chord.
func (c *realChart) billboardBars(cells []string, meter string) []string {
	var out []string
	for _, cell := range cells {
		var words []string
		in := meter
		for _, w := range strings.Fields(cell) {
			switch {
			case billboardTime.MatchString(w):
				in = billboardTime.FindStringSubmatch(w)[1]
			case w == ".":
				words = append(words, "/")
			case w == "*" || w == "&pause":
				words = append(words, "N.C.")
				c.lost = append(c.lost, w+" is no chord")
			default:
				symbol, why := harte(w)
				if why != "" {
					c.lost = append(c.lost, why)
				}
				words = append(words, symbol)
			}
		}
		if len(words) == 0 {
			words = []string{"N.C."}
			c.lost = append(c.lost, "an empty bar")
		}
		bar := strings.Join(words, " ")
		if in != meter {
			bar = "(" + in + ") " + bar
		}
		out = append(out, bar)
	}
	return out
}
