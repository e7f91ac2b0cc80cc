package harmony

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// roots are the roots over which the agreed table was checked.
var roots = []string{"C", "C#", "Db", "D", "D#", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "A#", "Bb", "B",
	"Cb"}

// rotate is a set of pitch classes moved up to a root.
func rotate(pcs []int, by int) []int {
	out := make([]int, len(pcs))
	for i, p := range pcs {
		out[i] = mod12(p + by)
	}
	slices.Sort(out)
	return out
}

// Source: chord_symbols_agreed.json, in which tonal 6.4.3 and chord-symbol 4.0.0 agree.
// Every spelling is read over every root.
func TestAgreedSymbols(t *testing.T) {
	agreed := agreedSymbols(t)
	for _, suffix := range sorted(agreed, strings.Compare) {
		for _, root := range roots {
			c, err := ParseChord(root + suffix)
			if err != nil {
				t.Errorf("%v", err)
				continue
			}
			if c.Root.String() != root || c.Bass != c.Root {
				t.Errorf("%s%s: root %s, bass %s", root, suffix, c.Root, c.Bass)
			}
			if got, want := sortedPCs(c), rotate(agreed[suffix], c.Root.PC()); !slices.Equal(got, want) {
				t.Errorf("%s%s: pitch classes %v, want %v", root, suffix, got, want)
			}
		}
	}
}

// Source: chord_quality_master.csv. Spellings that only one of the two libraries reads are
// read likewise, unless chord_choices.csv says otherwise.
func TestQualityMaster(t *testing.T) {
	chosen := map[string]bool{}
	for _, r := range table(t, "chord_choices.csv", 40) {
		chosen[r["symbol"]] = true
	}
	spellings, skipped := 0, 0
	seen := map[string]string{}
	for _, r := range table(t, "chord_quality_master.csv", 87) {
		want := ints(t, r["pcs_rel_root"])
		var all []string
		all = append(all, aliases(r["spellings_agreed_by_tonal_and_chord-symbol"])...)
		all = append(all, aliases(r["extra_spellings_chord-symbol_only"])...)
		for _, s := range append(all, r["canonical"]) {
			if chosen[s] {
				skipped++
				continue
			}
			spellings++
			c, err := ParseChord("C" + s)
			if err != nil {
				t.Errorf("%v", err)
				continue
			}
			if got := sortedPCs(c); !slices.Equal(got, want) {
				t.Errorf("C%s: %v, want %v", s, got, want)
			}
			// One suffix never stands for two sets.
			if was, ok := seen[c.Suffix]; ok && was != r["pcs_rel_root"] {
				t.Errorf("C%s: the suffix %q stands for %s already", s, c.Suffix, was)
			}
			seen[c.Suffix] = r["pcs_rel_root"]
		}
	}
	if spellings < 300 || skipped > 8 {
		t.Errorf("%d spellings checked, %d left to the choices", spellings, skipped)
	}
}

// Source: chord_choices.csv, what tonal 6.4.3 and chord-symbol 4.0.0 say and
// what plinth does; .ci/crosscheck-chords.mjs checks the other two columns.
func TestChoices(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range table(t, "chord_choices.csv", 40) {
		s := r["symbol"]
		if seen[s] || r["why"] == "" || r["tonal"] == "-" && r["chord-symbol"] == "-" {
			t.Errorf("%s: twice, without a reason, or known to neither", s)
		}
		seen[s] = true
		if r["plinth"] == r["tonal"] && r["plinth"] == r["chord-symbol"] {
			t.Errorf("%s: all three agree, nothing to choose", s)
		}
		c, err := ParseChord("C" + s)
		if r["plinth"] == "-" {
			if err == nil {
				t.Errorf("C%s is read as %s, want an error", s, c)
			}
			continue
		}
		if err != nil {
			t.Errorf("%v", err)
		} else if got, want := sortedPCs(c), ints(t, r["plinth"]); !slices.Equal(got, want) {
			t.Errorf("C%s: %v, want %v", s, got, want)
		}
	}
}

// Source: slash_chords.csv, tonal and chord-symbol.
func TestSlashChords(t *testing.T) {
	for _, r := range table(t, "slash_chords.csv", 38) {
		c, err := ParseChord(r["symbol"])
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		if c.Root.String() != r["root"] || c.Bass.String() != r["bass"] {
			t.Errorf("%s: root %s bass %s, want %s and %s", r["symbol"], c.Root, c.Bass, r["root"], r["bass"])
		}
		if got, want := sortedPCs(c), ints(t, r["chord_pcs"]); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", r["symbol"], got, want)
		}
		if in := slices.Contains(sortedPCs(c), c.Bass.PC()); in != (r["bass_is_chord_tone"] == "yes") {
			t.Errorf("%s: bass in the chord: %v", r["symbol"], in)
		}
	}
}

