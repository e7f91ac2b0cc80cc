package library

import (
	"math/big"
	"slices"
	"strconv"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"

	"plinth/groove/feel"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
)

// Ranges of a groove's own settings.
const (
	lowestTempo, highestTempo = 20, 400
	maxGrid                   = 64
	maxLagMS                  = 40
)

var grooveWords = []string{"about", "meter", "tempo", "grid", "kit", "bass_sound", "fills", "swing", "swing_unit",
	"syncopation", "changes"}

// changes are the words for how the comp meets a change of chord, in the order of feel.Changes.
var changes = [...]string{"on time", "in turn", "ahead"}

// groove reads a groove block. It returns nil when the frame that the rows need
// (meter and grid) could not be read.
func (d *decoder) groove(b *hclsyntax.Block, name string) *feel.Feel {
	f := &feel.Feel{Name: name, Kit: "standard", TempoLow: lowestTempo, TempoHigh: highestTempo,
		LagMS: map[string]int{}}
	d.anyMeter = false
	frame := d.frame(b, f)
	for _, a := range hcltext.Attributes(b.Body) {
		switch a.Name {
		case "meter", "grid":
		case "about":
			f.About, _ = d.text(a)
		case "tempo":
			if lo, hi, ok := d.pair(a, lowestTempo, highestTempo); ok {
				f.TempoLow, f.TempoHigh = lo, hi
			}
		case "kit":
			if s, ok := d.text(a); ok {
				d.oneOf(kits[:], s, a.Expr.Range(), "Unknown kit", "kit")
				f.Kit = s
			}
		case "bass_sound":
			if s, ok := d.text(a); ok {
				d.oneOf(basses[:], s, a.Expr.Range(), "Unknown bass", "bass")
				f.BassSound = s
			}
		case "fills":
			if f.Fills, _ = d.text(a); f.Fills != "" {
				d.oneOf(d.families, f.Fills, a.Expr.Range(), "Unknown fills", "family of fills")
			}
		case "swing":
			d.swing(a, f)
		case "swing_unit":
			if s, ok := d.text(a); ok {
				if s != "eighth" && s != "sixteenth" {
					d.rep.Errorf(a.Expr.Range(), "Not a note to swing", `swing_unit is "eighth" or "sixteenth".`)
				}
				f.Swing.Unit = s
			}
		case "changes":
			if s, ok := d.text(a); ok && d.oneOf(changes[:], s, a.Expr.Range(), "Not a way to meet a change", "way") {
				f.Changes = feel.Changes(slices.Index(changes[:], s))
			}
		case "syncopation":
			f.Syncopation, _ = d.whole(a, 0, 40)
		default:
			d.unknown(b, a, "A groove", grooveWords)
		}
	}
	if f.Swing.Mode != "" && f.Swing.Unit == "" {
		f.Swing.Unit = "eighth"
	}
	var levels []*hclsyntax.Block
	for _, x := range b.Body.Blocks {
		switch x.Type {
		case "level":
			levels = append(levels, x)
		case "lag":
			d.lag(x, f)
		default:
			d.stray(x, "A groove", grooveWords, []string{"level", "lag"})
		}
	}
	if !frame || len(levels) == 0 && b.Body.Attributes["level"] != nil {
		return nil // no level is reported as a block written as a value
	}
	d.levels(f, levels, b.DefRange())
	d.checkSyncopation(f, b.Body.Attributes["syncopation"])
	return f
}

