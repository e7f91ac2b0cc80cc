package songspec

import (
	"cmp"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Env is what is needed from outside to resolve a song file.
type Env struct {
	// Feels are all feels by name, with the song's own. When it is empty, any name is
	// accepted.
	Feels map[string]FeelInfo

	// Guide is the guide vocal that File.Leader names: the tempo is its tempo where the song says
	// so. Where it is nil such a tempo is the usual one.
	Guide *guide.File

	Override Override

	// Untimed ends the times of a song (at) where the tempo cannot keep one, in place of an error:
	// from the last time before that one on the tempo is as written.
	Untimed bool
}

// resolver turns a File into a Timeline.
type resolver struct {
	f    *File
	env  Env
	rep  hcltext.Report
	tl   *timeline.Timeline
	bars int // of the passes so far

	layouts  map[layoutKey][]measure
	sections map[measuresKey][]measure
	plain    map[measuresKey]*laidOut // of plays that play a section as it stands
	ends     map[*inside][2]int       // where bars blocks have their own chart last, as indices of measures
	spans    map[spanKey][]timeline.Span
	chords   map[chordKey]chordResult
	own      map[*laidOut][]spot
	landings []*landing       // for each pass, nil where its play says no time
	front    []timeline.Tempo // of the bars in front
	from     [][]*event       // for each pass, the blocks that its events come from
	fates    map[blockAt]*fate
	moves    map[blockAt]move // of the tempo
	spots    int
	foreign  map[string]int // the line on which a foreign sign was last reported
	figures  figuredBass
	sevenths struct {
		doubts []*seventhDoubt
		of     map[string]*seventhDoubt
	}
	moved   []moved            // where charts are put, in the order of the form
	roofs   map[string]bool    // symbols with a ^ that are doubted already
	covered map[blockAt]*event // blocks of which a place is taken by another of their own section

	guided      []part       // where the band follows the guide, in order
	guidedFeels []guidedFeel // of passes that begin so

	// The effect so far of lift and of the key of a play, see advanceKeys.
	lift     int
	anchored bool
	anchor   keys // a section's own key, and the key a play put it in
	anchorAt int  // the lift at that play
}

type layoutKey struct {
	chart *chart
	meter meter.Meter
}

type spanKey struct {
	lo *laidOut
	keys
}

// Resolve turns the file into a timeline. Its diagnostics are about what Parse cannot check:
// the number of words in a bar, chords, places, feels. After an error here or in Parse the
// timeline is nil. Resolve may be called again with another Env; it changes nothing in f.
func (f *File) Resolve(env Env) (*timeline.Timeline, hcl.Diagnostics) {
	r := &resolver{
		f: f, env: env,
		rep:      hcltext.Report{Source: f.src, Others: f.others},
		layouts:  map[layoutKey][]measure{},
		sections: map[measuresKey][]measure{},
		plain:    map[measuresKey]*laidOut{},
		ends:     map[*inside][2]int{},
		spans:    map[spanKey][]timeline.Span{},
		chords:   map[chordKey]chordResult{},
		own:      map[*laidOut][]spot{},
		fates:    map[blockAt]*fate{},
		moves:    map[blockAt]move{},
		foreign:  map[string]int{},
		figures:  figuredBass{of: map[string]*figureDoubt{}, seen: map[*chart]bool{}},
	}
	r.sevenths.of = map[string]*seventhDoubt{}
	r.covered = map[blockAt]*event{}
	r.roofs = map[string]bool{}
	if f.groovesUnread {
		r.env.Feels = nil // any name may be that of a groove of the song's own
	}
	r.startTimeline()
	for _, s := range f.sections {
		r.checkSection(s)
		if s.like == nil && len(s.without) > 0 {
			r.rep.Errorf(s.without[0].rng, "Nothing to leave out",
				"A section leaves out what it takes over from another: it needs like = \"NAME\".")
		}
	}
	for _, p := range f.form {
		if p.section != nil && !r.pass(p) {
			break
		}
	}
	r.doubtFigures()
	r.doubtSevenths()
	r.doubtLifted()
	r.warnMoves()
	r.joinPasses()
	diags := r.rep.Sorted()
	if f.slipped { // what is doubtful, and what is not, depends on what could not be read
		diags = slices.DeleteFunc(diags, func(d *hcl.Diagnostic) bool { return d.Severity != hcl.DiagError })
	}
	if f.failed || diags.HasErrors() {
		return nil, diags
	}
	return r.tl, diags
}

// startTimeline makes the timeline with what the top of the file says.
func (r *resolver) startTimeline() {
	f := r.f
	band := f.bandOf(f.settings)
	t := &timeline.Timeline{
		File:      baseName(f.src.Name),
		Drums:     band.Drums,
		Bass:      band.Bass,
		Piano:     band.Piano,
		Looseness: replaced(r.env.Override.Looseness, f.looseness, defaultLooseness),
		Take:      replaced(r.env.Override.Take, f.take, defaultTake),
		By:        or(f.by, ""),
		CountIn:   or(f.countIn, 0),
		Transpose: replaced(r.env.Override.Transpose, f.transpose, 0),
	}
	t.Title = cmp.Or(or(f.title, ""), t.File)
	leader, follows := f.Leader()
	for i, v := range f.vocals {
		t.Vocals = append(t.Vocals, timeline.Vocal{
			Name: or(v.name, ""), Path: v.ref.Path, Track: v.track, From: or(v.from, 1),
			RangeLow: v.low, RangeHigh: v.high, Range: v.written, Transpose: v.transpose, Rough: v.rough, Line: v.line,
			Leads: follows && i == leader,
		})
	}
	r.tl = t
}

// checkSection reports the mistakes of a section, even if it is never played: in its chart, in
// the section's meter and key, in its events and in its feel.
func (r *resolver) checkSection(s *section) {
	set := r.f.settings.over(s.settings)
	m, key := or(set.meter, meter.Common), or(set.key, harmony.Key{})
	r.feel(set)
	if s.broken != nil {
		r.checkSymbols(s.broken, key)
	}
	if s.chords == nil {
		return
	}
	r.checkChart(s.chords, key)
	r.doubtRoofs(s.chords, key)
	r.doubtKey(s)
	ms := r.measures(s, m)
	for _, level := range s.inside {
		r.checkBlocks(level, set, ms)
	}
	if ms == nil {
		return
	}
	for _, level := range s.inside {
		r.checkInside(level, len(ms))
	}
	r.doubtBarLine(s.chords, key, m)
	r.sectionSpots(s, r.laidOut(&play{section: s}, m), m, nil)
}

// checkChart reports the mistakes and doubts of a chart's symbols in a key.
func (r *resolver) checkChart(c *chart, key harmony.Key) {
	r.checkSymbols(c, key)
	r.applied(c, key)
	r.ownRoots(c, key)
	r.figures.add(c, key)
	r.addSevenths(c, key)
}

// checkBlocks reports the mistakes that bars blocks have in themselves, where set holds otherwise:
// in their charts and their feels. ms are the bars that they stand in; nil where those have a mistake.
func (r *resolver) checkBlocks(level []*inside, set settings, ms []measure) {
	for _, in := range level {
		own := set.over(in.settings)
		if in.broken != nil {
			r.checkSymbols(in.broken, or(own.key, harmony.Key{}))
		}
		if in.chords != nil {
			r.checkChart(in.chords, or(own.key, harmony.Key{}))
		}
		if in.feel != nil && !r.fitsBars(own, in, ms) {
			r.feel(own)
		}
	}
}

// fitsBars reports whether the feel of a bars block is written for the meter of one of its bars, as
// that of a waltz where the chart has (3/4).
func (r *resolver) fitsBars(own settings, in *inside, ms []measure) bool {
	name, _ := r.feelName(own)
	info, ok := r.env.Feels[name]
	if !ok || len(ms) == 0 {
		return false
	}
	runs, err := in.place.Runs(len(ms))
	if err != nil {
		return false
	}
	return slices.ContainsFunc(runs, func(run [2]int) bool {
		return slices.ContainsFunc(ms[run[0]:run[1]+1], func(m measure) bool { return info.fits(m.meter) })
	})
}

// layout lays out a chart in a meter, only once; nil when a bar has a mistake.
func (r *resolver) layout(c *chart, m meter.Meter) []measure {
	key := layoutKey{c, m}
	if ms, ok := r.layouts[key]; ok {
		return ms
	}
	ms, _ := layOut(c, m, &r.rep)
	r.layouts[key] = ms
	return ms
}

// advanceKeys brings the state of lifts and keys up to a play, and returns the key that its
// section is written in and the key that it sounds in.
//
// A lift adds to all lifts before it. The key of a play is where its section goes, whatever was
// lifted before: letter symbols move with the tonic, and everything played later moves by the
// same distance.
func (r *resolver) advanceKeys(p *play, written harmony.Key) keys {
	home := written // where the section would sound
	if p.section.loan != nil {
		home = written.Transpose(p.section.loan.up)
	}
	if p.lift != nil {
		r.lift += p.lift.v
	}
	sounding := home.Transpose(r.lift)
	switch {
	case p.key != nil:
		sounding = p.key.v
		d := upTo(home, sounding)
		r.lift, r.anchored, r.anchorAt = d, true, d
		r.anchor = keys{home, sounding}
		if sounding.Minor != written.Minor && p.section.hasLetters() {
			r.rep.Warnf(p.key.rng, "From major to minor, or back",
				"Section %q is written in %s. Its letter symbols move with the tonic and keep their thirds; only "+
					"numerals follow the mode.", p.section.name, written)
		}
	case r.anchored && home == r.anchor.written:
		sounding = r.anchor.sounding.Transpose(r.lift - r.anchorAt)
	}
	return keys{written, sounding.Transpose(r.tl.Transpose)}
}

// upTo is how many semitones a key lies above another: the nearer way, down where it is negative.
func upTo(from, to harmony.Key) int {
	d := (to.Tonic.PC() - from.Tonic.PC() + 12) % 12
	if d > 6 {
		d -= 12
	}
	return d
}
