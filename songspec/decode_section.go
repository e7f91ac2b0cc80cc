package songspec

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/timeline"
)

func (d *decoder) section(f *File, b *hclsyntax.Block) {
	sec := &section{rng: b.TypeRange}
	name := d.label(b, "a name")
	if name == nil || strings.TrimSpace(name.v) == "" || hasControl(name.v) {
		d.meant[d.top] = append(d.meant[d.top], "section") // it has a name, but which?
	}
	if name != nil {
		sec.name, sec.rng = name.v, name.rng
		switch first := f.byName[name.v]; {
		case strings.TrimSpace(name.v) == "" || utf8.RuneCountInString(name.v) > 64:
			d.rep.Errorf(name.rng, "Not a section's name", "A section's name has 1 to 64 characters.")
		case hasControl(name.v):
			d.rep.Errorf(name.rng, "Control character in a name", "A section's name stands on one line.")
		case first != nil:
			d.rep.Errorf(name.rng, fmt.Sprintf("Two sections named %q", name.v),
				"The first stands on line %d, this one on line %d. Give one of them another name.",
				d.s.LineOf(first.rng.Start.Byte), d.s.LineOf(name.rng.Start.Byte))
		case len(f.sections) == MaxSections:
			d.rep.Errorf(name.rng, "Too many sections", "A song has at most %d sections.", MaxSections)
		}
	}
	for _, a := range d.attrsOf(b.Body, "a section", sectionAttrs, partBlocks) {
		switch a.Name {
		case "chords":
			d.chords(&sec.charted, a)
		case "like":
			sec.like = d.text(a.Expr, 64, `The section to start from is its name in quotes: like = "verse".`)
			sec.noChords = sec.noChords || sec.like == nil
		case "without":
			sec.without = d.without(a)
		default:
			d.setting(&sec.settings, a)
		}
	}
	sec.noChords = sec.noChords || d.unread(b.Body, "chords", "like")
	sec.meterUnread = sec.meterUnread || d.unread(b.Body, "meter", "like")
	own, events := d.parts(b.Body, &sec.settings, false)
	sec.events = events
	if len(own) > 0 {
		sec.inside = [][]*inside{own}
	}
	f.sections = append(f.sections, sec)
	if name != nil && f.byName[name.v] == nil {
		f.byName[name.v] = sec
	}
}

func (d *decoder) chords(c *charted, a *hclsyntax.Attribute) {
	t, ok := d.s.Raw(a.Expr)
	if !ok {
		c.noChords = true
		d.rep.Errorf(a.Expr.Range(), "Chord text needs quotes",
			"Write chords = \"| C | F |\", or several lines between <<-EOT and EOT.")
		return
	}
	if c.chords, ok = readChart(d.s, t, &d.rep); !ok {
		c.noChords, c.broken, c.chords = true, c.chords, nil
	}
}

// form decodes the order of play.
func (d *decoder) form(f *File, b *hclsyntax.Block) {
	f.hasForm = true
	known, told := []string{"play"}, len(d.rep.Diags)
	d.attrsOf(b.Body, "the form", nil, known)
	blocks := d.blocksOf(b.Body, "the form", nil, known)
	for _, pb := range blocks {
		p := &play{rng: pb.TypeRange}
		if name := d.label(pb, "the section it plays"); name != nil {
			p.name, p.rng = name.v, name.rng
		}
		for _, a := range d.attrsOf(pb.Body, "a play", playAttrs, partBlocks) {
			if !d.setting(&p.settings, a) {
				d.playAttr(p, a)
			}
		}
		if p.lift != nil && p.key != nil {
			d.rep.Errorf(p.lift.rng, "Both a key and a lift",
				"A play has one or the other: the key to go to, or how many semitones to move.")
		} else if p.lift != nil && p.lift.v == 0 {
			d.rep.Warnf(p.lift.rng, "A lift of nothing",
				"A lift of 0 semitones changes nothing; what was lifted before stays. Leave it out.")
		}
		p.meterUnread = p.meterUnread || d.unread(pb.Body, "meter")
		p.inside, p.events = d.parts(pb.Body, &p.settings, true)
		f.form = append(f.form, p)
	}
	if len(blocks) == 0 && len(d.rep.Diags) == told && !d.unread(b.Body, "play") {
		d.rep.Errorf(b.TypeRange, "A form that plays nothing",
			"Write play \"NAME\" {} for each section in turn, or leave the form out to play all of them once.")
	}
}

// link looks up the sections that like and play name, and gives each section what it takes from
// the section that it is like.
func (d *decoder) link(f *File) {
	var names []string
	for _, s := range f.sections {
		if s.name != "" && !slices.Contains(names, s.name) {
			names = append(names, s.name)
		}
	}
	for _, s := range f.sections {
		d.linkSection(f, s, names)
	}
	for _, s := range f.sections {
		if f.settings.over(s.settings).meterUnread { // its symbols alone can be checked
			s.broken, s.chords, s.noChords = cmp.Or(s.broken, s.chords), nil, true
		}
	}
	for _, p := range f.form {
		if p.name == "" && p.section == nil {
			if strings.HasPrefix(d.show(p.rng), "\"") {
				d.rep.Errorf(p.rng, "A play without a section",
					"Write the name of the section it plays: play \"verse\" {}.")
			}
			continue
		}
		if p.section = f.byName[p.name]; p.section == nil && d.unread(d.top, "section") {
			continue
		} else if p.section == nil {
			e, near := d.noSection(p.rng, p.name, names)
			e.WriteText(p.rng, near)
		} else {
			p.section.inForm = true
			d.idleWithout(p.without, p.section)
		}
	}
	if !f.hasForm {
		for _, s := range f.sections {
			if s.borrowed {
				continue
			}
			s.inForm = true
			f.form = append(f.form, &play{name: s.name, rng: s.rng, section: s})
		}
		if len(f.form) == 0 && len(f.lenders) > 0 && !d.rep.Diags.HasErrors() {
			d.rep.Errorf(f.lenders[0].Range, "Borrowed sections without a form",
				"They are played where the form names them: form { play \"NAME\" {} }.")
		}
		return
	}
	if d.rep.Diags.HasErrors() {
		return
	}
	for _, s := range f.sections {
		if !s.inForm && !s.borrowed {
			d.rep.Warnf(s.rng, fmt.Sprintf("Section %q is never played", s.name),
				"Add play %q {} to the form, or delete the section.", s.name)
		}
	}
}

