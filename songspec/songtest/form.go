package songtest

import "slices"

func (w *writer) form() {
	w.line("form {")
	var last *section
	for i := 4 + w.r.Intn(5); i > 0; i-- {
		s := pick(w, w.sections...)
		if last != nil && w.chance(4) {
			s = last // twice running: a push over its end meets its own bar 1
		}
		last = s
		w.play(s)
	}
	w.line("}")
}

func (w *writer) play(of *section) {
	s := of.copy()
	w.line("  play %q {", s.name)
	switch w.r.Intn(8) {
	case 0:
		w.line("  lift = %d", pick(w, 1, 2, -1, -3))
	case 1:
		w.line("  key = %q", pick(w, keys...))
	}
	if w.chance(4) {
		w.line("  tacet = %s", w.tacet(tacets))
	}
	if w.chance(4) {
		w.line("  energy = %s", w.energy())
	}
	if w.chance(8) {
		w.line("  tempo = %s", w.decimal(w.tempo(s.feel)))
	}
	if w.chance(8) {
		w.line("  fills = %t", w.chance(2))
	}
	if w.more != nil {
		s.rit = false // one of its own replaces those that it overlaps
		w.laterPlay(&s)
	}
	w.events(&s, max(0, w.r.Intn(6)-2))
	w.line("  }")
}

// laterPlay writes what a play can say by now.
func (w *writer) laterPlay(s *section) {
	w.without(s)
	if w.later(12) {
		s.feel = w.suiting(s.meter)
		w.line("  feel = %q", s.feel.Name)
	}
	if w.later(8) {
		w.line("  lead = %t", w.later(2))
	}
	if w.later(8) {
		w.line("  times = %d", 2+w.more.Intn(3))
	}
	if w.later(12) {
		w.line("  vamp = \"till Nell turns\"")
	}
	w.band(s, 12, nil)
	w.insides(s, true)
	if w.later(5) {
		w.only(s)
	}
}

// only lets a play play some bars.
func (w *writer) only(s *section) {
	in := w.ranges(len(s.bars))
	w.line("  only = %q", in.text)
	s.played = in.runs
	s.hot = slices.DeleteFunc(slices.Clone(s.hot), func(bar int) bool { return !s.plays(bar) })
	for _, run := range s.played {
		s.hot = append(s.hot, run[1])
	}
}

// plays reports whether a bar of the section is played.
func (s *section) plays(bar int) bool {
	return s.played == nil || slices.ContainsFunc(s.played, func(run [2]int) bool {
		return run[0] <= bar && bar <= run[1]
	})
}
