package plan

import "hash/fnv"

// Chance is a place in a table of numbers that look random. It is a hash, not a
// running stream: what one bar draws does not depend on how much another bar
// drew, so that an edit moves nothing but what was edited.
type Chance uint64

// Chance is the chance under one label in this pass. It depends on the take, the section's
// name, the pass's place among the passes of that section, and the label. It does not
// depend on the place in the form.
func (p *Plan) Chance(label string) Chance {
	return p.SectionChance(label).At(int64(p.Pass.Ordinal))
}

// SectionChance is a chance that all passes of the section share: it depends on the section's
// name, the take and the label. What comes again in each pass is drawn under it, and what
// varies from pass to pass is drawn under Chance.
func (p *Plan) SectionChance(label string) Chance {
	h := fnv.New64a()
	h.Write([]byte(p.Pass.Section + "\x00" + label))
	return Chance(h.Sum64()).At(int64(p.Song.Take))
}

// At is the chance of a place within this one: a bar, a tick, a row.
func (c Chance) At(keys ...int64) Chance {
	h := uint64(c)
	for _, k := range keys {
		h = mix(h ^ (uint64(k) + 0x9e3779b97f4a7c15))
	}
	return Chance(h)
}

// mix is the finalizer of splitmix64: every bit of the result depends on every
// bit of the argument.
func mix(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// Below is a number from 0 to n-1.
func (c Chance) Below(n int) int { return int(mix(uint64(c)) % uint64(n)) }

// Bell is a number around 0 with a standard deviation of BellUnit, and never beyond three
// and a half deviations: the sum of four even draws.
func (c Chance) Bell() int64 {
	h := mix(uint64(c))
	sum := int64(h&0xffff) + int64(h>>16&0xffff) + int64(h>>32&0xffff) + int64(h>>48)
	return (sum - 2*0xffff) * BellUnit / 37837 // 37837 = 65536 / sqrt(12) * sqrt(4)
}

const BellUnit = 1024
