package outline

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Describe is an event in words, as it is played: "accent 2&, weight 3 by drums".
func Describe(e *timeline.Event, played cue.Played, p *timeline.Pass, bar *timeline.Bar) string {
	text := e.Kind.String() + " " + bar.Meter.CountAt(e.Tick-bar.Start)
	if !played.Acts {
		return text + ", not played: " + played.Why.String()
	}
	m := p.Meter // also in a bar of another meter: the tempo counts the same beats
	switch e.Kind {
	case timeline.Accent:
		if e.Weight != 2 {
			text += fmt.Sprintf(", weight %d", e.Weight)
		}
		if e.Alone {
			text += ", alone"
		}
		if e.Short {
			text += ", short"
		}
		text += by(played.By)
		if played.Moved != 0 {
			text += ", "
			if played.Moved != played.By {
				text += playerList(played.Moved) + " "
			}
			text += "with the push " + ahead(p, played.At)
		}
	case timeline.Push:
		return text + by(played.By)
	case timeline.Stop, timeline.Space:
		if e.End != bar.Start+bar.Length {
			text += " for " + beats(e.End-e.Tick, m)
		}
		if e.Kind == timeline.Stop {
			text += by(e.By)
		}
	case timeline.Cue:
		text += " " + strconv.Quote(e.Text)
		if e.At != "" {
			text += " at " + e.At
		}
		return text
	case timeline.Hold:
		return text + ", " + beats(e.Extra, m) + " longer"
	case timeline.Caesura:
		return text + ", " + beats(e.Extra, m) + " of silence"
	case timeline.Rit, timeline.Accel:
		text = e.Kind.String()
		first, last, from, to := p.Stretch(e)
		if from == "" || last > first {
			text += " over " + wording.Count(last+1-first, "bar")
		}
		if from != "" {
			text += fmt.Sprintf(" from %s to %s, reaching %s", from, to, e.To)
		} else {
			text += fmt.Sprintf(" to %s", e.To)
		}
		return text
	}
	return text
}

// ahead is the place of a push in words. A push in the pass before has no count here.
func ahead(p *timeline.Pass, tick int64) string {
	if tick < 0 {
		return "before it"
	}
	b := &p.Bars[p.BarAt(tick)]
	return "on " + b.Meter.CountAt(tick-b.Start)
}

// by is the players of an event in words, "" for all of them.
func by(s timeline.Players) string {
	if s == timeline.All {
		return ""
	}
	return " by " + playerList(s)
}

func playerList(s timeline.Players) string { return strings.Join(s.Names(), ", ") }

// beats is a length in the beats that the tempo counts, with at most two decimals.
func beats(ticks int64, m meter.Meter) string {
	beat := m.TempoTicks()
	return wording.Beats((ticks*200 + beat) / (2 * beat) * 10)
}

// bars is a number of bars in words, "" for none.
func bars(n int) string {
	if n == 0 {
		return ""
	}
	return wording.Count(n, "bar")
}

// pickup is the length of a song's pickup, "" for none.
func pickup(t *timeline.Timeline) string {
	if t.Pickup == 0 {
		return ""
	}
	return beats(t.Pickup, t.Passes[0].Meter)
}

func perMille(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

func bass(s timeline.BassSetup) string { return fmt.Sprintf("%s, %d strings", s.Words(), s.Strings) }

func piano(s timeline.PianoSetup) string {
	out := s.Sound
	if s.Highest != 0 {
		out += fmt.Sprintf(", up to note %d", s.Highest)
	}
	return fmt.Sprintf("%s, span %d", out, s.Span)
}

// singer is the guide's file, behind the name of the singer where it has one.
func singer(v *timeline.Vocal) string {
	if v.Name == "" {
		return v.Path
	}
	return v.Name + ", " + v.Path
}

// transposed is by how much a guide is transposed in words, "" where it is not.
func transposed(v *timeline.Vocal) string {
	if by := signed(v.Transpose); by != "" {
		return ", transposed " + by
	}
	return ""
}

func vocal(v *timeline.Vocal) string {
	if v == nil {
		return "none"
	}
	out := singer(v)
	if v.Track != "" {
		out += fmt.Sprintf(", track %q", v.Track)
	}
	out += fmt.Sprintf(", from bar %d", v.From) + transposed(v)
	if v.Range != "" {
		out += ", range " + v.Range
	}
	return out + also(v)
}

// also are the further files of a singer in words, "" where there are none.
func also(v *timeline.Vocal) (out string) {
	for i := range v.Also {
		file := &v.Also[i]
		out += ", and " + file.Path
		if file.Track != "" {
			out += fmt.Sprintf(", track %q", file.Track)
		}
		out += fmt.Sprintf(", from bar %d", file.From) + transposed(file)
	}
	return out
}

// vocals are two vocals of one singer in words: what each has that the other has not, behind the singer's name.
// One who came or went has all.
func vocals(v, w *timeline.Vocal) (old, new string) {
	if v == nil || w == nil {
		return vocal(v), vocal(w)
	}
	facts := func(v *timeline.Vocal) []string {
		track, key, limits := "the likeliest track", "not transposed", "no range"
		if v.Track != "" {
			track = fmt.Sprintf("track %q", v.Track)
		}
		if v.Transpose != 0 {
			key = strings.TrimPrefix(transposed(v), ", ")
		}
		if v.Range != "" {
			limits = "range " + strings.Replace(v.Range, " to ", "-", 1)
		}
		return []string{cmp.Or(v.Name, "no name"), v.Path, track, fmt.Sprintf("from bar %d", v.From), key, limits,
			cmp.Or(strings.TrimPrefix(also(v), ", "), "no other file")}
	}
	var a, b []string
	others := facts(w)
	for i, fact := range facts(v) {
		if fact != others[i] {
			a, b = append(a, fact), append(b, others[i])
		}
	}
	if len(a) > 0 && v.Name != "" && v.Name == w.Name {
		a[0] = v.Name + ", " + a[0]
	}
	return strings.Join(a, ", "), strings.Join(b, ", ")
}

// signed is a number of semitones up or down, "" for none.
func signed(semitones int) string {
	if semitones == 0 {
		return ""
	}
	return fmt.Sprintf("%+d", semitones)
}
