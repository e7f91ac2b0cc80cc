package room

import (
	"fmt"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// fileBarWords says in which bar of the MIDI file bar 1 of the song stands; "" where the
// numbers agree.
func (r *Report) fileBarWords() string {
	if r.FileBar <= 1 {
		return ""
	}
	return fmt.Sprintf("bar 1 of the song is bar %d of the file: add %d to the bars here", r.FileBar, r.FileBar-1)
}

// passMarks says what is notable about pass i: the climax, a lift, the written tempo where another is
// played, what its players play on, which of several singers
// sing, who comes in, who keeps out.
func (r *Report) passMarks(i int) string {
	s := &r.Passes[i]
	var out []string
	if i == r.Climax.Pass {
		out = append(out, "climax")
	}
	if s.Lift != 0 {
		out = append(out, fmt.Sprintf("lift %+d", s.Lift))
	}
	if s.Played != s.BPM {
		out = append(out, "written "+s.BPM.String())
	}
	for _, w := range s.Band {
		out = append(out, w[0]+" "+w[1])
	}
	if who := r.whoSings(i); who != "" {
		out = append(out, who)
	}
	was := timeline.All
	if i > 0 {
		was = r.Passes[i-1].Plays
	}
	if in := (s.Plays &^ was).Names(); len(in) > 0 {
		out = append(out, wording.And(in)+" in")
	}
	if no := (timeline.All &^ s.Plays).Names(); s.Plays == 0 {
		out = append(out, "nobody plays")
	} else if len(no) > 0 {
		out = append(out, "no "+strings.Join(no, " or "))
	}
	return strings.Join(out, ", ")
}

// insideWords is what changes inside pass i: "energy 1 from bar 5; energy 4 from bar 7".
func (r *Report) insideWords(i int) string {
	var out []string
	for _, c := range r.Passes[i].Inside {
		word := fmt.Sprintf("%s %s from bar %d", c.What, c.Is, r.Passes[i].FirstBar+c.Bar)
		if c.Count != "" {
			word += " count " + c.Count
		}
		out = append(out, word)
	}
	return strings.Join(out, "; ")
}

// energyWords is the energy of pass i: "3", or "3 to 5" where it moves.
func (r *Report) energyWords(i int) string { return r.tl.Passes[i].EnergyText() }

// windowName names the pass in which a window begins, and says where a space made it.
func (r *Report) windowName(w guide.Window) string {
	name := "before bar 1"
	if w.Pass >= 0 && w.Pass < len(r.Passes) {
		name = r.Passes[w.Pass].Name
	}
	if w.Space {
		name += ", a space"
	}
	return name
}

// shortCount drops the number of a count between two whole ones: "2&" becomes "&".
func shortCount(c string) string {
	if n := len(c); n > 1 && (c[n-1] < '0' || c[n-1] > '9') {
		return c[n-1:]
	}
	return c
}

// tenthsDigit is how many of ten bars a number of 100 comes to, in one character: "." for
// none, "#" for all, "9" for almost all.
func tenthsDigit(per100 int) string {
	switch n := (per100 + 5) / 10; {
	case per100 == 0:
		return "."
	case per100 == 100:
		return "#"
	case n == 10:
		return "9"
	default:
		return fmt.Sprintf("%d", n)
	}
}

// barsWord is "bar 5" or "bars 5-8".
func barsWord(first, last int) string {
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d-%d", first, last)
}

// beatWords writes thousandths of a beat to tenths: "1 beat", "6 beats", "2.5 beats". Singers are
// not more exact.
func beatWords(thousandths int64) string {
	s := beatFigure(thousandths)
	if s == "1" {
		return "1 beat"
	}
	return s + " beats"
}

// durationWords is "4.2 s", from a minute on "1:05".
func durationWords(micros int64) string {
	if micros >= 59_950_000 {
		return timeline.MinSec(micros)
	}
	t := (micros + 50_000) / 100_000
	return fmt.Sprintf("%d.%d s", t/10, t%10)
}

// shortList is a wording.And of at most limit items: the last one counts the rest.
func shortList(s []string, limit int) string {
	if len(s) > limit {
		s = append(s[:limit-1:limit-1], fmt.Sprintf("%d more", len(s)-limit+1))
	}
	return wording.And(s)
}

// capitalized makes the first letter of s a capital.
func capitalized(s string) string {
	if s == "" {
		return s
	}
	c := []rune(s)
	return strings.ToUpper(string(c[:1])) + string(c[1:])
}

// beatFigure is the number of beats alone: "6", "2.5".
func beatFigure(thousandths int64) string { return wording.Thousandths((thousandths + 50) / 100 * 100) }
