package songspec

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the goldens anew")

// mistake is a song file with something wrong or doubtful in it. What is said
// about each stands in testdata/mistakes.txt.
type mistake struct{ name, reason, src string }

// mistakes are those of a song's writing and of its music, and writtenMistakes and
// musicMistakes what came later.
var mistakes = slices.Concat(earlyMistakes, writtenMistakes, musicMistakes, chartMistakes, barsMistakes, duetMistakes,
	offerMistakes)

var earlyMistakes = []mistake{
	// What HCL does by itself, or leaves silent.
	{"misspelt attribute", "the nearest right name is offered", "tempoo = 120\n" + one("| C |")},
	{"block as value", "section = { is a block written as a value", "section = {\n}\n"},
	{"value as block", "title { is a value written as a block", "title {\n}\n" + one("| C |")},
	{"bare word", "one message, not the two of HCL", "feel = waltz\n" + one("| C |")},
	{"no label", "a friendly text instead of 'must have 1 labels'", "section {\n  chords = \"| C |\"\n}\n"},
	{"two labels", "a block has one name", "section \"a\" \"b\" {\n  chords = \"| C |\"\n}\n"},
	{"options on one line", "HCL takes one on a line", one("| C |", `accent "1" { by = ["drums"], weight = 2 }`)},
	{"options on one line without comma", "HCL takes one on a line",
		one("| C |", `accent "1" { by = ["drums"] weight = 2 }`)},
	{"brace on the next line", "HCL wants it on the same line", "section \"a\"\n{\n}\n"},
	{"block without braces", "play needs them even when empty", one("| C |") + "form {\n  play \"a\"\n}\n"},
	{"number in quotes", "taken, with a warning", "tempo = \"72\"\n" + one("| C |")},
	{"tempo cut too fine", "three decimals", "tempo = 72.0625\n" + one("| C |")},
	{"null", "HCL takes it for a missing value", "tempo = null\n" + one("| C |")},
	{"one over nothing", "HCL makes infinity of it, silently", "tempo = 1/0\n" + one("| C |")},
	{"nothing over nothing", "HCL cannot divide it", "tempo = 0/0\n" + one("| C |")},
	{"huge number", "HCL would print 309 digits, twice", "tempo = 1e999999\n" + one("| C |")},
	{"number beyond", "HCL cannot read it", "tempo = 1e99999999999999999999\n" + one("| C |")},
	{"negative", "HCL takes it", "tempo = -3\n" + one("| C |")},
	{"underscore", "HCL's message is a puzzle", "tempo = 1_000\n" + one("| C |")},
	{"point first", "HCL's message is a puzzle", "looseness = .5\n" + one("| C |")},
	{"point last", "HCL's message is a puzzle", "tempo = 5.\n" + one("| C |")},
	{"hexadecimal", "HCL's message is a puzzle", "tempo = 0x10\n" + one("| C |")},
	{"unquoted chords with a sharp", "# begins a comment, so HCL sees the word C",
		"section \"a\" {\n  chords = C#m7 | F#7\n}\n"},
	{"unquoted chords with bars", "HCL speaks of bitwise operators", "section \"a\" {\n  chords = | C | G |\n}\n"},
	{"unquoted place", "HCL speaks of arguments", one("| C |", "accent 2 4 {}")},
	{"backslash in chords", "HCL speaks of escape sequences", one(`| C\\G |`)},
	{"backslash escape", "HCL speaks of escape sequences", one(`| C\G |`)},
	{"quote not closed", "the text runs to the end of the line", "title = \"Lanterns\n" + one("| C |")},
	{"heredoc not closed", "HCL points at the end of the file", "section \"a\" {\n  chords = <<-EOT\n    | C |\n}\n"},
	{"block not closed", "a brace is missing", "section \"a\" {\n  chords = \"| C |\"\n"},
	{"brace too many", "HCL asks for an argument", one("| C |") + "}\n"},
	{"attribute twice", "HCL's own, in our words", "tempo = 70\ntempo = 80\n" + one("| C |")},
	{"section twice", "HCL takes both silently", one("| C |") + one("| F |")},
	{"drums twice", "HCL takes both silently", "drums {}\ndrums {}\n" + one("| C |")},
	{"form twice", "HCL takes both silently", one("| C |") + "form {\n  play \"a\" {}\n}\nform {\n  play \"a\" " +
		"{}\n}\n"},
	{"single quotes", "HCL's own, in our words", "title = 'x'\n" + one("| C |")},
	{"curly quotes", "a word processor's", "title = “x”\n" + one("| C |")},
	{"semicolon", "another language's", "title = \"x\"; tempo = 70\n" + one("| C |")},
	{"colon", "another language's", "tempo: 72\n" + one("| C |")},
	{"no equals sign", "another language's", "tempo 72\n" + one("| C |")},
	{"chords outside a text", "a chart at the top", "| C | F |\n"},
	{"comma missing", "in a list", "grooves = [\"a.hcl\" \"b.hcl\"]\n" + one("| C |")},
	{"name of something", "nothing to look up in a song file", "tempo = song.tempo\n" + one("| C |")},
	{"function", "nothing to call in a song file", "tempo = abs(-72)\n" + one("| C |")},
	{"empty", "HCL asks for a title", ""},
	{"blank with byte-order mark", "as empty", "\xef\xbb\xbf \n"},
	{"comments only", "no section", "# to come\n"},
	{"nul", "HCL prints it raw", "title = \"\x00\"\n"},
	{"escape character", "a terminal would obey it", "title = \"\x1b[2J\"\n"},
	{"latin-1", "not UTF-8", "title = \"\xe9\"\n"},
	{"utf-16", "a word processor's", "\xff\xfet\x00"},
	{"carriage returns alone", "old line ends", "tempo = 72\rkey = \"C\"\r"},

	{"decimal comma in a tempo", "half of the world writes it", "tempo = 61,5\n" + one("| C |")},
	{"decimal comma", "half of the world writes it", "looseness = 0,4\n" + one("| C |")},
	{"comma after a value", "another language's", "tempo = 72,\n" + one("| C |")},
	{"quoted name", "another language's", "\"tempo\" = 72\n" + one("| C |")},
	{"colon and equals sign", "another language's", "tempo := 72\n" + one("| C |")},
	{"round brackets", "another language's list", "energy = (2, 4)\n" + one("| C |")},
	{"braces for a list", "another language's list", "energy = {2, 4}\n" + one("| C |")},
	{"form as a value", "HCL speaks of keys in the line below", one("| C |") + "form = {\n  play \"a\" {}\n}\n"},
	{"form on one line", "HCL speaks of arguments", one("| C |") + "form { play \"a\" {} }\n"},
	{"list for a number", "a list is plain, but too much", "tempo = [60, 80]\n" + one("| C |")},
	{"word for a number", "quotes would not help", "energy = mf\n" + one("| C |")},
	{"word for a truth", "quotes would not help", one("| C |", "fills = no")},
	{"truth for how the band leads", "it is a choice of two", one("| C |", `lead = "softly"`)},
	{"lead misspelt", "the nearest", "leed = false\n" + one("| C |")},
	{"lead in an event", "it belongs to a pass", one("| C |", `rit "1" {
    to   = 50
    lead = false
  }`)},
	{"crescendo", "it is the energy that moves", one("| C | F |", "crescendo = true")},
	{"list not closed", "the bracket is shown, not the line after", one("| C |", "tacet = [\"drums\"")},
	{"name in single quotes", "quotes in quotes are no help", "section 'a' {\n  chords = \"| C |\"\n}\n"},
	{"name in curly quotes", "quotes in quotes are no help", "section “a” {\n  chords = \"| C |\"\n}\n"},
	{"comment not closed", "HCL has no word for it", "/* to come\n" + one("| C |")},
	{"chords beside the heredoc's head", "they begin on the next line",
		"section \"a\" {\n  chords = <<-EOT | C | F |\n  EOT\n}\n"},
	{"blank in the heredoc's head", "HCL speaks of bitwise operators",
		"section \"a\" {\n  chords = <<- EOT\n    | C |\n  EOT\n}\n"},
	{"three quotes", "another language's text", "section \"a\" {\n  chords = \"\"\"\n    | C |\n  \"\"\"\n}\n"},
	{"heredoc with another end", "one message, at the head, for two dozen symbols that are none",
		"section \"a\" {\n  chords = <<-EOT\n    | C |\n  EOF\n  fill \"1: 3\" {\n    by = [\"drums\"]\n  " +
			"}\n}\nsection \"b\" {\n  chords = <<-EOT\n    | F |\n  EOT\n}\n"},
	{"groove in a song", "a groove file taken for a song", "groove \"waltz\" {\n}\n"},
	{"doubled name offered", "each name once", one("| C |") + one("| F |") + "form {\n  play \"other\" {}\n}\n"},
	{"bracket of a meter not closed", "the bar is not empty besides", one("| C | (2/4 C | F |")},
	{"no chord in a bar that does not add up", "the symbol alone is the mistake", one("| C - F | G |")},
	{"meter without a number", "said once", "meter = \"C\"\n" + one("| C |")},
	{"count for a bar", "the colon was forgotten", one("| C | C | C | C | C | C | C | C |", `hold "8" {}`)},

	// Names.
	{"unknown block", "the nearest is offered", "sektion \"a\" {\n}\n"},
	{"attribute at the wrong level", "where it belongs is said", one("| C |", "lift = 1", "title = \"x\"")},
	{"unknown feel", "the nearest is offered", "feel = \"ballad-eigths\"\n" + one("| C |")},
	{"beginning of a feel", "the rest is offered", "feel = \"tight\"\n" + one("| C |")},
	{"unknown section in the form", "the nearest is offered", one("| C |") + "form {\n  play \"aa\" {}\n}\n"},
	{"unknown like", "the nearest is offered", "section \"verse\" {\n  chords = \"| C |\"\n}\nsection \"b\" {\n  " +
		"like = \"vers\"\n}\n"},
	{"like in a circle", "no end to it", "section \"a\" {\n  like = \"b\"\n}\nsection \"b\" {\n  like = \"a\"\n}\n"},
	{"like itself", "no end to it", "section \"a\" {\n  like = \"a\"\n}\n"},
	{"unknown player", "the nearest is offered", one("| C |", "tacet = [\"drum\"]")},
	{"player without a list", "a list belongs there", one("| C |", "tacet = \"drums\"")},
	{"unknown kit", "all are named", "drums {\n  kit = \"jazz\"\n}\n" + one("| C |")},
	{"unknown sound", "a musician's name for it is known",
		"bass {\n  sound = \"upright\"\n}\npiano {\n  sound = \"rodes\"\n}\n" + one("| C |")},
	{"unknown option", "an accent has no beats", one("| C |", `accent "1" { beats = 2 }`)},
	{"capital in a word", "the word is offered", "Tempo = 80\n" + one("| C |")},
	{"not a key", "as harmony says", "key = \"H major\"\n" + one("| C |")},
	{"not a meter", "as meter says", "meter = \"4/5\"\n" + one("| C |")},
	{"meter without quotes", "HCL would divide", "meter = 3/4\n" + one("| C |")},
	{"feel of another meter", "those that fit are named", "meter = \"3/4\"\nfeel  = \"swing\"\n" + one("| C |")},
	{"meter of another feel", "the inner one made the mismatch",
		"feel = \"swing\"\n" + one("| C |", "meter = \"7/8\"")},

	// Bounds.
	{"energy out of bounds", "1 to 5", "energy = 6\n" + one("| C |", "energy = 0")},
	{"energy of three", "two figures", one("| C |", "energy = [1, 2, 3]")},
	{"energy moves in one bar", "a warning", one("| C |", "energy = [1, 2]")},
	{"tempo out of bounds", "20 to 400", "tempo = 19\n" + one("| C |", "tempo = 401")},
	{"looseness out of bounds", "0 to 1", "looseness = 1.5\n" + one("| C |")},
	{"pickup too fine", "no count is that fine", "pickup = 0.123\n" + one("| C |")},
	{"repeat figure out of bounds", "64 at most", one("|: C :|x65")},
	{"too many bars in a chart", "10,000", one("|: C | C | C | C | C | C | C | C | C | C :|x64 |: C | C :|x64 |: " +
		"" + strings.Repeat("C |", 200) + " C :|x64")},

	// Charts.
	{"three chords in four", "how to write it is said", one("| C F G | C |")},
	{"slashes that do not add up", "how to write it is said", one("| C / / / / |")},
	{"too many chords", "more than beats", one("| C D E F G |")},
	{"two chords in three", "how to write it is said", "meter = \"3/4\"\n" + one("| C F |")},
	{"empty bar", "% or N.C.", one("| C | | G |")},
	{"percent first", "nothing to repeat", one("| % | C |")},
	{"percent beside a chord", "it stands alone", one("| C | C % |")},
	{"percent in another meter", "two chords do not fit", one("| C F G Am | (3/4) % |")},
	{"slash first", "nothing to hold", one("| / / / / |")},
	{"repeat without an end", "the opening is shown", one("| C |: F | G |")},
	{"repeat in a repeat", "not nested", one("|: C |: F :| G :|")},
	{"second repeat without a start", "only the first may begin at the front", one("| C :| F :|")},
	{"repeat figure without x", "the x is offered", one("|: C :|3")},
	{"meter sign wrong", "its own place", one("| (2/5) C |")},
	{"meter sign late", "before the chords", one("| C (2/4) |")},
	{"unknown chord", "its own place", one("| C | Hm7 | F |")},
	{"unknown quality", "its own place", one("| C | Cmajj7 | F |")},
	{"chart of nothing", "bars are missing", one("")},
	{"no chords", "nor like", "section \"a\" {\n}\n"},
	{"place in a heredoc", "line and column of the file, in the second line",
		"section \"a\" {\n  chords = <<-EOT\n\t| C | F |\n    | G | Xm |\n  EOT\n}\n"},
	{"windows and a byte-order mark", "the same line and column",
		"\xef\xbb\xbfsection \"a\" {\r\n  chords = <<-EOT\r\n    | C | F |\r\n    | é | Xm |\r\n  EOT\r\n}\r\n"},

	// Places and events.
	{"bar outside", "it is named", one("| C | F |", `fill "3: 3" {}`)},
	{"count outside", "it is named", one("| C | F |", `fill "2: 5" {}`)},
	{"count unknown", "how counts are written is said",
		one("| C | F |", `accent "2+" {}`, `accent "2x" {}`, `accent "x" {}`)},
	{"bars without counts", "a bar is not a count", one("| C | F |", `accent "1-2" {}`)},
	{"rit at one count", "bars, or from count to count", one("| C | F |", `rit "2: 1" { to = 60 }`)},
	{"rit from count to count", "what may be wrong in it", one("| C | F |", `rit "1: 3 - 4" { to = 60 }`,
		`rit "2: 1 - 1: 3" { to = 60 }`, `rit "1: 3 – 2: 1" { to = 60 }`, `accel "1: 3 - 2: 5" { to = 120 }`)},
	{"accel without to", "it must be going somewhere", one("| C | F |", `accel "1: 3 - 2: 4" {}`)},
	{"rit that gets faster", "it is an accel", one("| C | F |", `rit "2" { to = 120 }`)},
	{"accel that gets slower", "it is a rit", one("| C | F |", `accel "1: 3 - 2: 2" { to = 60.5 }`)},
	{"rit that gets faster in one of its passes", "its word is right in the other",
		one("| C | F |", `rit "2" { to = 80 }`) + "form {\n  play \"a\" {}\n  play \"a\" { tempo = 70 }\n}\n"},
	{"accel in a rit", "which tempo?", one("| C | F |", `rit "1-2" { to = 60 }`,
		`accel "2: 3 - 2: 4" { to = 90 }`)},
	{"cue without a text", "it says something", one("| C | F |", `cue "2: 1" {}`)},
	{"cue with an empty text", "it says something", one("| C | F |", `cue "2: 1" { text = " " }`)},
	{"cue with a long text", "100 characters",
		one("| C | F |", `cue "2: 1" { text = "`+strings.Repeat("x", 101)+`" }`)},
	{"cue in every bar", "the bar was forgotten", one("| C | F |", `cue "2" { text = "lights" }`)},
	{"cue at two counts of every bar", "likewise", one("| C | F |", `cue "1 3" { text = "lights" }`)},
	{"text outside a cue", "where it belongs", one("| C | F |", `accent "2: 1" { text = "lights" }`)},
	{"text of a cue without quotes", "it is text", one("| C | F |", `cue "2: 1" { text = lights }`)},
	{"cue twice", "the same words at the same place", one("| C | F |", `cue "2: 1" { text = "lights" }`,
		`cue "2: 1" { text = "lights" }`)},
	{"marker", "what it is called here", one("| C | F |", `marker "2: 1" { text = "lights" }`)},
	{"picture without a rate", "both are said", "picture {\n  start = \"01:00:00:00\"\n}\n" + one("| C |")},
	{"picture without a start", "both are said", "picture {\n  rate = 24\n}\n" + one("| C |")},
	{"picture at no rate", "those there are",
		"picture {\n  rate  = 26\n  start = \"01:00:00:00\"\n}\n" + one("| C |")},
	{"picture with a frame too many", "frames go to 23",
		"picture {\n  rate  = 24\n  start = \"01:00:00:24\"\n}\n" + one("| C |")},
	{"picture that begins with a dropped frame", "the minute begins with 02",
		"picture {\n  rate  = 29.97\n  start = \"01:01:00;00\"\n}\n" + one("| C |")},
	{"semicolon at 24", "no frames are dropped",
		"picture {\n  rate  = 24\n  start = \"01:01:00;00\"\n}\n" + one("| C |")},
	{"time code without a picture", "it needs one",
		one("| C |", "cue \"1: 1\" {\n    text = \"x\"\n    at   = \"01:00:00:00\"\n  }")},
	{"no time", "the two forms", timed("soon")},
	{"seconds over 59", "the minutes that they are", timed("0:84.5")},
	{"dropped frames beside plain ones", "as in the start", picturesque("01:00:04;00")},
	{"time before the song", "the start is bar 1", picturesque("00:59:59:00")},
	{"tempo changed too much", "what would fit is said", picturesque("01:00:04:00")},
	{"tempo changed", "the figure is said", timed("0:09")},
	{"times out of order", "later in the song, earlier in time", one("| C | F |") +
		"form {\n  play \"a\" {}\n  play \"a\" { at = \"0:05\" }\n  play \"a\" { at = \"0:04.9\" }\n}\n"},
	{"time of the first bar", "it is where the time begins", one("| C | F |") +
		"form {\n  play \"a\" { at = \"0:05\" }\n}\n"},
	{"two times for one place", "which one?", one("| C | F |") + "form {\n  play \"a\" {}\n" +
		"  play \"a\" {\n    at = \"0:05\"\n" +
		"    cue \"1: 1\" {\n      text = \"x\"\n      at   = \"0:05.1\"\n    }\n  }\n}\n"},
	{"cue with a time in a section that comes twice", "it belongs in the play",
		one("| C | F |", "cue \"1: 3\" {\n    text = \"x\"\n    at   = \"0:05\"\n  }") +
			"form {\n  play \"a\" {}\n  play \"a\" {}\n}\n"},
	{"time in an accent", "where it belongs", one("| C |", `accent "1: 1" { at = "0:05" }`)},
	{"accel out of bounds", "20 to 400", one("| C | F |", `accel "1-2" { to = 401 }`)},
	{"rit without to", "it must be going somewhere", one("| C | F |", `rit "2" {}`)},
	{"rits that overlap", "which tempo?", one("| C | F |", `rit "1-2" { to = 60 }`, `rit "2" { to = 50 }`)},
	{"rit to the same", "a warning", "tempo = 60.5\n" + one("| C | F |", `rit "1-2" { to = 60.5 }`)},
	{"held too long", "a tempo map has an end", "tempo = 20\n" + one("| C | F |", `hold "2: 4a" { beats = 16 }`)},
	{"event by nobody", "name them", one("| C |", `accent "1" { by = [] }`)},
	{"event of the tacet", "a warning", one("| C |", "tacet = [\"drums\"]", `fill "1: 3" {}`)},
	{"push after the song", "a warning", one("| C |", `push "1: 4&" {}`)},
	{"accent in a stop", "nobody hears it", one("| C | F |", `accent "2: 4" {}`, `stop "2: 3" {}`)},
	{"push in a stop", "nobody hears it", one("| C | F |", `push "1: 4&" {}`, `stop "1: 4" {}`)},
	{"one of two accents in a stop", "bars one by one: the lost place is named",
		one("| C | F |", `accent "1, 2: 4" {}`, `stop "2: 3" {}`)},
	{"push into N.C.", "no chord to bring early", one("| C / / N.C. | F |", `push "1: 3&" {}`)},
	{"push over the border into N.C.", "as inside a section",
		one("| C | F |", `push "2: 4&" {}`) + "section \"b\" {\n  chords = \"| N.C. | C |\"\n}\n"},
	{"push into a pass that its players sit out", "nobody to strike it",
		one("| C | F |", "push \"2: 4&\" { by = [\"bass\"] }") +
			"section \"b\" {\n  chords = \"| C |\"\n  tacet  = [\"bass\"]\n}\n"},
	{"two pushes to one beat", "the first counts", one("| C | F |", `push "1: 4" {}`, `push "1: 4&" {}`)},
	{"accent on N.C.", "bass and piano have no chord", one("| N.C. | F |", `accent "1: 2" { by = ["bass"] }`)},
	{"accent between a push and its beat", "it moves", one("| C | F |", `push "1: 4&" {}`, `accent "1: 4a" {}`)},
	{"fill in a bar of written hits", "the bar is theirs",
		one("| C | F |", `accent "2: 1" { alone = true }`, `fill "2: 3" {}`)},
	{"event twice", "a warning", one("| C |", `accent "1" {}`, `accent "1" {}`)},
	{"stop longer than the section", "a warning", one("| C |", `stop "1: 3" { beats = 4 }`)},
	{"event that no longer fits", "taken over, left out",
		one("| C | F |", `fill "2: 3" {}`) + "section \"b\" {\n  like   = \"a\"\n  chords = \"| G |\"\n}\n"},

	// Form.
	{"empty form", "plays nothing", one("| C |") + "form {\n}\n"},
	{"never played", "a warning", one("| C |") + "section \"b\" {\n  chords = \"| F |\"\n}\nform {\n  play \"a\" " +
		"{}\n}\n"},
	{"lift and key", "one or the other", one("| C |") + "form {\n  play \"a\" {\n    lift = 1\n    key  = \"D\"\n  " +
		"}\n}\n"},
	{"chords in a play", "where they belong is said", one("| C |") + "form {\n  play \"a\" { chords = \"| C |\" " +
		"}\n}\n"},
	{"vocal after the song", "from is a bar of it", "vocal \"v.mid\" { from = 9 }\n" + one("| C |")},
	{"two guides and none leads", "which one is followed must be said", "tempo = \"guide\"\n" +
		"vocal \"a.mid\" { name = \"Nell\" }\nvocal \"b.mid\" { name = \"Tom\" }\n" + one("| C |")},
	{"two guides and both lead", "one band follows one of them",
		"tempo = \"guide\"\n" +
			"vocal \"a.mid\" {\n  name = \"Nell\"\n" +
			"  leads = true\n}\nvocal \"b.mid\" {\n  name = \"Tom\"\n  leads = true\n}\n" + one("| C |")},
	{"a guide that leads nobody", "the tempo says who follows", "vocal \"a.mid\" { leads = true }\n" + one("| C |")},
	{"leads in quotes", "it is true or false", "vocal \"a.mid\" { leads = \"true\" }\n" + one("| C |")},
	{"the guide's tempo without a guide", "the block is offered", one("| C |", "tempo = \"guide\"")},
	{"the trade's words for a free tempo", "all mean the guide's", "tempo = \"Rubato\"\nvocal \"a.mid\" {}\n" +
		one("| C |", "tempo = \"colla  voce\"", "bars \"1\" { tempo = \"Guide\" }")},
	{"tempo words where the guide makes the tempo", "each at its own word", "vocal \"a.mid\" {}\n" +
		one("| C | F | G | C |", "tempo = \"guide\"", "rit \"1\" { to = 60 }", "accel \"2\" { to = 90 }",
			"hold \"3: 1\" {}", "caesura \"4: 1\" {}", "cue \"2: 1\" {\n    text = \"go\"\n    at   = \"0:03\"\n  }")},
	{"a rit in bars that follow the guide", "only there", "vocal \"a.mid\" {}\n" +
		one("| C | F | G | C |", "bars \"3-\" { tempo = \"guide\" }", "rit \"2\" { to = 60 }",
			"rit \"4\" { to = 60 }")},
	{"a play that follows the guide through a rit of its section", "other plays keep it", "vocal \"a.mid\" {}\n" +
		one("| C | F |", "rit \"2\" { to = 60 }", "hold \"1: 1\" {}") +
		"form {\n  play \"a\" {}\n  play \"a\" { tempo = \"guide\" }\n  play \"a\" {\n" +
		"    bars \"2\" { tempo = \"guide\" }\n  }\n}\n"},
	{"a time for a pass that follows the guide", "the guide says when it comes", "vocal \"a.mid\" {}\n" + one("| C |") +
		"form {\n  play \"a\" {}\n  play \"a\" {\n    tempo = \"guide\"\n    at    = \"0:04\"\n  }\n}\n"},
	{"two vocals without names", "nobody can tell who sings", "vocal \"a.mid\" {}\nvocal \"b.mid\" { track = " +
		"\"Alto\" }\n" + one("| C |")},
	{"one vocal of two without a name", "only that one is shown", "vocal \"a.mid\" { name = \"Nell\" }\n" +
		"vocal \"b.mid\" {}\n" + one("| C |")},
	{"two ranges of one singer", "capitals make no other name", "vocal \"a.mid\" {\n  name  = \"Nell\"\n  range = " +
		"[\"A3\", \"D5\"]\n}\nvocal \"b.mid\" {\n  name  = \"nell\"\n  range = [\"A3\", \"E5\"]\n}\n" + one("| C |")},
	{"a file twice of one singer", "in one place", "vocal \"a.mid\" { name = \"Nell\" }\n" +
		"vocal \"a.mid\" { name = \"Nell\" }\n" + one("| C |")},
	{"the same track twice", "two singers need two lines", "vocal \"a.mid\" { name = \"Nell\" }\n" +
		"vocal \"./a.mid\" { name = \"Tom\" }\n" + one("| C |")},
	{"a singer with an empty name", "a name is asked for", "vocal \"a.mid\" { name = \"\" }\n" + one("| C |")},
	{"a name that is no text", "in quotes", "vocal \"a.mid\" { name = Nell }\n" + one("| C |")},
	{"nine singers", "eight are the bound", nineSingers() + one("| C |")},
	{"guide transposed too far", "three octaves are the bound", "vocal \"a.mid\" { transpose = 40 }\n" + one("| C |")},
	{"guide transposed by a half", "semitones are whole", "vocal \"a.mid\" { transpose = 1.5 }\n" + one("| C |")},
	{"rough in quotes", "it is true or false", "vocal \"a.mid\" { rough = \"true\" }\n" + one("| C |")},
	{"a vocal's words at the top", "where they belong is said", "name = \"Lanterns\"\nrough = true\nrange = " +
		"[\"A3\", \"D5\"]\n" + one("| C |")},
	{"transpose in a play", "a lift is meant", one("| C |") + "form {\n  play \"a\" { transpose = 2 }\n}\n"},
	{"a word of the trade for a singer", "the vocal block is offered", "singer \"Nell\" {}\n" + one("| C |")},
	{"range the wrong way round", "turned for the reader",
		"vocal \"v.mid\" { range = [\"D5\", \"A3\"] }\n" + one("| C |")},

	// Files.
	{"file outside", "each way of leaving the folder", "grooves = [\"../a.hcl\", \"/a.hcl\", \"a/../../b\", " +
		"\"c:a\", \"a\\\\b\", \"http://x\", \"\", \"a/\"]\n" + one("| C |")},

	// Many at once.
	{"several", "all in one run, sorted", "tempoo = 1\nkey = \"Q\"\nsection \"a\" {\n  chords = \"| C F G | X |\"\n " +
		" acent \"2\" {}\n}\nform {\n  play \"b\" {}\n}\n"},
}

