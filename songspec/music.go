package songspec

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

func lower(s string) string { return strings.ToLower(s) }

// setting reads one of the settings that stand on several levels; false when a
// is none of them.
func (d *decoder) setting(to *settings, a *hclsyntax.Attribute) bool {
	switch a.Name {
	case "key":
		to.key = d.key(a.Expr)
	case "meter":
		to.meter = d.meter(a.Expr)
	case "tempo":
		to.tempo, _ = d.whole(a.Expr, "the tempo, in beats a minute,", MinTempo, MaxTempo)
	case "feel":
		to.feel, _ = d.text(a.Expr, 64, `The feel is its name in quotes: feel = "waltz".`)
	case "energy":
		to.energy = d.energy(a.Expr)
	case "tacet":
		to.tacet = d.players(a.Expr, `Who stays out is a list of players: tacet = ["drums"].`)
	case "fills":
		to.fills, _ = d.flag(a.Expr, "Fills")
	default:
		return false
	}
	return true
}

func (d *decoder) key(expr hclsyntax.Expression) *keyWord {
	const help = `A key is written like "Eb major", "C minor", or short: "Eb", "Cm".`
	t, ok := d.text(expr, 64, help)
	if !ok {
		return nil
	}
	k, err := harmony.ParseKey(t.s)
	if err != nil {
		e, word := reportSymbol(&d.rep, t.rng, -1, fmt.Sprintf("Not a key: %q", t.s), err)
		if _, err := harmony.ParseKey(word); err == nil {
			e.WriteText(t.rng, word)
		}
		return nil
	}
	return &keyWord{k, t.rng}
}

// reportSymbol reports an error of harmony, and returns the symbol to write instead.
// When off is known, it is where the symbol's text begins in the file, and the range is
// only the part that is wrong.
func reportSymbol(
	rep *hcltext.Report, rng hcl.Range, off int, summary string, err error,
) (e hcltext.Entry, word string) {
	var se *harmony.SymbolError
	if !errors.As(err, &se) {
		return rep.Errorf(rng, summary, "%s", err), ""
	}
	detail := se.Reason
	if se.Suggest != "" {
		detail += fmt.Sprintf(" Write %q.", se.Suggest)
	}
	if off >= 0 && se.Length > 0 && se.Offset+se.Length <= rng.End.Byte-rng.Start.Byte {
		rng = rep.Source.Range(off+se.Offset, off+se.Offset+se.Length)
	}
	return rep.Errorf(rng, summary, "%s", detail), se.Suggest
}

func (d *decoder) meter(expr hclsyntax.Expression) *meterWord {
	const help = `A meter is written like "4/4", "12/8" or "7/8 2+2+3".`
	if b, ok := expr.(*hclsyntax.BinaryOpExpr); ok && plain(b) { // meter = 3/4
		e := d.rep.Errorf(expr.Range(), "A meter without quotes", "Write meter = \"%s\".",
			strings.ReplaceAll(d.show(expr.Range()), " ", ""))
		if m, err := meter.Parse(strings.ReplaceAll(d.written(expr.Range()), " ", "")); err == nil {
			e.WriteText(expr.Range(), m.String())
		}
		return nil
	}
	t, ok := d.text(expr, 64, help)
	if !ok {
		return nil
	}
	m, err := meter.Parse(t.s)
	if err != nil {
		if w := meterCalled[lower(strings.TrimSpace(t.s))]; w != "" {
			d.rep.Errorf(t.rng, "Not a meter", "A meter is written in figures: %q.", w).WriteText(t.rng, w)
			return nil
		}
		why := wording.Sentence("%s", err) + "."
		if !strings.HasPrefix(why, "A meter is written like") { // help says so too
			why += " " + help
		} else {
			why = help
		}
		d.rep.Errorf(t.rng, "Not a meter", "%s", why)
		return nil
	}
	return &meterWord{m, t.rng}
}

func (d *decoder) energy(expr hclsyntax.Expression) *energyWord {
	rng := expr.Range()
	if t, ok := expr.(*hclsyntax.TupleConsExpr); ok {
		if len(t.Exprs) != 2 {
			d.rep.Errorf(rng, "Energy moves from one to another", "Write two figures: energy = [2, 4].")
			return nil
		}
		a, okA := d.whole(t.Exprs[0], "the energy", 1, 5)
		b, okB := d.whole(t.Exprs[1], "the energy", 1, 5)
		if !okA || !okB {
			return nil
		}
		return &energyWord{a.n, b.n, rng}
	}
	n, ok := d.whole(expr, "the energy", 1, 5)
	if !ok {
		return nil
	}
	return &energyWord{n.n, n.n, rng}
}

