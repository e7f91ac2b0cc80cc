package groove_test

import "testing"

// usual is a top that says nothing: a ballad in eighths at 96, as a song file that names
// no feel has it.
const usual = ""

// ruleSongs are small songs, a rule each, that stand on both sides of the rule: where it
// just holds and where it just does not.
func ruleSongs() playedSongs {
	g := playedSongs{name: "rules"}
	for _, songs := range [][]string{lastBarRules(), fillRules(), pushRules(), pushAccentRules(), handRules()} {
		g.songs = append(g.songs, songs...)
	}
	return g
}

// What the band makes of events that just meet, and of those that just miss each other.
func TestPlayedRules(t *testing.T) { checkSongs(t, ruleSongs()) }

// lastBarRules: whether the song comes to rest, stops dead after a last hit, or goes on
// to its last bar line.
func lastBarRules() []string {
	end := func(title string, energy int, chords string, events ...string) string {
		return sketch(title, usual, part("end", energy, chords, events...))
	}
	return []string{
		end("A stop over the last bar line cuts into the last bar: it does not ring", 2, "| G | C |",
			at("stop", "1: 4", "beats = 2")),
		end("A song of one bar is played and does not ring", 2, "| C |"),
		end("A stop up to the last bar line leaves the last bar to ring", 2, "| G | C |", at("stop", "1: 4")),
		end("A hit in the last bar keeps it from ringing", 2, "| G | C |", at("accent", "2: 3")),
		end("A song of one bar has no last hit before its stop", 4, "| C |", at("stop", "1: 2")),
		end("A last hit after a stop that ends at the bar line", 4, "| G | C |", at("stop", "1: 4"),
			at("stop", "2: 2")),
		end("A stop of one beat in the last bar makes no last hit: the band comes in again", 4, "| G | C |",
			at("stop", "2: 2", "beats = 1")),
		end("A fill on the last downbeat keeps it from being a last hit", 4, "| G | C |", at("fill", "2: 1"),
			at("stop", "2: 2")),
		sketch("The energy of the last bar decides about its last hit", usual,
			part("end", 2, "| G | C |", at("stop", "2: 2")), form(`play "end" { energy = [2, 4] }`)),
		end("A push that has nothing to bring lets the last bar ring", 2, "| G | C |", at("push", "2: 4&")),
		end("A stop on the last downbeat leaves no last hit", 4, "| G | C |", at("stop", "2: 1", "beats = 0.5"),
			at("stop", "2: 2")),
		end("A short stop inside a longer one does not end it", 2, "| C | G |", at("stop", "1: 2"),
			at("stop", "1: 3", "beats = 0.5")),
		sketch("The last hit with brushes: the sweep goes on to the stop", top("brushes-ballad", 66),
			part("end", 4, "| G | C |", at("stop", "2: 2"))),
		sketch("The bass holds the last hit to the stop, though its figure is short",
			top("march", 112, `meter = "2/4"`), part("end", 4, "| G | C |", at("stop", "2: 2"))),
		end("A last chord that is pushed is no last hit", 4, "| G | C |", at("push", "1: 4&"), at("stop", "2: 2")),
	}
}

// fillRules: where a fill closes a section, which it is, and how loud.
func fillRules() []string {
	const closed = "fills = true"
	next := func(energy int) string { return part("next", energy, "| F |") }
	return []string{
		sketch("A stop up to the last beat leaves room for the closing fill", usual,
			part("first", 2, "| C | G |", closed, at("stop", "2: 3", "beats = 1")), next(2)),
		sketch("A held third beat leaves room for the closing fill", usual,
			part("first", 2, "| C | G |", closed, at("hold", "2: 3")), next(2)),
		sketch("One step down into a full band: a fill of a beat", usual,
			part("first", 4, "| C | G |", closed), next(3)),
		sketch("Two steps down: no fill", usual, part("first", 4, "| C | G |", closed), next(2)),
		sketch("A fill is cut short by a stop, and measured from the bar line", usual,
			part("first", 2, "| C | G | C |", at("fill", "2: 3"), at("stop", "2: 4"))),
		sketch("Two fills are written in the last bar: the first closes the section, the second stands inside it",
			usual, part("first", 2, "| C | G |", closed, at("fill", "2: 1 3")), next(5)),
		sketch("A fill inside a section that grows has the energy of its bar", usual,
			part("grow", 1, "| C | F | G | C |", at("fill", "2: 3")), form(`play "grow" { energy = [1, 5] }`)),
		sketch("A section that has grown to 5 steps down to 2 without a fill", usual,
			part("grow", 1, "| C | F | G | C |", closed), next(2),
			form(`play "grow" { energy = [1, 5] }`, `play "next" {}`)),
		sketch("A fill in a bar of written hits is none: the next one is the first", usual,
			part("hits", 2, "| C | G | C |", at("accent", "1: 1 3", "alone = true"), at("fill", "1-2: 4"))),
		sketch("Two fills that overlap: where both strike, the harder stroke counts", top("swing", 144),
			part("a", 4, "| C | G |", tacet("bass", "piano"), at("fill", "1: 2 2&"))),
		sketch("A fill in a bar of six and in one of twelve among bars of four", usual,
			part("odd", 3, "| C | (6/8) G | (12/8) C | C |", tacet("bass", "piano"), at("fill", "2: 4"),
				at("fill", "3: 7"))),
		sketch("A bar of eleven eighths among bars of seven goes on with the last group",
			top("seven", 132, `meter = "7/8"`), part("odd", 2, "| C | (11/8) G | C |")),
		sketch("A fill from the second beat in six", usual+`meter = "6/8"`,
			part("six", 2, "| C | G | C |", at("fill", "2: 4"))),
		sketch("Six fills inside a section: no two neighbours alike", top("backbeat-eighths", 96),
			part("six", 3, "| C | C | C | C | C | C | C | C |", tacet("bass", "piano"), at("fill", "1-6: 3"))),
	}
}

