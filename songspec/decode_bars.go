package songspec

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// parts decodes the blocks of a section or a play: the players' go into set, the others are
// returned in source order. inPlay says that it is a play.
func (d *decoder) parts(body *hclsyntax.Body, set *settings, inPlay bool) (bars []*inside, events []*event) {
	what, attrs := "a section", sectionAttrs
	if inPlay {
		what, attrs = "a play", playAttrs
	}
	var eventBlocks []*hclsyntax.Block
	lines := map[string]int{}
	for _, b := range d.blocksOf(body, what, attrs, partBlocks) {
		switch {
		case b.Type == "bars":
			if in := d.inside(b, inPlay); in != nil {
				bars = append(bars, in)
			}
		case slices.Contains(bandBlocks, b.Type):
			if d.once(b, lines) {
				d.band(set, b, nil)
			}
		default:
			eventBlocks = append(eventBlocks, b)
		}
	}
	if len(bars) > MaxInside {
		d.rep.Errorf(bars[MaxInside].rng, "Too many bars blocks", "There are at most %d bars blocks in %s.",
			MaxInside, what)
		bars = bars[:MaxInside]
	}
	events = d.events(eventBlocks, what)
	if inPlay {
		for _, e := range events {
			e.depth = -1
		}
	}
	return bars, events
}

// inside decodes a bars block. It returns nil when its bars have a mistake.
func (d *decoder) inside(b *hclsyntax.Block, inPlay bool) *inside {
	in := &inside{}
	known, what := insideAttrs, "a bars block"
	if inPlay {
		known = append(slices.Clone(insideAttrs), "lift")
	}
	for _, a := range d.attrsOf(b.Body, what, known, bandBlocks) {
		switch {
		case a.Name == "chords":
			d.chords(&in.charted, a)
		case a.Name == "lift":
			in.lift = d.lift(a)
		case a.Name == "tempo":
			in.tempo = d.tempoInside(a)
		default:
			d.setting(&in.settings, a)
		}
	}
	lines := map[string]int{}
	for _, p := range b.Body.Blocks {
		switch {
		case slices.Contains(bandBlocks, p.Type):
			if d.once(p, lines) {
				d.band(&in.settings, p, nil)
			}
		case slices.Contains(eventWords, p.Type):
			d.rep.Errorf(p.TypeRange, wording.Sentence("%s in a bars block", withArticle(p.Type)),
				"An event says its bar in its own place: write it beside this block, %s.", blockForm(p.Type))
		default:
			d.unknown(ofBlock(p), p.Type, what, known, bandBlocks)
		}
	}
	label := d.label(b, "a place")
	if label == nil {
		return nil
	}
	in.placed = d.someBars(label)
	if in.place.Text == "" {
		return nil
	}
	d.checkInside(in, b)
	return in
}

// checkInside reports what does not go together in a bars block.
func (d *decoder) checkInside(in *inside, b *hclsyntax.Block) {
	last := in.place.Bars[len(in.place.Bars)-1]
	switch {
	case in.meter != nil && in.chords == nil && !in.noChords:
		d.rep.Errorf(in.meter.rng, "A meter without chords",
			"Bars get another meter together with their chords: write chords in the same block.")
	case in.lift != nil && (!last.Open || len(in.place.Bars) > 1):
		d.rep.Errorf(in.lift.rng, "A lift of some bars",
			"A lift holds from its bar on, so its bars are open: bars \"%d-\" { lift = %d }.",
			max(1, in.place.Bars[0].From), in.lift.v)
	case len(b.Body.Attributes) == 0 && len(b.Body.Blocks) == 0 && !d.unread(b.Body):
		d.rep.Warnf(in.rng, "A bars block that says nothing", "It holds what is so in these bars: %s.",
			`bars "5-8" { energy = 4 }`)
	}
}

// MaxInside is the greatest number of bars blocks in a section or a play.
const MaxInside = 64

// tempoInside reads the tempo of a bars block, which may be "a tempo": the pass's own.
func (d *decoder) tempoInside(a *hclsyntax.Attribute) *said[meter.BPM] {
	switch d.calledATempo(a.Expr) {
	case "":
		var set settings
		d.setting(&set, a)
		return set.tempo
	case aTempo:
		return &said[meter.BPM]{ownTempo, a.Expr.Range()}
	}
	d.rep.Errorf(a.Expr.Range(), "Not a tempo", "Back to the pass's own tempo is written tempo = %q.", aTempo).
		WriteText(a.Expr.Range(), aTempo)
	return nil
}

// calledATempo is the text of a value that means the pass's own tempo, as it is written; "" for any
// other value.
func (d *decoder) calledATempo(expr hclsyntax.Expression) string {
	if raw, ok := d.s.Raw(expr); ok {
		text := d.s.TextOf(raw)
		switch plainWord(text) {
		case aTempo, "tempo primo", "tempo i", "tempo 1", "a-tempo", "a_tempo":
			return text
		}
	}
	return ""
}

