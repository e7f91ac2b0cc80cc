package songspec

import (
	"cmp"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/timeline"
)

// vocal reads a vocal block: one singer.
func (d *decoder) vocal(f *File, b *hclsyntax.Block) {
	v := &vocal{line: d.s.LineOf(b.TypeRange.Start.Byte)}
	for _, a := range d.valuesOf(b.Body, "the vocal block", vocalAttrs) {
		switch a.Name {
		case "name":
			v.named = true
			v.name = d.singerName(a.Expr)
		case "track":
			const help = `The track of the guide vocal is its name in quotes: track = "Voice".`
			v.track = or(d.text(a.Expr, 200, help), "")
		case "from":
			d.vocalFrom(v, a.Expr)
		case "range":
			v.low, v.high, v.written = d.singerRange(a.Expr)
		case "transpose":
			v.transpose = or(d.whole(a.Expr, "the guide's transposition, in semitones,",
				-timeline.MaxTranspose, timeline.MaxTranspose), 0)
		case "rough":
			v.rough = or(d.flag(a.Expr, "rough"), false)
		case "leads":
			v.leads = d.flag(a.Expr, "leads")
		}
	}
	v.named = v.named || d.unread(b.Body, "name")
	if len(f.vocals) == timeline.MaxVocals {
		d.rep.Errorf(b.TypeRange, "Too many singers", "A song has at most %d vocal blocks.", timeline.MaxVocals)
		return
	}
	file := d.label(b, "a file")
	if file != nil && d.noMIDI(file) {
		return
	}
	var ok bool
	if v.ref, ok = d.ref(file); ok {
		f.vocals = append(f.vocals, v)
	}
}

// singerName reads the name of a singer, nil after an error.
func (d *decoder) singerName(expr hclsyntax.Expression) *said[string] {
	t := d.text(expr, 40, `The singer's name is text in quotes: name = "Nell".`)
	if t != nil && t.v == "" {
		d.rep.Errorf(t.rng, "A singer without a name", `Write who sings: name = "Nell".`)
		return nil
	}
	return t
}

// singerNames are offered to singers without a name; of so many, one is always free.
var singerNames = [timeline.MaxVocals]string{"Nell", "Tom", "Ada", "Ben", "Cora", "Dan", "Eve", "Finn"}

// sameSinger reports whether two vocals are files of one singer: they have one name.
func (v *vocal) sameSinger(w *vocal) bool {
	return v.name != nil && w.name != nil && strings.EqualFold(v.name.v, w.name.v)
}

// checkSingers reports singers who cannot be told apart: several need names, and two of them sing no
// track of a file together. Vocals of one name are files of one singer, who has one range.
func (d *decoder) checkSingers(f *File) {
	if len(f.vocals) < 2 {
		return
	}
	free := slices.DeleteFunc(slices.Clone(singerNames[:]), func(name string) bool {
		return slices.ContainsFunc(f.vocals, func(v *vocal) bool { return strings.EqualFold(or(v.name, ""), name) })
	})
	for i, v := range f.vocals {
		if !v.named {
			d.rep.Errorf(v.ref.Range, "A singer without a name",
				"Where there is more than one vocal, each says who sings. Write name = %q in this block.",
				cmp.Or(v.track, free[0]))
			free = free[1:]
		}
		for _, w := range f.vocals[:i] {
			switch {
			case v.sameSinger(w) && (w.ref.Path != v.ref.Path || !v.sameStart(w)):
				if w.written == "" || v.written == "" || v.low == w.low && v.high == w.high {
					continue // another file of the same singer
				}
				d.rep.Errorf(v.ref.Range, "Two ranges for one singer", "Line %d has another file of %s, with the "+
					"range %s; here it is %s. Write it once, or give each singer a name of their own.", w.line,
					v.name.v, w.written, v.written)
			case v.sameSinger(w):
				d.rep.Errorf(v.ref.Range, "The same voice twice", "Line %d has this file of %s in the same place. "+
					"Leave one of them out, or say where this one begins: from = 9.", w.line, v.name.v)
			case w.ref.Path == v.ref.Path && strings.EqualFold(w.track, v.track):
				d.rep.Errorf(v.ref.Range, "The same voice twice",
					"Line %d has this file, too. Say in both which track each of them sings: track = \"Voice\".",
					w.line)
			default:
				continue
			}
			break
		}
	}
}
