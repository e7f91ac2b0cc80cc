package songtest

import (
	"fmt"
	"slices"
	"strings"

	"plinth/songspec"
	"plinth/songspec/timecode"
	"plinth/songspec/timeline"
)

// framing is a picture block.
type framing struct{ rate, start string }

var framings = []*framing{
	{"23.976", "01:00:00:00"}, {"24", "01:02:10:00"}, {"25", "00:00:00:00"}, {"29.97", "00:58:30:02"},
	{"29.97", "01:02:10;00"}, {"30", "10:00:00:15"}, {"50", "00:01:00:00"}, {"59.94", "00:09:58;59"},
	{"60", "01:00:00:00"},
}

// toPicture gives some plays of a song a time, and some bars of them a cue with one. Times are near
// those at the written tempo, so the song has to be read for them. One in four songs has times
// without a picture, in minutes and seconds.
func (w *writer) toPicture(s Song) Song {
	if w.picture == nil && !w.later(6) {
		return s
	}
	tl := w.resolved(s)
	if tl == nil {
		return s // whoever reads the song will see why
	}
	lines := strings.Split(s.Text, "\n")
	var plays []int // the line at which the play of each pass begins
	for i, line := range lines {
		if strings.HasPrefix(line, "  play ") {
			plays = append(plays, i)
		}
	}
	clock := timeline.NewClock(tl.Tempos)
	wrote, lands := int64(0), int64(0) // microseconds from bar 1, as written and as it is to be
	add := map[int]string{}
	for i := range tl.Passes {
		p := &tl.Passes[i]
		if i > 0 && w.later(2) {
			if code, ok := w.lands(clock.Micros(p.Start)-clock.Micros(tl.Lead), &wrote, &lands); ok {
				add[plays[i]] += fmt.Sprintf("\n  at = %q", code)
			}
		}
		bar := w.more.Intn(len(p.Bars))
		b := &p.Bars[bar]
		number := b.Number
		once := !slices.ContainsFunc(p.Bars[bar+1:], func(o timeline.Bar) bool { return o.Number == number }) &&
			!slices.ContainsFunc(p.Bars[:bar], func(o timeline.Bar) bool { return o.Number == number })
		if once && b.Start > 0 && w.later(2) {
			if code, ok := w.lands(clock.Micros(p.Start+b.Start)-clock.Micros(tl.Lead), &wrote, &lands); ok {
				add[plays[i]] += fmt.Sprintf("\n  cue \"%d: 1\" {\n    text = \"door\"\n    at = %q\n  }", number, code)
			}
		}
	}
	for at, text := range add {
		lines[at] += text
	}
	s.Text = strings.Join(lines, "\n")
	return s
}

// lands is when a place is to come that comes so many microseconds after bar 1 as written. It is not
// ok where the place before is too near.
func (w *writer) lands(micros int64, wrote, lands *int64) (code string, ok bool) {
	lasts := micros - *wrote
	if lasts < 3_000_000 {
		return "", false
	}
	change := int64(w.more.Intn(61) - 30) // in thousandths
	if w.later(8) {
		change *= 3
	}
	at := *lands + lasts*(1000+change)/1000
	if w.picture == nil || w.later(4) {
		at = at / 1000 * 1000
		code = fmt.Sprintf("%d:%02d.%03d", at/60_000_000, at/1_000_000%60, at/1000%1000)
	} else {
		rate := timecode.Rates[slices.IndexFunc(timecode.Rates, func(r timecode.Rate) bool {
			return r.Name == w.picture.rate
		})]
		start, count, err := timecode.Parse(w.picture.start, rate)
		if err != nil {
			panic("songtest: " + err.Error())
		}
		frame := count.At(start, at)
		at, code = count.Micros(start, frame), count.Code(frame)
	}
	*wrote, *lands = micros, at
	return code, true
}

// resolved is the timeline of a song; nil where it cannot be read.
func (w *writer) resolved(s Song) *timeline.Timeline {
	file, diags := songspec.Parse("t.song.hcl", []byte(s.Text))
	if diags.HasErrors() {
		return nil
	}
	var lent []songspec.Lent
	for _, ref := range file.SectionFiles() {
		of, _ := songspec.Parse(ref.Path, []byte(s.Files[ref.Path]))
		lent = append(lent, songspec.Lent{Ref: ref, File: of})
	}
	if file.Lend(lent).HasErrors() {
		return nil
	}
	env := songspec.Env{Feels: map[string]songspec.FeelInfo{}}
	for _, f := range w.feels {
		env.Feels[f.Name] = songspec.FeelInfo{Meters: f.Meters, TempoLow: f.TempoLow, TempoHigh: f.TempoHigh}
	}
	tl, _ := file.Resolve(env)
	return tl
}
