package songspec

import (
	"cmp"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// File is a song file after reading. Every value has its place in the text, names are looked
// up, and chord text is split into bars, but chords are not read yet.
type File struct {
	src    *hcltext.Source
	failed bool // Parse found errors, so Resolve makes no timeline
	// slipped says that some of the file could not be read. What doubts and sums need to know
	// of the whole song is not known then.
	slipped       bool
	groovesUnread bool

	title, by *said[string]
	settings
	looseness *said[int] // per mille
	take      *said[int]
	countIn   *said[int]
	pickup    *said[int64] // in parts of a beat, see beatGrid
	grooves   []Ref
	drums     timeline.DrumsSetup
	bass      timeline.BassSetup
	piano     timeline.PianoSetup
	vocal     *vocal

	sections []*section
	byName   map[string]*section
	form     []*play
	hasForm  bool
}

// Ref is a file that the song file names. Path is slash-separated, cleaned and relative to the
// song file's folder; as text it does not leave that folder. The program that opens it has to
// check whether it exists and whether a link leads out. Range is the place for diagnostics
// about it.
type Ref struct {
	Path  string
	Range hcl.Range
}

// GrooveFiles are the song's own groove files in the order written.
func (f *File) GrooveFiles() []Ref { return f.grooves }

// VocalFile is the file of the guide vocal, nil when there is none.
func (f *File) VocalFile() *Ref {
	if f.vocal == nil {
		return nil
	}
	ref := f.vocal.ref
	return &ref
}

// said is a value that the song file states, with its place in the text.
type said[T any] struct {
	v   T
	rng hcl.Range
}

// or is the stated value, or other where none is stated.
func or[T any](s *said[T], other T) T {
	if s == nil {
		return other
	}
	return s.v
}

// settings are values that may stand at the top, in a section and in a play (tacet and fills
// not at the top). The innermost one wins.
type settings struct {
	key    *said[harmony.Key]
	meter  *said[meter.Meter]
	tempo  *said[int]
	feel   *said[string]
	energy *said[[2]int] // where it starts, and where it goes
	tacet  *said[timeline.Players]
	fills  *said[bool]
	lead   *said[bool]
	// meterUnread says that a meter is stated that could not be read.
	meterUnread bool
}

// over returns the inner settings, and the outer ones where there is no inner one.
func (outer settings) over(inner settings) settings {
	return settings{
		key:    cmp.Or(inner.key, outer.key),
		meter:  cmp.Or(inner.meter, outer.meter),
		tempo:  cmp.Or(inner.tempo, outer.tempo),
		feel:   cmp.Or(inner.feel, outer.feel),
		energy: cmp.Or(inner.energy, outer.energy),
		tacet:  cmp.Or(inner.tacet, outer.tacet),
		fills:  cmp.Or(inner.fills, outer.fills),
		lead:   cmp.Or(inner.lead, outer.lead),

		meterUnread: inner.meterUnread || inner.meter == nil && outer.meterUnread,
	}
}

// section is a section block. After link, it also has what it takes from the section that it
// is like.
type section struct {
	name   string
	rng    hcl.Range // of the label
	like   *said[string]
	chords *chart
	// noChords says that a mistake in the chords was reported, so that no second message says
	// that chords are missing.
	noChords bool
	broken   *chart // a chart with mistakes in its bars, kept to check its symbols too
	settings
	events []*event
	linked linkState
	inForm bool
}

type linkState uint8

const (
	unlinked linkState = iota
	linking
	linked
)

// play is one line of the form.
type play struct {
	name    string
	rng     hcl.Range
	section *section // nil: there is none of that name, and that is reported
	lift    *said[int]
	settings
	events []*event
}

// event is an event block: a word at a place.
type event struct {
	kind    timeline.EventKind
	place   meter.Place
	at      int       // byte offset of the place's text in the file; -1 when unknown
	rng     hcl.Range // of the place
	by      *said[timeline.Players]
	weight  *said[int]
	alone   *said[bool]
	beats   *said[int64] // in parts of a beat, see beatGrid
	to      *said[int]
	from    string     // the section that it is taken over from; "": none, it is the section's own
	through *hcl.Range // the like that it was taken over by
}

type vocal struct {
	ref       Ref
	track     string
	from      *said[int]
	low, high int
	line      int
}
