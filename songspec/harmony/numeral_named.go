package harmony

// namedChord is a chord of classical harmony that has a name instead of a numeral: its root
// above the tonic, its quality, and the degree of it in the bass, 0 for the root. A cadential
// chord takes the mode of the key.
type namedChord struct {
	at      place
	quality string
	bass    int
	tonic   bool
}

// An augmented sixth is spelled as the seventh chord that sounds like it, on the flat sixth
// of the key, which is in the bass. Any handbook of harmony has the tones: in C the Italian
// is Ab C F#, the French Ab C D F#, the German Ab C Eb F#.
var (
	flatSixth  = place{5, 8}
	italian    = namedChord{at: flatSixth, quality: "7no5"}
	french     = namedChord{at: flatSixth, quality: "7b5"}
	germanic   = namedChord{at: flatSixth, quality: "7"}
	neapolitan = place{1, 1}
)

var named = map[string]namedChord{
	"N": {at: neapolitan}, "N6": {at: neapolitan, bass: 3},
	"Cad64": {bass: 5, tonic: true},
	"It6":   italian, "It+6": italian,
	"Fr43": french, "Fr6": french, "Fr+6": french,
	"Ger65": germanic, "Ger6": germanic, "Ger+6": germanic,
}

func (n namedChord) root(local tonic) place { return local.at.up(n.at.steps, n.at.semis) }

func (n namedChord) suffix(local tonic) string {
	if n.tonic && local.minor {
		return "m"
	}
	return n.quality
}
