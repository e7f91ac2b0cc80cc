package songtest_test

import (
	"regexp"
	"strings"

	"plinth/songspec/cue"
	"plinth/songspec/songtest"
	"plinth/songspec/timeline"
)

// wanted are the mixes that at least one song in twenty must have.
var wanted = []string{
	"push over a bar line", "push over a border", "push into no chord", "two pushes over one border",
	"two pushes of one chord", "accent between a push and its target", "accent on a pushed border's count 1",
	"accent in a stop", "push in a stop", "fill in a stop", "hold in a stop", "push in a fill", "stop in a fill",
	"event on count 1 of bar 1", "event within a beat of the end", "three words on one beat", "four events in a bar",
	"stop over a bar line", "accent alone beside a push", "push beside a hold", "push in a rit",
	"push over a border into a tacet", "push of some over a border", "odd bar", "half-bar chords",
	"odd meter", "moving energy",
	"short accent", "short accent on a push",
	"stop of some", "push in a stop of some", "bar of rest", "push into a bar of rest", "push out of a bar of rest",
	"caesura", "push over a caesura", "hold before a caesura", "caesura in a stop",
	"accent", "push", "stop", "fill", "hold", "rit", "accel", "space", "cue",
	"tacet", "no fills", "no lead", "lift", "change of key",
	"looseness 0", "looseness 400", "looseness 1000", "count-in", "pickup", "five strings",
	"highest", "kit", "lent sections", "singer", "several singers", "picture",
	"tempo of the guide",
}

// mixes counts what comes together in songs.
type mixes map[string]int

func (m mixes) on(what string, is bool) {
	if is {
		m[what]++
	}
}

// pass counts the mixes in one pass.
func (m mixes) pass(tl *timeline.Timeline, i int) {
	p := &tl.Passes[i]
	var next *timeline.Pass
	if i+1 < len(tl.Passes) {
		next = &tl.Passes[i+1]
	}
	for _, d := range cue.Of(p).Dropped {
		m.on("push into no chord", p.Events[d.Event].Kind == timeline.Push && d.Why == cue.NoChord)
	}
	perBar, perBeat := map[int]int{}, map[int64]map[timeline.EventKind]bool{}
	for _, e := range p.Events {
		m[e.Kind.String()]++
		if e.Kind.MovesTempo() {
			continue
		}
		perBar[e.Bar]++
		m.on("four events in a bar", perBar[e.Bar] == 4)
		beat := p.Bars[e.Bar].Start + p.Bars[e.Bar].Meter.NextBeat(e.Tick-p.Bars[e.Bar].Start)
		if perBeat[beat] == nil {
			perBeat[beat] = map[timeline.EventKind]bool{}
		}
		perBeat[beat][e.Kind] = true
		m.on("three words on one beat", len(perBeat[beat]) == 3)
		m.on("event on count 1 of bar 1", e.Tick == 0)
		m.on("event within a beat of the end", e.Tick >= p.Length-p.Meter.TempoTicks())
		m.on("stop of some", e.Kind == timeline.Stop && e.By != timeline.All)
		m.on("stop over a bar line", e.Kind == timeline.Stop && e.End > p.Bars[e.Bar].Start+p.Bars[e.Bar].Length)
		for _, f := range p.Events {
			m.pair(e, f)
		}
		if e.Kind != timeline.Push {
			continue
		}
		m.on("push over a bar line", e.Target >= p.Bars[e.Bar].Start+p.Bars[e.Bar].Length)
		if e.Target == p.Length && next != nil {
			m["push over a border"]++
			m.on("push over a border into a tacet", e.By&next.Tacet != 0)
			m.on("push of some over a border", e.By != timeline.All)
			for _, f := range next.Events {
				m.on("accent on a pushed border's count 1", f.Kind == timeline.Accent && f.Tick == 0)
			}
		}
	}
	m.setting(p)
}

// pair counts what f does to e.
func (m mixes) pair(e, f timeline.Event) {
	inside := f.Tick <= e.Tick && e.Tick < f.End
	switch f.Kind {
	case timeline.Stop, timeline.Fill, timeline.Rit:
		m.on(e.Kind.String()+" in a "+f.Kind.String(), inside && e.Kind != f.Kind)
		some := f.Kind == timeline.Stop && f.By != timeline.All
		m.on("push in a stop of some", inside && some && e.Kind == timeline.Push)
	case timeline.Push:
		m.on("two pushes of one chord", e.Kind == timeline.Push && e.Tick < f.Tick && e.Target == f.Target)
		m.on("accent between a push and its target", e.Kind == timeline.Accent && f.Tick < e.Tick && e.Tick < f.Target)
	case timeline.Caesura:
		m.on("push over a caesura", e.Kind == timeline.Push && e.Tick < f.End && f.End <= e.Target)
		m.on("hold before a caesura", e.Kind == timeline.Hold && e.End == f.End)
	case timeline.Hold:
		m.on("push beside a hold", e.Kind == timeline.Push && (inside || e.Target == f.Tick))
	case timeline.Accent:
		m.on("short accent", f.Short)
		m.on("short accent on a push", f.Short && e.Kind == timeline.Push && e.Tick == f.Tick)
		m.on("accent alone beside a push", f.Alone && e.Kind == timeline.Push && e.Bar == f.Bar)
	}
}

