package bed

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plinth/render/room"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// checkTold holds the outline, the room and the check's doubts against the rules.
func (a *agreement) checkTold() {
	a.checkOutline()
	a.checkRoom()
	a.checkDoubts()
}

var barRow = regexp.MustCompile(`^ +\d+ \|[^|]*\|`)

// checkOutline holds what the outline says of every event against the rules.
func (a *agreement) checkOutline() {
	var b bytes.Buffer
	if err := outline.Write(&b, a.tl); err != nil {
		a.failf("the outline: %v", err)
		return
	}
	parts := strings.Split(strings.TrimRight(b.String(), "\n"), "\n\n")
	parts = parts[max(0, len(parts)-len(a.tl.Passes)):]
	for i := range a.tl.Passes {
		p := &a.tl.Passes[i]
		var rows []string
		entry := ""
		for _, line := range strings.Split(parts[i], "\n") {
			if word, rest, _ := strings.Cut(strings.TrimSpace(line), " "); word == "entry" {
				entry = strings.TrimSpace(rest)
			}
			if head := barRow.FindString(line); head != "" {
				rows = append(rows, strings.TrimSpace(line[len(head):]))
			}
		}
		if want := a.entryWords(i); entry != want {
			a.failf("pass %d: the outline has the entry %q, expected %q", i, entry, want)
		}
		if len(rows) != len(p.Bars) {
			a.failf("pass %d: the outline has %d bars of %d", i, len(rows), len(p.Bars))
			continue
		}
		for bar := range p.Bars {
			notes := strings.Split(rows[bar], "; ")
			if m := p.Bars[bar].Meter; m.Num != p.Meter.Num || m.Den != p.Meter.Den {
				notes = notes[1:]
			}
			notes = a.checkChanges(i, bar, notes)
			for k := range p.Events {
				if p.Events[k].Bar != bar {
					continue
				}
				a.count("outline")
				if want := a.words(i, k); len(notes) == 0 || !slices.Contains(want, notes[0]) {
					a.failf("pass %d, bar %d: the outline has %q, expected %q first", i, bar+1, notes, want)
					break
				}
				notes = notes[1:]
			}
			if len(notes) > 0 && notes[0] != "" && !strings.HasPrefix(notes[0], "written ") {
				a.failf("pass %d, bar %d: the outline has %q behind the events", i, bar+1, notes)
			}
		}
	}
}

// barWords are the words with which the outline says what is otherwise from a bar on, in their order.
var barWords = []string{"energy", "tempo", "feel", "key", "players", "drums", "bass", "piano"}

// checkTempo holds a tempo that the outline says at a tick of a pass against the song file's and, where
// nothing else moves it, against the tempo map. set says that one has to be said there.
func (a *agreement) checkTempo(pass, bar int, tick int64, words string, set bool) {
	if words == "" && !set {
		return
	}
	p := &a.tl.Passes[pass]
	if pace := p.Bars[bar].Pace; set && pace.Guided {
		if words != pace.String() {
			a.failf("pass %d, bar %d: the outline says the tempo %q, not that of the guide", pass, bar+1, words)
		}
		return
	}
	played, written, changed := strings.Cut(words, ", written ")
	if !changed {
		written = played
	}
	landed := slices.ContainsFunc(a.tl.Landings, func(l timeline.Landing) bool { return l.Tick == p.Start+tick })
	if written != p.BPMAt(bar).String() || !set && !landed || changed && len(a.tl.Landings) == 0 {
		a.failf("pass %d, bar %d: the outline says the tempo %q", pass, bar+1, words)
	}
	for _, e := range p.Events {
		moves := e.Kind.MovesTempo() || e.Kind == timeline.Hold || e.Kind == timeline.Caesura
		if moves && (e.Bar <= bar || !set) {
			return
		}
	}
	bpm, err := strconv.ParseFloat(played, 64)
	micros := int64(0)
	for _, t := range p.Tempos {
		if t.Tick <= tick {
			micros = t.Micros
		}
	}
	heard := 60e6 * 960 / float64(micros) / float64(p.Meter.TempoTicks())
	if err != nil || math.Abs(bpm-heard) > 0.051+0.0001*heard {
		a.failf("pass %d, bar %d: the outline says the tempo %q, the map %.3f", pass, bar+1, words, heard)
	}
	a.count("outline of tempos")
}

