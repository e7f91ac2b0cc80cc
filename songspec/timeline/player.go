package timeline

// Player is one of the players: an index in PlayerNames.
type Player uint8

// The band.
const (
	Drums Player = iota
	Bass
	Piano
)

// PlayerNames are the words of the song file, indexed by Player.
var PlayerNames = [...]string{"drums", "bass", "piano"}

func (p Player) String() string { return PlayerNames[p] }

// Chords reports whether the player plays the chart's chords: all but the drummer do.
func (p Player) Chords() bool { return p != Drums }

// Players is a set of players.
type Players uint8

// All is the whole band.
const All Players = 1<<len(PlayerNames) - 1

// Only is the set of one player.
func Only(p Player) Players { return 1 << p }

// Has reports whether p is in the set.
func (s Players) Has(p Player) bool { return s&(1<<p) != 0 }

// Names are the players' names in their order; empty, not nil, for nobody.
func (s Players) Names() []string {
	out := []string{}
	for i, name := range PlayerNames {
		if s.Has(Player(i)) {
			out = append(out, name)
		}
	}
	return out
}
