package pianist

import (
	"strings"

	"plinth/groove/bassist"
	"plinth/groove/groovetest"
	"plinth/groove/plan"
	"plinth/groove/score"
	"plinth/groove/voicing"
	"plinth/songspec/timeline"
)

const (
	eighth = groovetest.Eighth
	bar44  = groovetest.Bar44
)

// comp is what the pianist's hands mean over a bassist who plays without drums. What the
// events and the song's end take away afterwards is still in it, so that a test sees
// whether the hands kept to them.
func comp(p *plan.Plan) []score.Note {
	c, _ := withBassist(p)
	return c.hands()
}

// withBassist is the pianist after a pass over a bassist who plays without drums, and what the
// bassist plays.
func withBassist(p *plan.Plan) (*Pianist, []score.Note) {
	heard := nobody()
	var b bassist.Bassist
	b.Prepare(p)
	heard[timeline.Bass] = b.Play(heard)
	c := &Pianist{}
	c.Prepare(p)
	c.Play(heard) // chooses the voicings
	return c, heard[timeline.Bass].Notes
}

// hands is what the hands mean in a pass that has been played; nil where it has no chord.
func (c *Pianist) hands() []score.Note {
	if len(c.changes) == 0 {
		return nil
	}
	return c.ear.dropRubs(c.soundGestures(c.planGestures()))
}

// nobody is what is heard of players who do not play.
func nobody() []score.Part { return make([]score.Part, len(timeline.PlayerNames)) }

// chordsOf voices a pass over no bassist and returns the voicing of every chord.
func chordsOf(p *plan.Plan) []voicing.Voicing {
	var c Pianist
	c.Prepare(p)
	c.left = c.leftLine()
	return c.chooseVoicings(nil)
}

// names writes a voicing as note names with octaves, for messages.
func names(v voicing.Voicing) string {
	var out []string
	for _, k := range v.Notes[:v.N] {
		out = append(out, groovetest.KeyName(int(k)))
	}
	return strings.Join(out, " ")
}

func abs(x int) int { return max(x, -x) }