func (d *decoder) linkSection(f *File, s *section, names []string) {
	if s.linked != unlinked {
		return
	}
	// A chain of likes is followed without recursion. It cannot be longer than the number of
	// sections.
	var chain []*section
	for at := s; ; {
		at.linked = linking
		chain = append(chain, at)
		if at.like == nil {
			break
		}
		next := f.byName[at.like.v]
		if next == nil && d.unread(d.top, "section") {
			at.noChords = true
			break
		}
		if next == nil {
			e, near := d.noSection(at.like.rng, at.like.v, names)
			if !f.leadsTo(f.byName[near], at) {
				e.WriteText(at.like.rng, near)
			}
			at.noChords = true
			break
		}
		if next.linked == linking {
			d.rep.Errorf(at.like.rng, "Sections like each other in a circle", "%s", circle(chain, next))
			at.noChords = true
			break
		}
		if next.linked == linked {
			d.takeOver(at, next)
			break
		}
		at = next
	}
	for i := len(chain) - 1; i >= 0; i-- {
		at := chain[i]
		if i+1 < len(chain) {
			d.takeOver(at, chain[i+1])
		}
		at.linked = linked
		if at.chords == nil && !at.noChords {
			d.rep.Errorf(at.rng, "A section without chords",
				"Write chords = \"| C | F |\" in it, or like = \"NAME\" to start from another section.")
			at.noChords = true
		}
		if len(at.events) > MaxEvents {
			d.rep.Errorf(at.events[MaxEvents].rng, "Too many events",
				"A section has at most %d events, those it takes over included.", MaxEvents)
			at.events = at.events[:MaxEvents]
		}
	}
}

// noSection reports a name that no section has, and offers another.
func (d *decoder) noSection(rng hcl.Range, name string, names []string) (e hcltext.Entry, near string) {
	a := advice{says: fmt.Sprintf("The song has no section yet: write section %q { … }.", name)}
	if len(names) > 0 {
		a = offer(name, names, "a section")
	}
	return d.rep.Errorf(rng, fmt.Sprintf("No section named %q", name), "%s", a.says), a.word
}

// leadsTo reports whether s is the other section, or comes to it by following likes.
func (f *File) leadsTo(s, other *section) bool {
	for range f.sections {
		if s == nil || s == other {
			break
		}
		if s.like == nil {
			return false
		}
		s = f.byName[s.like.v]
	}
	return s != nil
}

// circle names the sections of a circle of likes.
func circle(chain []*section, back *section) string {
	var names []string
	for _, s := range chain[slices.Index(chain, back):] {
		names = append(names, fmt.Sprintf("%q", s.name))
	}
	if len(names) == 1 {
		return names[0] + " is like itself. Name another section, or write its chords out."
	}
	if len(names) > 6 {
		names = append(names[:5], "…")
	}
	return strings.Join(names, " is like ") + fmt.Sprintf(" is like %q. Write the chords out in one of them.",
		back.name)
}

// takeOver gives a section all that it does not state itself from another section. It takes
// the events too, except those with the word and place of an event of its own.
func (d *decoder) takeOver(s, from *section) {
	own := s.chords != nil || s.noChords
	settings := from.settings
	if own && from.loan != nil { // own chords are written in this song
		settings.key, settings.meter = nil, nil
	}
	s.settings = settings.over(s.settings)
	if !own {
		s.chords, s.noChords, s.loan = from.chords, from.noChords, from.loan
	}
	var levels [][]*inside
	for _, level := range from.inside {
		var taken []*inside
		for _, in := range level {
			c := *in
			c.from, c.through = cmp.Or(c.from, from.name), &s.like.rng
			if own {
				c.chords, c.broken, c.meter = nil, nil, nil
			}
			taken = append(taken, &c)
		}
		levels = append(levels, taken)
	}
	s.inside = append(levels, s.inside...)
	d.idleWithout(s.without, from)
	var taken []*event
	for _, e := range from.events {
		if drops(s.without, e.kind) || slices.ContainsFunc(s.events,
			func(own *event) bool { return own.id() == e.id() }) {
			continue
		}
		c := *e
		c.depth++
		c.from = cmp.Or(c.from, from.name)
		c.through = &s.like.rng
		taken = append(taken, &c)
	}
	s.events = append(taken, s.events...)
}

func (e *event) id() string {
	if e.kind == timeline.Cue { // lights and sound may each have a cue at one place
		return "cue " + strings.Join(strings.Fields(e.place.Text), " ") + "\x00" + e.text.v
	}
	return timeline.EventNames[e.kind] + " " + strings.Join(strings.Fields(e.place.Text), " ")
}
