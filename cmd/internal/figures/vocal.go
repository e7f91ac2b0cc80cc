package main

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"

	"plinth/groove/load"
	"plinth/songspec/realsongs"
	"plinth/songspec/timeline"
)

// vocalFigures measures the comp under the voices of PLINTH_DATA/pop909-dev, at energies 2 to 5,
// each song in a feel that has its tempo.
func vocalFigures(t *table, data string) error {
	t.title("PIANO under a voice")
	if data == "" {
		t.say("left out", "PLINTH_DATA is not set")
		return nil
	}
	songs, err := realsongs.PopSongs(os.DirFS(data))
	if err != nil {
		return err
	}
	var rubbing, above ratio
	for _, song := range songs {
		text := guidedText(song)
		in := load.Read(song.ID, []byte(text), song.Files)
		if in.Timeline == nil {
			return fmt.Errorf("%s: %v", song.ID, in.Diags)
		}
		for energy := 2; energy <= 5; energy++ {
			for _, p := range perform(in.Timeline, in.Feels, 1, energy).passes {
				rubbing.add(rubs(p))
				above.add(overVoice(p))
			}
		}
	}
	t.add("attacks that rub against a held note", atMost(.023), rubbing.share())
	t.add("attacks above the voice", between(0, 0), above.share())
	return nil
}

// heldNote is how long a sung note is that counts as held.
const heldNote = quarter

// rubs counts the comp's attacks that have, while a held note is sung, a note a major seventh
// below it or a semitone beside it.
func rubs(p *pass) (r ratio) {
	for _, a := range attacksOf(p.comp()) {
		r.count(slices.ContainsFunc(a.notes, func(n note) bool {
			return slices.ContainsFunc(p.Sung, func(s timeline.SungNote) bool {
				under := int(s.Key) - int(n.key)
				return s.Length >= heldNote && s.Tick < n.end && s.Tick+s.Length > n.at &&
					(under == 11 || under == 1 || under == -1)
			})
		}))
	}
	return r
}

// overVoice counts the comp's attacks with a note above the one that is sung at that moment;
// those where nobody sings are left out.
func overVoice(p *pass) (r ratio) {
	for _, a := range attacksOf(p.comp()) {
		for _, s := range p.Sung {
			if s.Tick <= a.at && s.Tick+s.Length > a.at {
				r.count(a.top().key > s.Key)
				break
			}
		}
	}
	return r
}

// guidedText is the text of a song file with the chords of one of the data's songs, in sections
// of eight bars, and with its voice.
func guidedText(s *realsongs.PopSong) string {
	bpm, feel := int(math.Round(s.Tempo)), "pulse"
	switch {
	case s.Meter == "3/4":
		feel = "waltz"
	case s.Meter == "4/4" && bpm >= 86:
		feel = "backbeat-eighths"
	case s.Meter == "4/4":
		feel = "ballad-eighths"
	}
	key := "C major"
	if len(s.Keys) > 0 {
		key = s.Keys[0].Key
	}
	var b strings.Builder
	fmt.Fprintf(&b, "key = %q\nmeter = %q\ntempo = %d\nfeel = %q\nvocal \"guide.mid\" {}\n", key, s.Meter, bpm, feel)
	for i, bar := range s.Bars {
		if i%window == 0 {
			fmt.Fprintf(&b, "section \"s%d\" {\n  chords = <<-EOT\n", i/window)
		}
		fmt.Fprintf(&b, "    | %s |\n", barText(bar.Chords, int(s.Meter[0]-'0')))
		if i%window == window-1 || i == len(s.Bars)-1 {
			b.WriteString("  EOT\n}\n")
		}
	}
	return b.String()
}

// barText is a bar with a chord or a slash for each beat.
func barText(chords []realsongs.PopChord, beats int) string {
	out := make([]string, beats)
	for i := range out {
		out[i] = "/"
	}
	out[0] = "N.C."
	for _, c := range chords {
		at := int(math.Round(c.Beat - 1))
		if at < 0 || at >= beats {
			continue
		}
		out[at] = "N.C."
		if symbol, ok := c.Symbol(); ok {
			out[at] = symbol
		}
	}
	if !slices.ContainsFunc(out[1:], func(s string) bool { return s != "/" }) {
		return out[0]
	}
	return strings.Join(out, " ")
}
