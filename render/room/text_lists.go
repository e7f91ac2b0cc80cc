package room

import (
	"bytes"
	"fmt"
	"strings"

	"plinth/songspec/guide"
)

// textWindows writes the windows with their chords, and their sum by pass.
func (r *Report) textWindows(b *bytes.Buffer) {
	b.WriteString("\nWINDOWS  the voice is silent for a beat or more\n")
	if len(r.Windows) == 0 {
		b.WriteString("  none\n")
	}
	for _, w := range r.Windows {
		fmt.Fprintf(b, "  %-17s to %-17s %10s %6s  %s\n", w.From, r.windowEnd(w), beatWords(w.Beats),
			durationWords(w.Micros),
			r.windowName(w))
		if chords := r.chordsOver(w); w.Beats >= 2000 && len(chords) > 0 {
			wrap(b, "over "+strings.Join(chords, ", "), "      ", "           ")
		}
	}
	if len(r.Windows) > 1 {
		b.WriteString("  by pass\n")
		for i := range r.Passes {
			s := &r.Passes[i]
			sum, micros := int64(0), int64(0)
			for _, w := range s.Windows {
				sum, micros = sum+w.Beats, micros+w.Micros
			}
			if sum > 0 {
				fmt.Fprintf(b, "    %-*s %d, %s in all, %s\n", 20, s.Name, len(s.Windows), beatWords(sum),
					durationWords(micros))
			}
		}
	}
}

// windowEnd says where a window ends: "bar 9 count 1", or "the end" of the song.
func (r *Report) windowEnd(w guide.Window) string {
	if w.End >= r.tl.End {
		return "the end"
	}
	return w.To.String()
}

// showsHeld reports whether pass i has a line of its own among the held tones. A later
// pass of a section has one only when it differs from the first, for example after a lift.
func (r *Report) showsHeld(i int) bool {
	s := &r.Passes[i]
	f := &r.Passes[r.firstPass(i)]
	if len(s.Held) == 0 || s == f {
		return len(s.Held) > 0
	}
	if len(s.Held) != len(f.Held) {
		return true
	}
	for k := range s.Held {
		a, b := &s.Held[k], &f.Held[k]
		if a.FirstBar-s.FirstBar != b.FirstBar-f.FirstBar || a.LastBar-a.FirstBar != b.LastBar-b.FirstBar ||
			len(a.Tones) != len(b.Tones) {
			return true
		}
		for n := range a.Tones {
			if a.Tones[n].Name != b.Tones[n].Name || (a.Tones[n].Against == "") != (b.Tones[n].Against == "") {
				return true
			}
		}
	}
	return false
}

// textHeld writes the tones that can be held, by pass.
func (r *Report) textHeld(b *bytes.Buffer) {
	width, head := r.nameWidth(), false
	for i := range r.Passes {
		if !r.showsHeld(i) {
			continue
		}
		if !head {
			b.WriteString("\nHELD TONES  what fits every chord from bar to bar, for a pad\n")
			head = true
		}
		wrap(b, fmt.Sprintf("%-*s  %s", width, r.Passes[i].Name, heldLine(r.Passes[i].Held)), "  ",
			strings.Repeat(" ", width+4))
	}
}

// textHits writes the hits, by pass and kind.
func (r *Report) textHits(b *bytes.Buffer) {
	if len(r.Song.Hits) == 0 {
		return
	}
	b.WriteString("\nHITS\n")
	width := r.nameWidth()
	for i := range r.Passes {
		s := &r.Passes[i]
		for _, k := range hitKinds {
			if l := hitLine(s.Hits, k.kind, s.Plays); l != "" {
				wrap(b, fmt.Sprintf("%-*s  %-6s  %s", width, s.Name, k.kind, l), "  ", strings.Repeat(" ", width+12))
			}
		}
	}
}
