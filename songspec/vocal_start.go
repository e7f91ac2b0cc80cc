package songspec

import (
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/wording"
)

// vocalFrom reads where the file of a vocal begins: a bar of the song, or a pass of a section by its
// name, "verse (2)", so that it stays right where the form in front of it changes.
func (d *decoder) vocalFrom(v *vocal, expr hclsyntax.Expression) {
	if !strings.HasPrefix(d.written(expr.Range()), `"`) || plainNumber().MatchString(d.unquoted(expr)) {
		v.from = d.whole(expr, "the bar of the song where the vocal file starts", -MaxBars, MaxBars)
		return
	}
	v.fromPass = d.text(expr, 120, `The place where the vocal file starts is a bar of the song, from = 9, or a pass: `+
		`from = "verse (2)".`)
}

// sameStart reports whether two vocals begin at one place.
func (v *vocal) sameStart(w *vocal) bool {
	return or(v.from, 1) == or(w.from, 1) && or(v.fromPass, "") == or(w.fromPass, "")
}

// startRange is where the file says that the vocal begins, nil where it does not.
func (v *vocal) startRange() *hcl.Range {
	switch {
	case v.from != nil:
		return &v.from.rng
	case v.fromPass != nil:
		return &v.fromPass.rng
	}
	return nil
}

var barsOff = pattern(`^(.*\S)\s*([-+])\s*([0-9]{1,4})$`)

// startVocals finds the bars where the vocals begin that begin with a pass. A pass is called as on the
// command line: "verse" is the first of its section, "verse (2)" the second; "verse (2) - 1" is a bar
// before it, where the file has a bar of count-in.
func (r *resolver) startVocals() {
	if len(r.tl.Passes) < len(r.f.form) || r.f.slipped {
		return // a pass is missing for another mistake
	}
	for i, v := range r.f.vocals {
		if v.fromPass == nil {
			continue
		}
		name, off := v.fromPass.v, 0
		bar, ok := r.passStart(name)
		if m := barsOff().FindStringSubmatch(name); m != nil && !ok {
			name = m[1]
			off, _ = strconv.Atoi(m[2] + m[3])
			bar, ok = r.passStart(name)
		}
		if !ok {
			r.noSuchStart(v, name)
			continue
		}
		r.tl.Vocals[i].From = bar + off
	}
}

// passStart is the bar of the song with which a pass begins.
func (r *resolver) passStart(name string) (bar int, ok bool) {
	for i := range r.tl.Passes {
		p := &r.tl.Passes[i]
		if name == p.Name() || p.Ordinal == 0 && strings.EqualFold(name, p.Section) {
			return p.FirstBar, true
		}
	}
	return 0, false
}

// noSuchStart reports a vocal that begins with no pass of the form.
func (r *resolver) noSuchStart(v *vocal, name string) {
	var names []string
	for i := range r.tl.Passes {
		if p := &r.tl.Passes[i]; p.Ordinal == 0 {
			names = append(names, p.Section)
		} else {
			names = append(names, p.Name())
		}
	}
	const summary = "The vocal starts nowhere"
	if near := wording.Nearest(name, names); near != "" {
		r.rep.Errorf(v.fromPass.rng, summary, "The form has no %q. Is it %q?", name, near).
			WriteText(v.fromPass.rng, strings.Replace(v.fromPass.v, name, near, 1))
		return
	}
	r.rep.Errorf(v.fromPass.rng, summary, "The form has no %q. The vocal file begins with a pass of it, such as "+
		"from = %q, or in a bar of the song: from = 9.", name, names[len(names)-1])
}
