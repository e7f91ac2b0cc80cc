package songspec

// writtenMistakes are slips in how HCL is written, each of which the parser has
// words of its own for.
var writtenMistakes = []mistake{
	{"no equals sign before a text", "HCL takes it for the head of a block, and braces would be no help", "title \"Mill\"\n" + one("| C |")},
	{"no equals sign before chords", "likewise", "section \"a\" {\n  chords \"| C |\"\n}\n"},
	{"colon before a word", "the word gets its quotes at once", "feel: waltz\n" + one("| C |")},
	{"value in braces", "another language's", "tempo { 72 }\n" + one("| C |")},
	{"two equals signs", "another language's", "tempo == 72\n" + one("| C |")},
	{"block with an equals sign", "HCL speaks of argument definitions", "section \"a\" = {\n  chords = \"| C |\"\n}\n"},
	{"block with an equals sign before its name", "HCL asks for a newline", "section = \"a\" {\n  chords = \"| C |\"\n}\n"},
	{"block with a colon", "HCL asks for an argument", "section: \"a\" {\n  chords = \"| C |\"\n}\n"},
	{"name without its word", "HCL speaks of quoted argument names", "\"verse\" {\n  chords = \"| C |\"\n}\n"},
	{"section's name as its word", "how beginners read the examples", "verse {\n  chords = \"| C |\"\n}\n"},
	{"section's name as its word, with a number", "a name without quotes, too", "section verse 1 {\n  chords = \"| C |\"\n}\n"},
	{"bare name in a play", "the quotes and the braces are both missing", one("| C |") + "form {\n  play a\n}\n"},
	{"opening quote missing", "one message at its line, none for what follows", "title = Mill\"\ntempo = \"72\n" + one("| C |")},
	{"quote in a text", "the quotes around a word end the text", "title = \"The \"Old\" Mill\"\n" + one("| C |")},
	{"brace missing before a section", "the block is shown, not the first of the file", one("| C |")[:len(one("| C |"))-2] + "section \"b\" {\n  chords = \"| F |\"\n}\n"},
	{"brace missing inside a section", "that of the event, not that of the section", "section \"a\" {\n  chords = \"| C |\"\n  accent \"1\" {\n    weight = 2\n}\nsection \"b\" {\n  chords = \"| F |\"\n}\n"},
	{"chords without an equals sign or quotes", "HCL asks for an argument", "section \"a\" {\n  chords | C | F |\n}\n"},
	{"blank from a web page", "nobody sees it", "title\u00a0= \"x\"\n" + one("| C |")},
	{"function of another language", "HCL speaks of function arguments", "tempo = bpm(72 4)\n" + one("| C |")},
	{"something after a block", "HCL asks for a newline", one("| C |", `accent "1" {} fill "1: 3" {}`)},
	{"list not closed at the end", "HCL speaks of tuple constructors", "grooves = [\"a.hcl\""},
	{"question mark", "HCL speaks of conditionals", "title = \"Who\" ?\n" + one("| C |")},
}

// musicMistakes are slips of a musician who knows what is meant.
var musicMistakes = []mistake{}
