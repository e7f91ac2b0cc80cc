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
	firstTop, lastTop   = 580, 740
	leastArch, mostArch = 900, 1100
	archFoot            = -600 // the figure at both ends of a pass, in thousandths of an arch
	archRise            = 1500 // from there to the top, about
	// Where a pass has several phrases it has an arch, too, on which those of the phrases stand:
	// the shares of the two.
	passArch, phraseArch = 1100, 200
	// The share of an arch of four bars, and while the energy moves.
	shortArch, movingArch = 750, 250
)

// prepareArches works out for each bar how the phrase rises and falls, in thousandths of an
// arch: it begins at its foot, grows to about two thirds of the phrase and eases back to the
// foot. A pass has the same foot at both ends, so nothing sags where a section begins: the downbeat
// is an arrival. Four bars have a smaller arch than eight. All passes of a section have the
// same arches, at any looseness: they are meant and no chance. On the way to a louder section the
// last bars ease less.
func (t *Playing) prepareArches() {
	n := len(t.Pass.Bars)
	t.arches = t.arches[:0]
	from := t.SectionChance("phrase")
	whole := topOf(from.At(-1))
	for len(t.arches) < n {
		first, size := t.Phrase(len(t.arches))
		c := from.At(int64(first))
		top := topOf(c)
		height := int64(leastArch + c.At(1).Below(mostArch-leastArch))
		switch {
		case size < 4:
			height = 0
		case size < 8:
			height = height * shortArch / 1000
		}
		at := func(bar int, height int64) int64 {
			if size < n {
				height = height * phraseArch / 1000
			}
			v := archFoot + arch(bar, size, top)*height/1000
			if size < n {
				v += arch(first+bar, n, whole) * passArch / 1000
			}
			return v
		}
		for i := range size {
			height := height
			if t.moves(first + i) {
				height = height * movingArch / 1000
			}
			t.arches = append(t.arches, ramp{at(i, height), at(i+1, height)})
		}
	}
	if t.LeadsTo(n-1) <= t.Energy(n-1) || n < plan.LeadBars {
		return
	}
	held := t.arches[n-plan.LeadBars].from - archFoot // the way up begins where the arch is
	for i := range plan.LeadBars {
		t.arches[n-1-i] = ramp{archFoot + held*heldUp[i+1]/1000, archFoot + held*heldUp[i]/1000}
	}
}

// heldUp is how much of the arch two bars before a louder section is left at the border, one
// bar before it and two, in thousandths.
var heldUp = [plan.LeadBars + 1]int64{160, 500, 1000}

// topOf is where the top of an arch is, in thousandths of its length.
func topOf(c plan.Chance) int64 { return int64(firstTop + c.At(0).Below(lastTop-firstTop)) }

// arch is how far an arch has risen after some of its bars. It sets out and arrives gently.
func arch(bar, bars int, top int64) int64 {
	x := 1000 * int64(bar) / int64(bars)
	if x > top {
		x = 1000 * (1000 - x) / (1000 - top)
	} else {
		x = 1000 * x / top
	}
	return archRise * (x * x * (3000 - 2*x) / 1_000_000) / 1000
}

// swayPeriods are the layers of the sway: how many bars there are from one knot of each to the
// next, and how strong it is. The slow ones are the strongest.
var swayPeriods = [...]struct{ bars, strength int64 }{{4, 1}, {8, 3}, {16, 3}}

// sway wanders slowly from bar to bar: the figure at each bar line of the pass, with a standard
// deviation of about fine before the ends are taken in, and a mean of 0, so that a pass keeps
// the level of its energy. It is made of layers as drift is.
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
	stray := int64(1)
	for _, v := range out {
		stray += max(v, -v)
	}
	// A curve as smooth as this has a standard deviation of six fifths of its mean distance.
	stray = max(fine/2, stray*6/(5*int64(len(out))))
	sum, open := int64(0), int64(1)
	for bar := range out {
		w := t.swayOpen(bar)
		out[bar] = out[bar] * fine * w / (stray * 1000)
		sum, open = sum+out[bar], open+w
	}
	for bar := range out {
		out[bar] -= sum * t.swayOpen(bar) / open
	}
	return out
}

// openBars are the first bars of a pass, which are struck as in every pass of the section.
const openBars = 2

// swayOpen is how much of the sway there is at a bar line, in thousandths. A pass opens as the
// section always does, and chance moves it only later: there is nothing in the first
// bars, and all of it four bars later. It dies away in the last two bars, so that neighbouring passes fit
// together.
func (t *Playing) swayOpen(bar int) int64 {
	left := len(t.Pass.Bars) - bar
	return min(1000, max(0, int64(bar-openBars)*1000/3), int64(left)*1000/plan.LeadBars)
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

// laneSway is the sway of one instrument with the band's, at each bar line.
func (t *Playing) laneSway(from plan.Chance) []int64 {
	out := t.sway(from)
	for bar, v := range out {
		out[bar] = t.scaled((t.bandSway[bar]*bandSways + v*laneSways) / 1000)
	}
	return out
}
