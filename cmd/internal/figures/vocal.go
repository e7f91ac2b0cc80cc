package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"plinth/groove/load"
	"plinth/songspec/meter"
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
	// Both the data's folder and the one that it lies in are taken.
	if filepath.Base(data) != "pop909-dev" {
		data = filepath.Join(data, "pop909-dev")
	}
	files, err := filepath.Glob(filepath.Join(data, "*", "truth.json"))
	if err != nil || len(files) == 0 {
		return fmt.Errorf("no songs in %s (%v)", data, err)
	}
	var rubbing, above ratio
	for _, file := range files {
		text, err := guidedText(file)
		if err != nil {
			return err
		}
		in := load.Read(file, []byte(text), os.DirFS(filepath.Dir(file)))
		if in.Timeline == nil {
			return fmt.Errorf("%s: %v", file, in.Diags)
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

// popSong is what is read of a song of the data: its chords by bar.
type popSong struct {
	Meter string  `json:"meter"`
	Tempo float64 `json:"tempo_bpm"`
	Keys  []struct {
		Key string `json:"key"`
	} `json:"keys"`
	Bars []struct {
		Chords []popChord `json:"chords"`
	} `json:"bars"`
}

type popChord struct {
	Beat    float64 `json:"beat"`
	Beats   float64 `json:"beats"`
	Root    string  `json:"root"`
	Quality string  `json:"quality"`
	Bass    string  `json:"bass"`
}

// popQualities are the data's words for chord qualities as symbols.
var popQualities = map[string]string{"maj": "", "min": "m", "7": "7", "maj7": "maj7", "min7": "m7", "sus2": "sus2",
	"sus4": "sus4", "dim": "dim", "dim7": "dim7", "hdim7": "m7b5", "aug": "aug", "minmaj7": "m(maj7)", "maj6": "6",
	"min6": "m6"}

// guidedText is the text of a song file with the chords of one of the data's songs, in sections
// of eight bars, and with its voice.
func guidedText(file string) (string, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	var s popSong
	if err := json.Unmarshal(data, &s); err != nil {
		return "", fmt.Errorf("%s: %w", file, err)
	}
	m, err := meter.Parse(s.Meter)
	if err != nil {
		return "", fmt.Errorf("%s: %w", file, err)
	}
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
		fmt.Fprintf(&b, "    | %s |\n", barText(bar.Chords, m.Num))
		if i%window == window-1 || i == len(s.Bars)-1 {
			b.WriteString("  EOT\n}\n")
		}
	}
	return b.String(), nil
}

// barText is a bar with a chord or a slash for each beat.
func barText(chords []popChord, beats int) string {
	out := make([]string, beats)
	for i := range out {
		out[i] = "/"
	}
	out[0] = "N.C."
	for _, c := range chords {
		at := int(math.Round(c.Beat - 1))
		suffix, known := popQualities[c.Quality]
		if at < 0 || at >= beats {
			continue
		}
		out[at] = "N.C."
		if known && c.Root != "" && c.Root != "N" {
			out[at] = c.Root + suffix
			if c.Bass != "" && c.Bass != c.Root {
				out[at] += "/" + c.Bass
			}
		}
	}
	if !slices.ContainsFunc(out[1:], func(s string) bool { return s != "/" }) {
		return out[0]
	}
	return strings.Join(out, " ")
}
