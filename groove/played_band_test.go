package groove_test

import (
	"fmt"
	"testing"
)

// bandSongs are the goldens of what is no event: who keeps out, where there is no
// chord, how songs begin and end, looseness and takes, and what hands cannot do.
func bandSongs() []playedSongs {
	return []playedSongs{tacetSongs(), noChordSongs(), endingSongs(), beginSongs(), looseSongs(), takeSongs(),
		frameSongs(), limitSongs()}
}

// What the band plays where no event asks for anything.
func TestPlayedBand(t *testing.T) {
	for _, g := range bandSongs() {
		checkSongs(t, g)
	}
}

func tacetSongs() playedSongs {
	left := part("left", 1, "| Eb | Bb/D Cm7 | Ab Abm6 | Bb7 |", tacet("bass"))
	return playedSongs{"tacet", []string{
		sketch("Each player keeps out, and two of them", ballad,
			part("no drums", 3, "| C | G/B |", tacet("drums")), part("no bass", 3, "| C | G/B |", tacet("bass")),
			part("no piano", 3, "| C | G/B |", tacet("piano")),
			part("piano alone", 3, "| C | G/B |", tacet("drums", "bass")),
			part("bass alone", 3, "| C | G/B |", tacet("drums", "piano")),
			part("drums alone", 3, "| C | G/B |", tacet("bass", "piano"))),
		sketch("The left hand where the bass keeps out, at every energy", ballad+`key = "Eb major"`, left,
			atEnergies("left", 1, 2, 3, 4, 5)),
		sketch("The left hand in a waltz", top("waltz", 112, `meter = "3/4"`),
			part("waltz", 3, "| C | Am | Dm7 | G7 |", tacet("bass")), atEnergies("waltz", 2, 4)),
		sketch("The left hand in swing and in sixteenths", swinging,
			part("swing", 4, "| Dm7 | G7 | C6 | A7 |", tacet("bass")),
			part("tight", 4, "| C | F G7 |", tacet("bass"), `feel = "tight-sixteenths"`, "tempo = 88")),
	}}
}

func noChordSongs() playedSongs {
	return playedSongs{"no-chord", []string{
		sketch("Bars and half bars without a chord", backbeat, part("gaps", 3, "| C | N.C. | F N.C. | G7 |"),
			part("loud", 5, "| C N.C. | N.C. F |")),
		sketch("A section, a beginning and an end without a chord", backbeat, part("first", 3, "| N.C. | C |"),
			part("none", 4, "| N.C. | N.C. |"), part("last", 3, "| F | N.C. |")),
		sketch("No chord without a bassist, in twelve", twelve, part("slow", 3, "| C N.C. | F |", tacet("bass"))),
	}}
}

func endingSongs() playedSongs {
	g := playedSongs{"ending", nil}
	for e := 1; e <= 5; e++ {
		g.songs = append(g.songs, sketch(fmt.Sprintf("The song ends at energy %d", e), ballad,
			part("end", e, "| F G7 | C |")))
	}
	g.songs = append(g.songs,
		sketch("The song ends on two chords, without a ringing bar", ballad, part("end", 4, "| F | G7 C |")),
		sketch("The song ends on a chord that has gone on for three bars", backbeat, part("end", 3, "| C | % | % |")),
		sketch("The song ends with a fill written", backbeat, part("end", 4, "| G7 | C |", at("fill", "last: 3"))),
		sketch("The song ends in swing, without drums", swinging, part("end", 4, "| G7 | C6 |", tacet("drums"))),
		sketch("The song ends without a bassist", ballad, part("end", 5, "| G7 | C |", tacet("bass"))),
		sketch("The song ends in twelve", twelve, part("end", 4, "| F G7 | C |")))
	return g
}

func beginSongs() playedSongs {
	return playedSongs{"begin", []string{
		sketch("The song begins at energy 5", backbeat, part("loud", 5, "| C | F |")),
		sketch("The song begins at energy 2", ballad, part("soft", 2, "| C | F |")),
		sketch("Energy 5 after 3, 4 after 5, 2 after 4, 4 after 2", backbeat,
			part("three", 3, "| C | G7 |"), part("five", 5, "| C | G7 |"), part("four", 4, "| C | G7 |"),
			part("two", 2, "| C | G7 |"), steps("three", "five", "four", "two", "four")),
		sketch("Energy 4 comes in after a section without drums", ballad, part("in", 2, "| C |", tacet("drums")),
			part("all", 4, "| F | G7 |")),
		sketch("Energy 4 in twelve after 3", twelve, part("three", 3, "| C |", "fills = true"),
			part("four", 4, "| F | C |")),
	}}
}

