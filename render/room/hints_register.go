package room

import (
	"fmt"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
	"slices"
	"strings"
)

// registerHints are about the registers: under the comp, above everything, what to keep
// back for later, and where the comp lies among the singer's notes.
func (r *Report) registerHints() []Hint {
	out := r.underHints()
	s := &r.Song
	if top, _ := s.highest(); top > 0 && top < compassHigh {
		if seats := seatsWithin(top+1, compassHigh, 12); len(seats) > 0 {
			what, why := "everything is free", "Neither the voice nor the comp goes higher, but for one note in twenty."
			switch {
			case len(r.tl.Vocals) == 0:
				what, why = "the band leaves everything to singer and orchestra",
					"The comp goes no higher, but for one note in twenty; where the singer lies is not known."
			case s.Voice == nil:
				why = "The comp goes no higher, but for one note in twenty, and the guide is silent."
			}
			out = append(out, Hint{"the song",
				fmt.Sprintf("Above %s %s: %s have an octave or more there.", s.pitch(top), what,
					wording.And(instrumentNames(seats))), why})
		}
	}
	if late, was := r.firstHighPass(); late > 0 {
		p := &r.Passes[late]
		_, note := p.highest()
		out = append(out, Hint{barsWord(p.FirstBar, p.LastBar),
			fmt.Sprintf("Nothing goes above %s until %s: hold the octave over it back till then.", p.pitch(was),
				p.Name),
			fmt.Sprintf("That is the highest note of voice and band before; in %s they reach %s.", p.Name,
				p.pitch(note))})
	}
	var where []string
	for i := range r.Passes {
		p := &r.Passes[i]
		if p.Voice == nil || p.piano() == nil || p.Voice.Notes < fewNotes || p.piano().P95 < p.Voice.Quarter {
			continue
		}
		where = append(where, fmt.Sprintf("%s from %s", p.Name,
			p.pitchRange(min(p.Voice.P5, p.piano().P95), max(p.piano().P95, p.Voice.Quarter))))
	}
	if len(where) > 0 {
		out = append(out, Hint{"the song", fmt.Sprintf("Keep the inner strings out of the singer's low notes in %s.",
			shortList(where, 4)),
			"A quarter of what is sung there lies no higher than the comp goes: " +
				"one more layer and the words are lost."})
	}
	return out
}

// fewNotes is the least number of sung notes that show the register of a pass; fewer may
// be a pickup.
const fewNotes = 8

// gap is the range between bass and comp. It is not ok where one of them is silent.
func (s *Scope) gap() (low, high int, ok bool) {
	bass, comp := s.Players[timeline.Bass], s.piano()
	if bass == nil || comp == nil {
		return 0, 0, false
	}
	return bass.P95 + 1, comp.P5 - 1, true
}

// underComp is what some passes have free between bass and comp.
type underComp struct {
	low, high int        // free in all of them
	who       []string   // who has an octave in every one of them
	ranges    []string   // "F2 to E3", in order of appearance
	passes    [][]string // by ranges
}

// add adds a pass with its free range.
func (u *underComp) add(pass, pitches string) {
	i := slices.Index(u.ranges, pitches)
	if i < 0 {
		i = len(u.ranges)
		u.ranges, u.passes = append(u.ranges, pitches), append(u.passes, nil)
	}
	u.passes[i] = append(u.passes[i], pass)
}

// places lists the passes by their free range: "verse (1), verse (2) from F2 to E3 and
// bridge from D2 to Gb3".
func (u *underComp) places() string {
	var out []string
	for i, b := range u.ranges {
		if i == 3 && len(u.ranges) > 4 {
			out = append(out, fmt.Sprintf("%d more passes", len(slices.Concat(u.passes[i:]...))))
			break
		}
		out = append(out, fmt.Sprintf("%s from %s", strings.Join(u.passes[i], ", "), b))
	}
	return wording.And(out)
}

// underHints say who has room under the comp. Each pass is measured alone, because a
// register that is free in most of the song may be full in the chorus.
func (r *Report) underHints() []Hint {
	wide, line := underComp{low: compassLow, high: compassHigh}, underComp{low: compassLow, high: compassHigh}
	var none []string
	for i := range r.Passes {
		p := &r.Passes[i]
		low, high, ok := p.gap()
		if !ok {
			continue
		}
		to := &line
		switch {
		case high-low >= 12:
			to = &wide
		case high-low < 3:
			none = append(none, p.Name)
			continue
		}
		to.low, to.high = max(to.low, low), min(to.high, high)
		who := instrumentNames(seatsWithin(low, high, 12))
		if len(to.ranges) > 0 {
			who = slices.DeleteFunc(to.who, func(name string) bool { return !slices.Contains(who, name) })
		}
		to.who = who
		to.add(p.Name, p.pitchRange(low, high))
	}
	var out []Hint
	if len(wide.ranges) > 0 {
		who := ", each for others"
		if len(wide.who) > 0 {
			who = ", for " + wording.And(wide.who)
		}
		out = append(out, Hint{"the song",
			fmt.Sprintf("There is an octave or more under the comp in %s%s.", wide.places(), who),
			"The bass stays under it and the comp over it, but for one note in twenty each: " +
				"low brass and cellos can carry the chord there."})
	}
	if len(line.ranges) > 0 {
		say := "There is room for one held line under the comp in " + line.places()
		who := instrumentsCovering(line.low, line.high, "horn", "bassoon", "trombone", "cello", "bass clarinet")
		if line.high-line.low >= 3 && len(who) > 0 {
			if len(line.ranges) > 1 {
				say += fmt.Sprintf("; %s is in all of them", r.Song.pitchRange(line.low, line.high))
			}
			say += ", for " + wording.And(who)
		}
		out = append(out, Hint{"the song", say + ".",
			"Less than an octave between bass and comp carries one line, not two."})
	}
	if len(none) > 0 {
		out = append(out, Hint{"the song", fmt.Sprintf("Bass and comp leave no register between them in %s: keep "+
			"cellos, bassoons and low horns to tones they double, or rest one of them.", shortList(none, 4)),
			"Below C3 a third voice in between is heard as mud."})
	}
	return out
}

// highest is the highest P95 and the highest note of voice and pitched players, 0 when all
// are silent.
func (s *Scope) highest() (used, note int) {
	for _, p := range s.registers() {
		if p.part != nil {
			used, note = max(used, p.part.P95), max(note, p.part.High)
		}
	}
	return used, note
}

// firstHighPass is the first pass that comes within a tone of the song's highest note and goes
// three semitones or more over all before it, with the highest note before it. It is 0
// when there is none, when the singer is not known, and when the singer was not heard
// before that pass: a first entry over the introduction is no surprise.
func (r *Report) firstHighPass() (pass, before int) {
	if r.Song.Voice == nil {
		return 0, 0
	}
	heard := false
	_, peak := r.Song.highest()
	for i := range r.Passes {
		used, note := r.Passes[i].highest()
		if used >= peak-2 {
			if heard && note >= before+3 {
				return i, before
			}
			return 0, 0
		}
		before = max(before, note)
		heard = heard || r.Passes[i].Voice != nil
	}
	return 0, 0
}