// pushRules: which chord a push brings, and to whom.
func pushRules() []string {
	alone := func(who string) string {
		return part(who, 2, "| C | G |", at("push", "4&", by(who)))
	}
	return []string{
		sketch("A push on 2 of a chord that began there: it goes on", usual,
			part("first", 2, "| C F / / | C |", at("push", "1: 2"))),
		sketch("The same before another chord", usual,
			part("first", 2, "| C F / / | G | C |", at("push", "1: 2"))),
		sketch("Two pushes to one beat: the first counts", usual,
			part("first", 2, "| C | F | C |", at("push", "1: 4 4&"))),
		sketch("A walking bass does not lead into a chord that the next section's push brings", top("swing", 144),
			part("walk", 3, "| C | G |", at("push", "2: 4&")), part("next", 3, "| F |")),
		sketch("The drummer alone pushes into a louder section, over a change of chord: a crash", usual,
			part("first", 2, "| C | F / / G |", at("push", "2: 4", by("drums"))), part("next", 4, "| F |")),
		sketch("The hi-hat does not open under the crash of a push", top("one-drop", 72),
			part("drop", 4, "| C | F |", at("push", "1: 4&"))),
		sketch("The kick of a push out of a section has no part in where the bass is held",
			top("tight-sixteenths", 96), part("first", 1, "| C | G |", at("push", "2: 4")), part("next", 1, "| F |")),
		sketch("A push out of a section leaves the left hand its fifth in the middle of the bar", sixEight,
			part("first", 3, "| C | G |", tacet("bass"), at("push", "2: 6")), part("next", 3, "| F |")),
		sketch("A push by one player, inside and over the border", usual,
			alone("bass"), alone("piano"), alone("drums"), part("end", 2, "| F |")),
	}
}

// pushAccentRules: where an accent is struck that a push crosses.
func pushAccentRules() []string {
	return []string{
		sketch("An accent after the push over the border moves to it", usual,
			part("first", 2, "| C | G |", at("push", "2: 4"), at("accent", "2: 4&")), part("next", 2, "| F | C |")),
		sketch("Accents of weight 1 on the push and of 3 on its beat, over the border: the heavier counts", usual,
			part("first", 2, "| C | G |", at("push", "2: 4&"), at("accent", "2: 4&", "weight = 1")),
			part("next", 2, "| F | C |", at("accent", "1: 1", "weight = 3"))),
		sketch("An accent on the beat that a push takes early has the energy of the bar of the push for the drummer",
			usual, part("grow", 2, "| C | G |", at("push", "2: 4&")),
			part("next", 2, "| F | C |", at("accent", "1: 1")),
			form(`play "grow" { energy = [2, 4] }`, `play "next" {}`)),
		sketch("A section comes in pushed, and pushes on with a hit, which no hand spreads over the bar line", usual,
			part("first", 3, "| C |", at("push", "1: 4")),
			part("next", 5, "| F | C |", at("push", "1: 1"), at("accent", "1: 1"))),
		sketch("An accent at energy 3 is the snare's, where the feel has a cross-stick", top("bossa", 124),
			part("bossa", 3, "| C | G |", at("accent", "1: 3"))),
		sketch("Accents between a push and its beat, inside and over the border", usual,
			part("first", 2, "| C | G |", at("push", "4&"), at("accent", "4a")), part("next", 2, "| F |")),
		sketch("An accent on a push into a bar of written hits is held over the bar line's beat", usual,
			part("first", 2, "| C |", at("push", "1: 4"), at("accent", "1: 4")),
			part("hits", 2, "| F | C |", at("accent", "1: 3", "alone = true"))),
		sketch("The chord goes on over the border, into a bar of written hits", top("tight-sixteenths", 96),
			part("first", 2, "| C |"), part("hits", 2, "| C | G |", at("accent", "1: 1&", "alone = true"))),
		sketch("An accent of weight 1 on a change of chord is short", sixEight,
			part("six", 2, "| C G | C |", at("accent", "1: 4", "weight = 1"))),
		sketch("An accent on the first beat, with a push into it and a push that begins there", usual,
			part("first", 2, "| C |", at("push", "1: 4&")),
			part("next", 2, "| F | G |", at("push", "1: 1"), at("accent", "1: 1"))),
	}
}

// handRules: what two hands can play.
func handRules() []string {
	return []string{
		sketch("A loose hand at a quick tempo comes late into a fill", top("swing", 180, "looseness = 1"),
			part("quick", 5, "| C | F | G | C |", at("fill", "2: 3"))),
		sketch("A walking bass does not go to and fro in its first three notes",
			top("brushes-ballad", 96, "take = 2"),
			part("a", 4, "| C | Am |", tacet("piano")), part("b", 4, "| C |", tacet("piano"))),
		sketch("The left hand lets go of both notes of an octave together, however loosely it plays",
			top("backbeat-eighths", 96, "looseness = 1", "take = 3"),
			part("a", 5, "| C G | F |", tacet("bass", "drums"))),
		sketch("A hit a sixteenth before the border, as near as hands can strike again", top("backbeat-eighths", 150),
			part("hit", 5, "| C |", at("accent", "1: 4a")), part("next", 5, "| F |")),
		sketch("Two loose hits before the border: of the second the crash is left out",
			top("backbeat-eighths", 135, "looseness = 1"),
			part("a", 5, "| C |", "fills = true", at("accent", "1: 4& 4a")), part("b", 5, "| F |")),
	}
}
