package groove_test

import "testing"

// eventSongs are the goldens of the events, one for each word and one of events on
// top of each other.
func eventSongs() []playedSongs {
	return []playedSongs{
		accentSongs(), pushSongs(), stopSongs(), fillSongs(), holdSongs(), ritSongs(), accelSongs(), spaceSongs(),
		cueSongs(), caesuraSongs(), togetherSongs(),
	}
}

// What the band makes of every event.
func TestPlayedEvents(t *testing.T) {
	for _, g := range eventSongs() {
		checkSongs(t, g)
	}
}

func accentSongs() playedSongs {
	weights := part("hits", 3, "| C | F G7 | Am7 | F |",
		at("accent", "1: 2", "weight = 1"), at("accent", "2: 2&"), at("accent", "3: 4", "weight = 3"),
		at("accent", "4: 2& 3 3& 4"))
	return playedSongs{"accent", []string{
		sketch("Accents of weight 1, 2, 3 and four running, at energies 2, 4 and 5", backbeat, weights,
			atEnergies("hits", 2, 4, 5)),
		sketch("Accents by one player, by two, and together at different weights", backbeat,
			part("drums", 3, "| C | G/B |", at("accent", "1: 2&", by("drums")),
				at("accent", "2: 3", by("drums"), "weight = 3")),
			part("bass", 3, "| C | G/B |", at("accent", "1: 2&", by("bass")),
				at("accent", "2: 3", by("bass"), "weight = 3")),
			part("piano", 3, "| C | G/B |", at("accent", "1: 2&", by("piano")),
				at("accent", "2: 3", by("piano"), "weight = 3")),
			part("two", 3, "| C | G/B |", at("accent", "2 4", by("drums", "piano")))),
		sketch("Bars in which nothing is played but the written hits", backbeat,
			part("all", 4, "| C | F | G7 | C |", at("accent", "2: 1 2& 4", "alone = true"),
				at("accent", "3: 3", "alone = true", "weight = 3")),
			part("drums", 3, "| C | F | C |", at("accent", "2: 1 2& 4", "alone = true", by("drums"))),
			part("comp", 3, "| C | F | C |", at("accent", "2: 2 4", "alone = true", by("bass", "piano"))),
			part("low", 1, "| C | F |", at("accent", "last: 1 2&", "alone = true"))),
		sketch("Hits that are cut off dry, one on a push, and by one player", backbeat,
			part("dry", 4, "| C | F | G7 | C |", at("accent", "1: 1 2& 4", "short = true"),
				at("push", "2: 4&"), at("accent", "2: 4&", "short = true", "weight = 3"),
				at("accent", "4: 1", "short = true", "alone = true")),
			part("comp", 2, "| C | F |", at("accent", "1: 3", "short = true", by("piano")))),
		sketch("Accents on the swung half beat", swinging,
			part("swung", 3, "| C6 | A7 | Dm7 | G7 |", at("accent", "1-2: 2& 4"),
				at("accent", "3: 1 2l", "weight = 3"), at("accent", "4: 4&"))),
		sketch("Accents in twelve: on the beats, on the eighths, between them", twelve,
			part("slow", 3, "| C | F G7 | C |", at("accent", "1: 4 10"), at("accent", "2: 6 12", "weight = 3"),
				at("accent", "3: 8& 9", by("drums", "piano")))),
		sketch("The song ends on written hits", backbeat,
			part("end", 5, "| F G7 | C |", at("accent", "last: 1 2&", "weight = 3"))),
	}}
}

