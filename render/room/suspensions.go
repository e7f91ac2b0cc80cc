package room

import (
	"fmt"

	"plinth/songspec/guide"
)

// Suspension is a sung note that is held a semitone above a tone of the chord and led down by step:
// right as it is, but nobody is to play its resolution before it comes.
type Suspension struct {
	Singer int // which of the song's vocals
	guide.Clash
}

// suspensions are those of all singers, singer by singer.
func (r *Report) suspensions() (out []Suspension) {
	for i := range r.tl.Vocals {
		_, held := guide.Clashes(r.tl, i)
		for _, c := range held {
			out = append(out, Suspension{i, c})
		}
	}
	return out
}

// suspensionRows are the passes with the suspensions in them.
func (r *Report) suspensionRows() (rows [][]string) {
	for i := range r.Passes {
		words := ""
		for _, s := range r.Suspensions {
			if s.At.Pass != i {
				continue
			}
			if words != "" {
				words += "; "
			}
			words += fmt.Sprintf("%s: %s over %s", s.At, s.Sung, s.Chord)
			if len(r.tl.Vocals) > 1 {
				words += " by " + r.tl.Vocals[s.Singer].Called()
			}
		}
		if words != "" {
			rows = append(rows, []string{r.Passes[i].Name, words})
		}
	}
	return rows
}

func (r *Report) suspensionJSON(s *Suspension) jsonObject {
	return jsonObject{{"singer", r.tl.Vocals[s.Singer].Called()}, {"bar", s.At.Bar}, {"count", s.At.Count},
		{"sung", s.Sung}, {"chord", s.Chord}, {"above", s.Tone}} // the tone of the chord that it lies above
}
