package timeline

import (
	"cmp"
	"fmt"
	"strings"
)

// BarChange is something that is otherwise in a pass from a bar on, counted from 0. What is
// the song file's word for it, Is what holds from there on.
type BarChange struct {
	Bar      int
	What, Is string
	Count    string // "" on the bar line
}

// Inside is what changes inside a pass, in order: energy, tempo, feel, key, players and what they
// play on. What the pass has as a whole is none of it, unless its first bar has it otherwise.
func (t *Timeline) Inside(p *Pass) []BarChange {
	var out []BarChange
	was := map[string]string{"energy": p.EnergyText(), "feel": p.Feel, "key": p.Key.String(),
		"players": playersText(p.Tacet)}
	for _, w := range t.BandOr(p.Band).words() {
		was[w[0]] = w[1]
	}
	sweeps, next := p.Sweeps(), 0
	for bar := range p.Bars {
		say := func(what, is string) {
			if was[what] != is {
				out, was[what] = append(out, BarChange{Bar: bar, What: what, Is: is}), is
			}
		}
		if next < len(sweeps) && sweeps[next].First == bar {
			say("energy", sweeps[next].text())
			next++
		}
		if pace := p.Bars[bar].Pace; pace != nil { // also the same again, after a rit
			out = append(out, BarChange{Bar: bar, What: "tempo", Is: pace.String()})
		}
		say("feel", p.FeelAt(bar))
		say("key", p.KeyAt(p.Bars[bar].Start).String())
		say("players", playersText(p.TacetAt(bar)))
		for _, w := range t.BandAt(p, bar).words() {
			say(w[0], w[1])
		}
	}
	return out
}

// EnergyText is the energy of the pass: "3", "2 to 4" where it moves. Where bars have energies
// of their own it is that of the bars before them.
func (p *Pass) EnergyText() string {
	if len(p.Bars) == 0 {
		return fmt.Sprint(p.EnergyFrom)
	}
	return p.Sweeps()[0].text()
}

func (s Sweep) text() string {
	if s.From == s.To {
		return fmt.Sprint(s.From)
	}
	return fmt.Sprint(s.From, " to ", s.To)
}

func playersText(tacet Players) string {
	return cmp.Or(strings.Join((All&^tacet).Names(), ", "), "none")
}

// OwnBand is what the players play on in a pass, each with the song file's word for the player: those
// who play on something else than in the song, or in another way.
func (t *Timeline) OwnBand(p *Pass) (out [][2]string) {
	song := t.BandOr(nil).words()
	for i, w := range t.BandOr(p.Band).words() {
		if w != song[i] {
			out = append(out, w)
		}
	}
	return out
}

// words are what the players play on, each with the song file's word for the player.
func (b Band) words() [3][2]string {
	return [3][2]string{{"drums", b.Drums.Words()}, {"bass", b.Bass.Words()}, {"piano", b.Piano.Sound}}
}

const asFeel = "as the feel has it"

// Words are what the drummer plays on.
func (s DrumsSetup) Words() string { return cmp.Or(s.Kit, asFeel) }

// Words are what the bassist plays on, and which line: "acoustic, line walk".
func (s BassSetup) Words() string {
	line := s.Line
	if line != "" {
		line = "line " + line
	}
	if s.Sound != "" && line != "" {
		return s.Sound + ", " + line
	}
	return cmp.Or(s.Sound, line, asFeel)
}