// Spellings that musicians write and that are in no table. Common practice, no single
// source; the symbol at the right is plinth's own.
func TestSpellings(t *testing.T) {
	for _, r := range []struct{ name, in, want string }{
		{"unicode flat", "E♭maj7", "Ebmaj7"},
		{"unicode sharp in the bass", "D/F♯", "D/F#"},
		{"unicode accidental in the suffix", "C7(♭9)", "C7b9"},
		{"double flat root", "B♭♭7", "Bbb7"},
		{"double flat sign", "B𝄫7", "Bbb7"},
		{"chart font capitals", "CMA7", "Cmaj7"},
		{"chart font capitals, minor", "CMI7", "Cm7"},
		{"chart font capitals, half", "CMI7(b5)", "Cm7b5"},
		{"title case", "CMin7", "Cm7"},
		{"long words", "Cminor7", "Cm7"},
		{"minor major in brackets", "Cm(maj7)", "Cm(maj7)"},
		{"minor major, all signs", "C-Δ7", "Cm(maj7)"},
		{"minor major with a slash", "Cm/maj7", "Cm(maj7)"},
		{"minor major and a bass", "Cm(maj7)/B", "Cm(maj7)/B"},
		{"half-diminished", "Cø7", "Cm7b5"},
		{"triangle from the maths block", "C∆7", "Cmaj7"},
		{"true minus sign", "C−7", "Cm7"},
		{"ordinal for degree sign", "Cº7", "Cdim7"},
		{"alterations with commas", "G7(b9,#11)", "G7b9#11"},
		{"alterations with a slash", "G7(b9/b13)", "G7b9b13"},
		{"several brackets", "G7(b9)(b13)", "G7b9b13"},
		{"any order", "G7b13b9", "G7b9b13"},
		{"minus for flat", "Cm7-5", "Cm7b5"},
		{"plus for sharp", "C7+5", "C7#5"},
		{"plus for sharp eleven", "Cmaj7+11", "Cmaj7#11"},
		{"minus five", "C-5", "C(b5)"},
		{"plus five", "C+5", "Caug"},
		{"flat five in brackets, or the root is Cb", "C(b5)", "C(b5)"},
		{"root is Cb", "Cb5", "Cb5"},
		{"sus alone", "Gsus", "Gsus4"},
		{"sus after the number", "G9sus", "G9sus4"},
		{"sus before the number", "Gsus9", "G9sus4"},
		{"sus with a flat nine", "G7susb9", "G7sus4b9"},
		{"two suspensions", "Gsus2sus4", "Gsus24"},
		{"two is an added second", "C2", "Cadd2"},
		{"added ninth", "Cadd9", "Cadd9"},
		{"added ninth in brackets", "C(add9)", "Cadd9"},
		{"added fourth over a seventh", "Cm7add4", "Cm7add11"},
		{"six nine", "C69", "C6/9"},
		{"six nine and a bass", "C6/9/G", "C6/9/G"},
		{"minor six nine", "Cm6/9", "Cm6/9"},
		{"natural tensions in brackets", "Cm7(9,11)", "Cm11"},
		{"no third", "C(no3)", "C5"},
		{"omitted third", "Comit3", "C5"},
		{"no third, spoken", "C7(no3rd)", "C7no3"},
		{"omitted fifth", "C7omit5", "C7no5"},
		{"dominant in words", "Cdom7", "C7"},
		{"altered", "G7alt", "G7alt"},
		{"altered in brackets", "G7(alt)", "G7alt"},
		{"augmented seventh", "C+7", "C7#5"},
		{"augmented major", "C+maj7", "Cmaj7#5"},
		{"diminished with a major seventh", "Cdim(maj7)", "Cdim(maj7)"},
		{"diminished with both sevenths", "Co7M7", "Cdim7(maj7)"},
		{"second and ninth are one key", "C9sus2", "C7sus2"},
		{"no chord", "N.C.", "N.C."},
		{"no chord, short", "NC", "N.C."},
	} {
		t.Run(r.name, func(t *testing.T) {
			c, err := ParseChord(r.in)
			if err != nil {
				t.Fatal(err)
			}
			if c.String() != r.want {
				t.Errorf("%s is %s, want %s", r.in, c, r.want)
			}
			if back := mustChord(t, c.String()); back != c {
				t.Errorf("%s reads back as %+v, was %+v", c, back, c)
			}
		})
	}
}

