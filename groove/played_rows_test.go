package groove_test

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// write writes the bar's head and its rows. A player who never plays has no room.
func (b *playedBar) write(out *strings.Builder, tl *timeline.Timeline, perf *groove.Performance) {
	out.WriteString(b.head)
	if b.clicks > 0 {
		fmt.Fprintf(out, "; %d clicks", b.clicks)
	}
	out.WriteString("\n")
	var key harmony.Key
	if b.pass >= 0 {
		key = tl.Passes[b.pass].Key
	}
	wide := [len(timeline.PlayerNames)]int{timeline.Drums: 34, timeline.Bass: 12}
	for who := range wide {
		if len(perf.Parts[who]) == 0 {
			wide[who] = 0
		}
	}
	places := make([]int64, 0, len(b.rows))
	for at := range b.rows {
		places = append(places, at)
	}
	slices.Sort(places)
	for _, at := range places {
		row := b.rows[at]
		count := b.meter.CountAt(at)
		if row.tempo != "" {
			fmt.Fprintf(out, "%-8s %s\n", count, row.tempo)
		}
		if all, same := row.together(); same {
			count += signed(all)
			row.forget()
		}
		drums, bass, piano := row.drums(perf.Sounds[timeline.Drums][0].Kit), pitched(row.notes[timeline.Bass], key),
			pitched(row.notes[timeline.Piano], key)
		if drums+bass+piano == "" {
			continue
		}
		line := fmt.Sprintf("%-8s %-*s | %-*s | %s", count, wide[timeline.Drums], drums, wide[timeline.Bass], bass,
			piano)
		out.WriteString(strings.TrimRight(line, " |") + "\n")
	}
}

// together reports whether all notes of a row are equally far from its place.
func (r *playedRow) together() (off int64, same bool) {
	for _, notes := range r.notes {
		for _, n := range notes {
			if same && n.off != off {
				return 0, false
			}
			off, same = n.off, true
		}
	}
	return off, same
}

func (r *playedRow) forget() {
	for who := range r.notes {
		for i := range r.notes[who] {
			r.notes[who][i].off = 0
		}
	}
}

// signed is " +91", nothing for 0.
func signed(off int64) string {
	if off == 0 {
		return ""
	}
	return fmt.Sprintf(" %+d", off)
}

// drums are the strokes of a row, from the top of the kit down.
func (r *playedRow) drums(kit string) string {
	type stroke struct {
		playedNote
		order int
		word  string
	}
	var strokes []stroke
	equal := len(r.notes[timeline.Drums]) > 1 // all are equally long
	for _, n := range r.notes[timeline.Drums] {
		order, word := voiceOf(n.Key, kit)
		strokes = append(strokes, stroke{n, order, word})
		equal = equal && n.Length == strokes[0].Length
	}
	sort.SliceStable(strokes, func(i, j int) bool { return strokes[i].order < strokes[j].order })
	var out []string
	for _, s := range strokes {
		text := fmt.Sprintf("%s %d", s.word, s.Velocity)
		if !equal && s.Length != strokeTicks {
			text += fmt.Sprintf(" ~%d", s.Length)
		}
		out = append(out, text+signed(s.off))
	}
	if equal && strokes[0].Length != strokeTicks {
		out = append(out, fmt.Sprintf("all ~%d", strokes[0].Length))
	}
	return strings.Join(out, ", ")
}

// voiceOf is the voice of a key, by its place from the top of the kit, and its word.
// Some keys are two voices; the kit says which is meant.
func voiceOf(key uint8, kit string) (order int, word string) {
	order, word = -1, fmt.Sprintf("key %d", key)
	for i, v := range feel.Voices() {
		if v.Key == key && (order < 0 || v.Brush() == (kit == "brushes")) {
			order, word = i, v.Word
		}
	}
	return order, word
}

// pitched are notes of the bass or the piano, from below. What a note has in common
// with the next one is said there.
func pitched(notes []playedNote, key harmony.Key) string {
	notes = slices.Clone(notes)
	sort.SliceStable(notes, func(i, j int) bool { return notes[i].Key < notes[j].Key })
	var out []string
	for i, n := range notes {
		text := guide.PitchName(int(n.Key), key)
		last := i+1 == len(notes)
		held := last || notes[i+1].Length != n.Length || notes[i+1].off != n.off
		if held || notes[i+1].Velocity != n.Velocity {
			text += fmt.Sprintf(" %d", n.Velocity)
		}
		if held {
			text += fmt.Sprintf(" ~%d%s", n.Length, signed(n.off))
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}
