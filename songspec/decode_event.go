package songspec

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// events decodes event blocks in source order.
func (d *decoder) events(blocks []*hclsyntax.Block, what string) []*event {
	var out []*event
	seen := map[string]int{}
	for i, b := range blocks {
		if i == MaxEvents {
			d.rep.Errorf(b.TypeRange, "Too many events", "There are at most %d events in %s.", MaxEvents, what)
			break
		}
		e := d.event(b)
		if e == nil {
			continue
		}
		if line, ok := seen[e.id()]; ok {
			d.rep.Warnf(e.rng, "The same event twice", "It stands on line %d already; this one is what counts.", line)
		}
		seen[e.id()] = d.s.LineOf(e.rng.Start.Byte)
		out = append(out, e)
	}
	return out
}

var letters = pattern(`^[\p{L} ]{4,}$`)

// event decodes one event. It returns nil when the event has a mistake.
func (d *decoder) event(b *hclsyntax.Block) *event {
	e := &event{word: b.TypeRange, kind: timeline.EventKind(slices.Index(eventWords, b.Type))}
	ok, told := true, len(d.rep.Diags)
	for _, a := range d.valuesOf(b.Body, withArticle(b.Type), eventRules[e.kind].attrs) {
		ok = d.option(e, a) && ok
	}
	clean := ok && len(d.rep.Diags) == told // then what is missing is not there by another name
	place := d.label(b, "a place")
	if place == nil {
		return nil
	}
	e.rng = place.rng
	e.at = d.textAt(place)
	var err error
	e.place, err = placeOf(e.kind, place.v)
	if err != nil && e.kind == timeline.Cue && letters().MatchString(place.v) {
		d.rep.Errorf(e.rng, "A cue without its place", "Its place stands behind the word, and what it says in text: "+
			"cue \"3: 1\" { text = %s }.", hcltext.Quote(place.v))
		return nil
	} else if err != nil {
		placeError(&d.rep, e, err)
		return nil
	}
	noEnd, noText := e.kind.MovesTempo() && e.to == nil, e.kind == timeline.Cue && e.text == nil
	switch {
	case !ok, (noEnd || noText) && !clean, noEnd && d.unread(b.Body, "to"), noText && d.unread(b.Body, "text"):
		return nil
	case noEnd:
		d.rep.Errorf(b.TypeRange, wording.Sentence("%s without an end", withArticle(b.Type)),
			"Say which tempo it reaches: %s.", strings.Replace(blockForm(b.Type), "7-8", place.v, 1))
		return nil
	case noText:
		d.rep.Errorf(b.TypeRange, "A cue without a text", "Say what happens there: %s.",
			strings.Replace(blockForm(b.Type), "3: 1", place.v, 1))
		return nil
	}
	return e
}

// placeOf reads the place of an event of a kind. The error is a *meter.PlaceError.
func placeOf(kind timeline.EventKind, text string) (meter.Place, error) {
	if kind.MovesTempo() {
		return meter.ParseStretch(text)
	}
	return meter.ParsePlace(text)
}

// option reads one line of an event and returns false when it has a mistake.
func (d *decoder) option(e *event, a *hclsyntax.Attribute) bool {
	switch a.Name {
	case "by":
		e.by = d.players(a.Expr, `Who plays it is a list of players: by = ["drums", "piano"].`, false)
		if e.by != nil && e.by.v == 0 {
			d.rep.Errorf(e.by.rng, "An event by nobody", `Name the players: by = ["drums", "piano"], or leave by out.`)
		}
		return or(e.by, 0) != 0
	case "weight":
		e.weight = d.whole(a.Expr, "the weight of an accent", 1, 3)
		return e.weight != nil
	case "alone":
		e.alone = d.flag(a.Expr, "Alone")
		return e.alone != nil
	case "at":
		e.landing = d.at(a.Expr)
		return e.landing != nil
	case "text":
		e.text = d.text(a.Expr, maxCueText, `What a cue says is text in quotes: text = "lights".`)
		if e.text != nil && strings.TrimSpace(e.text.v) == "" {
			d.rep.Errorf(e.text.rng, "An empty text", `Say what happens at the cue: text = "lights".`)
			e.text = nil
		}
		return e.text != nil
	case "each_time":
		e.each = d.flag(a.Expr, "each_time")
		return e.each != nil
	case "short":
		e.short = d.flag(a.Expr, "Short")
		return e.short != nil
	case "beats":
		name, most := "how long it lasts", maxBeats
		switch e.kind {
		case timeline.Hold:
			name, most = "how much longer the held beat lasts", maxHold
		case timeline.Caesura:
			name, most = "how long the silence lasts", maxCaesura
		}
		e.beats = d.beats(a.Expr, name, most, false)
		return e.beats != nil
	}
	if d.tempoByName(e, a.Expr) {
		return false
	}
	e.to = d.tempo(a.Expr, "the tempo that "+withArticle(e.kind.String())+" reaches")
	return e.to != nil
}

const (
	maxBeats = 64 // of a stop or a space
	maxHold  = 16 // of a hold

	maxCueText = 100 // characters
	maxCaesura = 16
)

// placeError reports a *meter.PlaceError of an event.
func placeError(r *hcltext.Report, e *event, err error) {
	var pe *meter.PlaceError
	if !errors.As(err, &pe) {
		r.Errorf(e.rng, "Not a place", "%s", err)
		return
	}
	help := pe.Help
	if t := e.place.Text; len(e.place.Bars) == 0 && pe.Off >= 0 && pe.Off < pe.End && pe.End <= len(t) {
		if n, err := strconv.Atoi(t[pe.Off:pe.End]); err == nil && n > 0 {
			help += " " + barMeant(e, n, pe.Off)
		}
	}
	if e.through != nil {
		// The place is right where it was written, but the chords of this section have no room
		// for it. That is worth a warning, not a failed build.
		r.Warnf(*e.through, wording.Sentence("%s %q of section %q is left out", e.kind, e.place.Text, e.from),
			"%s here, so it is not taken over. %s", wording.Sentence("%s", pe.Msg), pe.Help)
		return
	}
	r.Errorf(e.wrong(r, pe), wording.Sentence("%s", pe.Msg), "%s", help).WriteText(e.rng, pe.Like)
}

// barMeant says how to write a place in which the figure n, at byte off of its text, is not a
// count and may be meant as a bar.
func barMeant(e *event, n, off int) string {
	counts := e.place.Counts
	switch {
	case len(counts) > 1 && counts[0].Off == off:
		if rest := countsAfter(e, 0); strings.Trim(rest, "0123456789, \t") != "" || len(counts) == 2 {
			return fmt.Sprintf("If bar %d is meant, write \"%d: %s\".", n, n, rest)
		}
		return fmt.Sprintf("Bars stand in front of a colon: \"%s: 1\".", strings.TrimSpace(e.place.Text))
	case len(counts) > 1 && strings.Trim(e.place.Text, "0123456789, \t") == "":
		bars := strings.Join(strings.FieldsFunc(e.place.Text,
			func(r rune) bool { return r == ' ' || r == ',' || r == '\t' }), ", ")
		return fmt.Sprintf("If bars are meant, a colon and the count come after them: \"%s: 1\".", bars)
	}
	return fmt.Sprintf("If bar %d is meant, write \"%d: 1\".", n, n)
}

func withArticle(word string) string {
	if word[0] == 'a' {
		return "an " + word
	}
	return "a " + word
}