// frame reads meter and grid, which every row is measured against.
func (d *decoder) frame(b *hclsyntax.Block, f *feel.Feel) bool {
	a := b.Body.Attributes["meter"]
	if a == nil {
		if !misnamed(b, "meter") {
			d.rep.Errorf(b.DefRange(), "No meter", `A groove needs a meter: meter = "4/4", or meter = "any".`)
		}
		return false
	}
	words, at, ok := d.words(a)
	if !ok {
		return false
	}
	if len(words) == 1 && words[0] == "any" {
		d.anyMeter = true
		f.Grid = 2
		if g := b.Body.Attributes["grid"]; g != nil {
			d.rep.Errorf(g.NameRange, "No grid in any meter",
				"A groove of any meter has two steps a row, the first beat and the others, and no grid. Leave the "+
					"line out.")
			return false
		}
		return true
	}
	for i, w := range words {
		m, err := meter.Parse(w)
		if err != nil {
			d.rep.Errorf(at[i], "Not a meter", "%q: %s.", w, err)
			return false
		}
		f.Meters = append(f.Meters, m)
	}
	if len(f.Meters) == 0 {
		d.rep.Errorf(a.Expr.Range(), "No meter", `A groove needs a meter: meter = "4/4", or meter = "any".`)
		return false
	}
	g := b.Body.Attributes["grid"]
	if g == nil {
		if !misnamed(b, "grid") {
			d.rep.Errorf(b.DefRange(), "No grid", "A groove needs a grid: how many steps a bar of %s has, for "+
				"example grid = %d.", f.Meters[0], suggestGrid(f.Meters[0]))
		}
		return false
	}
	n, ok := d.whole(g, 1, maxGrid)
	if !ok {
		return false
	}
	if !gridFits(f.Meters[0], n) {
		d.rep.Errorf(g.Expr.Range(), "The grid does not fit the meter",
			"%d steps do not put every beat of %s on a step. Write for example grid = %d.", n, f.Meters[0],
			suggestGrid(f.Meters[0]))
		return false
	}
	f.Grid = n
	return true
}

// gridFits reports whether n steps divide the bar into whole ticks and put each
// of its beats on a step.
func gridFits(m meter.Meter, n int) bool {
	step := m.BarTicks() / int64(n)
	off := func(beat int64) bool { return beat%step != 0 }
	return m.BarTicks()%int64(n) == 0 && !slices.ContainsFunc(m.Beats(), off)
}

// suggestGrid is the sixteenths of a bar, or its own units where those fit no better.
func suggestGrid(m meter.Meter) int {
	if n := m.Num * 16 / m.Den; m.Den <= 16 && n <= maxGrid && gridFits(m, n) {
		return n
	}
	return m.Num
}

// swing reads how the off-beats are placed.
func (d *decoder) swing(a *hclsyntax.Attribute, f *feel.Feel) {
	v, ok := d.value(a)
	if !ok {
		return
	}
	if v.Type() == cty.String && v.AsString() == "tempo" {
		f.Swing.Mode = "tempo"
		return
	}
	n := numberIn(v, 1, 4)
	if n == nil {
		d.rep.Errorf(a.Expr.Range(), "Not a swing",
			`swing is "tempo" (wider when it is slow, as drummers do it), or how much longer the long note is than `+
				`the short one, from 1 to 4: 2 is a triplet.`)
		return
	}
	f.Swing.Mode = "ratio"
	f.Swing.PerMille, _ = strconv.Atoi(new(big.Float).Mul(n, big.NewFloat(1000)).Text('f', 0))
}

// lag reads how late or early each player sits.
func (d *decoder) lag(b *hclsyntax.Block, f *feel.Feel) {
	known := append(voiceWords(), "bass", "piano")
	for _, x := range b.Body.Blocks {
		row := "snare"
		if slices.Contains(known, x.Type) {
			row = x.Type
		}
		d.rep.Errorf(x.TypeRange, "Unknown block", "lag holds no blocks, only lines such as %s = 6.", row)
	}
	for _, a := range hcltext.Attributes(b.Body) {
		if !slices.Contains(known, a.Name) {
			d.unknown(b, a, "lag", known)
			continue
		}
		if ms, ok := d.whole(a, -maxLagMS, maxLagMS); ok {
			f.LagMS[a.Name] = ms
		}
	}
}

// checkSyncopation holds the figure of the groove against its levels; where it
// gives none, the busiest bar sets it.
func (d *decoder) checkSyncopation(f *feel.Feel, said *hclsyntax.Attribute) {
	if d.rep.Diags.HasErrors() {
		return // the rows may not be whole
	}
	worst, energy := 0, 1
	for i := range f.Levels {
		if n := f.KitSyncopation(&f.Levels[i]); n > worst {
			worst, energy = n, i+1
		}
	}
	switch {
	case said == nil:
		f.Syncopation = worst
	case worst > f.Syncopation:
		d.rep.Errorf(said.Expr.Range(), "More syncopation than the groove says",
			"Kick and snare of level %d reach %d in a bar. Write syncopation = %d, or take something out.", energy,
			worst, worst)
	}
}

func voiceWords() []string {
	var out []string
	for _, v := range feel.Voices() {
		out = append(out, v.Word)
	}
	return out
}
