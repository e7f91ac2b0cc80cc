package songspec

import (
	"fmt"
	"strings"

	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/meter"
)

// neighbours are the feels to offer where a song is too quick or too slow for a feel, the most
// similar first. Common practice, no single source; the tempos at which the feels sit well
// are in the groove files.
var neighbours = map[string]struct{ Quicker, Slower []string }{
	"ballad-eighths":    {[]string{"half-time", "backbeat-eighths"}, []string{"brushes-ballad"}},
	"ballad-sixteenths": {[]string{"tight-sixteenths", "half-time", "backbeat-eighths"}, []string{"brushes-ballad"}},
	"brushes-ballad":    {[]string{"two-beat", "swing"}, nil},
	"backbeat-eighths":  {[]string{"half-time"}, []string{"ballad-eighths", "brushes-ballad"}},
	"tight-sixteenths":  {[]string{"backbeat-eighths", "half-time"}, []string{"brushes-ballad"}},
	"half-time":         {nil, []string{"backbeat-eighths", "ballad-eighths"}},
	"four-on-the-floor": {[]string{"half-time"}, []string{"backbeat-eighths", "ballad-eighths"}},
	"snare-on-four":     {[]string{"half-time"}, []string{"tight-sixteenths", "ballad-sixteenths"}},
	"shuffle":           {[]string{"swing"}, []string{"brushes-ballad"}},
	"swing":             {nil, []string{"brushes-ballad"}},
	"two-beat":          {[]string{"swing"}, []string{"brushes-ballad"}},
	"train":             {[]string{"two-beat"}, []string{"ballad-sixteenths"}},
	"samba":             {[]string{"bossa"}, nil},
	"gospel-six":        {[]string{"lilt"}, nil},
	"lilt":              {nil, []string{"gospel-six"}},
	"waltz":             {[]string{"jazz-waltz"}, nil},
	"jazz-waltz":        {nil, []string{"waltz"}},
	"ballad-in-two":     {[]string{"show-two"}, nil},
	"show-two":          {nil, []string{"ballad-in-two"}},
}

// countedQuick are feels that are counted in quick beats, of which the wide beat that is felt has two:
// their one backbeat a bar is on 3. Common practice, no single source.
var countedQuick = map[string]bool{"half-time": true, "one-drop": true}

// tempoFits warns of a tempo at which a feel does not sit well. Where the tempo is far off, it
// offers another feel or tempo; a guide keeps its tempo.
func (r *resolver) tempoFits(name string, bpm meter.BPM, set settings) {
	info, m := r.env.Feels[name], or(set.meter, meter.Common)
	low, high := info.tempos(m)
	anyTempo := name == "sustain" || name == "pulse" // they play too little to be wrong
	if info.TempoLow == 0 || info.TempoHigh == 0 || anyTempo || info.suits(bpm, m) {
		return
	}
	far := 4*bpm > 5*high || 4*bpm < 3*low
	summary := fmt.Sprintf("Tempo %s for %q", bpm, name)
	detail := fmt.Sprintf("The feel %q sits well from %s to %s %s a minute.", name, low, high, beatsOf(m))
	var at hcl.Range
	switch {
	case set.tempo != nil && set.tempo == r.f.settings.tempo && set.feel != r.f.settings.feel && set.feel != nil:
		at = set.feel.rng // the tempo is the whole song's, and the feel is of this part
	case set.tempo != nil:
		at = set.tempo.rng
	case !far: // the default tempo, and near enough
		return
	case set.feel != nil:
		at = set.feel.rng
	case set.meter != nil:
		at = set.meter.rng
	default:
		return
	}
	if countedQuick[name] && bpm < low {
		detail = fmt.Sprintf("The feel %q is counted in quick beats, with the one backbeat of the bar on 3. It sits "+
			"well from %s to %s %s a minute, which is %s to %s of the wide beat that is felt.", name, low, high,
			beatsOf(m), low/2, high/2)
	}
	switch {
	case set.tempo == nil:
		detail = fmt.Sprintf("Where no tempo is said it is %s. %s Write for example tempo = %s.", bpm, detail,
			(low+high)/2000*1000)
	case set.feel == nil:
		detail = fmt.Sprintf("Where no feel is named %s has %q, which sits well from %s to %s %s a minute.", m, name,
			low, high, beatsOf(m))
		if n := r.neighbour(name, bpm, info, set); !far && n != "" {
			detail += fmt.Sprintf(" At %s write feel = %q.", bpm, n)
		} else if far {
			detail += r.otherwise(name, bpm, info, set)
		}
	case far:
		detail += r.otherwise(name, bpm, info, set)
	}
	if n := meter.BPM(m.QuartersAsOne()); n > 1 && set.tempo != nil && info.suits(bpm/n, m) {
		detail += fmt.Sprintf(" In %s the tempo counts %s: for %s quarters write tempo = %s.", m, beatsOf(m), bpm,
			bpm/n)
	}
	r.rep.Warnf(at, summary, "%s", detail)
}

// beatsOf is what the tempo of a meter counts.
func beatsOf(m meter.Meter) string {
	switch m.QuartersAsOne() {
	case 4:
		return "wholes"
	case 2:
		return "halves"
	}
	return "beats"
}

// neighbour is the first of a feel's neighbours that sits well at a tempo; "" when none does.
func (r *resolver) neighbour(name string, bpm meter.BPM, info FeelInfo, set settings) string {
	near, m := neighbours[name].Slower, or(set.meter, meter.Common)
	if _, high := info.tempos(m); bpm > high {
		near = neighbours[name].Quicker
	}
	for _, n := range near {
		i, ok := r.env.Feels[n]
		if ok && i.fits(m) && i.suits(bpm, m) {
			return n
		}
	}
	return ""
}

// otherwise is a sentence that says what would suit the tempo, with a blank before it; "" when
// nothing does.
func (r *resolver) otherwise(name string, bpm meter.BPM, info FeelInfo, set settings) string {
	m := or(set.meter, meter.Common)
	var ways []string
	if n := r.neighbour(name, bpm, info, set); n != "" {
		ways = append(ways, fmt.Sprintf("feel = %q", n))
	}
	half := (bpm/1000 + 1) / 2 * 1000 // of whole beats
	switch {                          // 4/4 can be counted twice or half as fast
	case m.Num != 4 || m.Den != 4 || or(set.tempo, 0) == guided:
	case bpm > meter.Whole(info.TempoHigh) && info.suits(half, m):
		ways = append(ways, fmt.Sprintf("tempo = %s and two bars in one", half))
	case bpm < meter.Whole(info.TempoLow) && info.suits(2*bpm, m):
		ways = append(ways, fmt.Sprintf("tempo = %s and each bar as two", 2*bpm))
	}
	if len(ways) == 0 {
		return ""
	}
	return fmt.Sprintf(" At %s write %s.", bpm, strings.Join(ways, ", or "))
}
