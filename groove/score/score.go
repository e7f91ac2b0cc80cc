// Package score is the form of what the band means, before anybody plays it: package
// groove makes it of a pass's cues and a feel. It is notes on the grid, each with its
// written length, its hand or voice, its articulation and the cue that it answers. Nothing
// in it depends on looseness: it has no milliseconds but those of a spread chord and of a
// grace stroke, and off-beats stand where they are written, half-way or on the last third,
// however they are swung.
//
// Who writes for readers reads the score; who writes for ears reads what was played,
// where every note carries the index of the note that it plays.
package score

import (
	"plinth/groove/feel"
	"plinth/groove/nearsort"
	"plinth/songspec/cue"
)

// Note is a note as its player means it. It has 32 bytes and no pointer: a pass is made
// of thousands.
type Note struct {
	At    int64  // ticks from the start of the pass, unswung; under 0 for what is pushed out of it
	Value int32  // written length in ticks, 0 of a grace stroke; how it is tied is a matter of printing
	Held  int32  // the length meant, in ticks: less than Value where it is short or breathes
	Cue   int32  // the cue that it answers, an index in the pass's cues; -1: the figure's own
	Group uint32 // the group that it belongs to, counted from 1 in the part's Groups; 0: none
	Bar   int16  // the bar that owns it; the number of bars for what is the next pass's
	Roll  int16  // milliseconds from At, under 0: of a spread chord's lower notes, of a grace stroke
	Key   uint8  // MIDI note number; on the kit the General MIDI percussion key
	Voice Voice
	Touch feel.Touch
	Art   Art
}

// End is where the note is let go, in ticks from the start of the pass.
func (n *Note) End() int64 { return n.At + int64(n.Held) }

// Hold holds the note until a tick.
func (n *Note) Hold(until int64) { n.Held = int32(until - n.At) }

// Voice is which part of a player plays a note. On the kit it is the place of the
// instrument in the table of voices, see Kit; the others count from there.
type Voice uint8

// The voices of the pitched players.
const (
	String Voice = 64 + iota // the bass
	Right                    // the pianist's hands
	Left
)

// Kit is the voice of an instrument of the kit.
func Kit(v feel.Voice) Voice { return Voice(feel.VoiceOrder(v.Word)) }

// OnKit reports whether it is an instrument of the kit.
func (v Voice) OnKit() bool { return v < String }

// Instrument is the kit's instrument; v is OnKit.
func (v Voice) Instrument() feel.Voice { return feel.VoiceAt(int(v)) }

// Limb is what strikes the kit's instrument; v is OnKit.
func (v Voice) Limb() feel.Limb { return limbs[v] }

// limbs are the limbs by the kit's table: the drummer asks for every stroke.
var limbs = func() (out [String]feel.Limb) {
	for i, v := range feel.Voices() {
		out[i] = v.Limb
	}
	return out
}()

// String is the voice in a word.
func (v Voice) String() string {
	switch v {
	case String:
		return "bass"
	case Right:
		return "right"
	case Left:
		return "left"
	}
	return v.Instrument().Word
}

// Art is how a note is struck and held: a set.
type Art uint8

// Articulations.
const (
	Accent Art = 1 << iota // it answers an accent
	Pushed                 // struck ahead of its beat; what sounds is tied over it
	Rings                  // it rings until something ends it
	Rolled                 // it is part of a spread chord
	Grace                  // a stroke just before another, of a flam or a drag
	Dead                   // a muted note, of no pitch
	Short                  // cut off dry, as a staccato hit
)

// Has reports whether all of b are in the set.
func (a Art) Has(b Art) bool { return a&b == b }

// GroupKind is why notes belong together.
type GroupKind uint8

// The groups.
const (
	Fill   GroupKind = 1 + iota // a drum fill
	Roll                        // a spread chord
	Broken                      // a broken chord
	Answer                      // the pianist answers the singer
)

// Group is some notes of a part that belong together.
type Group struct {
	Kind     GroupKind
	At, End  int64 // ticks of the pass
	Num, Den uint8 // of a tuplet: 3 in the time of 2; 0 where it is none
	Name     string
}

// RegionKind is what is said of a stretch of a part.
type RegionKind uint8

// The regions.
const (
	Texture RegionKind = 1 + iota // what the part is made of: Name
	Phrase                        // Index is the phrase from 0, Count its bars
	Swing                         // Name says what is swung; Index to Count is the ratio, in thousandths
	Tacet
)

// Region is a stretch of a part and what is said of it.
type Region struct {
	Kind         RegionKind
	From, To     int64 // ticks of the pass
	Index, Count int32
	Name         string
}

// Part is one player's part of a pass.
type Part struct {
	Notes   []Note // by At
	Groups  []Group
	Regions []Region
}

// Pass is what the band means in one pass, by player.
type Pass struct {
	Cues    *cue.Cues // what the song asks for, which the notes answer
	Parts   []Part    // by player
	Regions []Region  // what concerns the whole band
}

// ByTick puts notes in order of time; those on one tick keep theirs.
func ByTick(notes []Note) {
	nearsort.By(notes, func(n *Note) int64 { return n.At })
}

// ByTickAndKey puts notes in order of time and, on one tick, of pitch.
func ByTickAndKey(notes []Note) {
	nearsort.By(notes, func(n *Note) int64 { return n.At<<8 | int64(n.Key) })
}

// Without is a list without the items at some indices, in the same memory. drop may change the
// item that it is asked about.
func Without[T any](list []T, drop func(i int) bool) []T {
	out := list[:0]
	for i := range list {
		if !drop(i) {
			out = append(out, list[i])
		}
	}
	return out
}

// NameTexture names a row by how often it strikes and by whether it has something special.
func NameTexture(attacks, bars int, special bool, word, other string) string {
	switch {
	case attacks == 0:
		return "silent"
	case special:
		return word
	case attacks <= bars:
		return "held"
	}
	return other
}