// The reason, the place and the suggestion for every kind of mistake.
func TestChordErrors(t *testing.T) {
	for _, r := range []struct {
		name, in  string
		kind      ErrorKind
		at, len   int
		suggest   string
		mustState string
	}{
		{"small letter", "c7", NoRoot, 0, 1, "C7", "capital"},
		{"no letter", "X7", NoRoot, 0, 1, "", "capital"},
		{"German H", "Hm", NoRoot, 0, 1, "Bm", "German"},
		{"empty", "", NoRoot, 0, 0, "", "capital"},
		{"letters swapped", "Cmja7", NoQuality, 2, 3, "Cmaj7", "quality"},
		{"swapped with a bass", "Cmja7/E", NoQuality, 2, 3, "Cmaj7/E", "quality"},
		{"flat sign, long root", "Ebmaj8", NoQuality, 5, 1, "Ebmaj7", "number"},
		{"unknown word", "Cfoo", NoQuality, 1, 3, "", "quality"},
		{"bracket", "C7(b9", NoQuality, 2, 3, "C7b9", "bracket"},
		{"bare four", "C4", NoQuality, 1, 1, "Csus4", "sus4 or add4"},
		{"unicode before it", "E♭maj8", NoQuality, 7, 1, "E♭maj7", "number"},
		{"small bass", "C/e", NoBass, 2, 1, "C/E", "bass"},
		{"no bass", "C/", NoBass, 2, 0, "", "bass"},
		{"degree as bass", "Cm7/3", NoBass, 4, 1, "Cm7/Eb", "bass"},
		{"two basses", "C/E/G", NoBass, 2, 1, "", "bass"},
		{"two sevenths", "Cmaj7maj7", NoQuality, 5, 4, "", "seventh"},
		{"suspended diminished", "Cdimsus4", NoQuality, 1, 7, "", "suspended"},
		{"too long", "C" + strings.Repeat("7", MaxSymbol), TooLong, 0, MaxSymbol + 1, "", "64 bytes"},
	} {
		t.Run(r.name, func(t *testing.T) {
			_, err := ParseChord(r.in)
			var e *SymbolError
			if !errors.As(err, &e) {
				t.Fatalf("%q: %v, want a SymbolError", r.in, err)
			}
			if e.Kind != r.kind || e.Offset != r.at || e.Length != r.len || e.Suggest != r.suggest || e.Text != r.in {
				t.Errorf("%q: %+v", r.in, *e)
			}
			if !strings.Contains(e.Reason, r.mustState) || !strings.HasSuffix(e.Reason, ".") {
				t.Errorf("%q: reason %q", r.in, e.Reason)
			}
			if e.Suggest != "" {
				mustChord(t, e.Suggest)
			}
		})
	}
}

// The common spellings are read without parsing, and they are suggested.
func TestCommonSpellings(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range commonSpellings {
		if seen[s] {
			t.Errorf("%q is there twice", s)
		}
		seen[s] = true
		c, fault := readSuffix(s)
		if fault != nil {
			t.Errorf("%q: %s", s, fault.why)
		} else if fast, _ := lookSuffix(s); fast != c {
			t.Errorf("%q: the table says %+v, the parser %+v", s, fast, c)
		}
	}
	if len(seen) < 100 {
		t.Errorf("%d spellings, want 100 at least", len(seen))
	}
}

// Every triad word with every number, suspension and pair of additions: if it can be read,
// it prints a suffix that reads back to the same tones.
func TestEveryComposition(t *testing.T) {
	leads := []string{"", "m", "maj", "Δ", "dim", "ø", "+", "-"}
	numbers := []string{"", "5", "6", "69", "7", "9", "11", "13", "(maj7)", "maj9", "maj13", "2", "67", "7M", "13M"}
	sus := []string{"", "sus2", "sus4", "sus24"}
	items := []string{"", "b5", "#5", "b9", "#9", "#11", "b13", "(9)", "(11)", "(13)", "add2", "add4", "add6", "add9",
		"add11",
		"add13", "addb9", "add#9", "add#11", "addb13", "b6", "no3", "no5", "no9", "(maj7)", "(#7)", "/9", "add3"}
	read := 0
	suffixOf := map[quality]string{}
	for _, l := range leads {
		for _, n := range numbers {
			for _, s := range sus {
				for _, a := range items {
					for _, b := range items {
						text := l + n + s + a + b
						q, fault := parseSuffix(text)
						if fault != nil {
							continue
						}
						read++
						suffix := q.suffix()
						back, fault := parseSuffix(suffix)
						if fault != nil || back != q {
							t.Fatalf("%q prints %q, which reads as %v (%v), not %v", text, suffix, back, fault, q)
						}
						if _, size := scanName("C" + suffix); size != 1 {
							t.Fatalf("%q prints %q, which a root swallows", text, suffix)
						}
						if was, ok := suffixOf[q]; ok && was != suffix {
							t.Fatalf("%v prints %q and %q", q, was, suffix)
						}
						suffixOf[q] = suffix
					}
				}
			}
		}
	}
	t.Logf("%d compositions, %d qualities", read, len(suffixOf))
	if read < 100000 || len(suffixOf) < 3000 {
		t.Errorf("%d compositions, %d qualities", read, len(suffixOf))
	}
}