// setting counts what a pass has besides its events.
func (m mixes) setting(p *timeline.Pass) {
	over := 0
	for _, e := range p.Events {
		if e.Kind == timeline.Push && e.Target == p.Length {
			over++
		}
	}
	m.on("two pushes over one border", over > 1)
	for _, b := range p.Bars {
		m.on("odd bar", b.Meter != p.Meter)
	}
	for i, b := range p.Bars {
		m.on("bar of rest", b.Tacet != 0)
		for _, e := range p.Events {
			push := e.Kind == timeline.Push && e.Target < p.Length
			m.on("push into a bar of rest", push && b.Tacet != 0 && e.Target == b.Start)
			m.on("push out of a bar of rest", push && b.Tacet != 0 && e.Bar == i && e.Target > b.Start+b.Length-1)
		}
	}
	for _, c := range p.Chords {
		m.on("half-bar chords", 2*(c.End-c.Start) == p.Meter.BarTicks())
	}
	m.on("odd meter", p.Meter.Num%2 == 1 && p.Meter.Num > 3)
	m.on("moving energy", p.EnergyFrom != p.EnergyTo)
	m.on("tacet", p.Tacet != 0)
	m.on("no fills", !p.Fills)
	m.on("no lead", !p.Lead)
	m.on("lift", p.Lift != 0)
}

// song counts what a song says once, and how it is written.
func (m mixes) song(tl *timeline.Timeline, song songtest.Song) {
	m.on("change of key", len(tl.Keys) > 1)
	m.on("looseness 0", tl.Looseness == 0)
	m.on("looseness 400", tl.Looseness == 400)
	m.on("looseness 1000", tl.Looseness == 1000)
	m.on("count-in", tl.CountIn > 0)
	m.on("pickup", tl.Pickup > 0)
	m.on("five strings", tl.Bass.Strings == 5)
	m.on("highest", tl.Piano.Highest != 0)
	m.on("kit", tl.Drums.Kit != "")
	for word, said := range texts {
		m.on(word, said.MatchString(song.Text))
	}
	m.on("lent sections", strings.Contains(song.Text, `play "lent`) && song.Files["lender.song.hcl"] != "")
	m.on("singer", len(tl.Vocals) > 0)
	m.on("several singers", len(tl.Vocals) > 1)
	m.on("picture", tl.Picture != nil)
	m.on("tempo of the guide", strings.Contains(song.Text, `= "guide"`))
}

// texts are words as random songs write them.
var texts = map[string]*regexp.Regexp{}

func init() {
	bars := func(says string) string { return `  bars "[^"]*" \{\n(    [^}]*\n(    \})?)*    ` + says }
	for word, text := range map[string]string{
		"repeat": `:\|"`, "ending": `:\|2\.`, "like": `like = `, "%": ` % \|`, "chord off the beat": `@[0-9]+[&ea]`,
		"like with own chords": `like = .*\n(  .*\n)?  meter = .*\n  chords`,
		"bars of chords":       bars(`chords`), "bars of another meter": bars(`meter = .*\n    chords`),
		"bars of energy": bars(`energy`), "bars of a feel": bars(`feel`), "bars of a key": bars(`key`),
		"bars of a tempo": bars(`tempo = [0-9]`), "a tempo": bars(`tempo = "a tempo"`), "bars of rest": bars(`tacet`),
		"bars of a line": bars(`bass \{\n +line`), "bars of a kit": bars(`drums`), "lift inside": bars(`lift`),
		"open bars": `bars "[0-9]+-"`, "listed bars": `bars "[0-9]+,`, "last bars": `bars "last"`,
		"only": `only = `, "only listed": `only = "[0-9]+,`, "times": `times = [2-9]`, "vamp": `vamp = `,
		"without": `without = `, "transpose": `(?m)^transpose = `, "decimal tempo": `(?m)^  tempo = [0-9]+\.[0-9]`,
		"decimal rit": `to = [0-9]+\.[0-9]`, "count to count": `(rit|accel) "[0-9]+: [0-9&]+ - `,
		"all rest": `tacet = \["all"\]`, "kit inside": `(?m)^  drums \{`, "bass line": `(?m)^  bass \{\n +line`,
		"piano inside": `(?m)^  piano \{\n +sound`, "play at": `play .*\n +at = `,
		"cue at":          `cue .*\n.*\n +at = "[0-9:;]*"`,
		"time in minutes": `at = "[0-9]+:[0-9]+\.`, "feel of a play": `play .*\n(  .*\n)*  feel`,
	} {
		texts[word] = regexp.MustCompile(text)
		wanted = append(wanted, word)
	}
}