// checkChanges holds what a bar's row says of the bar itself against what holds in the bar before it,
// and returns what follows. At what energy a bar is, and what the players play on, is looked at elsewhere.
func (a *agreement) checkChanges(pass, bar int, notes []string) []string {
	p := &a.tl.Passes[pass]
	said := map[string]string{}
	for _, word := range barWords {
		if len(notes) > 0 && strings.HasPrefix(notes[0], word+" ") {
			said[word] = strings.TrimPrefix(notes[0], word+" ")
			notes = notes[1:]
		}
	}
	of := func(bar int) map[string]string {
		playing := strings.Join((timeline.All &^ p.TacetAt(bar)).Names(), ", ")
		return map[string]string{"feel": p.FeelAt(bar), "key": p.KeyAt(p.Bars[bar].Start).String(),
			"players": cmp.Or(playing, "none")}
	}
	was := map[string]string{"feel": p.Feel, "key": p.Key.String(),
		"players": cmp.Or(strings.Join((timeline.All&^p.Tacet).Names(), ", "), "none")}
	if bar > 0 {
		was = of(bar - 1)
	}
	a.checkTempo(pass, bar, p.Bars[bar].Start, said["tempo"], p.Bars[bar].Pace != nil)
	for len(notes) > 0 && strings.HasPrefix(notes[0], "tempo ") && strings.Contains(notes[0], ", from count ") {
		words, count, _ := strings.Cut(strings.TrimPrefix(notes[0], "tempo "), ", from count ")
		i := slices.IndexFunc(a.tl.Landings, func(l timeline.Landing) bool {
			at := l.Tick - p.Start - p.Bars[bar].Start
			return at > 0 && at < p.Bars[bar].Length && p.Bars[bar].Meter.CountAt(at) == count
		})
		if i < 0 {
			a.failf("pass %d, bar %d: nothing has its time on %s", pass, bar+1, count)
			break
		}
		a.checkTempo(pass, bar, a.tl.Landings[i].Tick-p.Start, words, false)
		notes = notes[1:]
	}
	for word, is := range of(bar) {
		want := ""
		if is != was[word] {
			want = is
			a.count("outline of bars")
		}
		if said[word] != want {
			a.failf("pass %d, bar %d: the outline says %q of the %s, expected %q", pass, bar+1, said[word], word, want)
		}
	}
	return notes
}

// byWords names the players, unless all are meant.
func byWords(by timeline.Players) string {
	if by == timeline.All {
		return ""
	}
	return " by " + strings.Join(by.Names(), ", ")
}

// entryWords says the push that leads into a pass, "" when there is none.
func (a *agreement) entryWords(pass int) string {
	for _, q := range a.pushes {
		if q.over && q.pass == pass-1 {
			a.count("outline")
			return "pushed from the pass before" + byWords(q.by&^a.tl.Passes[pass].TacetAt(0))
		}
	}
	return ""
}

// words are the ways in which the outline may say an event: one for each player, where they
// differ in where they strike or in why they do not.
func (a *agreement) words(pass, event int) []string {
	p, r := &a.tl.Passes[pass], &a.events[pass][event]
	e := &p.Events[event]
	b := &p.Bars[e.Bar]
	at := fmt.Sprintf("%s %s", e.Kind, b.Meter.CountAt(e.Tick-b.Start))
	if r.by == 0 {
		var out []string
		for why := range r.why {
			out = append(out, at+", not played: "+why)
		}
		return out
	}
	by := byWords(r.by)
	switch e.Kind {
	case timeline.Push:
		return []string{at + by}
	case timeline.Accent:
		if e.Weight != 2 {
			at += fmt.Sprintf(", weight %d", e.Weight)
		}
		if e.Alone {
			at += ", alone"
		}
		if e.Short {
			at += ", short"
		}
		out := []string{at + by}
		if r.moved != 0 {
			out = nil
		}
		moved := "" // who, where it is not all who play it
		if r.moved != r.by {
			moved = strings.Join(r.moved.Names(), ", ") + " "
		}
		for who := range timeline.Player(len(timeline.PlayerNames)) {
			if !r.moved.Has(who) {
				continue
			}
			push := "before it"
			if tick := r.at[who] - p.Start; tick >= 0 {
				b := &p.Bars[p.BarAt(tick)]
				push = "on " + b.Meter.CountAt(tick-b.Start)
			}
			out = append(out, at+by+", "+moved+"with the push "+push)
		}
		return out
	case timeline.Fill:
		return []string{at}
	}
	// How long the others last has tests of its own.
	return a.timeWords(e, at, p, b)
}