func pushSongs() playedSongs {
	inside := part("inside", 3, "| C F | G7 | G7 | Am7 F |", at("push", "1: 2&"), at("push", "1: 4&"),
		at("push", "2: 4"), at("push", "4: 2"))
	return playedSongs{"push", []string{
		sketch("Pushes inside a section, one of them of a chord that goes on", backbeat, inside,
			atEnergies("inside", 2, 3, 5)),
		sketch("Pushes over the border, by everybody, by one player, by two", backbeat,
			part("all", 3, "| C | G7 |", at("push", "last: 4&")),
			part("drums", 3, "| C | G7 |", at("push", "last: 4&", by("drums"))),
			part("bass", 4, "| F | G7 |", at("push", "last: 4&", by("bass"))),
			part("piano", 3, "| C | G7 |", at("push", "last: 4", by("piano"))),
			part("two", 2, "| F | G7 |", at("push", "last: 4&", by("bass", "piano"))),
			part("loud", 5, "| C | C |")),
		sketch("Two pushes over one border", backbeat,
			part("both", 3, "| C | G7 |", at("push", "last: 4 4&")),
			part("apart", 4, "| F | G7 |", at("push", "last: 4", by("bass")),
				at("push", "last: 4&", by("drums", "piano"))),
			part("last", 3, "| C | C |")),
		sketch("Pushes into silence: N.C. in the section, N.C. over the border", backbeat,
			part("into", 3, "| C | N.C. | F | G7 |", at("push", "1: 4&"), at("push", "2: 4&"),
				at("push", "last: 4&")),
			part("nothing", 3, "| N.C. | C |", at("push", "1: 4&"))),
		sketch("A push into a chorus a half step up", backbeat,
			part("verse", 3, "| C | V7 |", at("push", "last: 4&")),
			part("chorus", 4, "| C Am7 | IV I |", at("push", "1: 2&")),
			form(`play "verse" {}`, `play "chorus" { lift = 1 }`)),
		sketch("Pushes of swung and of straight counts in swing", swinging,
			part("swung", 3, "| Dm7 | G7 | C6 | A7 |", at("push", "1: 4&"), at("push", "2: 4l"), at("push", "3: 4"))),
		sketch("Pushes in six", sixEight,
			part("six", 3, "| C | F G7 | Am | G |", at("push", "1: 6"), at("push", "2: 3"), at("push", "3: 5"),
				at("push", "last: 6")),
			part("on", 4, "| C | C |")),
	}}
}

func stopSongs() playedSongs {
	return playedSongs{"stop", []string{
		sketch("Stops to the bar's end, of beats, over a bar line, at once", backbeat,
			part("stops", 3, "| C | F | G7 | Am7 | F |", at("stop", "1: 3"), at("stop", "2: 2", "beats = 1"),
				at("stop", "3: 4", "beats = 2"), at("stop", "5: 1")),
			part("halves", 5, "| C | F G7 |", at("stop", "1: 2&", "beats = 0.5"), at("stop", "2: 4&"))),
		sketch("A stop with a click going on", backbeat+"count_in = 1",
			part("stop", 4, "| C | G7 |", at("stop", "last: 2"))),
		sketch("Stopped after beat one of the last bar at energy 5: the last hit", backbeat,
			part("end", 5, "| F G7 | C |", at("stop", "last: 1&"))),
		sketch("The same at energy 4 and from the second beat", backbeat,
			part("end", 4, "| F G7 | C |", at("stop", "last: 2"))),
		sketch("The same at energy 3: no hit is made of it", backbeat,
			part("end", 3, "| F G7 | C |", at("stop", "last: 2"))),
		sketch("Stops of some while the others go on, also at the end", backbeat,
			part("some", 4, "| C | F G7 | C |", at("stop", "1: 3", by("bass", "piano")),
				at("stop", "2: 1&", by("drums"), "beats = 2"), at("stop", "3: 2", by("piano"))),
			part("end", 3, "| F G7 | C |", at("stop", "last: 2", by("drums", "bass")))),
		sketch("Stops in twelve", twelve,
			part("slow", 4, "| C | F G7 | C |", at("stop", "1: 7"), at("stop", "2: 4", "beats = 1"),
				at("stop", "3: 2"))),
	}}
}

