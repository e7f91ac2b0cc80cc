package library

import (
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
	"plinth/songspec/wording"
)

// maxFillGrid is the most steps a beat of a fill can have.
const maxFillGrid = 12

// fillFamily reads a fills block: one family of fills, all on one grid.
func (d *decoder) fillFamily(b *hclsyntax.Block, family string) []feel.Fill {
	grid := 0
	for _, a := range hcltext.Attributes(b.Body) {
		if a.Name != "grid" {
			d.unknown(b, a, "A fills block", []string{"grid"})
			continue
		}
		grid, _ = d.whole(a, 1, maxFillGrid)
	}
	if b.Body.Attributes["grid"] == nil {
		d.rep.Errorf(b.DefRange(), "No grid", "A family of fills needs a grid: how many steps a beat has, for "+
			"example grid = 4.")
	}
	var out []feel.Fill
	first := map[string]hcl.Range{}
	for _, x := range b.Body.Blocks {
		if x.Type != "fill" {
			d.stray(x, "A fills block", []string{"grid"}, []string{"fill"})
			continue
		}
		name, ok := d.label(x, "NAME")
		if !ok || d.twice(first, name, x, "fill") || grid == 0 {
			continue
		}
		if f, ok := d.fill(x, family, name, grid); ok {
			out = append(out, f)
		}
	}
	d.checkVocabulary(b, out)
	return out
}

// fill reads one fill. It has as many beats as its rows are long.
func (d *decoder) fill(b *hclsyntax.Block, family, name string, grid int) (feel.Fill, bool) {
	f := feel.Fill{Family: family, Name: name, Grid: grid, MinEnergy: 1, MaxEnergy: 5}
	known := append([]string{"colour", "energy"}, voiceWords()...)
	good := true
	rows := map[string]tab{}
	var order []string
	for _, a := range hcltext.Attributes(b.Body) {
		switch _, drum := feel.VoiceNamed(a.Name); {
		case a.Name == "colour":
			var ok bool
			f.Colour, ok = d.whole(a, 0, 5)
			good = good && ok
		case a.Name == "energy":
			lo, hi, ok := d.pair(a, 1, 5)
			f.MinEnergy, f.MaxEnergy = lo, hi
			good = good && ok
		case drum:
			t, ok := d.readFillTab(a, grid)
			good = good && ok
			rows[a.Name] = t
			order = append(order, a.Name)
		default:
			d.unknown(b, a, "A fill", known)
			good = false
		}
	}
	for _, x := range b.Body.Blocks {
		d.stray(x, "A fill", known, nil)
	}
	if b.Body.Attributes["colour"] == nil {
		d.rep.Errorf(b.DefRange(), "No colour",
			"A fill has a colour: 0 to 2 when it closes a section, 3 to 5 when the song asks for it.")
		good = false
	}
	if len(order) == 0 && good {
		d.rep.Errorf(b.DefRange(), "No rows", "A fill has at least one row of the kit: snare = \"…\".")
	}
	if !good || len(order) == 0 {
		return f, false
	}
	steps := len(rows[order[0]].steps)
	for _, w := range order[1:] {
		if n := len(rows[w].steps); n != steps {
			d.rep.Errorf(rows[w].expr.Range(), "Rows of different length", "%s has %s, and %s above it has %d.", w,
				wording.Count(n, "step"), order[0], steps)
			return f, false
		}
	}
	f.Beats = steps / grid
	f.Rows = drumRows(rows, steps)
	for i := 0; i < steps; i++ {
		if why := feel.Clash(f.Rows, i); why != "" {
			l := &rawLevel{block: b}
			d.rep.Errorf(d.lastAt(l, rows, f.Rows, i, why), "One drummer cannot play this",
				"Step %d: %s. Take one of them out.", i+1, why)
			return f, false
		}
	}
	if len(f.Rows) == 0 {
		d.rep.Errorf(b.DefRange(), "Nothing is played", "A fill has at least one stroke.")
		return f, false
	}
	return f, true
}

// readFillTab reads a row of 1 to 4 beats.
func (d *decoder) readFillTab(a *hclsyntax.Attribute, grid int) (tab, bool) {
	d.anyMeter = false
	t, ok := d.readTab(a, grid)
	if !ok {
		return t, false
	}
	if n := len(t.steps); n%grid != 0 || n > 4*grid {
		d.rep.Errorf(a.Expr.Range(), "Wrong number of steps",
			"%s has %s. A beat of these fills has %d (grid = %d), and a fill is 1 to 4 beats long: %d, %d, %d or %d "+
				"steps.",
			a.Name, wording.Count(n, "step"), grid, grid, grid, 2*grid, 3*grid, 4*grid)
		return t, false
	}
	return t, true
}

// checkVocabulary reports two fills that only chance could choose between: the
// same length, colour and energy.
func (d *decoder) checkVocabulary(b *hclsyntax.Block, fills []feel.Fill) {
	if d.rep.Diags.HasErrors() {
		return
	}
	if len(fills) == 0 {
		d.rep.Errorf(b.DefRange(), "No fills", "A family has at least one fill \"NAME\" { … }.")
		return
	}
	type slot struct{ beats, energy, colour int }
	taken := map[slot]string{}
	for _, f := range fills {
		for e := f.MinEnergy; e <= f.MaxEnergy; e++ {
			s := slot{f.Beats, e, f.Colour}
			if other, ok := taken[s]; ok {
				d.rep.Errorf(b.DefRange(), "Two fills of one colour",
					"%q and %q are both of %s, colour %d, at energy %d. Give one of them another colour.", other,
					f.Name, wording.Count(f.Beats, "beat"), f.Colour, e)
				return
			}
			taken[s] = f.Name
		}
	}
}
