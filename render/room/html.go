package room

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"plinth/songspec/guide"
)

// style is the whole style of the page. Black on white, figures in tables, and
// nothing that only a colour says.
const style = `:root{color-scheme:light}
body{margin:0 auto;max-width:1160px;padding:1rem;background:#fff;color:#111;font:1rem/1.45 'Gill Sans','Gill Sans MT','Lato','Carlito','DejaVu Sans',sans-serif}
svg{display:block;width:100%;height:auto}
h2{margin:2.2rem 0 .6rem;padding-top:.4rem;border-top:3px solid #111;font-size:1.25rem}
p.note{margin:.2rem 0 .8rem;max-width:46rem}
table{border-collapse:collapse}
th,td{padding:.22rem .7rem .22rem 0;text-align:left;vertical-align:top}
td.n{white-space:nowrap;text-align:right;font-variant-numeric:tabular-nums}
thead th{border-bottom:1.5px solid #111}
tbody tr.pass th,tbody tr.pass td{border-top:1px solid #999}
.wide{overflow-x:auto;max-width:100%}
.grids{display:flex;flex-wrap:wrap;gap:0 3.5rem}
dl{max-width:52rem;margin:0}
dt{margin-top:.8rem;font-weight:700}
dd{margin:.1rem 0 0}
dd.why{padding-left:1rem;border-left:3px solid #999;color:#333}
.free td{padding-left:1rem}
.free i{font-style:normal;font-weight:700}
.counts th,.counts td{padding:0;width:1.5rem;min-width:1.1rem;text-align:center;font-variant-numeric:tabular-nums}
.counts th:first-child{width:4rem;text-align:left;padding-right:.6rem}
.counts .one{border-left:1px solid #999}
.counts td div{display:flex;align-items:flex-end;height:1.5rem;border-bottom:1px solid #111;margin:.12rem 1px}
.counts td div b{display:block;width:100%;background:#111}
.counts td span{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.counts tr.open td{font-size:1.1rem;line-height:1.2}
@media(max-width:640px){body{padding:.6rem;font-size:.92rem}th,td{padding-right:.45rem}}
@media print{h2,p.note,dt,caption,thead{break-after:avoid}tr,dd,.counts,svg{break-inside:avoid}dd{break-before:avoid}dl+h2,table+h2{margin-top:1.2rem}}`

// HTML writes the report as one self-contained page: the picture, the hints and
// every figure as a table. It has no script and asks for nothing.
func (r *Report) HTML(w io.Writer) error {
	var b bytes.Buffer
	title := escape("The room in " + r.Title)
	fmt.Fprintf(&b, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "+
		"content=\"width=device-width, "+
		"initial-scale=1\">\n<title>%s</title>\n<style>\n%s\n</style>\n</head>\n<body>\n<main>\n<h1 "+
		"style=\"position:absolute;left:-99rem\">%s</h1>\n", title, style, title)
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
	b.WriteString("</main>\n</body>\n</html>\n")
	_, err := w.Write(b.Bytes())
	return err
}

func (r *Report) htmlHints(b *bytes.Buffer) {
	if len(r.Hints) == 0 {
		return
	}
	b.WriteString("<h2>Hints</h2>\n<dl>\n")
	for _, h := range r.Hints {
		fmt.Fprintf(b, "<dt>%s</dt>\n<dd>%s</dd>\n<dd class=\"why\">%s</dd>\n", escape(capital(h.Where)), escape(h.Say),
			escape(h.Why))
	}
	b.WriteString("</dl>\n")
}