// timed is a song of two passes, the second of which is to come at a time. As written it comes
// after 10 seconds at 96.
func timed(at string) string {
	return one("| C | F | G | C |") + "form {\n  play \"a\" {}\n  play \"a\" { at = \"" + at + "\" }\n}\n"
}

// picturesque is the same, to a picture.
func picturesque(at string) string {
	return "picture {\n  rate  = 29.97\n  start = \"01:00:00:00\"\n}\n" + timed(at)
}

func TestMistakes(t *testing.T) {
	var b strings.Builder
	for _, m := range mistakes {
		_, diags := build(m.src)
		if len(diags) == 0 {
			t.Errorf("%s (%s): nothing was said", m.name, m.reason)
		}
		fmt.Fprintf(&b, "=== %s: %s\n%s\n", m.name, m.reason, written(m.src, diags))
	}
	golden(t, "testdata/mistakes.txt", b.String())
}

// compare shows the first line that differs.
func compare(t *testing.T, want, got string) {
	t.Helper()
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		var a, b string
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			t.Fatalf("line %d\nwant %q\n got %q", i+1, a, b)
		}
	}
}

// nineSingers are nine vocal blocks, each with a name and a file.
func nineSingers() (src string) {
	for i := range 9 {
		src += fmt.Sprintf("vocal \"%d.mid\" { name = \"%d\" }\n", i, i)
	}
	return src
}
