package groove

import (
	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// Perform plays the whole song. The feels that the timeline names must be in
// the set; that is checked when the song is resolved, so a missing one panics.
func Perform(tl *timeline.Timeline, set *feel.Set) *Performance { panic("groove: to come") }

// PerformPass plays one pass. It reads nothing of tl but the set-ups, looseness
// and take.
func PerformPass(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) PassPart {
	panic("groove: to come")
}
