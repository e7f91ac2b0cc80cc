package groove

// What the energies 1 to 5 mean, for each player: 1 is barely there, 5 is everything that
// the bed will ever play. What a player strikes at each energy stands in the rows of the
// groove files; everything else that grows with the energy stands here. Where no source
// is named it is common practice, no single source.

// ByEnergy is a value for each energy, from 1 to 5.
type ByEnergy[T any] [5]T

func (b *ByEnergy[T]) At(energy int) T { return b[energy-1] }

const no, yes = false, true

// The whole band.
var (
	// bandLift is added to every velocity; between two energies it moves evenly.
	bandLift = ByEnergy[int]{-16, -8, 0, 6, 12}
	// forceful players hit an accent with all their strength, and come down together on a
	// last hit and on a chorus that they rise into; else an accent is a nudge.
	forceful = ByEnergy[bool]{no, no, no, yes, yes}
)

// The drummer.
var (
	// snareDrum: an accent and a push are struck on the snare drum, and under it on what
	// marks the backbeat, a cross-stick or a brush.
	snareDrum = ByEnergy[bool]{no, no, yes, yes, yes}
	// crashes open a section, mark a push that leads to this energy and an accent of
	// weight 2, and end the song.
	crashes = ByEnergy[bool]{no, no, no, yes, yes}
	// allHisWeight is in the crash of a push, and of a section that the band rises into,
	// and in the hands of a fill.
	allHisWeight = ByEnergy[bool]{no, no, no, no, yes}
	// closingBeats is how long the fill is that closes a section, in beats, by the energy
	// it leads to when that is no lower than the section's own: nothing into 1, a whole bar
	// into 5. The take chooses where there are two; below slowTempo the shorter one is long
	// enough.
	closingBeats = ByEnergy[[2]int]{{0, 0}, {1, 1}, {2, 1}, {3, 2}, {wholeBar, wholeBar}}
	// downBeats is the same into a lower energy: a breath, or one beat into a full band.
	downBeats = ByEnergy[int]{0, 0, 1, 1, 1}
)

// The bassist.
var (
	// bassLift is bandLift for the bass, which goes back further where the piano is thin:
	// at energy 1 and 2 its long low notes would otherwise stand 4 to 9 dB over the comp in
	// the rendered beds, and cover it.
	bassLift = ByEnergy[int]{-22, -12, 0, 6, 12}
	// approaches: he leads into a chord by step.
	approaches = ByEnergy[bool]{no, no, yes, yes, yes}
	// breathes: his last long note ends a sixteenth before its section does.
	breathes = ByEnergy[bool]{yes, yes, yes, no, no}
)

// The pianist.
var (
	// compVoices is how many voices the comp has where the groove does not say.
	compVoices = ByEnergy[int]{2, 3, 3, 4, 4}
	// centres is where the voicings gather, in MIDI numbers. In 870 pop accompaniments the
	// upper voices' middle is 60, half of them between 58 and 62; the fifths at either end
	// lie at 55 and 67.
	centres = ByEnergy[int]{57, 58, 60, 62, 63}
	// attacksPerBeat bounds the comp's attacks a beat, in thousandths. The figures for 2 and
	// 5 are the design's: less than the 2.0 that is the median of 870 pop accompaniments,
	// and hardly more at full cry.
	attacksPerBeat = ByEnergy[int64]{1000, 1200, 1500, 1850, 2200}
	// answersSinger: he answers the singer.
	answersSinger = ByEnergy[bool]{no, no, yes, yes, yes}
	// spreads: he spreads the chord of an accent.
	spreads = ByEnergy[bool]{no, no, no, no, yes}
	// wholeOffBeats: where the left hand has the bass, the right strikes the off-beats
	// whole.
	wholeOffBeats = ByEnergy[bool]{no, no, yes, yes, yes}
	// leftOctaves: the left hand may take the octave below.
	leftOctaves = ByEnergy[bool]{no, no, no, no, yes}
	// leftRows is the energy whose bass row the left hand follows: what lies between is
	// the bassist's alone.
	leftRows = ByEnergy[int]{1, 2, 2, 2, 2}
)
