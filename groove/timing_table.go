package groove

// Figures that time is calibrated against, with where each comes from. "Drummers"
// are the 4/4 performances of the Groove MIDI Dataset (Google Magenta, CC BY 4.0),
// measured against their click; F&S is Friberg & Sundström, Music Perception
// 19(3), 2002, and their report of 1997.

// laneKind groups the instruments that wander alike.
type laneKind uint8

const (
	kindKick laneKind = iota
	kindSnare
	kindStick // cross-stick and small percussion
	kindHat
	kindPedal
	kindOpen
	kindRide
	kindTom
	kindCrash
	kindBass
	kindPiano
	numKinds
)

// kindOf sorts the General MIDI percussion keys (GM Level 1 percussion map).
func kindOf(key uint8) laneKind {
	switch key {
	case 35, 36:
		return kindKick
	case 38, 39, 40:
		return kindSnare
	case 42:
		return kindHat
	case 44:
		return kindPedal
	case 46:
		return kindOpen
	case 51, 53, 59:
		return kindRide
	case 41, 43, 45, 47, 48, 50:
		return kindTom
	case 49, 52, 55, 57:
		return kindCrash
	}
	return kindStick
}

// bandDriftUS is the standard deviation, in microseconds at looseness 0.4, of the
// drift that the whole band shares.
const bandDriftUS = 7000

// wander is how far an instrument strays from the band's drift, in microseconds
// of standard deviation at looseness 0.4: slow from beat to beat, quick from
// stroke to stroke.
type wander struct{ slow, quick int64 }

// wanders by instrument. Band drift and wander together come to about 0.6 of
// the drummers' median spread within a performance (closed hat 14.8 ms, ride 14.8,
// kick 17.7, snare 21.0, cross-stick 15.2, pedal 17.0, toms 15.5 to 17.9), and the
// quick share follows their correlation from stroke to stroke (hat .69, ride .66,
// kick .42, snare .17: a snare jumps, a hat wanders). For bass and piano no such
// table is at hand: they take the ride's and the kick's.
var wanders = [numKinds]wander{
	kindKick:  {6500, 5000},
	kindSnare: {4500, 9000},
	kindStick: {4500, 6000},
	kindHat:   {5500, 2500},
	kindPedal: {6500, 5000},
	kindOpen:  {5000, 4000},
	kindRide:  {5500, 2500},
	kindTom:   {5000, 6500},
	kindCrash: {5000, 5000},
	kindBass:  {5000, 3000},
	kindPiano: {5000, 4000},
}

// swingPoint is a ratio of long to short, in thousandths, at a tempo in beats a
// minute.
type swingPoint struct{ bpm, perMille int64 }

// swingCurve is the ratio of a swung ride by tempo. From 200 up it follows the
// short note of about 100 ms (F&S); below, where that model would go to 3.5, it is
// held to what drummers played: 1.9 to 2.0 below 80, 1.6 to 2.6 from 80 to 119,
// 1.5 to 2.4 from 120 to 159, 1.75 to 2.03 at 180 to 185, 2.06 at 215, 1.19 at
// 290. Between the points the ratio falls evenly, as F&S found.
var swingCurve = []swingPoint{
	{80, 2000}, {100, 2400}, {120, 2400}, {160, 2030}, {200, 2000}, {220, 1850},
	{240, 1500}, {290, 1190}, {320, 1000},
}

// The pianist's beats come later than the drummer's and the off-beats fall
// together, so that the piano's own ratio is smaller (F&S 2002, abstract). Its
// excess over 1 is pianoSwingPerMille of the drummer's: in 34 hand-annotated trio
// tracks the medians were 1.7, 1.6, 1.4 and 1.2 where the drummers' were 2.4, 2.4,
// 1.7 and 1.5. The delay is at most pianoDelayUS: Nelias et al. 2022 found 30 ms
// to add the most swing.
const (
	pianoSwingPerMille = 550
	pianoDelayUS       = 30_000
)

// Grace strokes before a flam and a drag, in milliseconds ahead of the stroke:
// common practice, no single source.
var (
	flamMS = []int{-25}
	dragMS = []int{-58, -29}
)

// refLooseness is the looseness, per mille, at which the figures hold.
const refLooseness = 400

// maxStrayUS bounds any displacement, and straySixteenths does so as a share, in
// per cent, of a sixteenth at the tempo of the place: notes keep their order.
const (
	maxStrayUS      = 50_000
	straySixteenths = 38
)

// shortestUS is the shortest note that is written, in microseconds.
const shortestUS = 10_000
