package bed

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"plinth/groove"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// NotPlayedError is the error for a part that the song does not play.
type NotPlayedError struct{ detail string }

func (e *NotPlayedError) Error() string { return e.detail }

// cutTo leaves of the performed song the passes that a name means: a section, or one of its
// passes.
func (r *Result) cutTo(name string) error {
	which := r.Timeline.Named(name)
	if len(which) == 0 {
		return notPlayed(r.Timeline, name)
	}
	whole := r.Timeline
	r.part = partName(whole, name, which[0])
	r.Timeline, r.Performance = groove.Excerpt(whole, r.Performance, which)
	return nil
}

// numbered is a pass as it may be named in haste: "Chorus 3", "chorus #3", "Chorus(3)".
var numbered = regexp.MustCompile(`^(.*[^\s(#])\s*[(#]?([0-9]+)\)?$`)

// notPlayed says which names there are instead of one that is not played.
func notPlayed(tl *timeline.Timeline, name string) error {
	names := sections(tl)
	list := make([]string, len(names))
	for i, s := range names {
		times := len(tl.Named(s))
		if list[i] = fmt.Sprintf("%q", s); times > 1 {
			list[i] += fmt.Sprintf(" (%d times)", times)
		}
		if strings.HasPrefix(name, s+" (") {
			return &NotPlayedError{fmt.Sprintf("the song plays %q %s: there is no %q", s,
				wording.Count(times, "time"), name)}
		}
	}
	is := ";"
	near := wording.Nearest(name, names)
	if pass := numbered.FindStringSubmatch(name); pass != nil {
		section := wording.Nearest(pass[1], names)
		if number, _ := strconv.Atoi(pass[2]); number >= 1 && number <= len(tl.Named(section)) {
			near = fmt.Sprintf("%s (%d)", section, number)
		}
	}
	if near != "" {
		is = fmt.Sprintf("; is it %q?", near)
	}
	return &NotPlayedError{fmt.Sprintf("the song plays no section %q%s it plays %s", name, is,
		strings.Join(list, ", "))}
}

// sections are the names of the sections that a song plays, in the order of their first passes.
func sections(tl *timeline.Timeline) []string {
	var out []string
	for i := range tl.Passes {
		if p := &tl.Passes[i]; p.Ordinal == 0 {
			out = append(out, p.Section)
		}
	}
	return out
}

// Parts are the names that Request.Only may have: the sections that the song plays, and each
// pass of those that it plays more than once. It needs a Timeline.
func (r *Result) Parts() []string {
	var out []string
	for _, s := range sections(r.Timeline) {
		out = append(out, s)
		if passes := r.Timeline.Named(s); len(passes) > 1 {
			for _, i := range passes {
				out = append(out, r.Timeline.Passes[i].Name())
			}
		}
	}
	return out
}

// partName is what stands between the song's name and ".mid" in the name of a part's file: the
// section's name as FileNames has it, and the number of the pass where it is one of several.
func partName(tl *timeline.Timeline, name string, first int) string {
	all, p := sections(tl), &tl.Passes[first]
	word := FileNames(all, "section")[slices.Index(all, p.Section)]
	if name != p.Section {
		return fmt.Sprintf("%s.%d", word, p.Ordinal+1)
	}
	return word
}

// FileNames are names in letters and digits, so that every file system takes them, and no two alike, even
// where capitals count for nothing. One that has none of these is called otherwise.
func FileNames(names []string, otherwise string) []string {
	out := make([]string, len(names))
	taken := map[string]bool{}
	for i, name := range names {
		plain := cmp.Or(plainWord(name), otherwise)
		out[i] = plain
		for n := 2; taken[strings.ToLower(out[i])]; n++ {
			out[i] = fmt.Sprintf("%s-%d", plain, n)
		}
		taken[strings.ToLower(out[i])] = true
	}
	return out
}

// longestWord is how many bytes of a name stand in the name of a file.
const longestWord = 80

// plainWord is a text in letters and digits, with a hyphen for whatever stands between them.
func plainWord(s string) string {
	plain := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }
	out := strings.Join(strings.FieldsFunc(norm.NFC.String(s), func(r rune) bool { return !plain(r) }), "-")
	return strings.ToValidUTF8(out[:min(len(out), longestWord)], "")
}

// outputName is the name of the song's file, or of a part's: NAME.chorus.mid. A part never has
// the name that a whole song beside this one has.
func (r *Result) outputName(song string) string {
	if r.part == "" {
		return r.Name + ".mid"
	}
	name := r.Name + "." + r.part
	for _, end := range []string{".song.hcl", ".hcl"} {
		if _, err := os.Stat(filepath.Join(filepath.Dir(song), name+end)); err == nil {
			name += ".part"
		}
	}
	return name + ".mid"
}
