package bed

import (
	"regexp"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

var (
	sectionLine = regexp.MustCompile(`^section "(\w+)"`)
	likeLine    = regexp.MustCompile(`^  like = "(\w+)"`)
	playLine    = regexp.MustCompile(`^  play "(\w+)"`)
	eventLine   = regexp.MustCompile(`^  (` + strings.Join(timeline.EventNames[:], "|") + `) "([^"]*)" \{`)
	byWord      = regexp.MustCompile(`by = \[([^]]*)\]`)
)

// block is an event block of the song text.
type block struct {
	word, place string
	by          timeline.Players // 0: nothing is said of it
	line        int
}

// spots are the places of a block in a pass: its ticks.
func (b *block) spots(p *timeline.Pass) ([]int64, error) {
	var out []int64
	var bars []meter.Meter
	for i := range p.Bars {
		bars = append(bars, p.Bars[i].Meter)
	}
	if b.word == "rit" || b.word == "accel" {
		place, err := meter.ParseStretch(b.place)
		if err != nil {
			return nil, err
		}
		stretches, err := place.Stretches(bars)
		for _, s := range stretches {
			out = append(out, p.Bars[s.From.Bar].Start+s.From.Tick)
		}
		return out, err
	}
	place, err := meter.ParsePlace(b.place)
	if err != nil {
		return nil, err
	}
	at, err := place.Where(bars, p.Meter)
	for _, s := range at {
		out = append(out, p.Bars[s.Bar].Start+s.Tick)
	}
	return out, err
}

// blocks are the event blocks that each play of the song text has, in the order in
// which a later one counts more: those of the section that its section is like, the
// section's, the play's. It reads what songtest writes and no more.
func blocks(src string) [][]block {
	sections := map[string][]block{}
	var plays [][]block
	var name, like string
	var own []block
	done := func() {
		var all []block
		for _, b := range sections[like] {
			same := false // one with the same word and place stays behind
			for _, o := range own {
				same = same || o.word == b.word && o.place == b.place
			}
			if !same {
				all = append(all, b)
			}
		}
		sections[name], like, own = append(all, own...), "", nil
	}
	inForm := false
	for i, line := range strings.Split(src, "\n") {
		switch {
		case line == "form {":
			inForm = true
		case line == "}" && !inForm && name != "":
			done()
			name = ""
		case sectionLine.MatchString(line):
			name = sectionLine.FindStringSubmatch(line)[1]
		case likeLine.MatchString(line):
			like = likeLine.FindStringSubmatch(line)[1]
		case playLine.MatchString(line):
			plays = append(plays, append([]block(nil), sections[playLine.FindStringSubmatch(line)[1]]...))
		}
		to := &own
		if inForm && len(plays) > 0 {
			to = &plays[len(plays)-1]
		}
		if m := eventLine.FindStringSubmatch(line); m != nil {
			*to = append(*to, block{word: m[1], place: m[2], line: i + 1})
		}
		if m := byWord.FindStringSubmatch(line); m != nil {
			b := &(*to)[len(*to)-1]
			for who, n := range timeline.PlayerNames {
				if strings.Contains(m[1], n) {
					b.by |= timeline.Only(timeline.Player(who))
				}
			}
		}
	}
	return plays
}

// blockFate is what becomes of a block in the whole song, or where one section has it.
type blockFate struct{ met, acts, idle bool }

// checkDoubts holds the warnings of blocks that do nothing against the rules.
func (a *agreement) checkDoubts() {
	plays := blocks(a.src)
	if len(plays) != len(a.tl.Passes) {
		a.failf("%d plays are read, the song has %d", len(plays), len(a.tl.Passes))
		return
	}
	copies := map[int]map[string]*blockFate{} // by line and section
	words := map[int]string{}
	for i := range plays {
		name := a.tl.Passes[i].Section
		for _, b := range plays[i] {
			words[b.line] = b.word
			if copies[b.line] == nil {
				copies[b.line] = map[string]*blockFate{}
			}
			if copies[b.line][name] == nil {
				copies[b.line][name] = &blockFate{}
			}
		}
		a.meet(i, plays[i], func(line int) *blockFate { return copies[line][name] })
	}
	warned, partly := map[int]int{}, map[int]int{}
	for _, d := range a.res.Diags {
		switch word, rest, _ := strings.Cut(strings.TrimPrefix(d.Summary, "The "), " "); {
		case rest == "does nothing":
			warned[d.Subject.Start.Line]++
			if words[d.Subject.Start.Line] != word {
				a.failf("line %d: %q is said of a %s", d.Subject.Start.Line, d.Summary, words[d.Subject.Start.Line])
			}
		case strings.HasSuffix(rest, " does nothing"):
			partly[d.Subject.Start.Line]++
		}
	}
	for line, all := range copies {
		f, want := blockFate{}, 0
		for _, c := range all {
			f = blockFate{f.met || c.met, f.acts || c.acts, f.idle || c.idle}
		}
		if f.met && !f.acts {
			want = 1
			a.count("idle block")
		} else {
			a.count("block that acts")
		}
		if warned[line] != want {
			a.failf("line %d: %d warnings that the %s does nothing, expected %d",
				line, warned[line], words[line], want)
		}
		if partly[line] > 0 && !f.idle {
			a.failf("line %d: a warning that the %s does nothing somewhere, and it acts", line, words[line])
		}
	}
	for line := range warned {
		if copies[line] == nil {
			a.failf("line %d: a warning at no block that is played", line)
		}
	}
}

// meet notes what becomes of the blocks of a pass. Of two blocks with the same word at one
// tick the later one counts, unless all its players keep out.
func (a *agreement) meet(pass int, all []block, fate func(line int) *blockFate) {
	p := &a.tl.Passes[pass]
	type spot struct {
		word string
		tick int64
	}
	owner := map[spot]int{} // line
	for i := range all {
		b := &all[i]
		ticks, err := b.spots(p)
		if err != nil {
			a.failf("line %d: %v", b.line, err)
			return
		}
		by := b.by
		if by == 0 {
			by = timeline.All
			if b.word == "fill" {
				by = drummer
			}
		}
		if b.word == "accent" || b.word == "push" || b.word == "fill" {
			by &^= p.Tacet
		}
		if by == 0 || b.word == "fill" && !by.Has(timeline.Drums) {
			fate(b.line).met, fate(b.line).idle = true, true
			continue
		}
		for _, tick := range ticks {
			owner[spot{b.word, tick}] = b.line
		}
	}
	for k, e := range p.Events {
		s := spot{e.Kind.String(), e.Tick}
		line, ok := owner[s]
		if !ok {
			a.failf("pass %d: a %s at %d is of no block", pass, s.word, s.tick)
			continue
		}
		delete(owner, s)
		f := fate(line)
		f.met = true
		if a.events[pass][k].by != 0 {
			f.acts = true
		} else {
			f.idle = true
		}
	}
	for s, line := range owner {
		a.failf("pass %d: the %s at %d of line %d is missing", pass, s.word, s.tick, line)
	}
}