// players reads a list of players. nil after an error.
func (d *decoder) players(expr hclsyntax.Expression, help string) *playersWord {
	items, ok := d.list(expr, help)
	if !ok {
		return nil
	}
	if len(items) > 16 {
		d.rep.Errorf(expr.Range(), "Too many players", "The band has three: drums, bass and piano.")
		return nil
	}
	out := &playersWord{rng: expr.Range()}
	for _, x := range items {
		t, good := d.text(x, 64, help)
		if !good {
			ok = false
			continue
		}
		found := false
		for p, name := range timeline.PlayerNames {
			if name == t.s {
				out.set |= timeline.Only(timeline.Player(p))
				found = true
			}
		}
		if !found {
			help := offer(t.s, timeline.PlayerNames[:], "a player")
			if everybody[lower(t.s)] {
				help = advice{says: `Everybody is named: ["drums", "bass", "piano"].`}
			} else if p := playerCalled[lower(t.s)]; p != "" {
				help = isIt(p)
			}
			d.rep.Errorf(t.rng, fmt.Sprintf("No player %q", t.s), "%s", help.says).WriteText(t.rng, help.word)
			ok = false
		}
	}
	if !ok {
		return nil
	}
	return out
}

// note reads a note with its octave, "A4", as a MIDI note number; C4 is 60. A note from
// lowest to highest is offered in English.
func (d *decoder) note(expr hclsyntax.Expression, like string, lowest, highest int) (int, bool) {
	help := "A note is its letter and its octave in quotes, C4 being middle C: " + like + "."
	t, ok := d.text(expr, 16, help)
	if !ok {
		return 0, false
	}
	n, ok := noteNumber(t.s)
	if !ok {
		english := englishNote(t.s)
		if english != "" {
			help = fmt.Sprintf("Notes have their English names here, with a capital letter: write %q.", english)
		}
		e := d.rep.Errorf(t.rng, fmt.Sprintf("Not a note: %q", t.s), "%s", help)
		if n, _ := noteNumber(english); n >= lowest && n <= highest {
			e.WriteText(t.rng, english)
		}
	}
	return n, ok
}

// englishNote is the English name of a note in another tongue or with a small
// letter, "" when it is none.
func englishNote(s string) string {
	i := strings.IndexAny(s, "0123456789-")
	if i < 1 {
		return ""
	}
	name := harmony.English(strings.TrimSpace(s[:i]))
	if _, ok := noteNumber(name + s[i:]); name == "" || !ok {
		return ""
	}
	return name + s[i:]
}

func noteNumber(s string) (int, bool) {
	i := strings.IndexAny(s, "0123456789-")
	if i < 1 {
		return 0, false
	}
	name, err := harmony.ParseName(s[:i])
	if err != nil {
		return 0, false
	}
	octave, err := strconv.Atoi(s[i:])
	if err != nil || octave < -1 || octave > 9 {
		return 0, false
	}
	// The octave belongs to the letter: Cb4 is a semitone under C4, B#4 over B4.
	letters := [7]int{0, 2, 4, 5, 7, 9, 11}
	n := 12*(octave+1) + letters[name.Step] + int(name.Alter)
	return n, n >= 0 && n <= 127
}

// singerRange reads "A3-D5", or ["A3", "D5"].
func (d *decoder) singerRange(expr hclsyntax.Expression) (low, high int, ok bool) {
	const help = `The singer's range is the lowest and the highest note: range = ["A3", "D5"].`
	rng := expr.Range()
	var ends []string
	if list, is := expr.(*hclsyntax.TupleConsExpr); is {
		for _, x := range list.Exprs[:min(len(list.Exprs), 3)] {
			t, good := d.text(x, 16, help)
			if !good {
				return 0, 0, false
			}
			ends = append(ends, t.s)
		}
	} else {
		t, good := d.text(expr, 40, help)
		if !good {
			return 0, 0, false
		}
		ends = strings.FieldsFunc(strings.ReplaceAll(t.s, " to ", "-"),
			func(r rune) bool { return r == '-' || r == '–' || r == ' ' })
	}
	if len(ends) != 2 {
		d.rep.Errorf(rng, "A range has two ends", "%s", help)
		return 0, 0, false
	}
	low, okL := noteNumber(ends[0])
	high, okH := noteNumber(ends[1])
	if !okL || !okH {
		for i, ok := range [...]bool{okL, okH} {
			if !ok {
				ends[i] = englishNote(ends[i])
			}
		}
		if ends[0] != "" && ends[1] != "" {
			e := d.rep.Errorf(rng, "Not a range of notes",
				"Notes have their English names here, with capital letters: range = [%q, %q].", ends[0], ends[1])
			low, _ = noteNumber(ends[0])
			if high, _ = noteNumber(ends[1]); low < high {
				e.Write(rng, fmt.Sprintf("[%q, %q]", ends[0], ends[1]))
			}
			return 0, 0, false
		}
		d.rep.Errorf(rng, "Not a range of notes", "%s", help)
		return 0, 0, false
	}
	if low >= high {
		e := d.rep.Errorf(rng, "A range the wrong way round",
			"The lowest note stands first: range = [\"%s\", \"%s\"].", ends[1], ends[0])
		if low > high {
			e.Write(rng, fmt.Sprintf("[%q, %q]", ends[1], ends[0]))
		}
		return 0, 0, false
	}
	return low, high, true
}
