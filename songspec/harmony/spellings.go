package harmony

// commonSpellings are the suffixes that charts use most, the most frequent first. They are
// read without parsing, and suggested for a suffix that is nearly one of them.
var commonSpellings = []string{
	"", "m", "7", "m7", "maj7", "sus4", "sus2", "sus", "dim", "m7b5", "dim7", "6", "m6", "9", "m9", "maj9", "add9",
	"madd9", "7sus4", "9sus4", "13", "aug", "5", "7b9", "7#9", "7b5", "7#5", "7#11", "maj7#11", "6/9", "m6/9",
	"m11", "11", "13sus4", "m13", "maj13", "7alt", "m(maj7)", "add2", "madd2", "add4", "7sus2", "7sus", "9sus",
	"13sus", "13b9", "13#11", "9#11", "9b5", "9#5", "7b13", "7b9#9", "7b9#11", "7#9#11", "7b9#5", "7#5b9", "7#9#5",
	"7#5#9", "7b9b13", "7#9b13", "7b9sus4", "7sus4b9", "maj7#5", "maj7b5", "maj9#11", "maj13#11", "m7b9", "m9b5",
	"m7#5", "m#5", "m7add11", "m7sus4", "maj7sus4", "M7", "Maj7", "ma7", "Δ", "Δ7", "^7", "M9", "min", "min7",
	"mi7", "-", "-7", "-9", "-7b5", "mi", "maj", "M", "ø", "ø7", "°", "°7", "o", "o7", "+", "+7", "7+", "aug7",
	"mM7", "mMaj7", "mmaj7", "69", "m69", "6add9", "2", "7(b9)", "7(#9)", "7(#11)", "7(b13)", "7(b5)", "7(#5)",
	"7no5", "7no3", "no3", "no5", "(add9)", "m(add9)", "m7(b5)", "maj7(#11)", "(b5)", "m7(11)", "m7(9)", "7(13)",
	"sus24", "7M", "m7M", "7M(9)", "7/9", "7/13", "m7/9", "m7/11", "7sus13", "m9(maj7)", "6(maj7)", "13(no9)",
}

// otherSpellings are suffixes of other countries: j for major, and figures for a
// suspension; and mj, which is short for major. Common practice of German, Dutch and French charts, no single source.
var otherSpellings = map[string]string{
	"j": "maj7", "j7": "maj7", "j9": "maj9", "7j": "maj7", "9j": "maj9",
	"mj": "maj", "mj7": "maj7", "mj9": "maj9", "Mj7": "maj7", "Mj9": "maj9",
	"4/7": "7sus4", "7/4": "7sus4", "4/9": "9sus4", "9/4": "9sus4", "sus2/4": "sus24",
}
