package main

import (
	"fmt"
	"math"
	"testing"

	"plinth/groove/feel"
	"plinth/groove/score"
	"plinth/songspec/timeline"
)

// testBar is a bar of 4/4 in ticks.
const testBar = 4 * quarter

// testSong is a song in C major over some charts, each a section that is played once at an
// energy. Its notes are taken away.
func testSong(t *testing.T, feel string, energies []int, charts ...string) *song {
	t.Helper()
	text := fmt.Sprintf("feel = %q\n", feel)
	form := "form {\n"
	for i, chart := range charts {
		text += fmt.Sprintf("section \"s%d\" {\n  chords = %q\n}\n", i, chart)
		form += fmt.Sprintf("  play \"s%d\" { energy = %d }\n", i, energies[i])
	}
	s, err := fromText("test", text+form+"}\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range append(s.flat[1:], s.written, s.again) {
		for _, x := range p.passes {
			x.notes = make([][]note, len(timeline.PlayerNames))
		}
	}
	return s
}

// testPass is the one pass of a song over a chart, with notes of a player made by hand.
func testPass(t *testing.T, who timeline.Player, chart string, notes ...note) *pass {
	t.Helper()
	p := testSong(t, "ballad-eighths", []int{3}, chart).written.passes[0]
	p.notes[who] = notes
	return p
}

// at is a note that is the figure's own.
func at(tick, length int64, key uint8, velocity float64) note {
	m := &score.Note{At: tick, Held: int32(length), Key: key, Voice: score.Right, Touch: feel.Normal, Cue: -1}
	return note{tick, tick + length, key, velocity, m}
}

// hit is a stroke of the kit.
func hit(tick int64, word string, touch feel.Touch, velocity float64) note {
	v, ok := feel.VoiceNamed(word)
	if !ok {
		panic("no voice " + word)
	}
	n := at(tick, 100, v.Key, velocity)
	n.meant.Voice, n.meant.Touch = score.Kit(v), touch
	return n
}

// chord is some notes at one place.
func chord(tick, length int64, keys ...uint8) (out []note) {
	for _, k := range keys {
		out = append(out, at(tick, length, k, 60))
	}
	return out
}

func expect(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) < 1e-9) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}
