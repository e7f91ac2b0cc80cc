package room

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"plinth/songspec/guide"
	"plinth/songspec/wording"
)

// HTML writes the report as one page: the picture, the hints, and every figure in a table.
// The page has no script and loads nothing. The error is that of w.
func (r *Report) HTML(w io.Writer) error {
	var b bytes.Buffer
	title := escape("The room in " + r.Title)
	fmt.Fprintf(&b, pageHead, title, pageStyle, title)
	if err := r.SVG(&b); err != nil {
		return err
	}
	r.htmlHints(&b)
	r.htmlEnergy(&b)
	r.htmlWindows(&b)
	r.htmlRegisters(&b)
	r.htmlCounts(&b)
	r.htmlHeld(&b)
	r.htmlHits(&b)
	b.WriteString(pageFoot)
	_, err := w.Write(b.Bytes())
	return err
}

// htmlSection writes a heading with a note under it, which may be empty.
func htmlSection(b *bytes.Buffer, heading, note string) {
	fmt.Fprintf(b, "<h2>%s</h2>\n", heading)
	htmlNote(b, note)
}

// htmlNote writes a paragraph of plain text, nothing for an empty one.
func htmlNote(b *bytes.Buffer, text string) {
	if text != "" {
		fmt.Fprintf(b, "<p class=\"note\">%s</p>\n", escape(text))
	}
}

// htmlTable begins a table with the names of its columns; htmlTableEnd ends it.
func htmlTable(b *bytes.Buffer, columns ...string) {
	fmt.Fprintf(b, "<table>\n<thead><tr><th>%s</th></tr></thead>\n<tbody>\n", strings.Join(columns, "</th><th>"))
}

const htmlTableEnd = "</tbody>\n</table>\n"

// numberCell is a table cell with a figure, aligned at the right.
func numberCell(figure any) string { return fmt.Sprintf("<td class=\"n\">%v</td>", figure) }

// textCell is a table cell with words, which it escapes.
func textCell(words string) string { return "<td>" + escape(words) + "</td>" }

// htmlHints writes the hints as a list.
func (r *Report) htmlHints(b *bytes.Buffer) {
	if len(r.Hints) == 0 {
		return
	}
	htmlSection(b, "Hints", "")
	b.WriteString("<dl>\n")
	for _, h := range r.Hints {
		fmt.Fprintf(b, "<dt>%s</dt>\n<dd>%s</dd>\n<dd class=\"why\">%s</dd>\n", escape(capitalized(h.Where)),
			escape(h.Say),
			escape(h.Why))
	}
	b.WriteString("</dl>\n")
}

// htmlEnergy writes the table of energy, key and tempo by pass.
func (r *Report) htmlEnergy(b *bytes.Buffer) {
	htmlSection(b, "Energy", "")
	htmlTable(b, "", "pass", "bar", "energy", "key", "tempo", "lasts", "")
	for i := range r.Passes {
		s := &r.Passes[i]
		b.WriteString("<tr>" + numberCell(i+1) + textCell(s.Name) + numberCell(s.FirstBar) +
			textCell(energyWords(s)+" "+strings.Repeat("■", max(s.EnergyFrom, s.EnergyTo))) +
			textCell(s.Key.String()) +
			numberCell(s.BPM) + numberCell(durationWords(s.Micros)) +
			textCell(strings.Replace(strings.Join(r.passMarks(i), ", "), "climax", "△ climax", 1)) + "</tr>\n")
	}
	b.WriteString(htmlTableEnd)
	htmlNote(b, r.climaxWords())
}

// htmlWindows writes the table of windows.
func (r *Report) htmlWindows(b *bytes.Buffer) {
	htmlSection(b, "Windows", "Where the voice is silent for a beat or more.")
	if len(r.Windows) == 0 {
		b.WriteString("<p>None.</p>\n")
		return
	}
	htmlTable(b, "from bar", "count", "to bar", "count", "beats", "time", "pass", "over")
	for _, w := range r.Windows {
		toBar, toCount := fmt.Sprint(w.To.Bar), w.To.Count
		if w.End >= r.tl.End {
			toBar, toCount = "the end", ""
		}
		b.WriteString("<tr>" + numberCell(w.From.Bar) + textCell(w.From.Count) + numberCell(toBar) + textCell(toCount) +
			numberCell(beatFigure(w.Beats)) + numberCell(durationWords(w.Micros)) + textCell(r.windowName(w)) +
			textCell(strings.Join(r.chordsOver(w), ", ")) + "</tr>\n")
	}
	b.WriteString(htmlTableEnd)
}

// windowName names the pass in which a window begins, and says where a space made it.
func (r *Report) windowName(w guide.Window) string {
	name := "before bar 1"
	if w.Pass >= 0 && w.Pass < len(r.Passes) {
		name = r.Passes[w.Pass].Name
	}
	if w.Space {
		name += ", by a space"
	}
	return name
}

