package room

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"plinth/songspec/timeline"
)

// Text writes the report as plain text, in lines of 80 columns unless a name is longer.
// The error is that of w.
func (r *Report) Text(w io.Writer) error {
	var b bytes.Buffer
	r.textHead(&b)
	r.textWindows(&b)
	b.WriteString("\nREGISTERS  what is used, 5th to 95th percentile, and what is free\n")
	for _, s := range r.scopes(true) {
		r.textRegister(&b, s)
	}
	b.WriteString("\nCOUNTS  in how many bars of ten somebody attacks there; # every bar, . none;\n  o is free: " +
		andList(pitchedNames()) + " attack in fewer than one bar of four\n")
	for _, s := range r.scopes(false) { // passes of one section have the same groove
		r.textGrid(&b, s)
	}
	r.textHeld(&b)
	r.textHits(&b)
	if len(r.Hints) > 0 {
		b.WriteString("\nHINTS\n")
		for _, h := range r.Hints {
			wrap(&b, fmt.Sprintf("%s: %s", capitalized(h.Where), h.Say), "  ", "    ")
			wrap(&b, "why: "+h.Why, "    ", "    ")
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

// textHead writes the title, the song in figures, and the energy of each pass.
func (r *Report) textHead(b *bytes.Buffer) {
	fmt.Fprintf(b, "ROOM  %s\n", r.Title)
	fmt.Fprintf(b, "%d bars, %s, %s\n", r.Bars, timeline.MinSec(r.Micros), r.voiceSource())
	if t := r.fileBarWords(); t != "" {
		b.WriteString(t + "\n")
	}
	b.WriteString("\nENERGY  with key and tempo\n")
	width, keys := r.nameWidth(), 7
	for i := range r.Passes {
		keys = max(keys, len(r.Passes[i].Key.String()))
	}
	for i := range r.Passes {
		s := &r.Passes[i]
		line := fmt.Sprintf("  bar %3d  %-*s  %-6s %-15s  %-*s %3d  %s", s.FirstBar, width, s.Name, energyWords(s),
			strings.Repeat("#", 3*max(s.EnergyFrom, s.EnergyTo)), keys, s.Key, s.BPM,
			strings.Join(r.passMarks(i), ", "))
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	if t := r.climaxWords(); t != "" {
		wrap(b, t, "  ", "  ")
	}
}

// nameWidth is the width of the column of pass names, at most 24: longer names stick out.
func (r *Report) nameWidth() int {
	width := 8
	for i := range r.Passes {
		width = max(width, len([]rune(r.Passes[i].Name)))
	}
	return min(width, 24)
}

// fileBarWords says in which bar of the MIDI file bar 1 of the song stands; "" where the
// numbers agree.
func (r *Report) fileBarWords() string {
	if r.FileBar <= 1 {
		return ""
	}
	return fmt.Sprintf("bar 1 of the song is bar %d of the file: add %d to the bars here", r.FileBar, r.FileBar-1)
}

// passMarks says what is notable about pass i: the climax, a lift, who comes in, who keeps
// out.
func (r *Report) passMarks(i int) []string {
	s := &r.Passes[i]
	out := []string{}
	if i == r.Climax.Pass {
		out = append(out, "climax")
	}
	if s.Lift != 0 {
		out = append(out, fmt.Sprintf("lift %+d", s.Lift))
	}
	was := timeline.All
	if i > 0 {
		was = r.Passes[i-1].Plays
	}
	if in := (s.Plays &^ was).Names(); len(in) > 0 {
		out = append(out, andList(in)+" in")
	}
	if s.Plays == 0 {
		return append(out, "nobody plays")
	}
	if no := (timeline.All &^ s.Plays).Names(); len(no) > 0 {
		out = append(out, "no "+strings.Join(no, " or "))
	}
	return out
}

// voiceSource says where the voice comes from, or why nothing is known of it.
func (r *Report) voiceSource() string {
	switch {
	case r.tl.Vocal == nil:
		return "no guide vocal: only the spaces of the song file are known"
	case r.Song.Voice == nil:
		return "the guide vocal is silent"
	}
	return fmt.Sprintf("voice from %q", r.Voice)
}

// energyWords is "3", or "3 to 5" for a pass that moves.
func energyWords(s *Scope) string {
	if s.EnergyFrom == s.EnergyTo {
		return fmt.Sprintf("%d", s.EnergyFrom)
	}
	return fmt.Sprintf("%d to %d", s.EnergyFrom, s.EnergyTo)
}

// firstPass is the index of the first pass of the same section as pass i.
func (r *Report) firstPass(i int) int {
	for j := range r.tl.Passes {
		if r.tl.Passes[j].Section == r.tl.Passes[i].Section {
			return j
		}
	}
	return i
}

// textRegister writes what the parts use in a stretch, and what is free.
func (r *Report) textRegister(b *bytes.Buffer, s namedScope) {
	fmt.Fprintf(b, "  %s\n", capitalized(s.name))
	for _, p := range s.registers() {
		if p.part == nil {
			fmt.Fprintf(b, "    %-6s %s\n", p.name, r.silenceWord(p.name))
			continue
		}
		fmt.Fprintf(b, "    %-6s %-11s  %s attacks a beat\n", p.name, r.pitchRange(p.part.P5, p.part.P95, *s.Scope),
			attacksPerBeat(p.part))
	}
	for _, f := range s.Free {
		line := fmt.Sprintf("free   %-11s", r.pitchRange(f.Low, f.High, *s.Scope))
		if len(f.Seats) > 0 {
			line += "  " + strings.Join(instrumentNames(f.Seats), ", ")
		} else {
			line += "  no octave for anybody"
		}
		wrap(b, line, "    ", "                        ")
	}
}

// silenceWord is what the report says of a part without a note: without a guide vocal the
// voice is unknown.
func (r *Report) silenceWord(part string) string {
	if part == "voice" && r.tl.Vocal == nil {
		return "unknown"
	}
	return "silent"
}

// textGrid writes in how many bars each part attacks on each step.
func (r *Report) textGrid(b *bytes.Buffer, s namedScope) {
	g := &s.Grid
	if len(g.Steps) == 0 {
		return
	}
	fmt.Fprintf(b, "  %s, %d bars of %s\n", capitalized(s.name), g.Bars, g.Meter)
	head := "    count "
	for _, st := range g.Steps {
		head += fmt.Sprintf("%-3s", shortCount(st.Count))
	}
	b.WriteString(strings.TrimRight(head, " ") + "\n")
	row := func(name string, cell func(Step) string) {
		line := fmt.Sprintf("    %-6s", name)
		for _, st := range g.Steps {
			line += fmt.Sprintf("%-3s", cell(st))
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	for _, a := range r.knownRows() {
		row(a.name, func(s Step) string { return tenthsDigit(a.at(s)) })
	}
	row("free", func(s Step) string {
		if s.Free {
			return "o"
		}
		return ""
	})
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

// wrap writes s in lines of at most 80 columns, broken at blanks. The first line begins
// with first, the others with rest.
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