const aTempo = "a tempo"

// plainWord is a text in lower case, its words one blank apart.
func plainWord(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), " ")) }

// lift reads a lift.
func (d *decoder) lift(a *hclsyntax.Attribute) *said[int] {
	return d.whole(a.Expr, "the lift, in semitones,", -11, 11)
}

// someBars reads bars in their order, of which the last range may be open. After an error the
// place is empty.
func (d *decoder) someBars(t *said[string]) placed {
	out := placed{at: d.textAt(t), rng: t.rng}
	place, err := meter.ParseRanges(t.v)
	if err != nil {
		barsError(&d.rep, out, err)
		return out
	}
	for i, r := range place.Bars {
		if i > 0 && (r.From <= place.Bars[i-1].To && r.From > 0 || place.Bars[i-1].To == meter.Last) {
			d.rep.Errorf(t.rng, "Bars out of order", "Bars stand in their order, each once: \"1-4, 7-8\".")
			return out
		}
	}
	out.place = place
	return out
}

// barsError reports a *meter.PlaceError of bars.
func barsError(rep *hcltext.Report, b placed, err error) {
	var pe *meter.PlaceError
	if !errors.As(err, &pe) {
		rep.Errorf(b.rng, "Not bars", "%s", err)
		return
	}
	rep.Errorf(b.wrong(rep, pe), wording.Sentence("%s", pe.Msg), "%s", pe.Help).WriteText(b.rng, pe.Like)
}

// textAt is the byte offset at which a text stands in the file; -1 where it has escapes, so that
// offsets in the text are not offsets in the file.
func (d *decoder) textAt(t *said[string]) int {
	lo, hi := t.rng.Start.Byte, t.rng.End.Byte
	switch {
	case hi-lo == len(t.v)+2 && d.s.Src[lo] == '"':
		return lo + 1
	case hi-lo == len(t.v):
		return lo
	}
	return -1
}

// without reads the list of event words that are not taken over.
func (d *decoder) without(a *hclsyntax.Attribute) []*said[timeline.EventKind] {
	const help = `What is left out is a list of events: without = ["push", "fill"].`
	items, ok := d.list(a.Expr, help)
	if !ok {
		return nil
	}
	var out []*said[timeline.EventKind]
	for _, x := range items[:min(len(items), len(eventWords))] {
		t := d.text(x, 64, help)
		if t == nil {
			continue
		}
		kind := slices.Index(eventWords, t.v)
		if kind < 0 {
			n := offer(t.v, eventWords, "an event")
			d.rep.Errorf(t.rng, fmt.Sprintf("No event %q", t.v), "%s", n.says).WriteText(t.rng, n.word)
			continue
		}
		out = append(out, &said[timeline.EventKind]{timeline.EventKind(kind), t.rng})
	}
	return out
}

// drops reports whether a list of event words has a kind.
func drops(words []*said[timeline.EventKind], kind timeline.EventKind) bool {
	return slices.ContainsFunc(words, func(w *said[timeline.EventKind]) bool { return w.v == kind })
}

// idleWithout warns of event words to be left out that a section does not have.
func (d *decoder) idleWithout(words []*said[timeline.EventKind], from *section) {
	for _, w := range words {
		if !slices.ContainsFunc(from.events, func(e *event) bool { return e.kind == w.v }) {
			d.rep.Warnf(w.rng, fmt.Sprintf("No %s to leave out", w.v), "Section %q has none.", from.name)
		}
	}
}

var rounds = pattern(`^([0-9]{1,3})\s*(?:x|times)?$`)

// playAttr reads an attribute that only a play has.
func (d *decoder) playAttr(p *play, a *hclsyntax.Attribute) {
	switch a.Name {
	case "lift":
		p.lift = d.lift(a)
	case "times":
		p.times = d.whole(a.Expr, "the number of times", 1, maxTimes)
	case "at":
		p.landing = d.at(a.Expr)
	case "vamp":
		const help = `A vamp says until when it is played: vamp = "till the door opens".`
		if m := rounds().FindStringSubmatch(d.unquoted(a.Expr)); m != nil {
			d.rep.Errorf(a.Expr.Range(), "A vamp in figures", "How often it is played is written times = %s. %s",
				m[1], help)
			return
		}
		if p.vamp = d.text(a.Expr, 100, help); p.vamp != nil && strings.TrimSpace(p.vamp.v) == "" {
			d.rep.Errorf(p.vamp.rng, "An empty text", "%s", help)
			p.vamp = nil
		}
	case "without":
		p.without = d.without(a)
	case "only":
		if t := d.text(a.Expr, 512, `The bars that are played are text: only = "1-6".`); t != nil {
			if many, ok := meter.LastOnes(plainWord(t.v)); ok {
				p.only, p.last = &placed{rng: t.rng}, many // which bars these are shows in the section, see measuresOf
				return
			}
			if b := d.someBars(t); b.place.Text != "" {
				p.only = &b
			}
		}
	}
}
