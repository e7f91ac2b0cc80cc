package plan

import (
	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// ForcefulOpening is a player's cue to open a section with force, nil where there is none.
func (p *Plan) ForcefulOpening(who timeline.Player) *cue.Cue {
	i := p.Cues.Opening
	if i < 0 || !Forceful.At(p.Pass.EnergyFrom) || !p.Cues.List[i].By.Has(who) {
		return nil
	}
	return &p.Cues.List[i]
}

// EndingAt is the tick of the stroke on which the song comes to rest: the last bar's first beat
// or, where that bar has several chords, the last of them. -1 where the song does not end like
// that in this pass.
func (p *Plan) EndingAt() int64 {
	if i := p.Cues.Ending; i >= 0 {
		return p.Cues.List[i].At
	}
	return -1
}

// Ending is the bar in which the song comes to rest: the band strikes its last chord and
// lets it ring. -1 where the song does not end like that in this pass.
func (p *Plan) Ending() int {
	if i := p.Cues.Ending; i >= 0 {
		return int(p.Cues.List[i].Bar)
	}
	return -1
}

// EndsOnAHit reports whether the stroke on which the song comes to rest is an accent of the song file.
func (p *Plan) EndsOnAHit() bool {
	for who := timeline.Drums; who <= timeline.Piano; who++ {
		if p.Cues.Struck(cue.Accent, who, p.EndingAt()) {
			return true
		}
	}
	return false
}

// FinalHit is the tick of the song's last hit before it stops dead, which all three players
// strike with force. -1 where there is none.
func (p *Plan) FinalHit() int64 {
	if i := p.Cues.FinalHit; i >= 0 && Forceful.At(p.Energy(int(p.Cues.List[i].Bar))) {
		return p.Cues.List[i].At
	}
	return -1
}
