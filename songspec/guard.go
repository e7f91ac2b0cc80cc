package songspec

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/hcltext"
)

// The bounds of a song file. Each is far more than a song needs, and the error message names
// it.
const (
	MaxFileBytes  = 256 << 10
	MaxChordBytes = 32 << 10
	MaxBars       = 10000
	MaxSections   = 64
	MaxEvents     = 64     // a section, and again a play
	MaxSpots      = 200000 // events of the whole song, every bar and count written out
	MinTempo      = 20
	MaxTempo      = 400
)

// bounds are the bounds of a song file as a text.
var bounds = hcltext.Bounds{Bytes: MaxFileBytes, Depth: 64, Unary: 16, Operators: 64, Tokens: 200000, Plain: true}

// guard checks a text before HCL's parser reads it. It returns at most one diagnostic, and then
// the file is not read any further; or runaway, of a text in it that runs on too far.
func guard(s *hcltext.Source) (diags, runaway hcl.Diagnostics) {
	rep, runs := hcltext.Report{Source: s}, hcltext.Report{Source: s}
	tokens, why, lo, hi := s.Guard(bounds)
	if summary, help := refusal(s, why, lo); why != 0 {
		rep.Errorf(s.Range(lo, hi), summary, "%s", help)
	} else if len(bytes.TrimSpace(bytes.TrimPrefix(s.Src, hcltext.ByteOrderMark))) == 0 {
		rep.Errorf(s.Range(0, 0), "The song file is empty",
			"Write at least one section, or let plinth new write a first song for you.")
	} else {
		guardTexts(s, tokens, &rep, &runs)
	}
	return rep.Diags, runs.Diags
}

// refusal says why a text is not read.
func refusal(s *hcltext.Source, why hcltext.Breach, at int) (summary, help string) {
	switch why {
	case hcltext.TooManyBytes:
		return "Song file too long", fmt.Sprintf("A song file has at most %d KiB; this one has %d KiB.",
			bounds.Bytes>>10, (len(s.Src)+1023)>>10)
	case hcltext.InUTF16:
		return "Not a UTF-8 text", "The file is saved as UTF-16. Save it as UTF-8 in the editor."
	case hcltext.NotUTF8:
		return "Not a UTF-8 text", "The character here is not UTF-8. Save the file as UTF-8 in the editor."
	case hcltext.HasNUL:
		return "Not a text file", "There is a NUL character here, as in a file that is not text."
	case hcltext.OldLineEnds:
		return "Old line ends", "The lines end with a carriage return alone. Save the file with Unix (LF) or " +
			"Windows (CRLF) line ends."
	case hcltext.HasControl:
		return "Control character in the text",
			fmt.Sprintf("There is a character U+%04X here that no editor shows. Delete it.", s.Src[at])
	case hcltext.TooManyTokens:
		return "Too many words in the song file", fmt.Sprintf("A song file has at most %d words and signs.",
			bounds.Tokens)
	case hcltext.TooDeep:
		return "Brackets too deep", fmt.Sprintf("Brackets may stand %d deep in one another; a song needs three. Is "+
			"one not closed?", bounds.Depth)
	case hcltext.TooManySigns:
		return "Too many signs in a row", fmt.Sprintf("At most %d signs may stand before a number.", bounds.Unary)
	case hcltext.TooLongASum:
		return "Too long a sum", fmt.Sprintf("At most %d signs of arithmetic may stand in one value.",
			bounds.Operators)
	}
	return "", ""
}

// guardTexts reports the first text of several lines that is too long, or runs on too far.
func guardTexts(s *hcltext.Source, tokens hclsyntax.Tokens, rep, runs *hcltext.Report) {
	from := -1
	for _, t := range tokens {
		switch t.Type {
		case hclsyntax.TokenOHeredoc:
			from = t.Range.End.Byte
		case hclsyntax.TokenCHeredoc, hclsyntax.TokenEOF:
			to := t.Range.Start.Byte
			if from >= 0 && t.Type == hclsyntax.TokenCHeredoc && runaway(s, from, to, runs) {
				return
			}
			if from >= 0 && to-from > MaxChordBytes {
				rep.Errorf(s.Range(from, from), "Chord text too long", "The text of one chart has at most %d KiB.",
					MaxChordBytes>>10)
				return
			}
			from = -1
		}
	}
}

// runaway reports a text of several lines that was meant to end earlier, as it has a line that
// opens or closes a block, or sets a value. The message points at the beginning of the text,
// as everything after it may be wrong.
func runaway(s *hcltext.Source, lo, hi int, rep *hcltext.Report) bool {
	head := s.LineOf(lo - 1)
	m := hcltext.HeredocHead().FindSubmatchIndex(s.LineText(head))
	if m == nil {
		return false
	}
	for n := s.LineOf(lo); n <= s.LineOf(hi-1); n++ {
		line := strings.TrimSpace(string(s.LineText(n)))
		if s.LineStart(n) < lo || isChartComment([]byte(line)) {
			continue
		}
		if hcltext.InNoText().MatchString(line) {
			from := s.LineStart(head)
			rep.Errorf(s.Range(from+m[0], from+m[1]), "A text is never closed",
				"The text that begins here runs on over line %d, which is no line of chords. Write %s on a line of "+
					"its own after the last chords.",
				n, s.LineText(head)[m[2]:m[3]])
			return true
		}
	}
	return false
}