// htmlRegisters writes the table of registers and of what is free.
func (r *Report) htmlRegisters(b *bytes.Buffer) {
	htmlSection(b, "Registers", "What "+andList(pitchedNames())+" use, from the 5th to the 95th percentile of their "+
		"notes, with attacks a beat; then what is free, and which instruments have an octave or more of comfortable "+
		"range there.")
	columns := append([]string{""}, pitchedNames()...)
	htmlTable(b, columns...)
	for _, s := range r.scopes(true) {
		fmt.Fprintf(b, "<tr class=\"pass\"><th>%s</th>", escape(s.name))
		for _, p := range s.registers() {
			if p.part == nil {
				fmt.Fprintf(b, "<td>%s</td>", r.silenceWord(p.name))
				continue
			}
			fmt.Fprintf(b, "<td>%s, %s</td>", escape(r.pitchRange(p.part.P5, p.part.P95, *s.Scope)),
				attacksPerBeat(p.part))
		}
		b.WriteString("</tr>\n")
		for _, f := range s.Free {
			who := "no octave for anybody"
			if len(f.Seats) > 0 {
				who = strings.Join(instrumentNames(f.Seats), ", ")
			}
			fmt.Fprintf(b, "<tr class=\"free\"><td colspan=\"%d\">free <i>%s</i>: %s</td></tr>\n", len(columns),
				escape(r.pitchRange(f.Low, f.High, *s.Scope)), who)
		}
	}
	b.WriteString(htmlTableEnd)
}

// attacksPerBeat writes attacks a beat to hundredths: "1.5".
func attacksPerBeat(p *Part) string { return wording.Thousandths(int64(p.Attacks+5) / 10 * 10) }

// htmlCounts writes a table of attacks by step for the song and for each section.
func (r *Report) htmlCounts(b *bytes.Buffer) {
	htmlSection(b, "Counts", "In how many of the bars somebody attacks there: a full column is every bar. "+
		"○ is free: "+andList(pitchedNames())+" attack there in fewer than one bar of four.")
	b.WriteString("<div class=\"grids\">\n")
	for _, s := range r.scopes(false) {
		g := &s.Grid
		if len(g.Steps) == 0 {
			continue
		}
		b.WriteString("<div class=\"wide\"><table class=\"counts\">\n")
		fmt.Fprintf(b, "<caption style=\"text-align:left;padding-top:.8rem\">%s, %d bars of "+
			"%s</caption>\n<tr><th></th>",
			escape(capitalized(s.name)), g.Bars, escape(g.Meter.String()))
		for _, st := range g.Steps {
			fmt.Fprintf(b, "<th%s>%s</th>", wholeCountClass(st), escape(shortCount(st.Count)))
		}
		b.WriteString("</tr>\n")
		for _, row := range r.knownRows() {
			fmt.Fprintf(b, "<tr><th>%s</th>", row.name)
			for _, st := range g.Steps {
				v := row.at(st)
				fmt.Fprintf(b, "<td%s title=\"%s on %s: %d bars of 100\"><div><b "+
					"style=\"height:%d%%\"></b></div><span>%d</span></td>", wholeCountClass(st), row.name,
					escape(st.Count), v,
					v, v)
			}
			b.WriteString("</tr>\n")
		}
		b.WriteString("<tr class=\"open\"><th>free</th>")
		for _, st := range g.Steps {
			mark := ""
			if st.Free {
				mark = "○"
			}
			fmt.Fprintf(b, "<td%s>%s</td>", wholeCountClass(st), mark)
		}
		b.WriteString("</tr>\n</table></div>\n")
	}
	b.WriteString("</div>\n")
}

// wholeCountClass is the class attribute of a column that stands for a whole count, "" for
// the columns between.
func wholeCountClass(s Step) string {
	if shortCount(s.Count) == s.Count {
		return ` class="one"`
	}
	return ""
}

// htmlHeld writes the table of tones that can be held.
func (r *Report) htmlHeld(b *bytes.Buffer) {
	head := false
	for i := range r.Passes {
		if !r.showsHeld(i) {
			continue
		}
		if !head {
			htmlSection(b, "Held tones", "What fits every chord from bar to bar, for a pad.")
			htmlTable(b, "pass", "from where to where")
			head = true
		}
		b.WriteString("<tr>" + textCell(r.Passes[i].Name) + textCell(heldLine(r.Passes[i].Held)) + "</tr>\n")
	}
	if head {
		b.WriteString(htmlTableEnd)
	}
}

// htmlHits writes the table of hits.
func (r *Report) htmlHits(b *bytes.Buffer) {
	if len(r.Song.Hits) == 0 {
		return
	}
	htmlSection(b, "Hits", "")
	htmlTable(b, "pass", "", "where")
	for i := range r.Passes {
		s := &r.Passes[i]
		for _, k := range hitKinds {
			if l := hitLine(s.Hits, k.kind, s.Plays); l != "" {
				b.WriteString("<tr>" + textCell(s.Name) + textCell(k.kind.String()) + textCell(l) + "</tr>\n")
			}
		}
	}
	b.WriteString(htmlTableEnd)
}
