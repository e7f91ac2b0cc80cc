package songspec

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/wording"
)

// ownFile is the song's own grooves that one file holds.
type ownFile struct {
	ref     Ref
	grooves []string // sorted
}

// ownFiles are the song's groove files that hold grooves, in the order written.
func (r *resolver) ownFiles() []ownFile {
	var out []ownFile
	for _, ref := range r.f.grooves {
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

// noFeel says what to write for a feel that there is not. Who has a groove file
// often takes its file's name for the groove's.
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
	if like := r.feelsLike(name, m); len(like) > 0 && (near == "" || strings.HasPrefix(near, strings.ToLower(name))) {
		a := advice{says: "What is meant is perhaps " + wording.Or(wording.Quoted(like)) +
			"; plinth grooves shows them all."}
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

// feelsLike are the feels that a name of a style means, those for the meter where
// there are any.
func (r *resolver) feelsLike(name string, m meter.Meter) []string {
	all := feelsLike(name, sortedKeys(r.env.Feels))
	fit := slices.DeleteFunc(slices.Clone(all), func(f string) bool { return !r.env.Feels[f].fits(m) })
	if len(fit) > 0 {
		return fit
	}
	return all
}

// unplayed warns of a groove file of which nothing is played: the feel was perhaps
// renamed in it, and the song still plays the one that it was made from.
func (r *resolver) unplayed() {
	if r.rep.Diags.HasErrors() {
		return // a feel that is misspelt is said already
	}
	played := map[string]bool{}
	for i := range r.tl.Passes {
		played[r.tl.Passes[i].Feel] = true
	}
	for _, f := range r.ownFiles() {
		if !slices.ContainsFunc(f.grooves, func(g string) bool { return played[g] }) {
			r.rep.Warnf(f.ref.Range, fmt.Sprintf("No groove of %q is played", f.ref.Path),
				"%s. Write feel = %q where it is to be played.", f.holds(), f.grooves[0])
		}
	}
}
