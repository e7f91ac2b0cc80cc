package groove_test

import "testing"

// bassSongs put the bass line to the test, without a piano beside it.
func bassSongs() playedSongs {
	quiet := tacet("piano")
	const (
		changes = "| Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7b9 | Gm6 | Gm6/F |"
		waltz   = "| Dm7 | G7 | Cmaj7 | A7 | Dm7 | Fm6 | C/E | G7 |"
	)
	walking := part("walk", 3, changes, quiet)
	inThree := part("walk", 3, waltz, quiet)
	repeated := part("one", 3, "| C | C |", quiet)
	return playedSongs{"basses", []string{
		sketch("A walking bass in swing", top("swing", 132, `key = "Bb major"`), walking,
			atEnergies("walk", 3, 4, 5)),
		sketch("A walking bass on five strings at a quick tempo, in minor",
			top("swing", 184, `key = "G minor"`, "bass { strings = 5 }"), walking, atEnergies("walk", 4)),
		sketch("A walking bass in a jazz waltz", top("jazz-waltz", 138, `meter = "3/4"`), inThree,
			atEnergies("walk", 3, 5)),
		sketch("A walking bass over brushes", top("brushes-ballad", 60), walking, atEnergies("walk", 4)),
		sketch("A walking bass on one chord and over a pedal", top("swing", 132),
			part("one", 4, "| C6 | C6 | F/C | C6 |", quiet), part("pedal", 4, "| G7sus4 | F/G | Dm/G | G7 |", quiet)),
		sketch("One note in short values: sixteenths", top("tight-sixteenths", 84), repeated,
			atEnergies("one", 3, 5)),
		sketch("One note in short values: a slow ballad in sixteenths", top("ballad-sixteenths", 56), repeated,
			atEnergies("one", 3, 4)),
		sketch("One note in short values: quick eighths", top("backbeat-eighths", 138), repeated,
			atEnergies("one", 4, 5)),
		sketch("One note in short values: a shuffle, and a samba", top("shuffle", 112), repeated,
			part("samba", 5, "| C | C |", quiet, `feel = "samba"`)),
		sketch("The next chord by step: up, down, a half step, a slash bass, the same bass", backbeat,
			part("steps", 3, "| C Dm7 | C Bb | B7 C | C/E F | F/C C | Am E7 | Am Abm6 | G7 |", quiet),
			atEnergies("steps", 2, 3, 5)),
		sketch("The breath at a section's end, at energies 2, 3 and 4", top("half-time", 120),
			part("long", 2, "| C | F |", quiet, `feel = "sustain"`), part("last", 2, "| F | C |", quiet),
			form(`play "long" {}`, `play "long" { energy = 3 }`, `play "long" { energy = 4 }`, `play "last" {}`)),
		sketch("The bass is held to the kick", top("one-drop", 150), part("drop", 4, "| C | C |", quiet),
			part("on", 5, "| F | F |", quiet)),
		sketch("The bass is held to the kick of a hit", top("march", 113, `meter = "2/4"`),
			part("march", 3, "| Am7 | C |", quiet, at("accent", "1: 1&", by("drums"))),
			part("on", 4, "| F | F |", quiet)),
		sketch("The bass is held to the kick under a fill", top("tight-sixteenths", 106),
			part("tight", 3, "| Dm7 | C |", quiet, at("fill", "1: 1")), part("on", 5, "| F | F |", quiet)),
	}}
}

// What the bassist plays.
func TestPlayedBasses(t *testing.T) { checkSongs(t, bassSongs()) }
