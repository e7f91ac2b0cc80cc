package songspec

import (
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

	title, by *text
	settings
	looseness *whole // per mille
	take      *whole
	countIn   *whole
	pickup    *fraction
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

// The values of a song file, each with where it stands.
type (
	text struct {
		s   string
		rng hcl.Range
	}
	whole struct {
		n   int
		rng hcl.Range
	}
	// fraction is a number of beats, exact: num/den.
	fraction struct {
		num, den int64
		rng      hcl.Range
	}
	keyWord struct {
		key harmony.Key
		rng hcl.Range
	}
	meterWord struct {
		meter meter.Meter
		rng   hcl.Range
	}
	energyWord struct {
		from, to int
		rng      hcl.Range
	}
	playersWord struct {
		set timeline.Players
		rng hcl.Range
	}
	boolean struct {
		on  bool
		rng hcl.Range
	}
)

// settings may stand at the top, in a section and in a play (tacet and fills not
// at the top); the inner one wins.
type settings struct {
	key    *keyWord
	meter  *meterWord
	tempo  *whole
	feel   *text
	energy *energyWord
	tacet  *playersWord
	fills  *boolean
}

// over lays inner settings over outer ones.
func (outer settings) over(inner settings) settings {
	out := outer
	if inner.key != nil {
		out.key = inner.key
	}
	if inner.meter != nil {
		out.meter = inner.meter
	}
	if inner.tempo != nil {
		out.tempo = inner.tempo
	}
	if inner.feel != nil {
		out.feel = inner.feel
	}
	if inner.energy != nil {
		out.energy = inner.energy
	}
	if inner.tacet != nil {
		out.tacet = inner.tacet
	}
	if inner.fills != nil {
		out.fills = inner.fills
	}
	return out
}

// section is a section block. After link, what it takes from the section that it
// is like stands in it too.
type section struct {
	name   string
	rng    hcl.Range // of the label
	def    hcl.Range // of the block's head
	like   *text
	chords *chart
	// noChords says that chords were written but could not be read, so that no
	// second message complains about their absence.
	noChords bool
	broken   *chart // chords whose bars could not be read, for what is wrong with their symbols
	settings
	events []*event
	index  int
	linked linkState
	played bool
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
	lift    *whole
	settings
	events []*event
}

// event is an event block: a word at a place.
type event struct {
	kind    timeline.EventKind
	place   meter.Place
	at      int       // byte offset of the place's text in the file; -1 when unknown
	rng     hcl.Range // of the place
	by      *playersWord
	weight  *whole
	alone   *boolean
	beats   *fraction
	to      *whole
	from    string     // the section it is taken over from, "" when its own
	through *hcl.Range // the like that took it over
}

type vocal struct {
	ref       Ref
	track     string
	from      *whole
	low, high int
	line      int
}
