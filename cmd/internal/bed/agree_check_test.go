package bed

import (
	"strings"

	"plinth/songspec/timeline"
)

// blockFate is what becomes of a block in the whole song, or where one section has it.
type blockFate struct{ met, acts, idle bool }

// checkDoubts holds the warnings of blocks that do nothing against the rules.
func (a *agreement) checkDoubts() {
	plays := a.plays()
	if len(plays) != len(a.tl.Passes) {
		a.failf("%d plays are read, the song has %d", len(plays), len(a.tl.Passes))
		return
	}
	copies := map[lineOf]map[string]*blockFate{} // by line and section
	words := map[lineOf]string{}
	for i := range plays {
		name := a.tl.Passes[i].Section
		for _, b := range plays[i].blocks {
			if b.dropped {
				continue
			}
			words[b.at] = b.word
			if copies[b.at] == nil {
				copies[b.at] = map[string]*blockFate{}
			}
			if copies[b.at][name] == nil {
				copies[b.at][name] = &blockFate{}
			}
		}
		a.meet(i, plays[i], func(at lineOf) *blockFate { return copies[at][name] })
	}
	warned, partly := map[lineOf]int{}, map[lineOf]int{}
	for _, d := range a.res.Diags {
		at := lineOf{d.Subject.Filename, d.Subject.Start.Line}
		switch word, rest, _ := strings.Cut(strings.TrimPrefix(d.Summary, "The "), " "); {
		case rest == "does nothing":
			warned[at]++
			if words[at] != word {
				a.failf("%v: %q is said of a %s", at, d.Summary, words[at])
			}
		case strings.HasSuffix(rest, " does nothing"):
			partly[at]++
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
			a.failf("%v: %d warnings that the %s does nothing, expected %d",
				line, warned[line], words[line], want)
		}
		if partly[line] > 0 && !f.idle {
			a.failf("%v: a warning that the %s does nothing somewhere, and it acts", line, words[line])
		}
	}
	for line := range warned {
		if copies[line] == nil {
			a.failf("%v: a warning at no block that is played", line)
		}
	}
}

// meet notes what becomes of the blocks of a pass. Of two blocks with the same word at one
// tick the later one counts, unless all its players keep out.
func (a *agreement) meet(pass int, of played, fate func(at lineOf) *blockFate) {
	p := &a.tl.Passes[pass]
	type spot struct {
		word, text string
		tick       int64
	}
	owner := map[spot]lineOf{}
	spots := make([][]stretch, len(of.blocks))
	for i, b := range of.blocks {
		var err error
		spots[i], err = b.spots(p, &a.whole.Passes[pass])
		if gone := b.depth > 0 || b.depth == 0 && of.ownBars; err != nil && !gone {
			a.failf("%v: %v", b.at, err)
			return
		}
	}
	for i, b := range of.blocks {
		if b.dropped {
			continue
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
		if len(spots[i]) > 0 && (by == 0 || b.word == "fill" && !by.Has(timeline.Drums)) {
			fate(b.at).met, fate(b.at).idle = true, true
			continue
		}
		for _, s := range spots[i] {
			if moves := b.word == "rit" || b.word == "accel"; !moves || !replaced(b, s, of.blocks, spots) {
				owner[spot{b.word, b.text, s.from}] = b.at
				if again := s.from >= p.Length/int64(of.times); b.word == "cue" && again && !b.each {
					delete(owner, spot{b.word, b.text, s.from})
				}
			}
		}
	}
	for k, e := range p.Events {
		s := spot{e.Kind.String(), e.Text, e.Tick}
		at, ok := owner[s]
		if !ok {
			a.failf("pass %d: a %s at %d is of no block", pass, s.word, s.tick)
			continue
		}
		delete(owner, s)
		f := fate(at)
		f.met = true
		if a.events[pass][k].by != 0 {
			f.acts = true
		} else {
			f.idle = true
		}
	}
	for s, at := range owner {
		a.failf("pass %d: the %s at %d of %v is missing", pass, s.word, s.tick, at)
	}
}
