// Package cue takes a pass of the timeline and returns its cues: what the song asks of each
// player, with every event worked out once, and what is dropped and why. All that plays,
// prints, compares or measures a song reads the cues and not the events.
//
// Join is called first, once for all passes of a song; then Of gives the cues of a pass, and
// Events only how its events are played. The package knows nothing of feels and instruments:
// how a cue is played is the player's affair.
package cue

import (
	"sort"

	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// Kind is what a cue asks for.
type Kind uint8

// The cues. Chord to Caesura come from the chart and its events, the last three from the form.
const (
	Chord    Kind = iota // a chord begins; where At is before Target it is pushed
	Accent               // a hit together
	Stop                 // silence
	Fill                 // the drummer fills
	Hold                 // a held beat
	Rit                  // the tempo moves, in general down
	Accel                // likewise, in general up
	Space                // the singer is silent
	Signal               // something happens that is not the band's affair
	Caesura              // sound and time cease: At is where the silence begins
	Opening              // the pass comes in as strong as what was before it, or stronger
	Ending               // the song comes to rest: one last stroke that rings
	FinalHit             // the song stops dead after a last hit
)

// Cue is one thing that the song asks of the band. Ticks are relative to the pass.
type Cue struct {
	// At is where it is struck or begins. It is under 0 only for what is pushed into the
	// pass before.
	At int64
	// Target is the beat that is pushed: for a chord where the chart has it, for an accent
	// on a push the beat of that push. It equals At where nothing is pushed, and the pass's
	// Length where the chord is the next pass's first.
	Target int64
	// Until is where it ends. An accent ends where it begins, an opening and an ending end
	// with the pass, a final hit ends at the stop after it.
	Until int64
	// Event is the index in the pass's Events; -1 if the chart or the form asks for it, and
	// for an accent that a neighbour writes.
	Event int32
	// Span is the index in the pass's Chords of a chord that begins, -1 otherwise.
	Span int32
	// Bar is the index of the bar whose energy and key count. It is the number of bars for
	// what belongs to the next pass.
	Bar  int32
	Kind Kind
	// By are the players who strike it, or to whom it happens, in this pass: those named
	// for it who are not tacet.
	By timeline.Players
	// Out are the players who strike it in the neighbour pass, on the push that joins the
	// two passes.
	Out    timeline.Players
	Weight uint8 // of an accent 1 to 3, 0 for all others
	Rises  bool  // of an opening: the pass comes in stronger than what was before it
	Alone  bool  // of an accent: nothing but the written hits sounds in its bar
	Short  bool  // of an accent: it is cut off dry
	Early  bool  // of an accent: it is struck with a push, and not where it is written
}

// Pushed reports whether a cue is struck ahead of its beat.
func (c *Cue) Pushed() bool { return c.At < c.Target }

// Reason is why an event, or one player's share of it, is not played.
type Reason uint8

// The reasons, in the order in which they are told. The zero value is none.
const (
	Unsaid    Reason = iota
	InStop           // the band is silent there
	AtCaesura        // everything is silent there, or it would sound over that
	NoChord          // there is N.C., or the push leads to N.C.
	Taken            // another push has taken that chord already
	SongEnds         // the push is out of the song's last pass
	NextTacet        // the players it names are tacet in the next pass, or in the bar that a push leads to
	HitsAlone        // the bar is for the written hits alone
	Tacet            // the players it names are tacet there
	NoDrummer        // a fill without the drummer: he is tacet, or not named
	NumReasons
)

// reasons are the words for each reason: short, for an outline, and as the end of a
// sentence that begins "Wherever it is played,".
var reasons = [NumReasons][2]string{
	InStop: {"a stop", "it falls into a stop, and the stop wins"},
	AtCaesura: {"a caesura",
		"a caesura cuts it off, and nothing sounds over that"},
	NoChord: {"N.C.", "there is N.C. and no chord to play"},
	Taken: {"the chord is pushed already",
		"another push has that chord already: of several to one beat the first counts"},
	SongEnds:  {"the song ends", "the song ends, and no chord follows"},
	NextTacet: {"tacet in what follows", "those it names keep out of what follows"},
	HitsAlone: {"the bar is for its hits", "the bar is for its written hits alone"},
	Tacet:     {"tacet", "those it names are tacet"},
	NoDrummer: {"no drummer", "the drums are tacet or not named in its by, and only the drummer fills"},
}

// String is the reason in a few words: "a stop".
func (r Reason) String() string { return reasons[r][0] }

// Clause is the reason as the end of a sentence that begins "Wherever it is played,".
func (r Reason) Clause() string { return reasons[r][1] }

// Dropped is an event that some players, or all, do not play.
type Dropped struct {
	Event int32 // index in the pass's Events
	By    timeline.Players
	Why   Reason
}

// Change is a chord as one player plays it, in ticks of the pass.
type Change struct {
	Start, End int64 // where it is struck, and where it ends
	// Nominal is where the chart has it, later than Start if it is pushed. Between Start
	// and Nominal, and on Nominal, nothing is struck unless another push begins there.
	Nominal int64
	Chord   harmony.Chord
	Cue     int32 // index in List
	span    int32 // index in the pass's Chords
	Same    bool  // the chord before it, for this player, is the same
}

// Pushed reports whether the chord comes early.
func (c *Change) Pushed() bool { return c.Start < c.Nominal }

// Cues are what the song asks of the band in one pass.
type Cues struct {
	List    []Cue     // by At, then Kind
	Dropped []Dropped // by Event

	// Holds are the held beats without their first tick: nothing new is struck in them. Rits
	// are the stretches of the rits; in an accel the band plays on. Both are in order.
	Holds, Rits Stretches
	// Alone says for each bar whether only the written hits are played in it.
	Alone []bool

	// The cues of the form, as indices in List; -1 where there is none.
	Opening, Ending, FinalHit int32

	of   [len(timeline.PlayerNames)]playerCues // by player
	acts []bool                                // by event: it has a cue

	length   int64     // of the pass
	caesuras Stretches // their silences
}

// playerCues is what the cues are for one player.
type playerCues struct {
	silences Stretches
	tacet    Stretches // bars of the pass that the player keeps out of, among the silences
	changes  []Change
	pushes   Pushes
	end      int64
}

// Silences are the stretches in which a player neither strikes nor sounds, in order and
// apart from each other. The first may begin before 0, after a push into the pass before.
func (c *Cues) Silences(who timeline.Player) Stretches { return c.of[who].silences }

// Changes are the chords of the pass for one player, in order and without a gap. Equal
// chords in a row stay apart if the song file writes them again. The first begins before 0
// if it is pushed into the pass before; the last ends early if the next pass's first chord
// is pushed into this one. The drummer has none.
func (c *Cues) Changes(who timeline.Player) []Change { return c.of[who].changes }

// Pushes are a player's pushes in order, beginning with the one that leads into the pass.
func (c *Cues) Pushes(who timeline.Player) Pushes { return c.of[who].pushes }

// End is where a player's part of the pass ends: at the last bar line, or at a push of the
// next pass's first chord.
func (c *Cues) End(who timeline.Player) int64 { return c.of[who].end }

// Each ranges over the cues of a kind that a player strikes in this pass, in order, each
// with its index in List.
func (c *Cues) Each(kind Kind, who timeline.Player) func(yield func(int32, *Cue) bool) {
	return func(yield func(int32, *Cue) bool) {
		for i := range c.List {
			if q := &c.List[i]; q.Kind == kind && q.By.Has(who) && !yield(int32(i), q) {
				return
			}
		}
	}
}

// Struck reports whether a player has a cue of a kind that begins at a tick.
func (c *Cues) Struck(kind Kind, who timeline.Player, tick int64) bool {
	i := sort.Search(len(c.List), func(i int) bool { return c.List[i].At >= tick })
	for ; i < len(c.List) && c.List[i].At == tick; i++ {
		if q := &c.List[i]; q.Kind == kind && q.By.Has(who) {
			return true
		}
	}
	return false
}

// IndexAt is the index of the chord in force at a tick, -1 before the first.
func IndexAt(changes []Change, tick int64) int {
	return sort.Search(len(changes), func(i int) bool { return changes[i].Start > tick }) - 1
}

// ChangeAt is the chord in force at a tick, the first chord for a tick before it; nil if
// there is no chord at all.
func ChangeAt(changes []Change, tick int64) *Change {
	if len(changes) == 0 {
		return nil
	}
	return &changes[max(0, IndexAt(changes, tick))]
}
