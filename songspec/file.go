package songspec

import (
	"cmp"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// File is a song file, read: every value with its place in the text, names
// looked up, chords split into bars but not yet into harmony.
type File struct {
	src    *hcltext.Source
	failed bool // Parse found errors, so Resolve makes no timeline

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

// Ref is a file that the song file names. Path is slash-separated, cleaned and
// relative to the song file's folder; as text it does not leave that folder.
// Whether it exists, and whether a link leads out, is for its opener to see; its
// diagnostics go to Range.
type Ref struct {
	Path  string
	Range hcl.Range
}

// GrooveFiles are the song's own groove files in the order written.
func (f *File) GrooveFiles() []Ref { return f.grooves }

// VocalFile is the guide vocal's file, nil when there is none.
func (f *File) VocalFile() *Ref {
	if f.vocal == nil {
		return nil
	}
	ref := f.vocal.ref
	return &ref
}

// said is a value of a song file, with where it stands.
type said[T any] struct {
	v   T
	rng hcl.Range
}

// or is the value that is said, or another where none is.
func or[T any](s *said[T], other T) T {
	if s == nil {
		return other
	}
	return s.v
}

// settings may stand at the top, in a section and in a play (tacet and fills not
// at the top); the inner one wins.
type settings struct {
	key    *said[harmony.Key]
	meter  *said[meter.Meter]
	tempo  *said[int]
	feel   *said[string]
	energy *said[[2]int] // from one to another
	tacet  *said[timeline.Players]
	fills  *said[bool]
}

// over lays inner settings over outer ones.
func (outer settings) over(inner settings) settings {
	return settings{
		key:    cmp.Or(inner.key, outer.key),
		meter:  cmp.Or(inner.meter, outer.meter),
		tempo:  cmp.Or(inner.tempo, outer.tempo),
		feel:   cmp.Or(inner.feel, outer.feel),
		energy: cmp.Or(inner.energy, outer.energy),
		tacet:  cmp.Or(inner.tacet, outer.tacet),
		fills:  cmp.Or(inner.fills, outer.fills),
	}
}

// section is a section block. After link, what it takes from the section that it
// is like stands in it too.
type section struct {
	name   string
	rng    hcl.Range // of the label
	like   *said[string]
	chords *chart
	// noChords says that chords were written but could not be read, so that no
	// second message complains about their absence.
	noChords bool
	broken   *chart // chords whose bars could not be read, for what is wrong with their symbols
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
	section *section // nil: no such section, already reported
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
	from    string     // the section it is taken over from, "" when its own
	through *hcl.Range // the like that took it over
}

type vocal struct {
	ref       Ref
	track     string
	from      *said[int]
	low, high int
	line      int
}
