package hcltext

import (
	"fmt"
	"slices"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/wording"
)

// merge adds what was read to a body. A value that stands twice is told.
func (r *recovery) merge(into, more *hclsyntax.Body) {
	into.Blocks = append(into.Blocks, more.Blocks...)
	for _, a := range Attributes(more) {
		first := into.Attributes[a.Name]
		if first == nil {
			into.Attributes[a.Name] = a
			continue
		}
		start := r.lines[r.LineOf(a.NameRange.Start.Byte)-1]
		r.rep.Slip(start, saidTwice(a.NameRange.Start.Byte-start, a.Name,
			fmt.Sprint(r.LineOf(first.NameRange.Start.Byte))))
		r.cutOut(into, a.Name)
	}
}

// saidTwice is the slip of a value that stands twice.
func saidTwice(from int, name, first string) Slip {
	return Slip{From: from, To: from + len(name), Summary: wording.Sentence("%s is said twice", name),
		Detail: fmt.Sprintf("The first %s stands on line %s. Keep one of the two.", name, first)}
}

// tell tells the first slip of the bytes lo to hi and returns it; nil if one was told of them.
func (r *recovery) tell(lo, hi int, diags hcl.Diagnostics) *hcl.Diagnostic {
	for _, d := range r.rep.Diags {
		if at := d.Subject.Start.Byte; lo <= at && at < hi {
			return nil
		}
	}
	n := len(r.rep.Diags)
	if r.syntax(&r.rep, diags, r.Dialect, 1); n == len(r.rep.Diags) {
		return nil
	}
	return r.rep.Diags[n]
}

// cutOut notes what was cut out of a body: a word that means something, or "".
func (r *recovery) cutOut(body *hclsyntax.Body, word string) {
	if !r.known(word) {
		word = ""
	}
	r.out.cut[body] = append(r.out.cut[body], word)
}

func (r *recovery) known(word string) bool {
	return r.Blocks[word] != "" || slices.Contains(r.Texts, word) || slices.Contains(r.Others, word)
}

// parse is what HCL makes of the bytes lo to hi with some text after them; nil with errors.
func (r *recovery) parse(lo, hi int, after string) (*hclsyntax.Body, hcl.Diagnostics) {
	return r.parseText(string(r.Src[lo:hi])+after, lo)
}

// parseText is what HCL makes of a text that stands for the bytes from lo on; nil with errors.
func (r *recovery) parseText(text string, lo int) (*hclsyntax.Body, hcl.Diagnostics) {
	r.left -= len(text)
	piece := NewSource(r.Name, []byte(text))
	if r.bounds.Plain {
		piece.veil()
	}
	tokens, _ := hclsyntax.LexConfig(piece.masked, r.Name, hcl.InitialPos)
	if why, from, to := guardTokens(tokens, r.bounds); why != 0 {
		rng := r.Range(lo+from, min(lo+to, len(r.Src)))
		return nil, hcl.Diagnostics{{Severity: hcl.DiagError, Subject: &rng}}
	}
	if r.bounds.Plain {
		piece.mask(tokens)
	}
	file, diags := hclsyntax.ParseConfig(piece.masked, r.Name, hcl.Pos{Line: 1, Column: 1, Byte: lo})
	if diags.HasErrors() {
		return nil, diags
	}
	return file.Body.(*hclsyntax.Body), nil
}
