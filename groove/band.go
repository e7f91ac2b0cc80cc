package groove

import (
	"plinth/groove/bassist"
	"plinth/groove/drummer"
	"plinth/groove/feel"
	"plinth/groove/pianist"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
)

// player is a player of the band. Each has a package of its own, with the same methods.
type player interface {
	// Prepare makes the player ready for a pass.
	Prepare(p *plan.Plan)
	// Play is what the player means in the pass. heard is what those mean who played
	// before, by player. The result holds until the next pass is prepared.
	Play(heard []score.Part) score.Part
	// TextureIn says in a word what the player has to do in a bar.
	TextureIn(bar int) string
	// Player is what touch has to know of the player.
	touch.Player
}

// band is all players, with what they keep from pass to pass. It belongs to one goroutine.
type band struct {
	players []seat // in the order in which they hear each other
	playing touch.Playing
}

// seat is a player of the band, and which one it is.
type seat struct {
	who timeline.Player
	player
}

func newBand() *band {
	return &band{players: []seat{
		{timeline.Drums, &drummer.Drummer{}},
		{timeline.Bass, &bassist.Bassist{}},
		{timeline.Piano, &pianist.Pianist{}},
	}}
}

// play plays one pass.
func (b *band) play(tl *timeline.Timeline, pass *timeline.Pass, set *feel.Set) PassPart {
	out := PassPart{Notes: make([][]Note, len(timeline.PlayerNames))}
	out.Score.Parts = make([]score.Part, len(timeline.PlayerNames))
	if len(pass.Bars) == 0 {
		return out
	}
	p := plan.New(tl, pass, set)
	out.Score.Cues, out.Score.Regions = p.Cues, regions(p)
	b.playing.Prepare(p)
	for _, s := range b.players {
		s.Prepare(p)
		part := writtenPart(p, s.Play(out.Score.Parts))
		part.Regions = textures(p, s, part.Notes)
		out.Score.Parts[s.who] = part
		out.Notes[s.who] = b.playing.Play(s.who, s, part.Notes)
	}
	return out
}
