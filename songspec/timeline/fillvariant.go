package timeline

// FillVariants is how many variants VaryFills deals out.
const FillVariants = 6

// variantMemory is how many passes back a variant is not used again. A pass may
// have no fill at all, so one pass back would not be enough: with three, two
// passes running may be without and the fills on either side still differ.
const variantMemory = 3

// VaryFills sets FillVariant on every pass. A pass takes the variant that its
// section's name, its ordinal and the take point at, or the next one that none
// of the three passes before it has. Nothing but names, order and take goes into
// it, so that editing a section changes no other section's fills; a pass put
// into the form changes at most the few that follow it.
func VaryFills(passes []Pass, take int) {
	for i := range passes {
		p := &passes[i]
		v := int(nameHash(p.Section, p.Ordinal, take) % FillVariants)
		for taken(passes[max(0, i-variantMemory):i], v+1) {
			v = (v + 1) % FillVariants
		}
		p.FillVariant = v + 1
	}
}

func taken(before []Pass, variant int) bool {
	for _, b := range before {
		if b.FillVariant == variant {
			return true
		}
	}
	return false
}

// nameHash is FNV-1a over the name and the two numbers, with its high half
// folded in so that the low digits depend on all of it.
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
