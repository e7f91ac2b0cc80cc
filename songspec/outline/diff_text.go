package outline

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"sort"
	"strconv"
	"strings"
)

// WriteDiff writes changes as text: a heading for the song, the form and each section, with a
// line for each change below it. Equal changes in several bars share a line. Without a
// change it writes nothing. The error is the writer's.
func WriteDiff(w io.Writer, changes []Change) error {
	out := bufio.NewWriter(w)
	head := ""
	for _, g := range gather(changes) {
		if h := g.heading(); h != head {
			head = h
			fmt.Fprintln(out, h)
		}
		what, says := g.line()
		fmt.Fprintf(out, "  %-9s  %s\n", what, says)
	}
	return out.Flush()
}

// gathered is a change with all the bars that it is in.
type gathered struct {
	Change
	bars []int
}

// gather puts together the changes that differ only in the bar.
func gather(changes []Change) []gathered {
	var out []gathered
	for _, c := range changes {
		i := slices.IndexFunc(out, func(g gathered) bool {
			return c.Bar != 0 && c.What != "bar" && c.Section == g.Section && slices.Equal(c.Plays, g.Plays) &&
				c.What == g.What && c.Old == g.Old && c.New == g.New
		})
		if i < 0 {
			out = append(out, gathered{Change: c})
			i = len(out) - 1
		}
		if c.Bar != 0 {
			out[i].bars = append(out[i].bars, c.Bar)
		}
	}
	return out
}

func (g *gathered) heading() string {
	switch {
	case g.What == "play" || g.What == "name":
		return "form"
	case g.Section == "":
		return "song"
	}
	return g.Section + plays(g.Plays)
}

// plays is the numbers of the playings in brackets, as in the outline.
func plays(n []int) string {
	if len(n) == 0 {
		return ""
	}
	return " (" + ranges(n) + ")"
}

// ranges is ascending numbers in words: "1-3, 5".
func ranges(n []int) string {
	var out []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		word := strconv.Itoa(n[i])
		if j > i {
			word += "-" + strconv.Itoa(n[j])
		}
		out = append(out, word)
		i = j + 1
	}
	return strings.Join(out, ", ")
}

func inBars(n []int) string {
	if len(n) == 1 {
		return "bar " + ranges(n)
	}
	return "bars " + ranges(n)
}

// line is the two columns of a change: what changed, and how.
func (g *gathered) line() (what, says string) {
	switch {
	case g.What == "name":
		return g.Old, "is now called " + g.New
	case g.What == "play":
		what, says = g.Section+plays(g.Plays), "from "+g.Old+" to "+g.New
		if g.Old == "" {
			says = "new, at " + g.New
		} else if g.New == "" {
			says = "gone from " + g.Old
		}
		return what, says
	case len(g.bars) == 0:
		return g.What, g.Old + " to " + g.New
	case g.What == "meter":
		return inBars(g.bars), "meter " + g.Old + " to " + g.New
	case g.Old == "":
		return inBars(g.bars), "+ " + g.New
	case g.New == "":
		return inBars(g.bars), "- " + g.Old
	}
	return inBars(g.bars), g.Old + " to " + g.New
}

// summaryRunes is how long a summary is, in characters: about a line of a terminal.
const summaryRunes = 88

// Summary is the changes in one short line: "bridge: chords of bar 5, energy 3 to 4". Changes
// that do not fit are counted. Without a change it is empty.
func Summary(changes []Change) string {
	all := brief(gather(changes))
	var out strings.Builder
	head := ""
	for i, s := range all {
		sep, lead := "; ", s.head+": "
		if s.head == "song" {
			lead = ""
		}
		if s.head == head {
			sep, lead = ", ", ""
		}
		if i == 0 {
			sep = ""
		}
		next := sep + lead + s.says()
		if out.Len() > 0 && len([]rune(out.String()))+len([]rune(next)) > summaryRunes {
			fmt.Fprintf(&out, "; %d more", len(all)-i)
			break
		}
		out.WriteString(next)
		head = s.head
	}
	return out.String()
}

// briefly is a change in a few words, with its heading. Changes of bars are without their
// values: all chords of a section together, all events of a kind together.
type briefly struct {
	head, what string
	bars       []int
}

// brief puts each change in a few words, of those below a heading the chords first: they
// change most often.
func brief(groups []gathered) []briefly {
	for i := 0; i < len(groups); {
		j := i
		for j < len(groups) && groups[j].heading() == groups[i].heading() {
			j++
		}
		run := groups[i:j]
		sort.SliceStable(run, func(i, j int) bool { return run[i].What == "chords" && run[j].What != "chords" })
		i = j
	}
	var out []briefly
	for _, g := range groups {
		b := briefly{g.heading(), g.What, g.bars}
		switch {
		case len(g.bars) == 0:
			what, says := g.line()
			b.what = what + " " + says
		case g.What == "bar" && g.New == "":
			b.what = "no bar"
		case g.What == "bar", g.What == "chords", g.What == "meter":
		case g.Old == "":
			b.what = "new " + g.What
		case g.New == "":
			b.what = "no more " + g.What
		}
		i := slices.IndexFunc(out, func(o briefly) bool {
			return len(b.bars) > 0 && len(o.bars) > 0 && o.head == b.head && o.what == b.what
		})
		if i < 0 {
			out = append(out, b)
			continue
		}
		bars := slices.Concat(out[i].bars, b.bars)
		slices.Sort(bars)
		out[i].bars = slices.Compact(bars)
	}
	return out
}

func (b *briefly) says() string {
	switch {
	case len(b.bars) == 0:
		return b.what
	case b.what == "bar":
		return inBars(b.bars) + " new"
	case b.what == "no bar":
		return inBars(b.bars) + " gone"
	case b.what == "chords", b.what == "meter":
		return b.what + " of " + inBars(b.bars)
	}
	return b.what + " in " + inBars(b.bars)
}
