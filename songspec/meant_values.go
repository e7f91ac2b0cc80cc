package songspec

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Values that are written in the words or signs of others, with what they are here.

var (
	twoEnergies = pattern(`^([1-5])\s*(?:-|–|—|to|,|>|->|→|\.\.+|/|\s)\s*([1-5])$`)
	wordsAlone  = pattern(`^\p{L}[\p{L} ]*$`)
)

// energyInWords reports an energy that is a word, or two figures in one text.
func (d *decoder) energyInWords(expr hclsyntax.Expression) bool {
	text := plainWord(d.unquoted(expr))
	if plainNumber().MatchString(text) {
		return false
	}
	quoted := d.plainText(expr) != ""
	if m := twoEnergies().FindStringSubmatch(text); m != nil && (quoted || strings.Contains(text, "-")) {
		pair := fmt.Sprintf("[%s, %s]", m[1], m[2])
		d.rep.Errorf(expr.Range(), "Energy moves from one to another", "Write energy = %s.", pair).
			Write(expr.Range(), pair)
		return true
	}
	if !quoted && !wordsAlone().MatchString(text) {
		return false
	}
	const scale = "The energy is a whole number from 1, barely there, to 5, everything the band will ever play"
	if n := energyCalled[text]; n > 0 {
		d.rep.Errorf(expr.Range(), "Energy in words", scale+": perhaps energy = %d.", n)
	} else {
		d.rep.Errorf(expr.Range(), "Not a number", scale+".")
	}
	return true
}

var (
	otherMeter = pattern(`^\(?\s*([0-9]+)\s*[-/:|⁄∕]\s*([0-9]+)\s*\)?\s*,?\s*` +
		`[[(]?\s*([0-9]+(?:\s*[-+, ]\s*[0-9]+)+)?\s*[])]?$`)
	groupsOver = pattern(`^\(?([0-9]+(?:\s*\+\s*[0-9]+)+)\)?\s*/\s*([0-9]+)$`)
	groupSign  = pattern(`\s*[-+, ]\s*`)
)

// meterMeant is a meter that is written with other signs, as it is written here; "" where nobody knows.
func meterMeant(text string) string {
	text = strings.TrimSpace(text)
	var like string
	if m := otherMeter().FindStringSubmatch(text); m != nil {
		like = m[1] + "/" + m[2]
		if m[3] != "" {
			like += " " + groupSign().ReplaceAllString(m[3], "+")
		}
	} else if m := groupsOver().FindStringSubmatch(text); m != nil {
		sum, groups := 0, groupSign().ReplaceAllString(m[1], "+")
		for _, g := range strings.Split(groups, "+") {
			n, _ := strconv.Atoi(g)
			sum += n
		}
		like = fmt.Sprintf("%d/%s %s", sum, m[2], groups)
	}
	if _, err := meter.Parse(like); err != nil {
		return ""
	}
	return like
}

// tempoByName reports a tempo that a rit or an accel is to reach and that is no number: the pass's own,
// or that of a section.
func (d *decoder) tempoByName(e *event, expr hclsyntax.Expression) bool {
	text := d.unquoted(expr)
	if d.plainText(expr) == "" && !wordsAlone().MatchString(text) ||
		plainNumber().MatchString(text) || metronomeMark().MatchString(text) {
		return false
	}
	rng, word := expr.Range(), e.kind.String()
	if d.calledATempo(expr) != "" {
		d.rep.Errorf(rng, "Not a number", "%s goes to a number, to = %s. Back in tempo at once is a bars block: "+
			"bars \"5-\" { tempo = %q }.", wording.Sentence("%s", withArticle(word)), usualTarget(e.kind), aTempo)
		return true
	}
	for _, b := range d.top.Blocks {
		if b.Type != "section" || len(b.Labels) != 1 || !strings.EqualFold(b.Labels[0], text) {
			continue
		}
		a := b.Body.Attributes["tempo"]
		if a == nil {
			a = d.top.Attributes["tempo"]
		}
		if a == nil || !plainNumber().MatchString(d.written(a.Expr.Range())) || !d.accepts("tempo", a.Expr) {
			break
		}
		number := d.written(a.Expr.Range())
		d.rep.Errorf(rng, "Not a number", "Section %q has the tempo %s. Write to = %s.", b.Labels[0], number, number).
			Write(rng, number)
		return true
	}
	return false
}

// usualTarget is a tempo to show for a rit or an accel.
func usualTarget(kind timeline.EventKind) string {
	if kind == timeline.Accel {
		return "96"
	}
	return "64"
}

// noMIDIFiles are endings of files that a voice may come in and that are no MIDI files.
var noMIDIFiles = map[string]string{
	".mp3": "sound", ".wav": "sound", ".aif": "sound", ".aiff": "sound", ".m4a": "sound", ".flac": "sound",
	".ogg": "sound", ".aac": "sound", ".wma": "sound", ".caf": "sound", ".mp4": "sound", ".mov": "sound",
	".xml": "notation", ".musicxml": "notation", ".mxl": "notation", ".pdf": "notation",
}

// noMIDI reports a guide vocal whose name is that of a sound or of notation.
func (d *decoder) noMIDI(file *said[string]) bool {
	ending := path.Ext(file.v)
	what := noMIDIFiles[strings.ToLower(ending)]
	if what == "" {
		return false
	}
	name := strings.TrimSuffix(file.v, ending) + ".mid"
	d.rep.Errorf(file.rng, "A guide that is no MIDI file", "What the singer sings is read from the notes of a MIDI "+
		"file, and this is a %s file. Export the voice as MIDI beside the song, and write vocal %s { … }.", what,
		hcltext.Quote(name))
	return true
}
