package songspec

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// ownFile is a groove file of the song, with the grooves in it.
type ownFile struct {
	ref     Ref
	grooves []string // sorted
}

// ownFiles are the groove files that the song names and that have grooves, in the order written.
func (r *resolver) ownFiles() []ownFile {
	var out []ownFile
	for _, ref := range r.f.grooves {
		if ref.lent {
			continue
		}
		path := filepath.Join(filepath.Dir(r.f.src.Name), filepath.FromSlash(ref.Path))
		f := ownFile{ref: ref}
		for _, name := range sortedKeys(r.env.Feels) {
			if r.env.Feels[name].File == path {
				f.grooves = append(f.grooves, name)
			}
		}
		if len(f.grooves) > 0 {
			out = append(out, f)
		}
	}
	return out
}

func (f ownFile) holds() string {
	what := wording.Plural(len(f.grooves), "groove")
	return fmt.Sprintf("%q holds the %s %s", f.ref.Path, what, wording.And(wording.Quoted(f.grooves)))
}

// noFeel says what to write for a feel that does not exist. Authors often write the name of a
// groove file for the name of the groove.
func (r *resolver) noFeel(name string, m meter.Meter) advice {
	files := r.ownFiles()
	for _, f := range files {
		base := strings.TrimSuffix(baseName(f.ref.Path), ".groove")
		ofFile := []string{base, baseName(f.ref.Path), filepath.Base(f.ref.Path)}
		if wording.Nearest(name, ofFile) != "" && wording.Nearest(name, f.grooves) == "" {
			a := advice{says: fmt.Sprintf("%s. A feel is the groove's name, not its file's: write feel = %q, or "+
				"rename the groove in its file.", f.holds(), f.grooves[0])}
			if len(f.grooves) == 1 {
				a.word = f.grooves[0]
			}
			return a
		}
	}
	near := strings.ToLower(wording.Nearest(name, sortedKeys(r.env.Feels)))
	if like := r.feelsLikeIn(name, m); len(like) > 0 && (near == "" || strings.HasPrefix(near, strings.ToLower(name))) {
		a := advice{says: "Perhaps " + wording.Or(wording.Quoted(like)) +
			" is meant; plinth grooves shows them all."}
		if len(like) == 1 {
			a.word = like[0]
		}
		return a
	}
	a := offer(name, sortedKeys(r.env.Feels), "the feel")
	if near != "" {
		return a
	}
	for _, f := range files {
		a.says += " " + f.holds() + "."
	}
	if len(files) == 0 {
		a.says += ` A groove of your own is in a file that the song names: grooves = ["mine.groove.hcl"].`
	}
	a.says = strings.TrimSpace(a.says)
	return a
}

// feelsLikeIn are the feels that come nearest to a style: those for the meter or, if there are
// none, those for any meter.
func (r *resolver) feelsLikeIn(name string, m meter.Meter) []string {
	all := feelsLike(name, sortedKeys(r.env.Feels))
	fit := slices.DeleteFunc(slices.Clone(all), func(f string) bool { return !r.env.Feels[f].fits(m) })
	if len(fit) > 0 {
		return fit
	}
	return all
}

// warnUnplayedGrooves warns of a groove file from which the song plays nothing. Perhaps the
// groove was renamed in the file, and the song still plays the one that it was copied from.
func (r *resolver) warnUnplayedGrooves() {
	if r.rep.Diags.HasErrors() {
		return // a misspelt feel is already reported
	}
	played := map[string]bool{}
	for i := range r.tl.Passes {
		for _, name := range r.tl.Passes[i].Feels() {
			played[name] = true
		}
	}
	for _, f := range r.ownFiles() {
		if !slices.ContainsFunc(f.grooves, func(g string) bool { return played[g] }) {
			r.rep.Warnf(f.ref.Range, fmt.Sprintf("No groove of %q is played", f.ref.Path),
				"%s. Write feel = %q where it is to be played.", f.holds(), f.grooves[0])
		}
	}
}
