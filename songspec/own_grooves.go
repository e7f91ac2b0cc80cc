package songspec

import (
	"fmt"
	"path/filepath"
	"strings"

	"plinth/songspec/meter"
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
		path := filepath.Join(filepath.Dir(r.f.src.name), filepath.FromSlash(ref.Path))
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
	what := "groove"
	if len(f.grooves) > 1 {
		what = "grooves"
	}
	return fmt.Sprintf("%q holds the %s %s", f.ref.Path, what, andList(quoted(f.grooves)))
}

// noFeel says what to write for a feel that there is not. Who has a groove file
// often takes its file's name for the groove's.
func (r *resolver) noFeel(name string, m meter.Meter) string {
	files := r.ownFiles()
	for _, f := range files {
		base := strings.TrimSuffix(baseName(f.ref.Path), ".groove")
		if nearest(name, []string{base, baseName(f.ref.Path), filepath.Base(f.ref.Path)}) != "" && nearest(name, f.grooves) == "" {
			return fmt.Sprintf("%s. A feel is the groove's name, not its file's: write feel = %q, or rename the groove in its file.", f.holds(), f.grooves[0])
		}
	}
	near := strings.ToLower(nearest(name, sortedKeys(r.env.Feels)))
	if like := r.feelsLike(name, m); len(like) > 0 && (near == "" || strings.HasPrefix(near, strings.ToLower(name))) {
		return "What is meant is perhaps " + orList(quoted(like)) + "; plinth grooves shows them all."
	}
	out := offer(name, sortedKeys(r.env.Feels), "the feel")
	if near != "" {
		return out
	}
	for _, f := range files {
		out += " " + f.holds() + "."
	}
	if len(files) == 0 {
		out += ` A groove of your own is in a file that the song names: grooves = ["mine.groove.hcl"].`
	}
	return strings.TrimSpace(out)
}

// feelsLike are the feels that a name of a style means, those for the meter where
// there are any.
func (r *resolver) feelsLike(name string, m meter.Meter) []string {
	all := feelsLike(name, sortedKeys(r.env.Feels))
	var fit []string
	for _, f := range all {
		if r.env.Feels[f].fits(m) {
			fit = append(fit, f)
		}
	}
	if len(fit) > 0 {
		return fit
	}
	return all
}

// unplayed warns of a groove file of which nothing is played: the feel was perhaps
// renamed in it, and the song still plays the one that it was made from.
func (r *resolver) unplayed() {
	if r.rep.diags.HasErrors() {
		return // a feel that is misspelt is said already
	}
	played := map[string]bool{}
	for i := range r.tl.Passes {
		played[r.tl.Passes[i].Feel] = true
	}
	for _, f := range r.ownFiles() {
		any := false
		for _, g := range f.grooves {
			any = any || played[g]
		}
		if !any {
			r.rep.warnf(f.ref.Range, fmt.Sprintf("No groove of %q is played", f.ref.Path), "%s. Write feel = %q where it is to be played.", f.holds(), f.grooves[0])
		}
	}
}

// andList joins words: "a", "a and b", "a, b and c".
func andList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
