package outline

import (
	"fmt"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// The words for an event, after its kind and its count.
const (
	notPlayed  = ", not played: %s"
	withWeight = ", weight %d"
	alone      = ", alone"
	byPlayers  = " by %s"
	withPush   = "with the push %s" // then one of the next two
	onCount    = "on %s"
	beforePass = "before it"
	forBeats   = " for %s"
	longer     = ", %s longer"
	ritOver    = "rit over %s to %d"
)

// describe is an event in words, as it is played: "accent 2&, weight 3 by drums".
func describe(e *timeline.Event, played cue.Played, p *timeline.Pass, bar *timeline.Bar) string {
	at := e.Kind.String() + " " + bar.Meter.CountAt(e.Tick-bar.Start)
	if !played.Acts {
		return at + fmt.Sprintf(notPlayed, played.Why)
	}
	m := p.Meter // also in a bar of another meter: the tempo counts the same beats
	switch e.Kind {
	case timeline.Accent:
		s := at
		if e.Weight != 2 {
			s += fmt.Sprintf(withWeight, e.Weight)
		}
		if e.Alone {
			s += alone
		}
		s += by(played.By)
		if played.Moved != 0 {
			s += ", "
			if played.Moved != played.By {
				s += playerList(played.Moved) + " "
			}
			s += fmt.Sprintf(withPush, ahead(p, played.At))
		}
		return s
	case timeline.Push:
		return at + by(played.By)
	case timeline.Stop, timeline.Space:
		if e.End == bar.Start+bar.Length {
			return at
		}
		return at + fmt.Sprintf(forBeats, beats(e.End-e.Tick, m))
	case timeline.Hold:
		return at + fmt.Sprintf(longer, beats(e.Extra, m))
	case timeline.Rit:
		n := 0
		for _, b := range p.Bars[e.Bar:] {
			if b.Start >= e.End {
				break
			}
			n++
		}
		return fmt.Sprintf(ritOver, meter.Plural(n, "bar"), e.To)
	}
	return at
}

// ahead is the place of a push in words. A push in the pass before has no count here.
func ahead(p *timeline.Pass, tick int64) string {
	if tick < 0 {
		return beforePass
	}
	b := &p.Bars[p.BarAt(tick)]
	return fmt.Sprintf(onCount, b.Meter.CountAt(tick-b.Start))
}

// by is the players of an event in words, "" for all of them.
func by(s timeline.Players) string {
	if s == timeline.All {
		return ""
	}
	return fmt.Sprintf(byPlayers, playerList(s))
}

func playerList(s timeline.Players) string { return strings.Join(s.Names(), ", ") }

// beats is a length in the beats that the tempo counts, with at most two decimals.
func beats(ticks int64, m meter.Meter) string {
	beat := m.TempoTicks()
	hundredths := (ticks*200 + beat) / (2 * beat)
	s := fmt.Sprint(hundredths / 100)
	if rest := hundredths % 100; rest != 0 {
		s += strings.TrimRight(fmt.Sprintf(".%02d", rest), "0")
	}
	if s == "1" {
		return "1 beat"
	}
	return s + " beats"
}

func bars(n int) string {
	if n == 0 {
		return "none"
	}
	return meter.Plural(n, "bar")
}

func perMille(n int) string { return fmt.Sprintf("%d.%03d", n/1000, n%1000) }

func kit(s timeline.DrumsSetup) string {
	if s.Kit == "" {
		return "as the feel has it"
	}
	return s.Kit
}

func bass(s timeline.BassSetup) string { return fmt.Sprintf("%s, %d strings", s.Sound, s.Strings) }

func piano(s timeline.PianoSetup) string {
	out := s.Sound
	if s.Highest != 0 {
		out += fmt.Sprintf(", up to note %d", s.Highest)
	}
	return fmt.Sprintf("%s, span %d", out, s.Span)
}

func vocal(v *timeline.Vocal) string {
	if v == nil {
		return "none"
	}
	out := v.Path
	if v.Track != "" {
		out += fmt.Sprintf(", track %q", v.Track)
	}
	out += fmt.Sprintf(", from bar %d", v.From)
	if v.RangeLow != 0 || v.RangeHigh != 0 {
		out += fmt.Sprintf(", range %d to %d", v.RangeLow, v.RangeHigh)
	}
	return out
}
