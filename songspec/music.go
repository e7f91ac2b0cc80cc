package songspec

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// setting reads a setting that is allowed on several levels. It returns false when a is no
// such setting.
func (d *decoder) setting(to *settings, a *hclsyntax.Attribute) bool {
	switch a.Name {
	case "key":
		to.key = d.key(a.Expr)
	case "meter":
		to.meter = d.meter(a.Expr)
		to.meterUnread = to.meter == nil
	case "tempo":
		if d.calledATempo(a.Expr) != "" {
			d.rep.Errorf(a.Expr.Range(), "A tempo outside a bars block",
				"It is the pass's own tempo again, from a bar on: bars \"5-\" { tempo = %q }.", aTempo)
			return true
		}
		if to.tempo = d.guidesTempo(a.Expr); to.tempo == nil {
			to.tempo = d.tempo(a.Expr, "the tempo, in beats a minute,")
		}
	case "feel":
		to.feel = d.text(a.Expr, 64, `The feel is its name in quotes: feel = "waltz".`)
	case "energy":
		to.energy = d.energy(a.Expr)
	case "tacet":
		to.tacet = d.players(a.Expr, `Who stays out is a list of players: tacet = ["drums"].`, true)
	case "fills":
		to.fills = d.flag(a.Expr, "Fills")
	case "lead":
		to.lead = d.flag(a.Expr, "Lead")
	default:
		return false
	}
	return true
}

func (d *decoder) key(expr hclsyntax.Expression) *said[harmony.Key] {
	t := d.text(expr, 64, `A key is written like "Eb major", "C minor", or short: "Eb", "Cm".`)
	if t == nil {
		return nil
	}
	k, err := harmony.ParseKey(t.v)
	if err != nil {
		e, word := reportSymbol(&d.rep, t.rng, -1, fmt.Sprintf("Not a key: %q", t.v), err)
		if _, err := harmony.ParseKey(word); err == nil {
			e.WriteText(t.rng, word)
		}
		return nil
	}
	return &said[harmony.Key]{k, t.rng}
}

// reportSymbol reports an error of package harmony, and returns the symbol to write instead.
// off is where the symbol's text begins in the file; if it is known, the message points only
// at the part that is wrong.
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
		rng = rep.In(rng).Range(off+se.Offset, off+se.Offset+se.Length)
	}
	return rep.Errorf(rng, summary, "%s", detail), se.Suggest
}

func (d *decoder) meter(expr hclsyntax.Expression) *said[meter.Meter] {
	const help = `A meter is written like "4/4", "12/8" or "7/8 2+2+3".`
	if b, ok := expr.(*hclsyntax.BinaryOpExpr); ok && plain(b) { // meter = 3/4
		e := d.rep.Errorf(expr.Range(), "A meter without quotes", "Write meter = \"%s\".",
			strings.ReplaceAll(d.show(expr.Range()), " ", ""))
		if m, err := meter.Parse(strings.ReplaceAll(d.written(expr.Range()), " ", "")); err == nil {
			e.WriteText(expr.Range(), m.String())
		}
		return nil
	}
	t := d.text(expr, 64, help)
	if t == nil {
		return nil
	}
	m, err := meter.Parse(t.v)
	if err != nil {
		if w := meterCalled[strings.ToLower(strings.TrimSpace(t.v))]; w != "" {
			d.rep.Errorf(t.rng, "Not a meter", "A meter is written in figures: %q.", w).WriteText(t.rng, w)
			return nil
		}
		if w := meterMeant(t.v); w != "" {
			d.rep.Errorf(t.rng, "Not a meter", "Write meter = %q.", w).WriteText(t.rng, w)
			return nil
		}
		why := help
		if s := wording.Sentence("%s. ", err); !strings.HasPrefix(s, "A meter is written like") { // help says so too
			why = s + help
		}
		d.rep.Errorf(t.rng, "Not a meter", "%s", why)
		return nil
	}
	return &said[meter.Meter]{m, t.rng}
}

func (d *decoder) energy(expr hclsyntax.Expression) *said[[2]int] {
	if d.energyInWords(expr) {
		return nil
	}
	ends := []hclsyntax.Expression{expr, expr}
	if t, ok := expr.(*hclsyntax.TupleConsExpr); ok {
		ends = t.Exprs
	}
	if len(ends) != 2 {
		d.rep.Errorf(expr.Range(), "Energy moves from one to another", "Write two figures: energy = [2, 4].")
		return nil
	}
	from, to := d.whole(ends[0], "the energy", 1, 5), d.whole(ends[1], "the energy", 1, 5)
	if from == nil || to == nil {
		return nil
	}
	return &said[[2]int]{[2]int{from.v, to.v}, expr.Range()}
}

