package songspec

import "testing"

// writtenMistakes are slips in how HCL is written, each of which the parser has
// words of its own for.
var writtenMistakes = []mistake{
	{"no equals sign before a text", "HCL takes it for the head of a block, and braces would be no help",
		"title \"Mill\"\n" + one("| C |")},
	{"no equals sign before chords", "likewise", "section \"a\" {\n  chords \"| C |\"\n}\n"},
	{"colon before a word", "the word gets its quotes at once", "feel: waltz\n" + one("| C |")},
	{"value in braces", "another language's", "tempo { 72 }\n" + one("| C |")},
	{"two equals signs", "another language's", "tempo == 72\n" + one("| C |")},
	{"block with an equals sign", "HCL speaks of argument definitions", "section \"a\" = {\n  chords = \"| C |\"\n}\n"},
	{"block with an equals sign before its name", "HCL asks for a newline",
		"section = \"a\" {\n  chords = \"| C |\"\n}\n"},
	{"block with a colon", "HCL asks for an argument", "section: \"a\" {\n  chords = \"| C |\"\n}\n"},
	{"name without its word", "HCL speaks of quoted argument names", "\"verse\" {\n  chords = \"| C |\"\n}\n"},
	{"section's name as its word", "how beginners read the examples", "verse {\n  chords = \"| C |\"\n}\n"},
	{"section's name as its word, with a number", "a name without quotes, too",
		"section verse 1 {\n  chords = \"| C |\"\n}\n"},
	{"bare name in a play", "the quotes and the braces are both missing", one("| C |") + "form {\n  play a\n}\n"},
	{"opening quote missing", "a message at each line, none for what follows",
		"title = Mill\"\ntempo = \"72\n" + one("| C |")},
	{"quote in a text", "the quotes around a word end the text", "title = \"The \"Old\" Mill\"\n" + one("| C |")},
	{"brace missing before a section", "the block is shown, not the first of the file",
		one("| C |")[:len(one("| C |"))-2] + "section \"b\" {\n  chords = \"| F |\"\n}\n"},
	{"brace missing inside a section", "that of the event, not that of the section",
		"section \"a\" {\n  chords = \"| C |\"\n  accent \"1\" {\n    weight = 2\n}\nsection \"b\" {\n  chords = " +
			"\"| F |\"\n}\n"},
	{"chords without an equals sign or quotes", "HCL asks for an argument", "section \"a\" {\n  chords | C | F |\n}\n"},
	{"blank from a web page", "nobody sees it", "title\u00a0= \"x\"\n" + one("| C |")},
	{"function of another language", "HCL speaks of function arguments", "tempo = bpm(72 4)\n" + one("| C |")},
	{"something after a block", "HCL asks for a newline", one("| C |", `accent "1" {} fill "1: 3" {}`)},
	{"list not closed at the end", "HCL speaks of tuple constructors", "grooves = [\"a.hcl\""},
	{"brace behind a value", "HCL asks for a newline", "section \"a\" {\n  energy = 2\n  chords = \"| C |\" }\n"},
	{"brace behind a number", "the number is one", "section \"a\" {\n  chords = \"| C |\"\n  energy = 2 }\n"},
	{"two values on a line", "the first is a number", "tempo = 72 energy = 3\n" + one("| C |")},
	{"two texts on a line", "the second is no text", "title = \"x\" key = \"C\"\n" + one("| C |")},
	{"word behind a number", "the number is one", "tempo = 72 bpm\n" + one("| C |")},
	{"question mark", "HCL speaks of conditionals", "title = \"Who\" ?\n" + one("| C |")},
}

