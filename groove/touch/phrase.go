package touch

import "plinth/groove/plan"

// fine is one velocity in the figures of this package: loudness is worked out in parts of a
// velocity and rounded once.
const fine = plan.BellUnit

// ramp is a figure that moves evenly through a bar.
type ramp struct{ from, to int64 }

// at is the figure after a part of the bar's length.
func (r ramp) at(part, length int64) int64 { return r.from + (r.to-r.from)*part/length }

// Where the top of a phrase is, in thousandths of its length, and how much an arch differs
// from the next, in thousandths of its height. A singer's phrase grows to about two thirds.
const (
	firstTop, lastTop     = 580, 740
	leastArch, mostArch   = 700, 1300
	archStart, archEnd    = -800, -200 // the figures at both ends of a phrase, in thousandths of its top
	archMean              = 190        // the mean of an arch, about, which is taken out
	shortArch, movingArch = 750, 500   // the share of an arch of four bars, and while the energy moves
)

// prepareArches works out for each bar how the phrase rises and falls, in thousandths of an
// arch: it grows to about two thirds of the phrase and eases at its end. Four bars have a
// smaller arch than eight. All passes of a section have the same arches, at any looseness:
// they are meant and no chance. A band that arrives at a stronger section does not begin it
// softly. Where it leads to another energy, that shapes the last bars, see lead.
func (t *Playing) prepareArches() {
	n := len(t.Pass.Bars)
	t.arches = t.arches[:0]
	from := t.SectionChance("phrase")
	for len(t.arches) < n {
		first, size := t.Phrase(len(t.arches))
		c := from.At(int64(first))
		top := int64(firstTop + c.At(0).Below(lastTop-firstTop))
		height := int64(leastArch + c.At(1).Below(mostArch-leastArch))
		switch {
		case size < 4:
			height = 0
		case size < 8:
			height = height * shortArch / 1000
		}
		if t.moves() {
			height = height * movingArch / 1000
		}
		for i := range int64(size) {
			t.arches = append(t.arches, ramp{arch(i, int64(size), top) * height / 1000,
				arch(i+1, int64(size), top) * height / 1000})
		}
	}
	if b := t.Pass.Before; b != nil && b.Energy < t.Pass.EnergyFrom {
		for i := range min(n, arriveBars) {
			t.arches[i] = ramp{max(0, t.arches[i].from), max(0, t.arches[i].to)}
		}
	}
	if !t.leads() {
		return
	}
	up := t.LeadsTo(n-1) > t.Energy(n-1)
	held := t.arches[max(0, n-plan.LeadBars)].from / 2
	for i := range min(n, plan.LeadBars) {
		r := &t.arches[n-1-i]
		if up { // no easing on the way up
			*r = ramp{held, held}
		} else {
			*r = ramp{r.from * int64(i+1) / leadArch, r.to * int64(i) / leadArch}
		}
	}
}

const (
	arriveBars = 4                 // so many bars after a rise have no arch under the level
	leadArch   = 2 * plan.LeadBars // so many bars before the border the arch would begin to give way
)

// arch is the height of a phrase after some of its bars, in thousandths: from
// archStart up to 1000 at its top, and down to archEnd.
func arch(bar, bars, top int64) int64 {
	x := 1000 * bar / bars
	if x <= top {
		return archStart + (1000-archStart)*x/top - archMean
	}
	return 1000 - (1000-archEnd)*(x-top)/(1000-top) - archMean
}

// swayPeriods are the layers of the sway: how many bars there are from one knot of each to the
// next, and how strong it is. The slow ones are the strongest.
var swayPeriods = [...]struct{ bars, strength int64 }{{4, 2}, {8, 3}, {16, 3}}

// sway wanders slowly from bar to bar: the figure at each bar line of the pass, with a standard
// deviation of about fine and a mean of 0, so that a pass keeps the level of its energy. It is
// made of layers as drift is. At both ends it is half as strong, so that neighbouring passes
// fit together.
func (t *Playing) sway(from plan.Chance) []int64 {
	out := make([]int64, len(t.Pass.Bars)+1)
	for k, layer := range swayPeriods {
		c := from.At(int64(k))
		shift := int64(c.Below(int(layer.bars)))
		left, right := c.At(0).Bell(), c.At(1).Bell()
		for bar := range out {
			at := int64(bar) + shift
			part := at % layer.bars
			if part == 0 && bar > 0 {
				left, right = right, c.At(at/layer.bars+1).Bell()
			}
			out[bar] += (left*(layer.bars-part) + right*part) * layer.strength / layer.bars
		}
	}
	level(out)
	last := len(out) - 1
	out[0], out[last] = out[0]/2, out[last]/2
	level(out)
	stray := int64(1)
	for _, v := range out {
		stray += max(v, -v)
	}
	// A curve as smooth as this has a standard deviation of six fifths of its mean distance.
	stray = max(fine/2, stray*6/(5*int64(len(out))))
	for bar := range out {
		out[bar] = out[bar] * fine / stray
	}
	return out
}

// level takes the mean out of figures.
func level(figures []int64) {
	sum := int64(0)
	for _, v := range figures {
		sum += v
	}
	for i := range figures {
		figures[i] -= sum / int64(len(figures))
	}
}

// The band sways together, and each instrument by itself as well: the shares of the two, in
// thousandths.
const bandSways, laneSways = 800, 600

// laneSway is the sway of one instrument with the band's, at each bar line. Toward a border
// that the band leads over it dies away. After a fall the band comes in restrained, and
// chance makes nothing of that louder.
func (t *Playing) laneSway(from plan.Chance) []int64 {
	out := t.sway(from)
	n := len(out) - 1
	fell := t.Pass.Before != nil && t.Pass.Before.Energy > t.Pass.EnergyFrom
	leads := t.leads()
	for bar := range out {
		v := (t.bandSway[bar]*bandSways + out[bar]*laneSways) / 1000
		if left := n - bar; leads && left < plan.LeadBars {
			v = v * int64(left) / plan.LeadBars
		}
		if fell && bar < plan.LeadBars {
			v = min(0, v)
		}
		out[bar] = t.scaled(v)
	}
	return out
}
