package score

import (
	"bufio"
	"fmt"
	"io"
	"math/big"
	"strings"

	"plinth/groove/feel"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// Write writes the score of a pass as text to read: what is said of its stretches, then
// bar by bar a line for every place at which somebody strikes, the players side by side.
// What is pushed out of the pass stands as many quarters ahead of its first bar.
//
// A note is its instrument or pitch and its written length in quarters; after a colon
// stands the length that is meant, where it is another. Before it may stand "<" for what
// comes ahead of its beat, after it one ">" for each weight of an accent, "~" for what
// rings, "/" for a spread chord, "x" for a dead note, "," for a grace stroke; a ghost
// stroke stands in brackets.
func Write(w io.Writer, p *timeline.Pass, s *Pass) error {
	out := bufio.NewWriter(w)
	fmt.Fprintln(out, p.Name())
	for _, r := range s.Regions {
		fmt.Fprintf(out, "  %s\n", r.describe(p))
	}
	for who := range s.Parts {
		part := &s.Parts[who]
		var said []string
		for _, r := range part.Regions {
			said = append(said, r.describe(p))
		}
		for _, g := range part.Groups {
			said = append(said, g.describe(p))
		}
		fmt.Fprintf(out, "  %s: %s\n", timeline.Player(who), strings.Join(said, "; "))
	}
	t := text{p: p, s: s, at: make([]int, len(s.Parts))}
	for bar := range p.Bars {
		fmt.Fprintf(out, "%4d | %s\n", bar+1, strings.Join(strings.Fields(p.Bars[bar].Text), " "))
		for {
			at, ok := t.next(bar)
			if !ok {
				break
			}
			fmt.Fprintln(out, t.line(bar, at))
		}
	}
	return out.Flush()
}

// text is a score on its way to text.
type text struct {
	p  *timeline.Pass
	s  *Pass
	at []int // the next note of each part
}

// next is the next place of a bar at which somebody strikes; the first bar has what is
// pushed out of the pass, too, and the last what is pushed into the next.
func (t *text) next(bar int) (int64, bool) {
	end := t.p.Bars[bar].Start + t.p.Bars[bar].Length
	if bar == len(t.p.Bars)-1 {
		end = 1 << 62
	}
	best, ok := end, false
	for who := range t.s.Parts {
		if notes := t.s.Parts[who].Notes; t.at[who] < len(notes) && notes[t.at[who]].At < best {
			best, ok = notes[t.at[who]].At, true
		}
	}
	return best, ok
}

// line is all that begins at a place.
func (t *text) line(bar int, at int64) string {
	var columns []string
	for who := range t.s.Parts {
		var notes []string
		part := &t.s.Parts[who]
		for ; t.at[who] < len(part.Notes) && part.Notes[t.at[who]].At == at; t.at[who]++ {
			notes = append(notes, t.note(&part.Notes[t.at[who]]))
		}
		width := 22
		if who == 0 {
			width = 46 // the kit has the most at once
		}
		columns = append(columns, fmt.Sprintf("%-*s", width, strings.Join(notes, ", ")))
	}
	b := &t.p.Bars[bar]
	place := "-" + quarters(int32(-at)) // pushed out of the pass
	if at >= 0 {
		place = b.Meter.CountAt(at - b.Start)
	}
	return strings.TrimRight(fmt.Sprintf("     %-6s %s", place, strings.Join(columns, " | ")), " |")
}

func (t *text) note(n *Note) string {
	name := n.Voice.String()
	if !n.Voice.OnKit() {
		name = guide.PitchName(int(n.Key), t.p.KeyAt(n.At))
	}
	if n.Voice == Left {
		name = "left " + name
	}
	if n.Value > 0 {
		name += " " + quarters(n.Value)
	}
	if n.Held != n.Value && !n.Voice.OnKit() {
		name += ":" + quarters(n.Held)
	}
	if n.Touch == feel.Ghost {
		name = "(" + name + ")"
	}
	if n.Art.Has(Pushed) {
		name = "<" + name
	}
	if n.Art.Has(Accent) {
		name += strings.Repeat(">", int(t.s.Cues.List[n.Cue].Weight))
	}
	for _, m := range [...]struct {
		art  Art
		sign string
	}{{Rings, "~"}, {Rolled, "/"}, {Dead, "x"}, {Grace, ","}, {Short, "."}} {
		if n.Art.Has(m.art) {
			name += m.sign
		}
	}
	return name
}

// quarters writes ticks as quarters: "1", "1/2", "1+2/3".
func quarters(ticks int32) string {
	const quarter = 960
	whole, rest := ticks/quarter, big.NewRat(int64(ticks%quarter), quarter)
	switch {
	case rest.Sign() == 0:
		return fmt.Sprint(whole)
	case whole > 0:
		return fmt.Sprintf("%d+%s", whole, rest)
	}
	return rest.String()
}

func (r *Region) describe(p *timeline.Pass) string {
	bars := span(p, r.From, r.To)
	switch r.Kind {
	case Phrase:
		return fmt.Sprintf("phrase %d, %s", r.Index+1, bars)
	case Swing:
		return fmt.Sprintf("swung %ss, %d.%02d to 1", r.Name, r.Index/1000, r.Index%1000/10)
	case Tacet:
		return "tacet"
	}
	return r.Name + ", " + bars
}

func (g *Group) describe(p *timeline.Pass) string {
	b := p.Bars[p.BarAt(g.At)]
	s := fmt.Sprintf("%s at %d: %s", groupWords[g.Kind], p.BarAt(g.At)+1, b.Meter.CountAt(max(g.At, 0)-b.Start))
	if g.Name != "" {
		s += " " + g.Name
	}
	if g.Num > 0 {
		s += fmt.Sprintf(", %d for %d", g.Num, g.Den)
	}
	return s
}

var groupWords = [...]string{Fill: "fill", Roll: "spread chord", Broken: "broken chord", Answer: "answer"}

// span is a stretch in bars.
func span(p *timeline.Pass, from, to int64) string {
	first, last := p.BarAt(from)+1, p.BarAt(to-1)+1
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d-%d", first, last)
}
