package groove

import (
	"plinth/groove/score"
	"plinth/groove/voicing"
)

// scratch is what lies ready while passes are played one after another: room for
// what a pass is made of on the way, and the voicings worked out so far, which the
// next pass asks for again. Nothing of it is heard in the notes. It belongs to one
// goroutine; the zero value is ready.
type scratch struct {
	steps   []Step
	strokes []score.Note
	rows    []kitRow
	played  []played
	bass    []bassNote
	pitches []pitch
	from    []uint8
	row     []compAt
	marks   []mark
	comp    []score.Note
	drifts  []drift
	knots   []int16 // of the band's drift
	voicer  *voicing.Voicer
}

// voices is the voicer. One that has seen more chords than songs have begins anew.
func (b *scratch) voices() *voicing.Voicer {
	if b.voicer == nil || b.voicer.Full() {
		b.voicer = voicing.NewVoicer()
	}
	return b.voicer
}
