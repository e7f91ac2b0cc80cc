package feel

import (
	"fmt"
	"strings"
)

// Clash says what one drummer cannot do at one step of some rows, or "" when
// all is well: no more than two hands, one foot on each pedal, and one thing at
// a time on the hi-hat. A flam or a drag takes both hands; so a third voice
// beside it is one too many. A brush that goes on sweeping (~) keeps its hand.
func Clash(rows []Row, step int) string {
	hands, feet := 0, [3]int{}
	hat := ""
	var words []string
	for _, r := range rows {
		s := r.Steps[step]
		if s.Touch == Rest {
			continue
		}
		if r.Voice.HatFamily() {
			if hat != "" {
				return fmt.Sprintf("%s and %s are one hi-hat, which can do only one of them at a time", hat,
					r.Voice.Word)
			}
			hat = r.Voice.Word
		}
		if r.Voice.Limb != Hand {
			if feet[r.Voice.Limb]++; feet[r.Voice.Limb] > 1 {
				return "one foot cannot play two pedals"
			}
			continue
		}
		hands++
		if s.Flam || s.Drag {
			hands++
		}
		words = append(words, r.Voice.Word)
	}
	if hands > 2 {
		return fmt.Sprintf("%s need %d hands, and a drummer has two", strings.Join(words, ", "), hands)
	}
	return ""
}