// players reads a list of players, in which the word for all of them may stand or not. nil after an
// error.
func (d *decoder) players(expr hclsyntax.Expression, help string, all bool) *said[timeline.Players] {
	items, ok := d.list(expr, help)
	if !ok {
		return nil
	}
	if len(items) > 16 {
		d.rep.Errorf(expr.Range(), "Too many players", "The band has three: drums, bass and piano.")
		return nil
	}
	out := &said[timeline.Players]{rng: expr.Range()}
	for _, x := range items {
		t := d.text(x, 64, help)
		if t == nil {
			ok = false
			continue
		}
		if p := slices.Index(timeline.PlayerNames[:], t.v); p >= 0 {
			out.v |= timeline.Only(timeline.Player(p))
			continue
		}
		if all && t.v == everybodyWord {
			out.v = timeline.All
			continue
		}
		help := offer(t.v, timeline.PlayerNames[:], "a player")
		if word := strings.ToLower(t.v); everybody[word] {
			help = advice{says: "Leave by out: without it everybody is meant."}
			if all {
				help = isIt(everybodyWord)
			}
		} else if p := playerCalled[word]; p != "" {
			help = isIt(p)
		} else if notInBand[strings.TrimSuffix(word, "s")] {
			help = advice{says: "The band has drums, bass and piano. For everybody else a cue says what comes: " +
				"cue \"3: 1\" { text = " + hcltext.Quote(word) + " }."}
		}
		d.rep.Errorf(t.rng, fmt.Sprintf("No player %q", t.v), "%s", help.says).WriteText(t.rng, help.word)
		ok = false
	}
	if !ok {
		return nil
	}
	return out
}

// note reads a note with its octave, "A4", as a MIDI note number; C4 is 60. For a note in
// another language the message has the English name, which is a fix if the note is from lowest
// to highest.
func (d *decoder) note(expr hclsyntax.Expression, like string, lowest, highest int) (int, bool) {
	help := "A note is its letter and its octave in quotes, C4 being middle C: " + like + "."
	t := d.text(expr, 16, help)
	if t == nil {
		return 0, false
	}
	n, ok := harmony.ParsePitch(t.v)
	if !ok {
		english := englishNote(t.v)
		if english != "" {
			help = fmt.Sprintf("Notes have their English names here, with a capital letter: write %q.", english)
		}
		e := d.rep.Errorf(t.rng, fmt.Sprintf("Not a note: %q", t.v), "%s", help)
		if n, _ := harmony.ParsePitch(english); n >= lowest && n <= highest {
			e.WriteText(t.rng, english)
		}
	}
	return n, ok
}

// englishNote is the English name of a note that is written in another language or with a
// small letter; "" when it is not such a note.
func englishNote(s string) string {
	i := strings.IndexAny(s, "0123456789-")
	if i < 1 {
		return ""
	}
	name := harmony.English(strings.TrimSpace(s[:i])) + s[i:]
	if _, ok := harmony.ParsePitch(name); !ok {
		return ""
	}
	return name
}

// singerRange reads "A3-D5", or ["A3", "D5"], and has it in words as it is written, too: "A3 to D5".
// It is 0 and "" after an error.
func (d *decoder) singerRange(expr hclsyntax.Expression) (low, high int, written string) {
	const help = `The singer's range is the lowest and the highest note: range = ["A3", "D5"].`
	rng := expr.Range()
	var ends []string
	if list, is := expr.(*hclsyntax.TupleConsExpr); is {
		for _, x := range list.Exprs[:min(len(list.Exprs), 3)] {
			t := d.text(x, 16, help)
			if t == nil {
				return 0, 0, ""
			}
			ends = append(ends, t.v)
		}
	} else if t := d.text(expr, 40, help); t != nil {
		ends = strings.FieldsFunc(strings.ReplaceAll(t.v, " to ", "-"),
			func(r rune) bool { return r == '-' || r == '–' || r == ' ' })
	} else {
		return 0, 0, ""
	}
	if len(ends) != 2 {
		d.rep.Errorf(rng, "A range has two ends", "%s", help)
		return 0, 0, ""
	}
	english := false
	for i, end := range ends {
		if _, ok := harmony.ParsePitch(end); !ok {
			ends[i], english = englishNote(end), true
		}
	}
	low, okLow := harmony.ParsePitch(ends[0])
	high, okHigh := harmony.ParsePitch(ends[1])
	switch {
	case !okLow || !okHigh:
		d.rep.Errorf(rng, "Not a range of notes", "%s", help)
	case english:
		e := d.rep.Errorf(rng, "Not a range of notes",
			"Notes have their English names here, with capital letters: range = [%q, %q].", ends[0], ends[1])
		if low < high {
			e.Write(rng, fmt.Sprintf("[%q, %q]", ends[0], ends[1]))
		}
	case low >= high:
		e := d.rep.Errorf(rng, "A range the wrong way round",
			"The lowest note stands first: range = [\"%s\", \"%s\"].", ends[1], ends[0])
		if low > high {
			e.Write(rng, fmt.Sprintf("[%q, %q]", ends[1], ends[0]))
		}
	default:
		return low, high, ends[0] + " to " + ends[1]
	}
	return 0, 0, ""
}