func (r *Report) htmlEnergy(b *bytes.Buffer) {
	b.WriteString("<h2>Energy</h2>\n<table>\n<thead><tr><th></th><th>pass</th><th>bar</th><th>energy</th><th>key</th><th>tempo</th><th>lasts</th><th></th></tr></thead>\n<tbody>\n")
	for i := range r.Passes {
		s := &r.Passes[i]
		fmt.Fprintf(b, "<tr><td class=\"n\">%d</td><td>%s</td><td class=\"n\">%d</td><td>%s %s</td><td>%s</td><td "+
			"class=\"n\">%d</td><td class=\"n\">%s</td><td>%s</td></tr>\n",
			i+1, escape(s.Name), s.FirstBar, energy(s), strings.Repeat("■", max(s.EnergyFrom, s.EnergyTo)), s.Key,
			s.BPM, seconds(s.Micros),
			strings.Replace(strings.Join(r.passMarks(i), ", "), "climax", "△ climax", 1))
	}
	b.WriteString("</tbody>\n</table>\n")
	if r.Climax.Pass < 0 && len(r.Passes) > 1 {
		fmt.Fprintf(b, "<p class=\"note\">The energy is %d throughout: the song file has no climax.</p>\n",
			r.Song.EnergyFrom)
	}
	if c := r.Climax; c.Pass >= 0 {
		fmt.Fprintf(b, "<p class=\"note\">The climax is %s, bar %d: %s.</p>\n", escape(r.Passes[c.Pass].Name), c.Bar,
			escape(c.Why))
	}
}

func (r *Report) htmlWindows(b *bytes.Buffer) {
	b.WriteString("<h2>Windows</h2>\n<p class=\"note\">Where the voice is silent for a beat or more.</p>\n")
	if len(r.Windows) == 0 {
		b.WriteString("<p>None.</p>\n")
		return
	}
	b.WriteString("<table>\n<thead><tr><th>from bar</th><th>count</th><th>to " +
		"bar</th><th>count</th><th>beats</th><th>time</th><th>pass</th><th>over</th></tr></thead>\n<tbody>\n")
	for _, w := range r.Windows {
		toBar, toCount := fmt.Sprint(w.To.Bar), w.To.Count
		if w.End >= r.tl.End {
			toBar, toCount = "the end", ""
		}
		fmt.Fprintf(b, "<tr><td class=\"n\">%d</td><td>%s</td><td class=\"n\">%s</td><td>%s</td><td "+
			"class=\"n\">%s</td><td class=\"n\">%s</td><td>%s</td><td>%s</td></tr>\n",
			w.From.Bar, escape(w.From.Count), toBar, escape(toCount),
			strings.TrimSuffix(strings.TrimSuffix(beats(w.Beats), "s"), " beat"), seconds(w.Micros),
			escape(r.windowName(w)),
			escape(strings.Join(r.chordsOver(w), ", ")))
	}
	b.WriteString("</tbody>\n</table>\n")
}

// windowName is the pass a window begins in, and that a space made it.
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

func (r *Report) htmlRegisters(b *bytes.Buffer) {
	b.WriteString("<h2>Registers</h2>\n<p class=\"note\">What voice, piano and bass use, from the 5th to the 95th " +
		"percentile of their notes, with attacks a beat; then what is free, and which instruments have an octave or " +
		"more of comfortable range there.</p>\n" +
		"<table>\n<thead><tr><th></th><th>voice</th><th>piano</th><th>bass</th></tr></thead>\n<tbody>\n")
	one := func(s *Scope, name string) {
		fmt.Fprintf(b, "<tr class=\"pass\"><th>%s</th>", escape(name))
		for _, p := range s.parts() {
			if p.part == nil {
				fmt.Fprintf(b, "<td>%s</td>", r.silence(p.name))
				continue
			}
			fmt.Fprintf(b, "<td>%s, %s</td>", escape(r.band(p.part.P5, p.part.P95, *s)), attacks(p.part))
		}
		b.WriteString("</tr>\n")
		for _, f := range s.Free {
			who := "no octave for anybody"
			if len(f.Seats) > 0 {
				who = strings.Join(names(f.Seats), ", ")
			}
			fmt.Fprintf(b, "<tr class=\"free\"><td colspan=\"4\">free <i>%s</i>: %s</td></tr>\n",
				escape(r.band(f.Low, f.High, *s)), who)
		}
	}
	one(&r.Song, "the song")
	for i := range r.Passes {
		if len(r.Passes) > 1 { // one pass is the song
			one(&r.Passes[i], r.Passes[i].Name)
		}
	}
	b.WriteString("</tbody>\n</table>\n")
}

