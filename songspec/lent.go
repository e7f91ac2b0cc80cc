package songspec

import (
	"cmp"
	"fmt"
	"path"
	"slices"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/harmony"
	"plinth/songspec/hcltext"
)

// maxLenders is the greatest number of song files that may lend their sections to another.
const maxLenders = 16

// loan says that a section comes from another song file: by how many semitones its letters
// move, so that the key of that song becomes the key of this one.
type loan struct {
	up int
}

// SectionFiles are the song files whose sections this one borrows, in the order written. Where
// there are any, Lend has to be called before Resolve.
func (f *File) SectionFiles() []Ref { return f.lenders }

// Lent is a song file that lends its sections: nil where it could not be read.
type Lent struct {
	Ref  Ref
	File *File
}

// Lend gives the song the sections of the files that it borrows from, and looks up what could
// not be looked up without them. A section brings its chords, events and bars blocks, its key
// and its meter, and the grooves of its song; it has the tempo, the feel and the energy of this song
// unless it names its own. Nothing else of its song counts, and nothing that the song borrows
// itself. It returns the mistakes that only show now.
func (f *File) Lend(lent []Lent) hcl.Diagnostics {
	d := f.waiting
	if d == nil {
		return nil
	}
	f.waiting = nil
	var of hcl.Diagnostics // of the lenders
	d.rep = hcltext.Report{Source: f.src}
	for _, l := range lent {
		if l.File == nil {
			f.failed = true
			continue
		}
		of = append(of, l.File.Lend(nil)...)
		f.others = append(f.others, l.File.src)
		for _, g := range l.File.grooves {
			g.Path, g.lent = path.Join(path.Dir(l.Ref.Path), g.Path), true
			if !slices.ContainsFunc(f.grooves, func(o Ref) bool { return o.Path == g.Path }) {
				f.grooves = append(f.grooves, g)
			}
		}
		f.borrow(d, l)
	}
	d.rep.Others = f.others
	d.link(f)
	out := append(d.rep.Sorted(), slices.DeleteFunc(of, func(d *hcl.Diagnostic) bool {
		return d.Severity != hcl.DiagError
	})...)
	f.failed = f.failed || out.HasErrors()
	return out
}

// borrow adds the sections of a lender.
func (f *File) borrow(d *decoder, l Lent) {
	key := or(l.File.key, harmony.Key{})
	up := upTo(key, or(f.key, harmony.Key{}))
	for _, s := range l.File.sections {
		if s.name == "" {
			continue
		}
		if first := f.byName[s.name]; first != nil {
			where := fmt.Sprintf("on line %d", d.s.LineOf(first.rng.Start.Byte))
			if first.borrowed {
				where = "in another file that lends its sections"
			}
			d.rep.Errorf(l.Ref.Range, fmt.Sprintf("Two sections named %q", s.name),
				"This file has one, and another is %s. Give that one another name; with like = %q it can "+
					"begin as this one.",
				where, s.name)
			continue
		}
		if len(f.sections) == MaxSections {
			d.rep.Errorf(l.Ref.Range, "Too many sections",
				"A song has at most %d sections, those of other files included.",
				MaxSections)
			return
		}
		c := *s
		c.loan, c.borrowed, c.inForm, c.linked = &loan{up}, true, false, linked
		c.key, c.meter = cmp.Or(s.key, l.File.key), cmp.Or(s.meter, l.File.meter)
		if c.key == nil {
			c.key = &said[harmony.Key]{v: key, rng: l.Ref.Range}
		}
		c.unguide()
		f.sections = append(f.sections, &c)
		f.byName[c.name] = &c
	}
}

// unguide takes the tempo of its own song's guide, which is not lent, out of a borrowed section.
func (s *section) unguide() {
	free := func(set *settings) {
		if or(set.tempo, 0) == guided {
			set.tempo = nil
		}
	}
	free(&s.settings)
	s.inside = slices.Clone(s.inside)
	for i, level := range s.inside {
		s.inside[i] = slices.Clone(level)
		for k, in := range level {
			c := *in
			free(&c.settings)
			s.inside[i][k] = &c
		}
	}
}

// LendUnread is Lend for a reader that has the song's text alone: a section that the song does
// not have becomes one bar without a chord, which says that it is borrowed. Events, bars blocks
// and bars that are named in it are left out.
func (f *File) LendUnread() hcl.Diagnostics {
	if f.waiting == nil {
		return nil
	}
	add := func(name string) {
		if name == "" || f.byName[name] != nil || len(f.sections) == MaxSections {
			return
		}
		src := hcltext.NewSource(f.src.Name, []byte("N.C."))
		c, _ := readChart(src, hcltext.RawText{Hi: len(src.Src), Heredoc: true}, &hcltext.Report{Source: src})
		c.written[0].text = "borrowed"
		s := &section{name: name, charted: charted{chords: c}, loan: &loan{}, borrowed: true, linked: linked}
		f.sections = append(f.sections, s)
		f.byName[name], f.unread = s, true
	}
	for _, s := range f.sections {
		if s.like != nil {
			add(s.like.v)
		}
	}
	for _, p := range f.form {
		add(p.name)
	}
	diags := f.Lend(nil)
	for _, s := range f.sections {
		if s.loan != nil { // also where it is like a borrowed one
			s.inside, s.events = nil, nil
		}
	}
	for _, p := range f.form {
		if p.section != nil && p.section.loan != nil {
			p.inside, p.events, p.only, p.last, p.without = nil, nil, nil, 0, nil
		}
	}
	return diags
}