// musicMistakes are slips of a musician who knows what is meant.
var musicMistakes = []mistake{
	{"time behind a vamp", "who goes on as long as somebody needs comes when he comes",
		"tempo = 88\n" + one("| C |") + "form {\n  play \"a\" {\n    times = 4\n" +
			"    vamp  = \"till Nell turns\"\n  }\n" +
			"  play \"a\" { at = \"0:11\" }\n}\n"},
	{"vamp in figures", "how often it goes round has a word of its own",
		one("| C |") + "form {\n  play \"a\" { vamp = 4 }\n  play \"a\" { vamp = \"4 times\" }\n}\n"},
	// Charts from elsewhere.
	{"pasted from a web page", "a message a line, not one a word",
		"section \"a\" {\n  chords = <<-EOT\n    [Verse 1]\n    G      D\n    I walked along the river\n    Em  C  " +
			"(x2)\n    Chorus:\n    G - D - Em - C\n  EOT\n}\n"},
	{"comments behind bars", "one message a line, and C #m7 is no comment",
		"section \"a\" {\n  chords = <<-EOT\n    | C | F | # the river\n    | C G7 // and back\n    | C #m7 | F // " +
			"G |\n    | C | F #home again\n    | C | // G\n  EOT\n}\n"},
	{"names of harmony books", "as they are written here", one("| Gr65 | Ger7 | subV7/V |")},
	{"spellings of other countries", "j is major, and 7/4 a suspension", one("| Cj7 | C7/4 | Ij7 | Csus2/4 |")},
	{"four chords in two halves", "a chart in quarters is one in 4/4", "meter = \"2/2\"\n" + one("| C / F / | C F |")},
	{"feel of four quarters in two halves", "the tempo counts quarters in both",
		"meter = \"2/2\"\nfeel = \"swing\"\n" + one("| C |")},
	{"quarters in two halves", "the counts are those of the halves",
		"meter = \"2/2\"\n" + one("| C / F G7 | C / / F |")},
	{"metronome mark", "the number is what counts", "meter = \"2/2\"\ntempo = \"half = 112\"\n" + one("| C |")},
	{"bars without quotes", "as any place",
		"section \"a\" {\n  chords = \"| C | F |\"\n  bars 1-2 {\n    energy = 3\n" +
			"  }\n  bars 2 { energy = 4 }\n}\n"},
	{"meter without brackets", "2/4 is as likely one as two over four", one("| C | 2/4 G7 | 6/8 F |")},
	{"word for the last hit", "show people's", one("| C | F |", `button "2: 1" {}`)},
	{"German chords without bar lines", "they are no words of a text",
		"section \"a\" {\n  chords = <<-EOT\n    Hm Es Fis As\n  EOT\n}\n"},
	{"repeat with a number in brackets", "it is no meter", one("| C | F (x2) |")},
	{"engraver's signs", "endings, D.C., slashes and bar lines that no keyboard has",
		"section \"a\" {\n  chords = <<-EOT\n    |: C | F [1. | G :|\n    | C D.C. al Coda | F ∕ | C ‖\n  EOT\n}\n"},
	{"numbers for chords", "the numerals that they are", "key = \"A\"\n" + one("| 1 | 6- | 1/3 | 5/7 | 57 | b7 |")},
	{"bracket apart from its chord", "it is no meter", one("| C7 (b9) | F |")},
	{"chart with two kinds of mistakes", "its symbols are looked at although its bars are wrong", one("| C | | Hm |")},

	{"chord in two words", "its quality is no chord", one("| C maj7 | B 7 | F #m | D sus4 G |")},
	{"blank of no width in a chart", "nobody sees it", one("| C\u200b F | G |")},
	{"dots for beats", "as in some song books", one("| C . . . | F |")},
	{"commas between chords", "blanks part them", one("C, G, Am, F")},
	{"meter by its sign", "in figures", "meter = \"alla breve\"\n" + one("| C |")},
	{"bar and count with a point", "as sequencers show them",
		one("| C | F |", `accent "2.3" {}`, `accent "2/3" {}`, `accent "2:3:1" {}`)},
	{"title without quotes", "the words are at hand", "title = My first song\n" + one("| C |")},
	{"section without braces", "there is something in it", "section \"a\"\nchords = \"| C |\"\n"},

	// Words of other programs and other people.
	{"words called otherwise", "what they are called here",
		"bpm = 72\ncomposer = \"N. N.\"\ntime_signature = \"3/4\"\n" + one("| C |", "dynamics = \"mf\"", "repeat = 2",
			"lyrics = \"la\"", "chorus = 2", `fermata "1" {}`, `rall "1" { to = 50 }`)},
	{"feel by a style", "those that come nearest", "feel = \"medium swing\"\n" + one("| C |") + "section \"b\" {\n  " +
		"like = \"a\"\n  feel = \"pop ballad\"\n}\nsection \"c\" {\n  like = \"a\"\n  feel = \"Funk\"\n}\n"},
	{"players called otherwise", "all of them, or one",
		one("| C |", `accent "1" { by = ["tutti"] }`, `accent "2" { by = ["keys"] }`)},
	{"everybody keeps out by another word", "there is one word", one("| C |", `tacet = ["tutti"]`)},
	{"everybody keeps out, without a list", "a list belongs there", one("| C |", `tacet = "all"`)},
	{"accent in a stop, among others", "a range names its bars", one(eight, `accent "7-8: 4" {}`, `stop "8: 3" {}`)},
	{"push in a stop, among others", "a range names its bars",
		one("| C | F | G | C |", `push "1-3: 4&" {}`, `stop "2: 3" {}`, `stop "3: 3" {}`)},
	{"push without a change of chord", "the chord goes on", one("| C | % | F |", `push "1: 4&" {}`)},
	{"push without a change of chord, among others", "one of two",
		one("| C | F | % |", `push "1, 2: 4&" { by = ["piano"] }`)},
	{"push of every bar without any change", "nothing changes at all",
		one("| C | % |", `push "4&" {}`) + "section \"b\" {\n  chords = \"| C |\"\n}\n"},
	{"push of a range without any change", "none of them changes", one("| C | C | C | F |", `push "1-2: 4&" {}`)},
	{"push over the border without a change", "the next section goes on with the chord",
		one("| F | C |", `push "last: 4&" {}`) + "section \"b\" {\n  chords = \"| C |\"\n}\n"},
	{"short push", "an accent is short", one("| C | F |", `push "1: 4&" { short = true }`)},
	{"short by another word", "the option is offered", one("| C |", `accent "1: 2" { staccato = true }`)},
	{"short that is no truth", "true or false", one("| C |", `accent "1: 2" { short = 1 }`)},
	{"caesura in every bar", "one is meant", one(eight, `caesura "4" {}`)},
	{"caesura of too many beats", "the bound is named", one("| C |", `caesura "1: 4" { beats = 17 }`)},
	{"caesura of no beats", "it would be none", one("| C |", `caesura "1: 4" { beats = 0 }`)},
	{"caesura that no tempo map can say", "how long it may be", "tempo = 20\n" +
		one("| C |", `caesura "1: 4e" { beats = 4 }`)},
	{"hold before a caesura that is too long", "the two together", "tempo = 20\n" +
		one("| C |", `hold "1: 4" { beats = 4 }`, `caesura "1: 4" {}`)},
	{"two caesuras after one beat", "one of them is meant", one("| C |", `caesura "1: 4 4&" {}`)},
	{"push over a caesura", "nothing is tied over it", one("| C | F |", `push "1: 4&" {}`, `caesura "1: 4" {}`)},
	{"caesura by its signs", "the word is offered", one("| C |", `railroad_tracks "1: 4" {}`)},
	{"caesura of some", "it is everybody's", one("| C |", `caesura "1: 4" { by = ["piano"] }`)},
	{"stop of those who keep out", "they are silent anyway",
		one("| C | F |", `tacet = ["bass"]`, `stop "1: 3" { by = ["bass"] }`)},
	{"by everybody", "they are meant anyway", one("| C |", `stop "1: 3" { by = ["all"] }`)},
	{"words without a setting", "a title without its name", "My first song\n" + one("| C |")},
	{"heading for a section", "with a colon, as on a lead sheet; its chords are no second mistake",
		"verse 1:\n| C | F |\n"},
	{"play with a number of times", "it stands twice", one("| C |") + "form {\n  play \"a\" x2\n}\n"},

	// Names of notes in other tongues.
	{"German key", "the key in English", "key = \"Es-Dur\"\n" + one("| C |")},
	{"German B", "it is Bb", "key = \"B-Dur\"\n" + one("| Bb |")},
	{"German chords", "each in English, and not E7 for Es7", one("| Es7 | Fism7 | H7 / B / | G/H |")},
	{"solfège", "each in English, and not Dm for Dom", "key = \"la minore\"\n" + one("| Lam | Dom | Sol7/Si | Fa |")},
	{"German B and solfège's do", "they are read, but are meant otherwise",
		one("| Es | B7 | Bb | Do |") + "section \"b\" {\n  chords = \"| Sol7 | Do | B |\"\n}\n"},
	{"small letters", "they say nothing of minor", "key = \"c\"\n" + one("| a | g7 | c#m | d/f# |")},
	{"note in German", "the ceiling of the comp", "piano {\n  highest = \"As4\"\n}\n" + one("| C |")},
	{"range in small letters", "both ends", "vocal \"v.mid\" { range = [\"a3\", \"es5\"] }\n" + one("| C |")},
	{"mode", "its third is what the key wants to know", "key = \"D dorian\"\n" + one("| Dm7 | G |")},

	// A tempo that the feel was not made for.
	{"ballad too quick", "the same width, counted in twice as many",
		"feel = \"ballad-eighths\"\ntempo = 140\n" + one("| C |")},
	{"ballad a little too quick", "the range alone", "feel = \"ballad-eighths\"\ntempo = 104\n" + one("| C |")},
	{"ballad far too slow", "no feel is slower, but the count may be",
		"feel = \"ballad-eighths\"\ntempo = 30\n" + one("| C |")},

	// A comma for a colon, or no colon: counts of every bar.
	{"space with a comma", "bar 4, count 3 is meant", one(eight, `space "4, 3" {}`)},
	{"space with a comma and its length", "bar 4, count 3, for a beat, is meant",
		one(eight, `space "4, 3" { beats = 1 }`)},
	{"space without a colon", "bar 2, count 4 is meant", one(eight, `space "2 4" {}`)},
	{"hold without a bar", "a fermata in every bar", one(eight, `hold "4" {}`)},
	{"hold with a comma", "bar 4, count 1 is meant", one(eight, `hold "4, 1" {}`)},
	{"fill without a bar", "a fill in every bar", one(eight, `fill "3&" {}`)},
	{"stop with a comma", "bar 4, count 3 is meant", one(eight, `stop "4, 3" {}`)},
	{"push with a comma", "bar 4, count 4& is meant", one(eight, `push "4, 4&" {}`)},
	{"fill of the bass", "nobody but the drummer fills", one(eight, `fill "8: 3" { by = ["bass"] }`)},
	{"accent the wrong way round", "nobody counts backwards", one(eight, `accent "4 2&" {}`)},
	{"push into a bar that is no count", "bar 8 is meant", one(eight, `push "8, 4&" {}`)},
	{"two places in one", "the second's bar is shown", one(eight, `push "4: 4&, 8: 4&" {}`, `accent "2: 1-4" {}`,
		`accent "2: 1-trip-let" {}`)},
	{"dash of a word processor", "it looks like the right one", one(eight, `accent "5–8: 2 4" {}`)},
	{"bars that are no counts", "bars 4 and 8 are meant", one(eight, `push "4, 8" {}`)},
	{"space of a section that another takes over", "said once",
		one("| C | F |", `space "1, 3" {}`) + "section \"b\" {\n  like   = \"a\"\n  chords = \"| C | F |\"\n}\n"},

	// A numeral after a slash. F/G in C is IV/2.
	{"four over five", "F over G is meant, and C is read", one("| IV/V | V7 | I |")},
	{"one over five", "the six-four chord is meant, and G is read", one("| V7/V | I/V V7 | I |")},
	{"two over five", "an eleventh over the bass is meant, and Am7 is read", one("| ii7/V | I |")},
	{"five over seven", "the first inversion is meant, and F# is read", one("| V/VII | vi |")},
	{"one over three", "the first inversion is meant, and E is read", one("| I/III | IV |")},
	{"five over four", "without a seventh the five of four is the one; the bass stays on F",
		one("| IV | V/IV | iii7 | vi7 |")},
	{"five seven over four", "likewise, where the bass was there before", one("| IV | V7/IV | iii7 | vi7 |")},
	{"five of one", "that is five", one("| V7/I | I |")},
	{"one over five in minor", "the six-four chord is meant, and G minor is read",
		"key = \"C minor\"\n" + one("| i/V V7 | i |")},
	{"four over five with an end", "there is nothing after it to lead to", one("| I | IVmaj7/V |")},
	{"four over one", "the tonic is meant to stay below, and the chord's own root is read",
		"key = \"Ab\"\n" + one("| I | iv6/1 | IV/1 | I/1 |")},

	// Figures of figured bass, which are added tones here.
	{"six beside a six-five", "the inversion is meant, and the added sixth is read; each symbol once",
		one("| I6 | V65 | I6 | iv6 |") + "section \"b\" {\n  chords = \"| I6 | V6/V V2 |\"\n}\n"},
	{"six of a diminished chord", "hardly ever an added sixth", one("| viio6 | I |")},
	{"six of the flat two", "the Neapolitan is meant", "key = \"C minor\"\n" + one("| bII6 | V7 | i |")},
	{"figures as a fraction", "the six-four chord is meant, and a sixth over the fourth is read", one("| I6/4 | V7 |")},
	{"sevenths as fractions", "the figure is offered", one("| V4/3 | I | V4/2 | V6/5 |")},
	{"offers that would change the chord", "there is none", one("| C7(maj7) C54 | C7(no9) | V754 | C6(b9 |")},
}