// attacks is attacks a beat to hundredths.
func attacks(p *Part) string { return guide.Thousandths(int64(p.Attacks+5) / 10 * 10) }

func (r *Report) htmlCounts(b *bytes.Buffer) {
	b.WriteString("<h2>Counts</h2>\n<p class=\"note\">In how many of the bars somebody attacks there: a full column " +
		"is every bar. ○ is free: voice, piano and bass attack there in fewer than one bar of four.</p>\n<div " +
		"class=\"grids\">\n")
	one := func(s *Scope, name string) {
		g := &s.Grid
		if len(g.Steps) == 0 {
			return
		}
		fmt.Fprintf(b, "<div class=\"wide\"><table class=\"counts\">\n<caption "+
			"style=\"text-align:left;padding-top:.8rem\">%s, %d bars of %s</caption>\n<tr><th></th>",
			escape(capital(name)), g.Bars, escape(g.Meter.String()))
		for _, st := range g.Steps {
			fmt.Fprintf(b, "<th%s>%s</th>", oneClass(st), escape(countShort(st.Count)))
		}
		b.WriteString("</tr>\n")
		for _, row := range r.knownRows() {
			fmt.Fprintf(b, "<tr><th>%s</th>", row.name)
			for _, st := range g.Steps {
				v := row.at(st)
				fmt.Fprintf(b, "<td%s title=\"%s on %s: %d bars of 100\"><div><b "+
					"style=\"height:%d%%\"></b></div><span>%d</span></td>", oneClass(st), row.name, escape(st.Count), v,
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
			fmt.Fprintf(b, "<td%s>%s</td>", oneClass(st), mark)
		}
		b.WriteString("</tr>\n</table></div>\n")
	}
	one(&r.Song, "the song")
	for i := range r.Passes {
		if r.firstPass(i) == i && len(r.Passes) > 1 {
			one(&r.Passes[i], r.Passes[i].Name)
		}
	}
	b.WriteString("</div>\n")
}

// oneClass marks the columns of whole counts.
func oneClass(s Step) string {
	if countShort(s.Count) == s.Count {
		return ` class="one"`
	}
	return ""
}

func (r *Report) htmlHeld(b *bytes.Buffer) {
	head := false
	for i := range r.Passes {
		if !r.heldShown(i) {
			continue
		}
		if !head {
			b.WriteString("<h2>Held tones</h2>\n<p class=\"note\">What fits every chord from bar to bar, for a " +
				"pad.</p>\n<table>\n<thead><tr><th>pass</th><th>from where to where</th></tr></thead>\n<tbody>\n")
			head = true
		}
		fmt.Fprintf(b, "<tr><td>%s</td><td>%s</td></tr>\n", escape(r.Passes[i].Name),
			escape(heldLine(r.Passes[i].Held)))
	}
	if head {
		b.WriteString("</tbody>\n</table>\n")
	}
}

func (r *Report) htmlHits(b *bytes.Buffer) {
	if len(r.Song.Hits) == 0 {
		return
	}
	b.WriteString("<h2>Hits</h2>\n<table>\n<thead><tr><th>pass</th><th></th><th>where</th></tr></thead>\n<tbody>\n")
	for i := range r.Passes {
		s := &r.Passes[i]
		for _, k := range kinds {
			if l := hitLine(s.Hits, k, s.Plays); l != "" {
				fmt.Fprintf(b, "<tr><td>%s</td><td>%s</td><td>%s</td></tr>\n", escape(s.Name), k, escape(l))
			}
		}
	}
	b.WriteString("</tbody>\n</table>\n")
}