func looseSongs() playedSongs {
	g := playedSongs{"looseness", nil}
	section := part("verse", 3, "| C | G/B Am7 | F Fm6 | Gsus4 G7 |")
	for _, loose := range []string{"0.4", "1"} {
		g.songs = append(g.songs,
			sketch("Looseness "+loose+" in a ballad", ballad+"looseness = "+loose, section),
			sketch("Looseness "+loose+" in swing", swinging+"looseness = "+loose,
				part("chorus", 4, "| Dm7 | G7 | C6 | A7 |")))
	}
	return g
}

func takeSongs() playedSongs {
	g := playedSongs{"take", nil}
	for take := 1; take <= 3; take++ {
		g.songs = append(g.songs,
			sketch(fmt.Sprintf("Take %d in swing", take), fmt.Sprintf("%stake = %d", swinging, take),
				part("walk", 4, "| Dm7 | G7 | C6 | A7 |", "fills = true"), part("on", 4, "| Dm7 |")),
			sketch(fmt.Sprintf("Take %d of a ballad, looseness 0.4", take),
				fmt.Sprintf("%stake = %d\nlooseness = 0.4", ballad, take),
				part("verse", 3, "| C | Am7 |", "fills = true"), part("on", 4, "| F |")))
	}
	return g
}

// frameSongs: what stands at the top of a song file and in its form.
func frameSongs() playedSongs {
	return playedSongs{"frame", []string{
		sketch("A bar of count-in and a pickup of two beats", backbeat+"count_in = 1\npickup = 2",
			part("verse", 3, "| C | F |")),
		sketch("A bar of two beats, one of three, one of six among bars of four", backbeat,
			part("odd", 3, "| C | (2/4) F | (3/4) G7 | (6/4) Am7 F | C |")),
		sketch("Energy that moves within a section", ballad, part("grow", 1, "| C | F | G7 | Am7 | F |"),
			form(`play "grow" { energy = [1, 5] }`)),
		sketch("Five strings, sticks and a hand that spans an octave",
			top("ballad-eighths", 68, `key = "D minor"`, "bass { strings = 5 }", `drums { kit = "sticks" }`,
				"piano { span = 12 }"),
			part("low", 4, "| Dm | C | Bbmaj7 | A7 |")),
		sketch("The verse again a half step up, and in another key, meter and feel", ballad,
			part("verse", 3, "| C | IV | V7/ii | ii |"),
			form(`play "verse" {}`, `play "verse" { lift = 1 }`,
				"play \"verse\" {", `key = "A major"`, `meter = "3/4"`, `feel = "waltz"`, "tempo = 108", "}")),
		sketch("Seven in two, two and three, then in three, two and two", top("seven", 132, `meter = "7/8"`),
			part("usual", 3, "| C | F / G7 |"), part("other", 4, "| (7/8 3+2+2) C / F | G7 |")),
	}}
}

// limitSongs ask for more than hands, feet and registers have.
func limitSongs() playedSongs {
	const loose = "\nlooseness = 1"
	return playedSongs{"limits", []string{
		sketch("Hits closer than hands repeat a stroke, and a chord under each", top("tight-sixteenths", 200)+loose,
			part("hits", 5, "| C / F G7 | C |", at("accent", "1: 1 1e 1& 1a 2 2e"), at("accent", "2: 3 3t 3& 3l 3a")),
			part("on", 5, "| C | C |", at("push", "1: 4a"), at("accent", "2: 1"))),
		sketch("Hits, a push and a fill over the border at a quick tempo", top("samba", 220)+loose,
			part("over", 5, "| C | G7 |", "fills = true", at("accent", "last: 4e 4& 4a")),
			part("pushed", 5, "| C | G7 |", at("accent", "last: 4& 4a"), at("push", "last: 4a")),
			part("end", 5, "| C | C |")),
		sketch("Rolling sixteenths far over the feel's tempo", top("second-line", 260)+loose,
			part("roll", 5, "| C | F |")),
		sketch("A small hand under C4 over the left hand", top("sustain", 80, "piano {", `highest = "C4"`, "span = 7",
			"}"),
			part("small", 5, hardChords[1].chords, tacet("bass")),
			part("wide", 4, hardChords[2].chords, tacet("bass"))),
		sketch("A small hand under C4 beside a bass", top("sustain", 80, "piano {", `highest = "C4"`, "span = 7",
			"}"),
			part("small", 5, hardChords[4].chords)),
		sketch("Swing far over its tempo and far under it", top("swing", 300), part("quick", 4, "| Dm7 | G7 |"),
			part("slow", 4, "| C6 | A7 |", "tempo = 50")),
	}}
}
