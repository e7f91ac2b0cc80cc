package songspec

// offerMistakes are what newcomers write with the words of other trades and tongues, or with the right
// words in other shapes. What each message offers keeps what they have written.
var offerMistakes = []mistake{
	{"value of a word of another name", "it is kept", "bpm = 72\ncapo = 2\ntransposition = 2\n" + one("| C |")},
	{"place of an event of another name", "it is kept with the options", one("| C | F |",
		`fermata "2: 1" { beats = 2 }`, `ritardando "1-2" { to = 60 }`, `pause "1: 3" {}`,
		`staccato "1: 2" {}`, `hit "2: 3" { by = ["drums"] }`)},
	{"option of another name", "what it is called there", one("| C | F |", `rit "2" { tempo = 60 }`,
		`cue "1: 1" { name = "lights" }`, `hold "1: 4" { length = 2 }`, `stop "2: 3" { except = ["drums"] }`)},
	{"cue in every round by other words", "each_time", one("| C | F |", `cue "1: 1" { each_time = "always" }`,
		"cue \"2: 1\" {\n    text  = \"lights\"\n    every = true\n  }", `accent "2: 3" { each_time = true }`)},
	{"energy in words", "the scale, and the nearest figure", "energy = \"soft\"\n" + one("| C | F |",
		`bars "1" { energy = mf }`, `bars "2" { energy = "huge" }`)},
	{"two energies in one", "a pair", "energy = \"2-4\"\n" + one("| C | F |", `bars "1" { energy = "4 to 2" }`,
		`bars "2" { energy = 2-4 }`)},
	{"meters in other signs", "in figures with a slash", "meter = \"4-4\"\n" + one("| C |", `meter = "7/8 (2+2+3)"`) +
		"section \"b\" {\n  meter  = \"2+3/8\"\n  chords = \"| C |\"\n}\nsection \"c\" {\n  meter  = \"3-4-4\"\n  " +
		"chords = \"| C |\"\n}\n"},
	{"tempos that are names", "the number of that section",
		"tempo = 72\nsection \"dance\" {\n  chords = \"| C |\"\n}\n" +
			one("| C | F | G |", "tempo = 80", `rit "1" { to = "dance" }`, `rit "2" { to = "a tempo" }`,
				`accel "3" { to = A }`)},
	{"a bass in halves", "its word", "bass { line = \"half\" }\n" + one("| C |")},
	{"players of other bands", "no bass is brass", one("| C |", `accent "1: 1" { by = ["brass"] }`,
		`stop "1: 3" { by = ["strings", "basss"] }`)},
	{"sound for a guide", "notes are read", "vocal \"guide/x.mp3\" {}\n" + one("| C |")},
	{"break of some bars", "the drums alone, or nobody", one("| C | F |", `break "1-2" {}`, `break "2" {}`,
		`break "1: 3" {}`, `drum_break {}`)},
	{"last bars in words", "their numbers in the section", onlyOf("| C | F | G | C | F | G | C |", "last 2")},
	{"more last bars than there are", "all of them", onlyOf("| C | F |", "the last 4 bars")},
	{"more last bars than in the words of the message", "how bars are written", one("| C | F |",
		`bars "last 20" { energy = 3 }`)},
	{"last bars in words elsewhere", "how they are written", one("| C | F | G | C |", `bars "last 2" { energy = 3 }`,
		`rit "last 2" { to = 60 }`, `bars "first 2" { feel = "swing" }`)},
	{"percent behind a chord", "the chord lasts by itself", one("| Db % | C / % | F |")},
	{"roof of a marcato", "no triangle is behind a six", one("| F6^ | C^ G9^ | F6^ |")},
	{"list for the plays", "a play for each section", one("| C |") + "form {\n  play [\"a\", \"a\"]\n}\n"},
	{"road map in the form", "the way is written out", one("| C |") + "form {\n  play \"a\" {}\n  segno {}\n  " +
		"dc = \"al coda\"\n  play \"a\" {}\n  D.S. al coda\n}\n"},
	{"space in every bar", "likewise as a hold", one("| C | F | G | C |", `space "4" {}`)},
	{"parts of plays by other names", "times and only", playing("repeat = 3", "skip = \"1\"", "loop = true",
		"until = \"the door opens\"")},
	{"picture by another name", "and its rate", "film {\n}\npicture {\n  fps   = 24\n  start = \"01:00:00:00\"\n}\n" +
		one("| C |")},
	{"player as a value", "where the word belongs is known", "drums = \"brushes\"\nbass = \"walk\"\npiano = off\n" +
		one("| C |")},
	{"player with a name", "likewise", "drums \"brushes\" {}\npiano \"rhodes\" {}\n" + one("| C |")},
	{"player who is off by name", "nothing is written without", "drums \"off\" {}\n" + one("| C |", `bass "tacet" {}`)},
	{"blocks as values", "their names are kept", "vocal = \"a.mid\"\n" + one("| C | F |",
		`accent = "2: 1"`, `bars = "1-2"`, "rit = 60") + "form {\n  play = \"a\"\n}\n"},
	{"lists without brackets", "the words are kept", "sections = \"b.song.hcl\"\n" + one("| C |", "tacet = all",
		`stop "1: 3" { by = "bass" }`)},
	{"lists that are none", "one text", playing("only = [1]", "feel = [\"swing\"]")},
	{"texts without quotes", "the words are kept", playing("only = 1-1", "vamp = till cue")},
	{"no texts at all", "quotes would not help", "meter = 4\nkey = 2\n" + playing("vamp = true")},
	{"truths by other words", "true or false", one("| C |",
		"fills = no", "lead = \"true\"", `accent "1" { short = 1 }`)},
	{"empty vamp", "until when?", playing("vamp = \" \"")},
	{"tempo of some bars as a rit", "its value is kept", one("| C | F |",
		`tempo "1-2" { to = 60 }`, `tacet "2: 3" {}`)},
	{"word of other blocks", "all of them are named", one("| C | F |", `bars "1" { lead = false }`,
		`rit "2" { energy = 3 }`)},
	{"bars as elsewhere", "as here", one("| C | F |", `bars "1 to 2" { energy = 3 }`, `bars "end" { tempo = 90 }`,
		`bars "-2" { feel = "swing" }`, `bars "1 2" { key = "F" }`, `rit "2-" { to = 60 }`)},
	{"stretches as elsewhere", "as here", one("| C | F |", `rit "1: 3 to 2: 4" { to = 60 }`,
		`accel "1.1 - 1.2" { to = 120 }`, `rit "1: 3 - 8" { to = 60 }`)},
	{"rit of a list of bars", "it is two", one("| C | F |", `rit "1, 2" { to = 60 }`)},
	{"stop from count to count", "beats say how long", one("| C | F |", `stop "1: 3 - 2: 1" {}`)},
	{"halves apart from their counts", "no blank", one("| C | F |", `accent "2 & 4" {}`, `accent "1: 2 and" {}`)},
	{"cue without its place", "the text is kept", one("| C |", `cue "lights" {}`)},
	{"braces missing round an option", "it is kept", one("| C | F |", `rit "2" to = 60`)},
	{"braces missing round bars", "likewise", one("| C | F |", `bars "2" energy = 3`)},
	{"quotes missing round bars", "likewise", one("| C | F |", `bars 1-2 { energy = 3 }`)},
	{"list for a place", "one text", one("| C | F |", `accent [2, 4] {}`)},
	{"option without a value", "it is true", one("| C | F |", `accent "2: 1" { short }`)},
	{"leads without a value", "likewise", "vocal \"a.mid\" {\n  leads\n}\n" + one("| C |")},
	{"times without its word", "it is said", one("| C |") + "form {\n  play \"a\" { x2 }\n}\n"},
	{"number of times in front of its x", "likewise", one("| C |") + "form {\n  play \"a\" 2x\n}\n"},
	{"number of times in front of its x in braces", "likewise", one("| C |") + "form {\n  play \"a\" { 3x }\n}\n"},
	{"a tempo without quotes in braces", "it gets them", one("| C | F |", `bars "2" { tempo = a tempo }`)},
	{"time without quotes", "the whole of it", one("| C | F |",
		"cue \"2: 1\" {\n    text = \"door\"\n    at = 0:02.5\n  }")},
	{"times as elsewhere, in seconds", "minutes and seconds", one("| C | F | G |",
		"cue \"2: 1\" {\n    text = \"door\"\n    at   = \"2,5s\"\n  }",
		"cue \"3: 1\" {\n    text = \"window\"\n    at   = 5\n  }")},
	{"time code without quotes", "likewise", "picture {\n  rate  = 24\n  start = 01:00:00:00\n}\n" + one("| C |")},
	{"endings in the figures of others", "a number with a full stop", one("|: C |(1) F :|2nd G |")},
	{"times as elsewhere", "an x in front", one("|: C :|3x F |")},
	{"counts on the wrong side", "behind the chord", one("| C @3G | C G@ 3 | G@3 C | C G& |")},
	{"meter without its brackets", "it is no chord by number", one("| C | 3/4 C | [2/4] F |")},
	{"signs round chords", "the chord is kept", one("| C, [F] | ^G | C; | C on E |")},
	{"chords joined by dashes", "blanks part them", one("| I-IV-V |")},
	{"sign behind its numeral", "in front", one("| C | VIIb |")},
	{"no chord by other words", "N.C.", one("| C | nc | tacet |")},
	{"sign without its tone", "nothing is guessed", one("| C7b | C7/b5 | C7- |")},
	{"event that another of its section replaces", "everywhere: the later counts", one("| C | F |", `accent "2: 3" {}`,
		`accent "3" { weight = 3 }`)},
	{"major seventh of other countries", "the tonic goes nowhere as a dominant", "key = \"C\"\n" +
		one("| C7+ | Am | F7+ | G7 |")},
	{"own seventh beside figured bass", "it is a dominant here", "key = \"C\"\n" + one("| I7 | vi | IV7 | V65 | I |")},
	{"functions of harmony", "numerals", one("| T | S | D |")},
}

// playing is a song of which the only play says these lines.
func playing(lines ...string) string {
	src := one("| C |") + "form {\n  play \"a\" {\n"
	for _, l := range lines {
		src += "    " + l + "\n"
	}
	return src + "  }\n}\n"
}
