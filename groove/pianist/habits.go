package pianist

import (
	"plinth/groove/feel"
	"plinth/groove/score"
)

// What hands do of themselves with a figure, so that one cell is not the same in every song:
// they hold on where the chord stays, break it the other way round, and do not let go of all
// notes at once. Common practice, no single source.

// holdOn takes strikes away from a figure where a chord that still sounds goes on: two of three
// of the left hand's, when it would only repeat its note, and below energy 5 one first beat of
// three. They are counted off and not drawn, so that no take has fewer strikes than another;
// the section says where the counting begins.
func (c *Pianist) holdOn(row []compAt) {
	phase := c.SectionChance("comp hold").Below(6)
	lefts, ones := phase, phase
	var before byte // what the left hand has, 0 nothing
	for i := range row {
		st := &row[i]
		if i == 0 || c.hasBass(c.BarAt(st.tick)) || !c.tabMayPlay(st.tick) {
			before = 0
			continue
		}
		bar := c.BarAt(st.tick)
		at := c.changeAt(st.tick)
		stays := c.changes[at].Start < st.tick || !c.needsStrike(at)
		if !stays {
			before = 0
		}
		if st.under.Touch > feel.Sound {
			if before == st.under.Part && stays {
				if lefts++; lefts%3 > 0 {
					st.under = feel.CompStep{Touch: feel.Sound}
				}
			}
			if st.under.Touch > feel.Sound {
				before = st.under.Part
			}
		} else if st.under.Touch == feel.Rest {
			before = 0
		}
		sounds := row[i-1].step.Touch != feel.Rest
		first := st.tick == c.Pass.Bars[bar].Start && st.step.Touch > feel.Sound && !st.final
		if first && stays && sounds && st.hands && c.Energy(bar) < 5 {
			if ones++; ones%3 == 0 {
				st.step = feel.CompStep{Touch: feel.Sound}
			}
		}
	}
}

// turnRound lets a bar break its chord the other way round: the middle voice of three for the
// top one. The section decides in which bars, one in three. A figure that goes up from the left
// hand's note stays.
func (c *Pianist) turnRound(bar int, row []compAt) {
	if len(row) == 0 || row[0].step.Touch <= feel.Sound || c.Level(bar).Voices != 3 ||
		c.SectionChance("comp voices").At(int64(bar)).Below(3) > 0 {
		return
	}
	for i := range row {
		if s := &row[i].step; row[i].hands && (s.Part == '2' || s.Part == '3') {
			s.Part = '2' + '3' - s.Part
		}
	}
}

// letGo lets one note of four that are held for three sixteenths or more go a sixteenth before
// its written end. The section decides which.
func (c *Pianist) letGo(notes []score.Note) {
	const asked = score.Accent | score.Pushed | score.Rings | score.Rolled
	from := c.SectionChance("comp release")
	for i := range notes {
		n := &notes[i]
		if n.Held < 3*quarter/4 || n.Art&asked != 0 || n.Voice == score.Left && c.hasBass(c.BarAt(n.At)) {
			continue
		}
		if from.At(n.At, int64(n.Key)).Below(4) == 0 {
			if n.Value == 0 {
				n.Value = n.Held
			}
			n.Held -= quarter / 4
		}
	}
}
