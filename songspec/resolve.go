package songspec

import (
	"cmp"
	"slices"

	"github.com/hashicorp/hcl/v2"

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
}

// resolver turns a File into a Timeline.
type resolver struct {
	f    *File
	env  Env
	rep  hcltext.Report
	tl   *timeline.Timeline
	bars int // of the passes so far

	layouts map[layoutKey]*laidOut
	spans   map[spanKey][]timeline.Span
	chords  map[chordKey]chordResult
	own     map[spotsKey][]spot
	from    [][]*event    // for each pass, the blocks that its events come from
	fates   map[int]*fate // by where the block's place begins
	spots   int
	foreign map[string]int // the line on which a foreign sign was last reported

	// The effect so far of lift and of the key of a play, see advanceKeys.
	lift     int
	anchored bool
	anchor   [2]harmony.Key // a section's written key, and the key a play put it in
	anchorAt int            // the lift at that play
}

type layoutKey struct {
	chart *chart
	meter meter.Meter
}

type spanKey struct {
	layoutKey
	written, sounding harmony.Key
}

// Resolve turns the file into a timeline. Its diagnostics are about what Parse cannot check:
// the number of words in a bar, chords, places, feels. After an error here or in Parse the
// timeline is nil. Resolve may be called again with another Env; it changes nothing in f.
func (f *File) Resolve(env Env) (*timeline.Timeline, hcl.Diagnostics) {
	r := &resolver{
		f: f, env: env,
		rep:     hcltext.Report{Source: f.src},
		layouts: map[layoutKey]*laidOut{},
		spans:   map[spanKey][]timeline.Span{},
		chords:  map[chordKey]chordResult{},
		own:     map[spotsKey][]spot{},
		fates:   map[int]*fate{},
		foreign: map[string]int{},
	}
	if f.groovesUnread {
		r.env.Feels = nil // any name may be that of a groove of the song's own
	}
	r.startTimeline()
	for _, s := range f.sections {
		r.checkSection(s)
	}
	for _, p := range f.form {
		if p.section != nil && !r.pass(p) {
			break
		}
	}
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
	t := &timeline.Timeline{
		File:      baseName(f.src.Name),
		Drums:     f.drums,
		Bass:      f.bass,
		Piano:     f.piano,
		Looseness: or(f.looseness, defaultLooseness),
		Take:      or(f.take, defaultTake),
		By:        or(f.by, ""),
		CountIn:   or(f.countIn, 0),
	}
	t.Title = cmp.Or(or(f.title, ""), t.File)
	if v := f.vocal; v != nil {
		t.Vocal = &timeline.Vocal{
			Path: v.ref.Path, Track: v.track, From: or(v.from, 1),
			RangeLow: v.low, RangeHigh: v.high, Line: v.line,
		}
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
	r.checkSymbols(s.chords, key)
	r.applied(s.chords, key)
	r.ownRoots(s.chords, key)
	lo := r.layout(s.chords, m)
	if lo == nil {
		return
	}
	r.sectionSpots(s, lo, m)
}

// layout lays out a chart in a meter, only once; nil when a bar has a mistake.
func (r *resolver) layout(c *chart, m meter.Meter) *laidOut {
	key := layoutKey{c, m}
	if lo, ok := r.layouts[key]; ok {
		return lo
	}
	lo, _ := layOut(r.f.src, c, m, &r.rep)
	r.layouts[key] = lo
	return lo
}

// pass adds a pass for a play. It returns false when the song has become too long.
func (r *resolver) pass(p *play) bool {
	sec := p.section
	base := r.f.settings.over(sec.settings)
	set := base.over(p.settings)
	m := or(set.meter, meter.Common)
	written, sounding := r.advanceKeys(p, or(base.key, harmony.Key{}))
	if p.meter != nil || p.feel != nil {
		r.feel(set)
	}
	if sec.chords == nil || set.meterUnread {
		return true
	}
	lo := r.layout(sec.chords, m)
	if lo == nil {
		return true
	}
	if r.bars+len(lo.bars) > MaxBars {
		r.rep.Errorf(p.rng, "Too many bars", "A song has at most %d bars; with this pass it would have more.", MaxBars)
		return false
	}
	spans := r.harmonise(sec.chords, lo, m, written, sounding)
	name, _ := r.feelName(set)
	energy := or(set.energy, [2]int{defaultEnergy, defaultEnergy})
	pass := timeline.Pass{
		Index: len(r.tl.Passes), Section: sec.name,
		Feel: name, EnergyFrom: energy[0], EnergyTo: energy[1],
		Key: sounding, Meter: m, BPM: or(set.tempo, defaultTempo), Lift: r.lift,
		Fills:    or(set.fills, true),
		Lead:     or(set.lead, true),
		Length:   lo.length,
		FirstBar: r.bars + 1,
		Bars:     lo.bars, Chords: spans,
		Tacet: or(set.tacet, 0),
	}
	if energy[0] != energy[1] && len(lo.bars) == 1 {
		r.rep.Warnf(set.energy.rng, "Energy cannot move in one bar",
			"The pass has a single bar, which is played at %d. Write one figure.", energy[0])
	}
	r.tempoFits(name, pass.BPM, set)
	if !r.placeEvents(&pass, lo, sec, p) {
		return false
	}
	r.bars += len(lo.bars)
	r.tl.Passes = append(r.tl.Passes, pass)
	return true
}

// advanceKeys brings the state of lifts and keys up to a play, and returns the key that its
// section is written in and the key that it sounds in.
//
// A lift adds to all lifts before it. The key of a play is where its section goes, whatever was
// lifted before: letter symbols move with the tonic, and everything played later moves by the
// same distance.
func (r *resolver) advanceKeys(p *play, written harmony.Key) (from, to harmony.Key) {
	if p.lift != nil {
		r.lift += p.lift.v
	}
	if p.key != nil {
		to := p.key.v
		d := (to.Tonic.PC() - written.Tonic.PC() + 12) % 12
		if d > 6 {
			d -= 12
		}
		r.lift, r.anchored, r.anchorAt = d, true, d
		r.anchor = [2]harmony.Key{written, to}
		if to.Minor != written.Minor && p.section.hasLetters() {
			r.rep.Warnf(p.key.rng, "From major to minor, or back",
				"Section %q is written in %s. Its letter symbols move with the tonic and keep their thirds; only "+
					"numerals follow the mode.", p.section.name, written)
		}
		return written, to
	}
	if r.anchored && written == r.anchor[0] {
		return written, r.anchor[1].Transpose(r.lift - r.anchorAt)
	}
	return written, written.Transpose(r.lift)
}
