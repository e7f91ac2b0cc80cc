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
	unread        bool // it borrows sections that are told by their names alone

	title, by *said[string]
	settings
	looseness *said[int] // per mille
	take      *said[int]
	countIn   *said[int]
	pickup    *said[int64] // in parts of a beat, see beatGrid
	grooves   []Ref
	strings   *said[int] // of the bass
	span      *said[int] // of the pianist's hand, in semitones
	highest   int        // of the comp, as a MIDI note number; 0 where nothing is said
	vocals    []*vocal
	picture   *picture         // nil: the song is for none
	fraction  *said[meter.BPM] // the first tempo that is not of whole beats
	guided    *said[meter.BPM] // the first tempo that is the guide's

	transpose *said[int]        // semitones that everything moves by
	lenders   []Ref             // song files whose sections are borrowed
	waiting   *decoder          // has to link the sections when Lend is called
	others    []*hcltext.Source // the texts of the lenders

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
	lent  bool // another song file names it, which lends its sections
}

// GrooveFiles are the song's own groove files in the order written.
func (f *File) GrooveFiles() []Ref { return f.grooves }

// Remarks are warnings that nobody needs at every build: what is right, and goes astray in other
// programs.
func (f *File) Remarks() hcl.Diagnostics {
	rep := hcltext.Report{Source: f.src}
	if t := f.fraction; t != nil {
		rep.Warnf(t.rng, "A tempo between whole beats",
			"The MIDI file has %s as it is written. Some notation programs round it to whole beats when they read the "+
				"file, and then drift away from the band: set the tempo there by hand.", t.v)
	}
	return rep.Diags
}

// VocalFiles are the files of the guide vocals, in the order written, as the Timeline's Vocals
// are. Two singers may share one file.
func (f *File) VocalFiles() []Ref {
	refs := make([]Ref, len(f.vocals))
	for i, v := range f.vocals {
		refs[i] = v.ref
	}
	return refs
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

// settings are values that may stand at the top, in a section, in a play and in a bars block
// (tacet and fills not at the top). The innermost one wins.
type settings struct {
	key    *said[harmony.Key]
	meter  *said[meter.Meter]
	tempo  *said[meter.BPM]
	feel   *said[string]
	energy *said[[2]int] // where it starts, and where it goes
	tacet  *said[timeline.Players]
	fills  *said[bool]
	lead   *said[bool]

	// What the blocks of the players say.
	kit        *said[string]
	bassSound  *said[sound]
	bassLine   *said[string]
	pianoSound *said[sound]
	// meterUnread says that a meter is stated that could not be read.
	meterUnread bool
}

// over returns the inner settings, and the outer ones where there is no inner one.
func (outer settings) over(inner settings) settings {
	return settings{
		key:        cmp.Or(inner.key, outer.key),
		meter:      cmp.Or(inner.meter, outer.meter),
		tempo:      cmp.Or(inner.tempo, outer.tempo),
		feel:       cmp.Or(inner.feel, outer.feel),
		energy:     cmp.Or(inner.energy, outer.energy),
		tacet:      cmp.Or(inner.tacet, outer.tacet),
		fills:      cmp.Or(inner.fills, outer.fills),
		lead:       cmp.Or(inner.lead, outer.lead),
		kit:        cmp.Or(inner.kit, outer.kit),
		bassSound:  cmp.Or(inner.bassSound, outer.bassSound),
		bassLine:   cmp.Or(inner.bassLine, outer.bassLine),
		pianoSound: cmp.Or(inner.pianoSound, outer.pianoSound),

		meterUnread: inner.meterUnread || inner.meter == nil && outer.meterUnread,
	}
}

// section is a section block. After link, it also has what it takes from the section that it
// is like.
type section struct {
	name string
	rng  hcl.Range // of the label
	like *said[string]
	charted
	settings
	without []*said[timeline.EventKind] // events that are not taken over
	inside  [][]*inside                 // its bars blocks, those of a section that it is like first
	events  []*event
	linked  linkState
	inForm  bool
	loan    *loan // nil where the letters are written in this song
	// borrowed says that another file has the section: only the form plays it. One that is like it is
	// the song's own.
	borrowed bool
}

// charted is what the chords of a block came to.
type charted struct {
	chords *chart
	// noChords says that a mistake in the chords was reported, so that no second message says
	// that chords are missing.
	noChords bool
	broken   *chart // a chart with mistakes in its bars, kept to check its symbols too
}

// placed is a place, or some bars, as a song file names them.
type placed struct {
	place meter.Place
	at    int       // byte offset of the place's text in the file; -1 when unknown
	rng   hcl.Range // of the place
}

// wrong is the part of the place that an error is about; all of it where that is not known.
func (p *placed) wrong(rep *hcltext.Report, err *meter.PlaceError) hcl.Range {
	if p.at >= 0 && err.End > err.Off {
		return rep.In(p.rng).Range(p.at+err.Off, p.at+err.End)
	}
	return p.rng
}

// inside is a bars block: what holds in some bars of a section, or from one bar on.
type inside struct {
	placed
	charted
	settings
	lift    *said[int] // in a play, from there on
	from    string     // the section that it is taken over from, as of an event
	through *hcl.Range
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
	only    *placed // the bars that are played; nil: all
	last    int     // only says so many of the last bars, in words; 0: it does not
	times   *said[int]
	vamp    *said[string]
	landing *landing
	without []*said[timeline.EventKind] // events of the section that are left out
	settings
	inside []*inside
	events []*event
}

// event is an event block: a word at a place.
type event struct {
	kind timeline.EventKind
	word hcl.Range
	placed
	by      *said[timeline.Players]
	weight  *said[int]
	alone   *said[bool]
	short   *said[bool]
	beats   *said[int64] // in parts of a beat, see beatGrid
	to      *said[meter.BPM]
	text    *said[string]
	each    *said[bool] // a cue that comes in every round of a play with times
	landing *landing
	depth   int        // through how many likes it is taken over; -1 for an event of a play
	from    string     // the section that it is taken over from; "": none, it is the section's own
	through *hcl.Range // the like that it was taken over by
}

type vocal struct {
	ref       Ref
	named     bool // it has a name, perhaps one with a mistake
	name      *said[string]
	track     string
	from      *said[int]
	fromPass  *said[string] // in place of from: with which pass it begins
	low, high int
	written   string // the range
	transpose int
	rough     bool
	leads     *said[bool]
	line      int
}