func holdSongs() playedSongs {
	held := part("held", 3, "| C | F G7 | Am7 | F |", at("hold", "1: 3"), at("hold", "2: 3", "beats = 2"),
		at("hold", "4: 1", "beats = 3"))
	return playedSongs{"hold", []string{
		sketch("Held beats: in a bar, on a change, at the end", ballad, held, atEnergies("held", 2, 4)),
		sketch("A held beat where there is no chord, and on the section's last beat", ballad,
			part("none", 3, "| C | N.C. |", at("hold", "2: 1")),
			part("last", 5, "| F | G7 |", at("hold", "last: 4", "beats = 0.5")), part("end", 5, "| C | C |")),
		sketch("Held beats in twelve", twelve,
			part("slow", 3, "| C | F G7 | C |", at("hold", "1: 10"), at("hold", "2: 7", "beats = 2"))),
	}}
}

func ritSongs() playedSongs {
	return playedSongs{"rit", []string{
		sketch("The tempo moves down, then up, and back with the next section", ballad,
			part("down", 3, "| C | F | G7 |", at("rit", "2-3", "to = 52")),
			part("up", 4, "| Am | F | G7 |", at("rit", "2-3", "to = 84")),
			part("end", 2, "| C | Fm | C |", at("rit", "2-3", "to = 50"))),
		sketch("The tempo moves in six, with a fill at the end of it", sixEight,
			part("six", 3, "| C | F | G7 |", at("rit", "2-3", "to = 60"), "fills = true"),
			part("on", 4, "| C | C |")),
		sketch("The tempo moves in swing", swinging, part("slower", 4, "| Dm7 | G7 | C6 |",
			at("rit", "1-2", "to = 112"))),
	}}
}

func accelSongs() playedSongs {
	return playedSongs{"accel", []string{
		sketch("The tempo moves from count to count, down and up again", ballad,
			part("both", 3, "| C | F | G7 |", at("rit", "1: 3 - 2: 2", "to = 52"),
				at("accel", "2: 4& - 3: 4", "to = 84")),
			part("on", 4, "| C | C |")),
		sketch("The tempo quickens in six over two bars", sixEight,
			part("six", 3, "| C | F | G7 |", at("accel", "2-3", "to = 90")), part("on", 4, "| C | C |")),
	}}
}

func cueSongs() playedSongs {
	return playedSongs{"cue", []string{
		sketch("Cues, of which the band knows nothing", ballad,
			part("show", 3, "| C | F |", at("cue", "1: 1", `text = "lights"`),
				at("cue", "last: 4&", `text = "curtain"`))),
	}}
}

func caesuraSongs() playedSongs {
	return playedSongs{"caesura", []string{
		sketch("Caesuras in a bar, after an off-beat, after a hold, at the section's end with a click going on",
			ballad+"count_in = 1",
			part("cut", 3, "| C | F G7 | Am7 | F |", at("caesura", "1: 2"), at("caesura", "2: 3&", "beats = 0.5"),
				at("hold", "3: 4", "beats = 2"), at("caesura", "3: 4", "beats = 1.5"),
				at("caesura", "4: 4", "beats = 2")),
			part("on", 4, "| C | C |", at("push", "1: 4&"), at("caesura", "1: 4"))),
		sketch("A caesura in twelve, and one that cuts off the song's last chord", twelve,
			part("slow", 4, "| C | F G7 | C |", at("caesura", "1: 6"), at("caesura", "last: 12"))),
	}}
}

func spaceSongs() playedSongs {
	rests := part("rests", 3, "| C | F | G7 | Am7 | F | G7 | C | C |", at("space", "1: 3"), at("space", "4: 3"),
		at("space", "5: 2", "beats = 2"), at("space", "6: 1", "beats = 4"))
	return playedSongs{"space", []string{
		sketch("The singer's rests: no answer at energy 2, one in four bars at 3 and 5", backbeat, rests,
			atEnergies("rests", 2, 3, 5)),
		sketch("Rests without a bassist", ballad, part("alone", 4, "| C | F | G7 |", at("space", "1: 3"),
			tacet("bass"))),
		sketch("Rests in twelve", twelve, part("slow", 3, "| C | F | G7 |", at("space", "1: 7"),
			at("space", "2: 4"))),
	}}
}
