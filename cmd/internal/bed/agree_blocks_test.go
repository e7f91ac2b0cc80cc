package bed

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

var (
	sectionLine = regexp.MustCompile(`^section "(\w+)"`)
	likeLine    = regexp.MustCompile(`^  like = "(\w+)"`)
	playLine    = regexp.MustCompile(`^  play "(\w+)"`)
	withoutLine = regexp.MustCompile(`^  without = \[(.*)\]`)
	eventLine   = regexp.MustCompile(`^  (` + strings.Join(timeline.EventNames[:], "|") + `) "([^"]*)" \{`)
	byWord      = regexp.MustCompile(`by = \[([^]]*)\]`)
	textWord    = regexp.MustCompile(`text = "([^"]*)"`)
	timesLine   = regexp.MustCompile(`^  times = ([0-9]+)$`)

	// partLines let a play play a part of its section, or more than once, or at a time.
	partLines = regexp.MustCompile(`(?m)^ +(only|times|at) = .*\n`)
)

// lineOf is a line of one of a song's files.
type lineOf struct {
	file string
	n    int
}

// block is an event block of the song text.
type block struct {
	word, place string
	text        string           // of a cue
	each        bool             // a cue that comes in every round
	by          timeline.Players // 0: nothing is said of it
	at          lineOf
	dropped     bool // the play leaves it out; what it has replaced stays away all the same
	depth       int  // -1: it is the play's, 0: the section's own, 1: of the section that that one is like, …
}

// same reports whether another block stands in this one's place where it is further inside.
func (b *block) same(o block) bool { return b.word == o.word && b.place == o.place && b.text == o.text }

// played is a play of the song text: its section's blocks and its own, in the order in which a later one
// counts more.
type played struct {
	blocks  []block
	times   int  // how often it goes round
	ownBars bool // it has bars of its own, so that events of the section may have no place
}

// plays are the plays of a song. They are read from its text, as songtest writes it and no more.
func (a *agreement) plays() []played {
	sections := map[string][]block{}
	readBlocks("lender.song.hcl", a.song.Files["lender.song.hcl"], sections)
	return readBlocks("agree.song.hcl", a.song.Text, sections)
}

// readBlocks adds the sections of a file, and returns its plays.
func readBlocks(file, text string, sections map[string][]block) (plays []played) {
	var name, like string
	var without string
	var own []block
	inherit := func(from []block) (out []block) {
		for _, b := range from {
			b.depth++
			if !strings.Contains(without, `"`+b.word+`"`) {
				out = append(out, b)
			}
		}
		return out
	}
	done := func() {
		all := slices.DeleteFunc(inherit(sections[like]),
			func(b block) bool { return slices.ContainsFunc(own, b.same) })
		sections[name], like, without, own = append(all, own...), "", "", nil
	}
	inForm := false
	for i, line := range strings.Split(text, "\n") {
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
			from := sections[playLine.FindStringSubmatch(line)[1]]
			plays = append(plays, played{times: 1, blocks: slices.Clone(from)})
		case withoutLine.MatchString(line):
			without = withoutLine.FindStringSubmatch(line)[1]
			if inForm {
				p := &plays[len(plays)-1]
				p.blocks = slices.Clone(p.blocks)
				for k := range p.blocks {
					b := &p.blocks[k]
					b.dropped = b.depth >= 0 && strings.Contains(without, `"`+b.word+`"`)
				}
				without = ""
			}
		}
		to, depth := &own, 0
		if inForm && len(plays) > 0 {
			p := &plays[len(plays)-1]
			p.ownBars = p.ownBars || strings.HasPrefix(line, "    chords = ")
			to, depth = &p.blocks, -1
		}
		if m := eventLine.FindStringSubmatch(line); m != nil {
			*to = append(*to, block{word: m[1], place: m[2], at: lineOf{file, i + 1}, depth: depth})
		}
		if m := timesLine.FindStringSubmatch(line); m != nil && inForm {
			plays[len(plays)-1].times, _ = strconv.Atoi(m[1])
		}
		if strings.TrimSpace(line) == "each_time = true" {
			(*to)[len(*to)-1].each = true
		}
		if m := textWord.FindStringSubmatch(line); m != nil {
			(*to)[len(*to)-1].text = m[1]
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

// stretch is from a tick of a pass to another.
type stretch struct{ from, to int64 }

// spots are the places of a block in a pass, where all is the same pass with all bars of its section,
// once: ticks, and what lies behind them for what moves the tempo.
func (b *block) spots(p, all *timeline.Pass) (out []stretch, err error) {
	var bars []meter.Meter
	for i := range all.Bars {
		bars = append(bars, all.Bars[i].Meter)
	}
	if b.word != "rit" && b.word != "accel" {
		place, err := meter.ParsePlace(b.place)
		if err != nil {
			return nil, err
		}
		at, err := place.Where(bars, all.Meter)
		for _, s := range at {
			for bar := range p.Bars {
				if tick := p.Bars[bar].Start + s.Tick; p.NumberOf(bar) == s.Bar+1 {
					out = append(out, stretch{tick, tick})
				}
			}
		}
		return out, err
	}
	place, err := meter.ParseStretch(b.place)
	if err != nil {
		return nil, err
	}
	stretches, err := place.Stretches(bars)
	for _, s := range stretches {
		before := 0 // the number of the bar before, where that is in the stretch
		for bar := range p.Bars {
			number := p.NumberOf(bar)
			if number <= s.From.Bar || number > s.To.Bar+1 {
				before = 0
				continue
			}
			is := stretch{p.Bars[bar].Start, p.Bars[bar].Start + p.Bars[bar].Length}
			if number == s.From.Bar+1 {
				is.from = p.Bars[bar].Start + s.From.Tick
			}
			if number == s.To.Bar+1 {
				is.to = p.Bars[bar].Start + s.To.Tick
			}
			if before > 0 && before < number {
				out[len(out)-1].to = is.to
			} else {
				out = append(out, is)
			}
			before = number
		}
	}
	return out, err
}

// replaced reports whether a block that moves the tempo gives way to one further inside, which overlaps it.
func replaced(b block, s stretch, others []block, spots [][]stretch) bool {
	for i, o := range others {
		if (o.word == "rit" || o.word == "accel") && o.depth < b.depth &&
			slices.ContainsFunc(spots[i], func(x stretch) bool { return x.from < s.to && s.from < x.to }) {
			return true
		}
	}
	return false
}
