// Package audit looks at what a band has played, as a player would: in go a song and its
// performance, out come the places that two hands, two feet, ten fingers and a bass could
// not play, what is not as the song asks for it, what breaks the band's own rules of
// restraint, and the figures of every pass.
package audit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"plinth/groove"
	"plinth/groove/bassist"
	"plinth/groove/feel"
	"plinth/groove/plan"
	"plinth/songspec/timeline"
)

// Severity says what a finding is about.
type Severity uint8

const (
	// Remark: it can be played, but breaks 'less is more'.
	Remark Severity = iota
	// Fault: a player could not play it, or it is not what the song asks for.
	Fault
)

func (s Severity) String() string {
	if s == Fault {
		return "fault"
	}
	return "remark"
}

// rule is what breaking one amounts to, in a few words, and what to write instead
// where a song file or a groove file can help.
type rule struct {
	severity Severity
	title    string
	advice   string
}

// rules are all there are, by the word that a finding carries.
var rules = map[string]rule{
	"range":   {Fault, "A note that the instrument has not", ""},
	"overlap": {Fault, "A note struck while it still sounds", ""},
	"stop":    {Fault, "A sound in a stop", ""},
	"hands":   {Fault, "More than two hands at once", "Take a stroke out of the groove's rows there."},
	"speed": {Fault, "Too fast for two hands",
		"A slower tempo, a lower energy or a groove with fewer strokes gives the hands time."},
	"foot": {Fault, "Too fast for a foot",
		"A slower tempo, a lower energy or a groove with fewer strokes gives the foot time."},
	"hat": {Fault, "One hi-hat, two ways at once", "Take one of the two out of the groove's rows there."},
	"syncopation": {Remark, "More off the beat than the feel is",
		"Move strokes of the groove to the beat, or say a higher syncopation in the groove file."},
	"voice":   {Fault, "Two bass notes at once", ""},
	"bass":    {Fault, "A change of chord without its bass", ""},
	"lock":    {Remark, "Kicks without the bass", "Let the groove's bass play, or hold on, where its kick does."},
	"span":    {Fault, "Wider than two hands", "A wider span, a higher ceiling or a smaller chord helps."},
	"low":     {Fault, "Unclear so low", "A higher ceiling or a smaller chord helps."},
	"ceiling": {Fault, "A comp over its ceiling", ""},
	"repeat":  {Fault, "Too fast for one key", "A slower tempo or fewer accents give the hand time."},
	"density": {Remark, "A busy piano", "Write fewer accents there, or ask for more energy."},
	"octaves": {Remark, "Octaves between piano and bass", ""},
	"energy":  {Remark, "Less to play at a higher energy", "Give the groove's higher level more to play."},
}

// Title says in a few words what is wrong.
func (f Finding) Title() string { return rules[f.Rule].title }

// Advice is a sentence that says what to write instead, or "".
func (f Finding) Advice() string { return rules[f.Rule].advice }

// Report is what an audit of a song found, and its figures pass by pass.
type Report struct {
	Findings []Finding // by pass, tick, player
	Passes   []Figures // one for each pass
}

// Song checks a performance as it is written, note by note, against what two
// hands, two feet, ten fingers and a bass guitar can do, against what the song
// asks for, and against the band's own rules of restraint. It looks at the
// finished notes and not at how they were made; of the feel it takes the names of
// the kit's voices and the syncopation that it may reach. tl and set are those
// that perf was played from; the passes of perf are what is read.
func Song(tl *timeline.Timeline, perf *groove.Performance, set *feel.Set) *Report {
	a := &audit{tl: tl, out: &Report{}, kitVoices: kitVoices()}
	at := int64(0)
	var before *passAudit
	for i := range perf.Passes {
		pass := &tl.Passes[i]
		pa := newPassAudit(a, pass, &perf.Passes[i], set)
		pa.from, pa.before = at, before
		before = pa
		at += pa.clock.Micros(pass.Length)
		a.passes = append(a.passes, pa)
		pa.checkAll()
		pa.checkBass()
		pa.checkLeftHand()
		pa.checkSyncopation()
		pa.checkPiano()
		a.out.Passes = append(a.out.Passes, pa.figures())
	}
	a.checkLimbs()
	a.checkBorders()
	a.checkEnergies()
	slices.SortStableFunc(a.out.Findings, func(x, y Finding) int {
		return cmp.Or(x.Pass-y.Pass, cmp.Compare(x.Tick, y.Tick), cmp.Compare(x.Player, y.Player))
	})
	return a.out
}