// TestBlanksOfWebPages: blanks that are not the keyboard's part chords all the same.
func TestBlanksOfWebPages(t *testing.T) {
	tl := good(t, one("|\u00a0C\u00a0 F |\u2003G\u00a0|"))
	if got := lengths(&tl.Passes[0]); got != "C 4, F 4, G 8" {
		t.Error(got)
	}
}

const eight = "| C | Am | F | G | C | Am | F G | C |"

// TestEveryBarAsMeant: counts of every bar that a band plays in every bar.
func TestEveryBarAsMeant(t *testing.T) {
	for _, event := range []string{
		`accent "2 4" {}`, `accent "2, 4" {}`, `push "4&" {}`, `push "2&, 4&" {}`, `push "2& 4&" {}`, `stop "2" {}`,
		`space "3" {}`,
		`stop "2 4" { beats = 0.5 }`, `accent "1 2& 4" {}`, `hold "last: 4" {}`, `fill "4, 8: 3" {}`,
		`space "3-4: 1 3" { beats = 1 }`, `accent "1 1& 2" {}`,
	} {
		good(t, one(eight, event))
	}
	good(t, one("| C |", `hold "4" {}`)) // there is one bar only
}

// TestAppliedAsMeant: applied chords that do what applied chords do are not doubted.
// Common practice, no single source.
func TestAppliedAsMeant(t *testing.T) {
	for _, c := range []struct{ name, chords string }{
		{"five of five", "| V/V | V | I | V7/ii |"},
		{"five of four", "| I | V7/IV | IV | V/IV | IV | V7/IV | ii |"},
		{"the leading note's chord", "| viio7/vi | vi | viiø7/V | V |"},
		{"a dominant that breaks its promise", "| V7/vi | IV |"},
		{"two and five of four", "| ii7/IV V7/IV | IV |"},
		{"two, and five after a four", "| ii/V iv/V | V7/V | V |"},
		{"minor four before its target", "| iv/ii | ii |"},
		{"four of four, and on to four", "| IV/IV | IV | I |"},
		{"four before another target", "| IV/bVII | bVII | I |"},
		{"the dominant a tritone away", "| bII7/V | V |"},
		{"a chain", "| V7/V/V | V7/V | V |"},
		{"the bass is said besides", "| IV/V/3 | V | I64/V | V |"},
		{"chords with names", "| Ger65/V | Cad64/V | V54/V | V/V | V | N6/ii | V7/ii | ii |"},
		{"a line of the bass", "| V/3 | V/1 | V/7 | I/3 | I/1 |"},
		{"the figure that is meant", "| IV/2 | V7 | I/5 | ii7/4 | V/3 |"},
	} {
		t.Run(c.name, func(t *testing.T) { good(t, one(c.chords)) })
	}
	good(t, "key = \"C minor\"\n"+one("| V/VII | VII | V7/III | III |"))
}

