package timeline

// Player is one of the three players.
type Player uint8

// The band.
const (
	Drums Player = iota
	Bass
	Piano
	NumPlayers = 3
)

// PlayerNames are the words of the song file, indexed by Player.
var PlayerNames = [NumPlayers]string{"drums", "bass", "piano"}

func (p Player) String() string { return PlayerNames[p] }

// Players is a set of players.
type Players uint8

// All is the whole band.
const All Players = 1<<NumPlayers - 1

// Only is the set of one player.
func Only(p Player) Players { return 1 << p }

// Has reports whether p is in the set.
func (s Players) Has(p Player) bool { return s&(1<<p) != 0 }

// Names are the players' names in their order; empty, not nil, for nobody.
func (s Players) Names() []string {
	out := []string{}
	for p := Player(0); p < NumPlayers; p++ {
		if s.Has(p) {
			out = append(out, p.String())
		}
	}
	return out
}
