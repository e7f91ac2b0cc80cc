package room

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"plinth/songspec/timeline"
)

// Text writes the report as text, 80 columns wide but for long names.
func (r *Report) Text(w io.Writer) error {
	var b bytes.Buffer
	r.textHead(&b)
	r.textWindows(&b)
	b.WriteString("\nREGISTERS  what is used, 5th to 95th percentile, and what is free\n")
	r.textRegister(&b, &r.Song, "the song")
	for i := range r.Passes {
		r.textRegister(&b, &r.Passes[i], r.Passes[i].Name)
	}
	b.WriteString("\nCOUNTS  in how many bars of ten somebody attacks there; # in every bar\n")
	r.textGrid(&b, &r.Song, "the song")
	for i := range r.Passes {
		if first := r.firstPass(i); first == i { // passes of one section are laid out alike
			r.textGrid(&b, &r.Passes[i], r.Passes[i].Name)
		}
	}
	r.textHits(&b)
	if len(r.Hints) > 0 {
		b.WriteString("\nHINTS\n")
		for _, h := range r.Hints {
			wrap(&b, fmt.Sprintf("%s: %s", capital(h.Where), h.Say), "  ", "    ")
			wrap(&b, "why: "+h.Why, "    ", "    ")
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func (r *Report) textHead(b *bytes.Buffer) {
	fmt.Fprintf(b, "ROOM  %s\n", r.Title)
	fmt.Fprintf(b, "%d bars, %s, %s\n", r.Bars, minutes(r.Micros), r.voiceWords())
	b.WriteString("\nENERGY\n")
	width := 8
	for _, s := range r.Passes {
		width = max(width, len([]rune(s.Name)))
	}
	for i := range r.Passes {
		s := &r.Passes[i]
		mark := ""
		if i == r.Climax.Pass {
			mark = "  climax"
		}
		fmt.Fprintf(b, "  bar %4d  %-*s  %-5s  %s%s\n", s.FirstBar, width, s.Name, energy(s), pad(strings.Repeat("#", 4*max(s.EnergyFrom, s.EnergyTo)), 20, mark != ""), mark)
	}
	if r.Climax.Pass >= 0 {
		wrap(b, fmt.Sprintf("The climax is %s, bar %d: %s.", r.Passes[r.Climax.Pass].Name, r.Climax.Bar, r.Climax.Why), "  ", "  ")
	}
}

func pad(s string, n int, on bool) string {
	if on {
		return fmt.Sprintf("%-*s", n, s)
	}
	return s
}

// voiceWords says where the voice was taken from.
func (r *Report) voiceWords() string {
	switch {
	case r.tl.Vocal == nil:
		return "no guide vocal: only the spaces of the song file are known"
	case r.Song.Voice == nil:
		return "the guide vocal is silent"
	}
	return fmt.Sprintf("voice from %q", r.Voice)
}

func energy(s *Scope) string {
	if s.EnergyFrom == s.EnergyTo {
		return fmt.Sprintf("%d", s.EnergyFrom)
	}
	return fmt.Sprintf("%d to %d", s.EnergyFrom, s.EnergyTo)
}

// firstPass is the first pass of the same section.
func (r *Report) firstPass(i int) int {
	for j := range r.tl.Passes {
		if r.tl.Passes[j].Section == r.tl.Passes[i].Section {
			return j
		}
	}
	return i
}

func (r *Report) textWindows(b *bytes.Buffer) {
	b.WriteString("\nWINDOWS  the voice is silent for a beat or more\n")
	if len(r.Windows) == 0 {
		b.WriteString("  none\n")
	}
	for _, w := range r.Windows {
		fmt.Fprintf(b, "  %-19s to %-19s %12s %8s  %s\n", w.From, w.To, beats(w.Beats), seconds(w.Micros), r.windowName(w))
	}
	if len(r.Windows) > 1 {
		b.WriteString("  by pass\n")
		for i := range r.Passes {
			s := &r.Passes[i]
			sum, micros := int64(0), int64(0)
			for _, w := range s.Windows {
				sum, micros = sum+w.Beats, micros+w.Micros
			}
			if sum > 0 {
				fmt.Fprintf(b, "    %-*s %d, %s in all, %s\n", 20, s.Name, len(s.Windows), beats(sum), seconds(micros))
			}
		}
	}
}

func (r *Report) textRegister(b *bytes.Buffer, s *Scope, name string) {
	fmt.Fprintf(b, "  %s\n", capital(name))
	for _, p := range s.parts() {
		if p.part == nil {
			fmt.Fprintf(b, "    %-6s %s\n", p.name, r.silence(p.name))
			continue
		}
		fmt.Fprintf(b, "    %-6s %-11s  %s attacks a beat\n", p.name, r.band(p.part.P5, p.part.P95, *s), attacks(p.part))
	}
	for _, f := range s.Free {
		line := fmt.Sprintf("free   %-11s", r.band(f.Low, f.High, *s))
		if len(f.Seats) > 0 {
			line += "  " + strings.Join(names(f.Seats), ", ")
		} else {
			line += "  no octave for anybody"
		}
		wrap(b, line, "    ", "                        ")
	}
}

// silence is what is said of a part without a note: of the voice nothing is known
// when there is no guide.
func (r *Report) silence(part string) string {
	if part == "voice" && r.tl.Vocal == nil {
		return "unknown"
	}
	return "silent"
}

type namedPart struct {
	name string
	part *Part
}

// parts are the lines that have a register, from the top.
func (s *Scope) parts() []namedPart {
	return []namedPart{{"voice", s.Voice}, {"piano", s.Piano}, {"bass", s.Bass}}
}

func (r *Report) textGrid(b *bytes.Buffer, s *Scope, name string) {
	g := &s.Grid
	if len(g.Steps) == 0 {
		return
	}
	fmt.Fprintf(b, "  %s, %d bars of %s\n", capital(name), g.Bars, g.Meter)
	head := "    count "
	rows := []struct {
		name string
		of   func(Step) string
	}{
		{"voice", func(s Step) string { return tenth(s.Voice) }},
		{"piano", func(s Step) string { return tenth(s.Piano) }},
		{"bass", func(s Step) string { return tenth(s.Bass) }},
		{"drums", func(s Step) string { return tenth(s.Drums) }},
		{"free", func(s Step) string {
			if s.Free {
				return "o"
			}
			return " "
		}},
	}
	for _, st := range g.Steps {
		head += fmt.Sprintf("%-3s", countShort(st.Count))
	}
	b.WriteString(strings.TrimRight(head, " ") + "\n")
	for _, row := range rows {
		if row.name == "voice" && r.tl.Vocal == nil {
			continue
		}
		line := fmt.Sprintf("    %-6s", row.name)
		for _, st := range g.Steps {
			line += fmt.Sprintf("%-3s", row.of(st))
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

// countShort leaves the number off a count between two whole ones.
func countShort(c string) string {
	if n := len(c); n > 1 && (c[n-1] < '0' || c[n-1] > '9') {
		return c[n-1:]
	}
	return c
}

func tenth(per100 int) string {
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

func (r *Report) textHits(b *bytes.Buffer) {
	if len(r.Song.Hits) == 0 {
		return
	}
	b.WriteString("\nHITS\n")
	for i := range r.Passes {
		s := &r.Passes[i]
		for _, k := range []timeline.EventKind{timeline.Accent, timeline.Push, timeline.Stop} {
			if l := hitLine(s.Hits, k); l != "" {
				wrap(b, fmt.Sprintf("%-12s %-7s %s", s.Name, k, l), "  ", "                       ")
			}
		}
	}
}

// wrap writes s in lines of 80 columns at most, broken at blanks.
func wrap(b *bytes.Buffer, s, first, rest string) {
	line := first
	empty := true
	for _, word := range strings.SplitAfter(s, " ") {
		if !empty && len([]rune(line))+len([]rune(strings.TrimRight(word, " "))) > 80 {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = rest
		}
		line += word
		empty = false
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
}