// barsMistakes are mistakes in bars blocks, and in what plays parts of sections.
var barsMistakes = []mistake{
	{"bars as a value", "they are a block", one("| C | F |", "bars = 8")},
	{"bars without a place", "which bars", one("| C | F |", "bars { energy = 4 }")},
	{"counts in bars", "they hold whole bars", one("| C | F |", `bars "2: 3" { energy = 4 }`)},
	{"no bars", "neither number nor word", one("| C | F |", `bars "end" { energy = 4 }`)},
	{"bars outside", "the section has two", one("| C | F |", `bars "2-3" { energy = 4 }`)},
	{"open from outside", "likewise", one("| C | F |", `bars "3-" { energy = 4 }`)},
	{"bars out of order", "each once", one("| C | F |", `bars "2, 1" { energy = 4 }`)},
	{"more after an open range", "it goes on to the end", one("| C | F |", `bars "1-, 2" { energy = 4 }`)},
	{"two that overlap", "which of them counts", one("| C | F | G |", `bars "1-2" { energy = 4 }`,
		`bars "2-3" { energy = 1 }`)},
	{"two that overlap in something else", "that is no mistake", one("| C | F | G |", `bars "1-2" { energy = 4 }`,
		`bars "2-3" { feel = "waltz" }`)},
	{"two open from one bar", "which of them counts", one("| C | F | G |", `bars "2-" { energy = 4 }`,
		`bars "2-" { energy = 1 }`)},
	{"an event in bars", "it has a place of its own", one("| C | F |", `bars "2" {`, `  accent "1" {}`, `}`)},
	{"a word that bars do not have", "they are no section", one("| C | F |", `bars "2" { fills = false }`)},
	{"a word of the top in bars", "likewise", one("| C | F |", `bars "2" { looseness = 0 }`)},
	{"more chords than bars", "numbers never shift", one("| C | F | G |", `bars "2" { chords = "| A | B |" }`)},
	{"fewer chords than bars", "likewise", one("| C | F | G |", `bars "1-2" { chords = "| A |" }`)},
	{"too few for a list that reaches the end", "one each, and one at least",
		one("| C | F | G |", `bars "1, 3" { chords = "| A |" }`)},
	{"a meter without chords", "they go together", one("| C | F |", `bars "2" { meter = "3/4" }`)},
	{"chords that do not add up", "in the meter of their bars", one("| C | F |", "bars \"2\" {", "  meter = \"3/4\"",
		"  chords = \"| A B C D |\"", "}")},
	{"not a chord in bars", "at its place", one("| C | F |", `bars "2" { chords = "| Isus5 |" }`)},
	{"a lift in a section's bars", "only a play lifts", one("| C | F |", `bars "2-" { lift = 1 }`)},
	{"a lift of some bars", "it holds from there on",
		one("| C | F |") + "form {\n  play \"a\" {\n    bars \"1\" { lift = 1 }\n" +
			"  }\n}\n"},
	{"a tempo by another name", "one word for it", one("| C | F |", `bars "2" { tempo = "tempo primo" }`)},
	{"a tempo elsewhere", "it is for bars", "tempo = \"a tempo\"\n" + one("| C | F |")},
	{"a tempo inside a rit", "which of them counts", one("| C | F | G |", `rit "1-2" { to = 50 }`,
		`bars "2" { tempo = 80 }`)},
	{"bars that say nothing", "doubtful", one("| C | F |", `bars "2" {}`)},
	{"strings in a section", "what hands reach holds for the song", one("| C |", `bass { strings = 5 }`)},
	{"a line that there is not", "two or walk", one("| C |", `bass { line = "walking" }`)},
	{"only that is out of the section", "it has two bars", one("| C | F |") +
		"form {\n  play \"a\" { only = \"2-3\" }\n}\n"},
	{"only in a section", "it is for plays", one("| C | F |", `only = "1"`)},
	{"only with counts", "whole bars", one("| C | F |") + "form {\n  play \"a\" { only = \"1: 2\" }\n}\n"},
	{"a play's own event where nothing is played", "the play says both", one("| C | F |") +
		"form {\n  play \"a\" {\n    only = \"1\"\n    accent \"2: 1\" {}\n  }\n}\n"},
	{"an event on a bar that went", "left out with a warning", one("| C | F |", `accent "2: 3" {}`) +
		"form {\n  play \"a\" {\n    bars \"1-2\" { chords = \"| G |\" }\n  }\n}\n"},
	{"times nothing", "at least once", one("| C | F |") + "form {\n  play \"a\" { times = 0 }\n}\n"},
	{"times too often", "there is a bound", one("| C | F |") + "form {\n  play \"a\" { times = 65 }\n}\n"},
	{"without what there is not", "which events",
		one("| C | F |") + "form {\n  play \"a\" { without = [\"pushes\"] }\n}\n"},
	{"without without effect", "doubtful", one("| C | F |") + "form {\n  play \"a\" { without = [\"push\"] }\n}\n"},
	{"bars of another section that are not here", "left out with a warning", one("| C | F |",
		`bars "2" { energy = 4 }`) +
		"section \"b\" {\n  like = \"a\"\n  chords = \"| G |\"\n}\n"},
	{"bars of another section that meet others here", "the last bar is another one", one("| C | F | G | C |",
		`bars "last" { energy = 4 }`, `bars "1-2" { energy = 1 }`) +
		"section \"b\" {\n  like = \"a\"\n  chords = \"| G | C |\"\n}\n"},
	{"a last chorus whose letters do not move", "the key of a section is its signature",
		"key = \"G\"\n" + one("| G | D | Em | C | Am | D7 | G | G |") +
			"section \"b\" {\n  like = \"a\"\n  key  = \"Eb\"\n}\n"},
	{"a coda written as it is to sound", "letters move with a lift",
		"key = \"D\"\n" + one("| D | A/C# | Bm7 | G |") +
			"section \"coda\" {\n  chords = \"| Eb | Ab/Eb | Eb | % |\"\n}\n" +
			"form {\n  play \"a\" {}\n  play \"a\" { lift = 1 }\n  play \"coda\" {}\n}\n"},
	{"a value for some bars", "as a block with a place", one("| C | F | G | C |", `tacet "3-4" {}`, `energy "3" {}`,
		`key "2-" {}`)},
	{"a tempo as a block", "it is a value of bars", one("| C | F |", `a_tempo "2" {}`)},
	{"transposed too far", "there is a bound", "transpose = 13\n" + one("| C |")},
	{"sections that are no list", "as grooves are", "sections = \"b.song.hcl\"\n" + one("| C |")},
	{"sections from outside the folder", "nothing outside is read", "sections = [\"../b.song.hcl\"]\n" + one("| C |")},
}

