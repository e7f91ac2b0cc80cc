package outline

import (
	"bufio"
	"fmt"
	"io"
	"slices"
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
		pad := strings.Repeat(" ", max(1, 10-len([]rune(what))))
		fmt.Fprintf(out, "  %s%s %s\n", what, pad, says)
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
		if j == i {
			out = append(out, strconv.Itoa(n[i]))
		} else {
			out = append(out, fmt.Sprintf("%d-%d", n[i], n[j]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

func (g *gathered) barWord() string {
	if len(g.bars) == 1 {
		return "bar " + ranges(g.bars)
	}
	return "bars " + ranges(g.bars)
}

// line is the two columns of a change: what changed, and how.
func (g *gathered) line() (what, says string) {
	switch {
	case g.What == "name":
		return g.Old, "is now called " + g.New
	case g.What == "play":
		what = g.Section + plays(g.Plays)
		switch {
		case g.Old == "":
			return what, "new, at " + g.New
		case g.New == "":
			return what, "gone from " + g.Old
		}
		return what, "from " + g.Old + " to " + g.New
	case len(g.bars) == 0:
		return g.What, g.Old + " to " + g.New
	case g.What == "meter":
		return g.barWord(), "meter " + g.Old + " to " + g.New
	case g.Old == "":
		return g.barWord(), "+ " + g.New
	case g.New == "":
		return g.barWord(), "- " + g.Old
	}
	return g.barWord(), g.Old + " to " + g.New
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
		lead := s.head + ": "
		switch {
		case s.head == "song":
			lead = ""
		case s.head == head:
			lead = ""
		}
		sep := ""
		if i > 0 {
			if sep = ", "; s.head != head {
				sep = "; "
			}
		}
		next := sep + lead + s.says
		if out.Len() > 0 && len([]rune(out.String()))+len([]rune(next)) > summaryRunes {
			fmt.Fprintf(&out, "; %d more", len(all)-i)
			break
		}
		out.WriteString(next)
		head = s.head
	}
	return out.String()
}

// briefly is a change in a few words, with its heading.
type briefly struct{ head, says string }

// brief puts each change in a few words. Chords and events are given without their values: all
// chords of a section together, all events of a kind together.
func brief(groups []gathered) []briefly {
	type bag struct {
		at   int
		bars []int
	}
	var out []briefly
	bags := map[string]*bag{}
	collect := func(head, what string, bars []int) {
		key := head + "\x00" + what
		b := bags[key]
		if b == nil {
			b = &bag{at: len(out)}
			bags[key] = b
			out = append(out, briefly{head: head})
		}
		b.bars = append(b.bars, bars...)
		slices.Sort(b.bars)
		b.bars = slices.Compact(b.bars)
		g := gathered{bars: b.bars}
		switch what {
		case "bar":
			out[b.at].says = g.barWord() + " new"
		case "no bar":
			out[b.at].says = g.barWord() + " gone"
		case "chords", "meter":
			out[b.at].says = what + " of " + g.barWord()
		default:
			out[b.at].says = what + " in " + g.barWord()
		}
	}
	groups = chordsFirst(groups)
	for i := range groups {
		g := &groups[i]
		head := g.heading()
		what, says := g.line()
		switch {
		case g.What == "name" || g.What == "play" || len(g.bars) == 0:
			out = append(out, briefly{head, what + " " + says})
		case g.What == "bar" && g.New == "":
			collect(head, "no bar", g.bars)
		case g.What == "bar", g.What == "chords", g.What == "meter":
			collect(head, g.What, g.bars)
		case g.Old == "":
			collect(head, "new "+g.What, g.bars)
		case g.New == "":
			collect(head, "no more "+g.What, g.bars)
		default:
			collect(head, g.What, g.bars)
		}
	}
	return out
}

// chordsFirst puts the chords first below each heading: they change most often.
func chordsFirst(groups []gathered) []gathered {
	out := make([]gathered, 0, len(groups))
	for i := 0; i < len(groups); {
		j := i
		for j < len(groups) && groups[j].heading() == groups[i].heading() {
			j++
		}
		for _, chords := range []bool{true, false} {
			for _, g := range groups[i:j] {
				if (g.What == "chords") == chords {
					out = append(out, g)
				}
			}
		}
		i = j
	}
	return out
}
