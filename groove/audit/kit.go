package audit

import (
	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/touch"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

const (
	// togetherUS is the time within which strokes count as one moment: 99.9 % of such
	// groups of ten drummers' playing (Groove MIDI Dataset, CC BY 4.0) have two hands
	// at most.
	togetherUS = 12_000
	// graceUS is how long before its stroke a grace note may come: a drag's first
	// stroke, and what timing adds.
	graceUS = 75_000
)

// hit is one stroke of the kit, with its time in the song.
type hit struct {
	us    int64
	pa    *passAudit
	note  *groove.Note
	voice feel.Voice
}

// checkLimbs checks hands and feet over the whole song, across the passes' borders.
// Two hands share all strokes of the hands, each going to the hand that has rested
// longest, than which no sharing is better. A flam or a drag is one stroke.
func (a *audit) checkLimbs() {
	by := map[feel.Limb][]hit{}
	var hats []hit
	for _, pa := range a.passes {
		notes := pa.part.Notes[timeline.Drums]
		for i := range notes {
			v := a.kitVoices[notes[i].Key&127]
			h := hit{us: pa.at(notes[i].Tick), pa: pa, note: &notes[i], voice: v}
			by[v.Limb] = append(by[v.Limb], h)
			if v.HatFamily() {
				hats = append(hats, h)
			}
		}
	}
	a.checkHands(withoutGraces(by[feel.Hand]))
	a.checkFoot(by[feel.RightFoot], "right foot")
	a.checkFoot(by[feel.LeftFoot], "left foot")
	a.checkHat(hats)
}

func (h *hit) found(rule, format string, args ...any) {
	h.pa.found(timeline.Drums, h.note.Tick, rule, format, args...)
}

// withoutGraces takes out the strokes that only lead into another: soft, the same
// drum, at most two, and the louder stroke right behind them.
func withoutGraces(in []hit) []hit {
	grace := make([]bool, len(in))
	for i := range in {
		led := 0
		for j := i - 1; j >= 0 && in[i].us-in[j].us < graceUS && led < 2; j-- {
			b, n := in[j].note, in[i].note
			if b.Key == n.Key && b.Velocity <= touch.GhostCeiling && b.Velocity < n.Velocity && !grace[j] {
				grace[j] = true
				led++
			}
		}
	}
	var out []hit
	for i := range in {
		if !grace[i] {
			out = append(out, in[i])
		}
	}
	return out
}

// checkHands finds three hands at once and a hand that is too fast.
func (a *audit) checkHands(in []hit) {
	const never = -1 << 60
	last := [2]int64{never, never}
	for i := 0; i < len(in); {
		j := i + 1
		for j < len(in) && in[j].us-in[i].us <= togetherUS {
			j++
		}
		together := in[i:j]
		i = j
		if len(together) > 2 {
			together[0].found("hands", "%s are struck at once, and a drummer has two hands", voiceList(together))
			last = [2]int64{in[j-1].us, in[j-1].us}
			continue
		}
		for _, h := range together {
			hand := 0
			if last[1] < last[0] {
				hand = 1
			}
			if gap := h.us - last[hand]; gap < touch.AgainUS {
				h.found("speed",
					"a hand would have to strike again after %d ms, and ten strokes a second is a hand's limit",
					gap/1000)
			}
			last[hand] = h.us
		}
	}
}

// checkFoot finds a foot that is too fast.
func (a *audit) checkFoot(in []hit, name string) {
	for i := 1; i < len(in); i++ {
		if gap := in[i].us - in[i-1].us; gap < touch.AgainUS {
			in[i].found("foot",
				"the %s would have to strike again after %d ms, and ten strokes a second is its limit", name, gap/1000)
		}
	}
}

// checkHat finds the one hi-hat asked for two things at once.
func (a *audit) checkHat(in []hit) {
	for i := 1; i < len(in); i++ {
		if x, y := in[i-1], in[i]; y.us-x.us <= togetherUS && x.note.Key != y.note.Key {
			y.found("hat", "%s and %s at once are one hi-hat", spokenVoice(x.voice.Word), spokenVoice(y.voice.Word))
		}
	}
}

func voiceList(in []hit) string {
	var words []string
	for i := range in {
		words = append(words, spokenVoice(in[i].voice.Word))
	}
	return wording.And(words)
}

// checkSyncopation checks the syncopation of the kit in every bar that the drummer plays as the
// feel has it: no bar with a fill or an event in it, nor in another meter.
func (pa *passAudit) checkSyncopation() {
	for bar := range pa.pass.Bars {
		f := pa.plan.FeelIn(bar)
		most := f.Syncopation
		lhl, ok := pa.syncopation(bar)
		if ok && lhl > most {
			pa.found(timeline.Drums, pa.pass.Bars[bar].Start, "syncopation",
				"kick and snare come to a syncopation of %d, and %s keeps to %d", lhl, f.Name, most)
		}
	}
}

// syncopation is the LHL syncopation of kick and snare in a bar as it is played,
// ghost strokes left out. Each stroke counts for the step of the
// tab, swung, that it is nearest to.
func (pa *passAudit) syncopation(bar int) (lhl int, ok bool) {
	p := pa.plan
	b := pa.pass.Bars[bar]
	if !pa.isPlain(bar) {
		return 0, false
	}
	lv := p.Level(bar)
	steps := p.Steps(bar, lv)
	if f := p.FeelIn(bar); len(f.Meters) > 0 && b.Meter != f.Meters[0] || len(steps) == 0 || len(lv.Drums) == 0 {
		return 0, false
	}
	places := make([]int64, len(steps))
	for i, st := range steps {
		places[i] = p.Swung(st.Tick)
	}
	on := make([]bool, len(steps))
	for _, n := range pa.part.Notes[timeline.Drums] {
		v := pa.kitVoices[n.Key&127]
		if v.Word != "kick" && !v.Backbeat() {
			continue
		}
		i := nearestStep(places, n.Tick, b.Length/int64(len(steps)))
		if i >= 0 && pa.part.Score.Parts[timeline.Drums].Notes[n.Meant].Touch > feel.Ghost {
			on[i] = true
		}
	}
	return feel.LHL(on, feel.Weights(b.Meter, len(steps))), true
}

// isPlain reports a bar without a fill or an event.
func (pa *passAudit) isPlain(bar int) bool {
	b, end := pa.pass.Bars[bar], pa.plan.BarEnd(bar)
	for i, e := range pa.pass.Events {
		switch e.Kind {
		case timeline.Rit, timeline.Accel, timeline.Space, timeline.Cue:
			continue
		case timeline.Push:
			if !pa.plan.Cues.Acts(i) {
				continue
			}
			if e.Target == b.Start {
				return false
			}
		}
		if e.Tick < end && max(e.End, e.Tick+1) > b.Start {
			return false
		}
	}
	if bar == 0 && pa.pass.Entry != nil {
		return false
	}
	for _, g := range pa.part.Score.Parts[timeline.Drums].Groups {
		if g.At < end && g.End > b.Start { // a fill
			return false
		}
	}
	return bar != pa.plan.Ending() && !pa.plan.Cues.Alone[bar]
}

// nearestStep is the step whose place is nearest to a tick, -1 when the tick is
// more than half a step from the first or the last.
func nearestStep(places []int64, tick, step int64) int {
	last := len(places) - 1
	if tick < places[0]-step/2 || tick >= places[last]+step/2 {
		return -1
	}
	best := 0
	for i := range places {
		if distance(places[i], tick) < distance(places[best], tick) {
			best = i
		}
	}
	return best
}

func distance(a, b int64) int64 { return max(a-b, b-a) }