// duetMistakes are first tries at singers, vamps, free time and times: words that have another name here.
var duetMistakes = []mistake{
	{"two options in a singer's line", "the name is there, and not missed",
		"vocal \"a.mid\" { name = \"Nell\" range = \"G3-D5\" }\nvocal \"b.mid\" { name = \"Joss\" }\n" + one("| C |")},
	{"a singer's file in another key", "the file is moved, not the song",
		"vocal \"a.mid\" { key = \"E\" }\n" + one("| C |")},
	{"a guide that begins with no pass", "the nearest is offered",
		"vocal \"a.mid\" { from = \"a (3)\" }\n" + one("| C |") + "form {\n  play \"a\" {}\n  play \"a\" {}\n}\n"},
	{"a guide that begins with a section that is not there", "a bar or a pass",
		"vocal \"a.mid\" { from = \"refrain\" }\n" + one("| C |")},
	{"a guide that begins after the song", "a pass and too many bars",
		"vocal \"a.mid\" { from = \"a + 2\" }\n" + one("| C |")},
	{"who sings in a play", "the guides say it, or a cue",
		one("| C |") + "form {\n  play \"a\" { singer = \"Nell\" }\n}\n"},
	{"repeated until", "a vamp", one("| C |") + "form {\n  play \"a\" { repeat = \"till Nell turns\" }\n}\n"},
	{"a part of a section from and to", "the bars that are played",
		one("| C | F |") + "form {\n  play \"a\" {\n    from = 1\n    to   = 2\n  }\n}\n"},
	{"words of free time", "where the tempo is drawn", one("| C |", "freely \"1\" {}", "rubato = true")},
	{"second ending as a block", "it stands in the chart", one("| C |", "ending \"2\" {}")},
	{"text in a section", "the whole cue", one("| C |", "text = \"JOSS: You kept the cup.\"")},
	{"players in one word", "their blocks",
		one("| C |", "drums = \"brushes\"", "bass = \"walk\"", "piano = \"electric\"") +
			"section \"b\" {\n  chords = \"| C |\"\n  drums = false\n}\n"},
	{"line of the bass as its feel", "the bass's own word", one("| C |", "bass { feel = \"walk\" }")},
	{"frames a second", "the rate, once", "picture {\n  fps   = 25\n  start = \"01:00:00:00\"\n}\n" + one("| C |")},
	{"time of a hit", "a cue has it", one("| C |", "accent \"1: 1\" { at = \"0:10\" }")},
	{"seconds in quotes", "in minutes and seconds",
		one("| C |") + "form {\n  play \"a\" {}\n  play \"a\" { at = \"2.5\" }\n}\n"},
	{"seconds", "the same", one("| C |") + "form {\n  play \"a\" {}\n  play \"a\" { at = 2.5 }\n}\n"},
}