// audit is the audit of a song at work.
type audit struct {
	tl     *timeline.Timeline
	out    *Report
	passes []*passAudit

	kitVoices [128]feel.Voice
}

// passAudit is the audit of one pass.
type passAudit struct {
	*audit
	pass  *timeline.Pass
	plan  *plan.Plan
	part  *groove.PassPart
	clock *timeline.Clock
	// chords are the piano's attacks.
	chords []pianoChord
	from   int64 // where the pass begins, in microseconds of the song

	before *passAudit // nil for the first
}

func newPassAudit(a *audit, pass *timeline.Pass, part *groove.PassPart, set *feel.Set) *passAudit {
	pa := &passAudit{audit: a, pass: pass, plan: plan.New(a.tl, pass, set), part: part}
	pa.clock = pa.plan.Clock()
	pa.chords = pa.pianoChords(part.Notes[timeline.Piano])
	return pa
}

// at is the time of a tick of the pass in microseconds of the song. What a push
// brings before the pass is in the time of the pass before.
func (pa *passAudit) at(tick int64) int64 {
	if tick < 0 && pa.before != nil {
		return pa.before.from + pa.before.clock.Micros(pa.before.pass.Length+tick)
	}
	return pa.from + pa.clock.Micros(tick)
}

// found adds a finding at a tick of the pass, with its place in the song.
func (pa *passAudit) found(who timeline.Player, tick int64, rule, format string, args ...any) {
	bar := pa.plan.BarAt(tick)
	pa.out.Findings = append(pa.out.Findings, Finding{
		Player: who, Tick: tick, Bar: bar, Rule: rule, Text: fmt.Sprintf(format, args...),
		Severity: rules[rule].severity, Pass: pa.pass.Index, SongBar: pa.pass.FirstBar + bar,
		Line: pa.pass.Bars[bar].Line,
	})
}

// checkAll checks what holds for every player: the instrument's range, no note struck
// while it still sounds, and silence in a stop.
func (pa *passAudit) checkAll() {
	for i, notes := range pa.part.Notes {
		who := timeline.Player(i)
		var last [128]*groove.Note
		for i := range notes {
			n := &notes[i]
			for _, s := range pa.plan.Cues.Silences(who) {
				if n.Tick < s.End && n.Tick+n.Length > s.Start {
					where := "in a stop"
					if pa.pass.TacetAt(pa.plan.BarAt(max(n.Tick, s.Start))).Has(who) {
						where = "in a bar to keep out of"
					}
					pa.found(who, max(n.Tick, s.Start), "stop", "the %s %s", sounds(who), where)
					break
				}
			}
			if who == timeline.Piano {
				continue // range and overlap are among the piano's own rules
			}
			if fault := pa.onInstrument(who, n.Key); fault != "" {
				pa.found(who, n.Tick, "range", "%s", fault)
			}
			if p := last[n.Key&127]; p != nil && p.Tick+p.Length > n.Tick {
				pa.found(who, n.Tick, "overlap", "%s is struck while it still sounds", pa.soundName(who, n.Key))
			}
			last[n.Key&127] = n
		}
	}
}

// sounds is a player and the verb: "drums sound", "bass sounds".
func sounds(who timeline.Player) string {
	if who == timeline.Drums {
		return "drums sound"
	}
	return who.String() + " sounds"
}

// onInstrument says what is wrong with a key of the kit or of the bass, or "".
func (a *audit) onInstrument(who timeline.Player, key uint8) string {
	low := bassist.Lowest(a.tl.Bass)
	switch {
	case who == timeline.Drums && a.kitVoices[key&127].Word == "":
		return fmt.Sprintf("the kit has nothing on percussion key %d", key)
	case who == timeline.Bass && (int(key) < low || int(key) > bassist.Highest):
		return fmt.Sprintf("%s is outside the bass's range, %s to %s", keyName(key), keyName(low),
			keyName(bassist.Highest))
	}
	return ""
}

// soundName names a key as its player would.
func (a *audit) soundName(who timeline.Player, key uint8) string {
	if who != timeline.Drums {
		return keyName(key)
	}
	return "the " + spokenVoice(a.kitVoices[key&127].Word)
}

// spokenVoice is a voice's word as it is spoken.
func spokenVoice(word string) string { return strings.ReplaceAll(word, "_", " ") }

// kitVoices are the kit's voices by percussion key. Where a brush and a stick share
// a key it is the stick's: the limb is the same.
func kitVoices() (out [128]feel.Voice) {
	for _, v := range feel.Voices() {
		if out[v.Key].Word == "" || !v.Brush() {
			out[v.Key] = v
		}
	}
	return out
}
