package songspec

import (
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// file decodes the top level.
func (d *decoder) file(f *File, body *hclsyntax.Body) {
	d.top = body
	for _, a := range d.attrsOf(body, "a song", topAttrs, topBlocks) {
		if !d.setting(&f.settings, a) {
			d.topAttr(f, a)
		}
	}
	band := func(f *File, b *hclsyntax.Block) { d.band(&f.settings, b, f) }
	readers := map[string]func(*File, *hclsyntax.Block){
		"drums": band, "bass": band, "piano": band, "vocal": d.vocal, "picture": d.picture,
		"form": d.form, "section": d.section,
	}
	lines := map[string]int{}
	for _, b := range d.blocksOf(body, "a song", topAttrs, topBlocks) {
		if !dialect.Named(b.Type) {
			d.noLabel(b)
		}
		if b.Type == "section" || b.Type == "vocal" || d.once(b, lines) {
			readers[b.Type](f, b)
		}
	}
	d.checkSingers(f)
	d.checkLeader(f)
	f.hasForm = f.hasForm || d.unread(body, "form")
	f.groovesUnread = d.unread(body, "grooves")
	f.meterUnread = f.meterUnread || d.unread(body, "meter")
	if len(f.sections) == 0 && len(f.lenders) == 0 && !d.rep.Diags.HasErrors() {
		d.rep.Errorf(d.s.Range(0, 0), "A song without a section",
			"Write at least one: section \"verse\" { chords = \"| C | F | G | C |\" }.")
	}
}

func (d *decoder) topAttr(f *File, a *hclsyntax.Attribute) {
	switch a.Name {
	case "title":
		f.title = d.text(a.Expr, 200, `The title is text in quotes: title = "Lanterns".`)
	case "by":
		f.by = d.text(a.Expr, 200, `Who wrote the song is text in quotes: by = "A. Writer".`)
	case "looseness":
		f.looseness = d.looseness(a.Expr)
	case "take":
		f.take = d.take(a.Expr)
	case "count_in":
		f.countIn = d.whole(a.Expr, "the count-in, in bars,", 0, 8)
	case "pickup":
		f.pickup = d.beats(a.Expr, "the pickup", 16, true)
	case "transpose":
		f.transpose = d.transpose(a.Expr)
	case "grooves":
		f.grooves = d.refs(a.Expr, "groove", maxGrooves,
			`The song's own grooves are a list of files: grooves = ["mine.groove.hcl"].`)
	case "sections":
		f.lenders = d.refs(a.Expr, "song", maxLenders,
			`The songs whose sections are played here are a list of files: sections = ["harbour.song.hcl"].`)
	}
}

// refs reads a list of at most most files, of a kind in words.
func (d *decoder) refs(expr hclsyntax.Expression, kind string, most int, help string) []Ref {
	items, ok := d.list(expr, help)
	if !ok {
		return nil
	}
	if len(items) > most {
		d.rep.Errorf(expr.Range(), "Too many "+kind+" files", "A song may name %d of them.", most)
		return nil
	}
	var out []Ref
	for _, x := range items {
		if ref, ok := d.ref(d.text(x, maxPath, help)); ok {
			out = append(out, ref)
		}
	}
	return out
}
