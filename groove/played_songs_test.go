package groove_test

import (
	"fmt"
	"strings"
	"testing"
)

// playedSongs are the songs of one golden, each with a title that says what is asked.
type playedSongs struct {
	name  string
	songs []string
}

// sketch is the text of a small song: what stands at its top, and its sections. It
// is played on the grid unless the top says how loosely.
func sketch(title, top string, body ...string) string {
	if !strings.Contains(top, "looseness") {
		top += "\nlooseness = 0"
	}
	return fmt.Sprintf("title = %q\n%s\n%s", title, strings.TrimSpace(top), strings.Join(body, ""))
}

// part is a section of a sketch. It closes without a fill unless a line says so.
func part(name string, energy int, chords string, lines ...string) string {
	if !strings.Contains(strings.Join(lines, "\n"), "fills =") {
		lines = append(lines, "fills = false")
	}
	return fmt.Sprintf("section %q {\n  energy = %d\n  chords = %q\n  %s\n}\n", name, energy, chords,
		strings.Join(lines, "\n  "))
}

// atEnergies is a form: the same section at some energies.
func atEnergies(name string, energies ...int) string {
	var plays []string
	for _, e := range energies {
		plays = append(plays, fmt.Sprintf("play %q { energy = %d }", name, e))
	}
	return form(plays...)
}

// steps is a form: sections in the order of play.
func steps(names ...string) string {
	var plays []string
	for _, n := range names {
		plays = append(plays, fmt.Sprintf("play %q {}", n))
	}
	return form(plays...)
}

// form is the form of a song, a play a line.
func form(plays ...string) string { return "form {\n  " + strings.Join(plays, "\n  ") + "\n}\n" }

// tacet is the line of a section that names who keeps out.
func tacet(players ...string) string { return `tacet = ["` + strings.Join(players, `", "`) + `"]` }

// at writes an event with its options, a line each.
func at(word, place string, options ...string) string {
	if len(options) == 0 {
		return fmt.Sprintf("%s %q {}", word, place)
	}
	return fmt.Sprintf("%s %q {\n    %s\n  }", word, place, strings.Join(options, "\n    "))
}

// by is the option that names the players of an event.
func by(players ...string) string {
	return `by = ["` + strings.Join(players, `", "`) + `"]`
}

// top is the top of a sketch: a feel, its tempo, and what else stands there.
func top(feel string, tempo int, lines ...string) string {
	return fmt.Sprintf("feel = %q\ntempo = %d\n%s\n", feel, tempo, strings.Join(lines, "\n"))
}

// The tops that the events are played under.
var (
	backbeat = top("backbeat-eighths", 108)
	ballad   = top("ballad-eighths", 68)
	swinging = top("swing", 144)
	twelve   = top("slow-twelve", 60, `meter = "12/8"`)
	sixEight = top("lilt", 72, `meter = "6/8"`)
)

// checkSongs holds the songs of a golden against it.
func checkSongs(t *testing.T, g playedSongs) {
	t.Helper()
	var all []string
	for _, src := range g.songs {
		all = append(all, playedSong(t, src))
	}
	checkPlayed(t, g.name, strings.Join(all, "\n"))
}