// timeWords are the words for a stop, a space, a hold or a rit.
func (a *agreement) timeWords(e *timeline.Event, at string, p *timeline.Pass, b *timeline.Bar) []string {
	beats := func(ticks int64) string {
		n := float64((200*ticks+p.Meter.TempoTicks())/(2*p.Meter.TempoTicks())) / 100
		if n == 1 {
			return "1 beat"
		}
		return fmt.Sprint(n) + " beats"
	}
	switch {
	case e.Kind == timeline.Cue:
		at = fmt.Sprintf("%s %q", at, e.Text)
		if e.At != "" {
			at += " at " + e.At
		}
		return []string{at}
	case e.Kind == timeline.Hold:
		return []string{at + ", " + beats(e.Extra) + " longer"}
	case e.Kind == timeline.Caesura:
		return []string{at + ", " + beats(e.Extra) + " of silence"}
	case e.Kind == timeline.Rit || e.Kind == timeline.Accel:
		n, beat := 0, int64(0) // bars, and the last beat
		var last timeline.Bar
		for _, b := range p.Bars[e.Bar:] {
			if b.Start >= e.End {
				break
			}
			n, last = n+1, b
		}
		for _, at := range last.Meter.Beats() {
			if last.Start+at < e.End {
				beat = at
			}
		}
		text := e.Kind.String() + " over " + wording.Count(n, "bar")
		if e.Tick == b.Start && e.End == last.Start+last.Length {
			return []string{fmt.Sprintf("%s to %s", text, e.To)}
		} else if n == 1 {
			text = e.Kind.String()
		}
		return []string{fmt.Sprintf("%s from %s to %s, reaching %s", text, b.Meter.CountAt(e.Tick-b.Start),
			last.Meter.CountAt(beat), e.To)}
	case e.End != b.Start+b.Length:
		at += " for " + beats(e.End-e.Tick)
	}
	if e.Kind == timeline.Stop {
		at += byWords(e.By)
	}
	return []string{at}
}

// checkRoom holds the hits of the room against the rules.
func (a *agreement) checkRoom() {
	type stop struct {
		from, to int64
		by       timeline.Players
	}
	accents, pushes, stops := map[int64]timeline.Players{}, map[int64]timeline.Players{}, map[stop]int{}
	for i := range a.tl.Passes {
		p := &a.tl.Passes[i]
		for k, e := range p.Events {
			if e.Kind == timeline.Stop {
				by := e.By &^ p.TacetAt(e.Bar)
				if by != 0 && e.By|p.TacetAt(e.Bar) == timeline.All { // who keeps out of the bar is silent, too
					by = timeline.All &^ p.Tacet
				}
				if by != 0 {
					stops[stop{p.Start + e.Tick, p.Start + e.End, by}]++
				}
			}
			for who := range timeline.Player(len(timeline.PlayerNames)) {
				if r := &a.events[i][k]; e.Kind == timeline.Accent && r.by.Has(who) {
					accents[r.at[who]] |= timeline.Only(who)
				}
			}
		}
	}
	for _, q := range a.pushes {
		pushes[q.from] |= q.struck
	}
	gotAccents, gotPushes, gotStops := map[int64]timeline.Players{}, map[int64]timeline.Players{}, map[stop]int{}
	for i, s := range room.Analyze(a.tl, a.perf).Passes {
		for _, h := range s.Hits {
			if h.Tick < a.tl.Passes[i].Start || h.Tick >= a.tl.Passes[i].Start+a.tl.Passes[i].Length {
				a.failf("the room has a %s at %d in pass %d", h.Kind, h.Tick, i)
			}
			into := gotAccents
			switch h.Kind {
			case timeline.Stop:
				gotStops[stop{h.Tick, h.End, h.By}]++
				continue
			case timeline.Push:
				into = gotPushes
			case timeline.Accent:
			default:
				continue
			}
			if into[h.Tick] != 0 {
				a.failf("the room has two of %s at %d", h.Kind, h.Tick)
			}
			into[h.Tick] = h.By
			a.count("room")
		}
	}
	if !maps.Equal(accents, gotAccents) {
		a.failf("the room has the accents %v, expected %v", gotAccents, accents)
	}
	if !maps.Equal(pushes, gotPushes) {
		a.failf("the room has the pushes %v, expected %v", gotPushes, pushes)
	}
	if !maps.Equal(stops, gotStops) {
		a.failf("the room has the stops %v, expected %v", gotStops, stops)
	}
}
