package room

import (
	"fmt"
	"slices"

	"plinth/songspec/timeline"
)

// playerRow is how the report shows one player.
type playerRow struct {
	who timeline.Player
	// pitched says that he takes a register, in which nobody else is to play. The kit
	// takes none: it has no pitch.
	pitched bool
	// hatch fills his body in the picture, with that outline. Both are empty for a
	// player who is not pitched.
	hatch   hatch
	outline string
}

// playerRows has a row for each player, from the highest instrument to the lowest: the
// order of the report under the voice.
var playerRows = [...]playerRow{
	{timeline.Piano, true, massHatch, `stroke="#2c6a9e" stroke-width="1.5"`},
	{timeline.Bass, true, groundHatch, `stroke="#4a2b00" stroke-width="2"`},
	{timeline.Drums, false, hatch{}, ""},
}

// style is how his body is filled and outlined in the picture.
func (p *playerRow) style() string { return fmt.Sprintf(`fill="url(#%s)" %s`, p.hatch.id, p.outline) }

// hatch is a pattern of the picture: its name in the file, and what is drawn in one tile.
type hatch struct{ id, size, tile string }

var (
	groundHatch = hatch{"room-ground", `width="7" height="7" patternUnits="userSpaceOnUse" ` +
		`patternTransform="rotate(45)"`,
		`<rect width="7" height="7" fill="#f3e6d0"/><path d="M0 0V7" stroke="#6b3f00" stroke-width="4.6"/>`}
	massHatch = hatch{"room-mass", `width="6" height="6" patternUnits="userSpaceOnUse"`,
		`<rect width="6" height="6" fill="#eaf2f9"/><path d="M0 3H6" stroke="#2c6a9e" stroke-width="1.3"/>`}
	energyHatch = hatch{"room-power", `width="5" height="5" patternUnits="userSpaceOnUse"`,
		`<rect width="5" height="5" fill="#fff"/><circle cx="2.5" cy="2.5" r="1.25" fill="#111"/>`}
)

// pitchedNames are the voice and the players who take a register.
func pitchedNames() []string {
	out := []string{"voice"}
	for _, p := range playerRows {
		if p.pitched {
			out = append(out, p.who.String())
		}
	}
	return out
}

// namedRegister is the register of the voice or of a player; part is nil where it is silent.
type namedRegister struct {
	name string
	part *Part
}

// parts are the registers of the single singers and of the pitched players. Between two singers
// there may be room that the voice as a whole does not show.
func (s *Scope) parts() (out []namedRegister) {
	for _, v := range s.Singers {
		out = append(out, namedRegister{v.Name, v.Part})
	}
	return append(out, s.registers()[1:]...)
}

// shownRegisters are those that the report's table shows: of several singers, each one's, too.
func (s *Scope) shownRegisters() []namedRegister {
	all := s.registers()
	if len(s.Singers) < 2 {
		return all
	}
	return slices.Concat(all[:1], s.parts())
}

// registers are the registers of the voice and of the pitched players, from the top.
func (s *Scope) registers() []namedRegister {
	out := []namedRegister{{"voice", s.Voice}}
	for _, p := range playerRows {
		if p.pitched {
			out = append(out, namedRegister{p.who.String(), s.Players[p.who]})
		}
	}
	return out
}

// piano is the register of the comp, nil where it is silent.
func (s *Scope) piano() *Part { return s.Players[timeline.Piano] }

// attackRow is the voice or a player in the table of counts; At is in how many of a
// hundred bars it attacks on a step.
type attackRow struct {
	Name string
	At   func(Step) int
}

// attackRows are the voice and the players, from the top.
func attackRows() []attackRow {
	out := []attackRow{{"voice", func(s Step) int { return s.Voice }}}
	for _, p := range playerRows {
		out = append(out, attackRow{p.who.String(), func(s Step) int { return s.Players[p.who] }})
	}
	return out
}

// knownRows are the attackRows without the voice where there is no guide vocal.
func (r *Report) knownRows() []attackRow {
	if len(r.tl.Vocals) == 0 {
		return attackRows()[1:]
	}
	return attackRows()
}
