package timeline

// FillVariants is how many variants of a fill there are.
const FillVariants = 6

// variantMemory is for how many passes a variant does not come again. One would not be
// enough, since a pass may have no fill: with three, the fills on either side of two such
// passes still differ.
const variantMemory = 3

// variantHands is how many variants differ in what the hands play; the variants after them
// play the same with another kick.
const variantHands = 3

// VaryFills sets FillVariant on every pass, from the song's title, so that not every song has
// the same fill out of its first chorus, and from the section's name, its ordinal and the
// take. If one of the three passes before has that variant, or the last of them plays the
// same with its hands, it is the next variant of which neither is true. Nothing else counts,
// so that editing a section changes no other section's fills; a new pass in the form changes
// those of a few that follow it at most.
func VaryFills(passes []Pass, title string, take int) {
	for i := range passes {
		p := &passes[i]
		v := int(nameHash(title+"\x00"+p.Section, p.Ordinal, take) % FillVariants)
		for taken(passes[max(0, i-variantMemory):i], v+1) {
			v = (v + 1) % FillVariants
		}
		p.FillVariant = v + 1
	}
}

func taken(before []Pass, variant int) bool {
	for i, b := range before {
		last := i == len(before)-1
		if b.FillVariant == variant || last && (b.FillVariant-variant)%variantHands == 0 {
			return true
		}
	}
	return false
}

// nameHash is the FNV-1a hash of the name and the two numbers. Its high half is folded into
// the low one, so that the remainder of a division depends on all of it.
func nameHash(name string, ordinal, take int) uint64 {
	const prime = 1099511628211
	h := uint64(14695981039346656037)
	for i := 0; i < len(name); i++ {
		h = (h ^ uint64(name[i])) * prime
	}
	for _, n := range [2]int{ordinal, take} {
		for shift := 0; shift < 64; shift += 8 {
			h = (h ^ uint64(n)>>shift&0xff) * prime
		}
	}
	return h ^ h>>32
}
