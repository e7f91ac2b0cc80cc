package harmony

import (
	"cmp"
	"strings"
	"sync"
)

// Symbols in other tongues are not read: B is one note in Leipzig and another in London,
// and Do is a diminished D. The tables below translate them, and whoever writes them is
// told the English symbol. Common practice of those countries, no single source.

// Tongue is where a word for a note comes from.
type Tongue uint8

// The tongues. The first two are English: a letter, perhaps a small one, and a letter
// with a word for its sign, also a Romance word.
const (
	letter Tongue = iota
	worded
	German // and Dutch
	Solfege
)

// alias is a word for a note, or for its sign, with its English spelling.
type alias struct {
	written, spelled string
	from             Tongue
}

var notes = []alias{
	{"c", "C", letter}, {"d", "D", letter}, {"e", "E", letter}, {"f", "F", letter}, {"g", "G", letter},
	{"a", "A", letter}, {"b", "B", letter}, {"h", "B", German}, {"as", "Ab", German}, {"es", "Eb", German},
	{"do", "C", Solfege}, {"ut", "C", Solfege}, {"re", "D", Solfege}, {"ré", "D", Solfege}, {"mi", "E", Solfege},
	{"fa", "F", Solfege}, {"sol", "G", Solfege}, {"la", "A", Solfege}, {"si", "B", Solfege},
	{"dó", "C", Solfege}, {"fá", "F", Solfege}, {"lá", "A", Solfege},
}

// signs follow a note. A long word may have a blank or a hyphen before it.
var signs = []alias{
	{"", "", letter}, {"b", "b", letter}, {"#", "#", letter}, {"♭", "b", letter}, {"♯", "#", letter},
	{"bb", "bb", letter}, {"##", "##", letter}, {" b", "b", worded}, {" #", "#", worded},
	{"es", "b", German}, {"eses", "bb", German}, {"is", "#", German}, {"isis", "##", German},
	{"flat", "b", worded}, {"bemol", "b", worded}, {"bémol", "b", worded}, {"bemolle", "b", worded},
	{"sharp", "#", worded}, {"dièse", "#", worded}, {"diesis", "#", worded}, {"sostenido", "#", worded},
}

// modes are words for minor and major, and for the church modes by their third.
var modes = map[string]string{
	"minor": "m", "moll": "m", "mol": "m", "minore": "m", "mineur": "m", "menor": "m", "min": "m",
	"major": "", "dur": "", "maggiore": "", "majeur": "", "mayor": "", "maior": "", "maj": "",
	"dorian": "m", "dorisch": "m", "phrygian": "m", "phrygisch": "m", "locrian": "m",
	"aeolian": "m", "äolisch": "m", "aeolisch": "m",
	"ionian": "", "ionisch": "", "lydian": "", "lydisch": "", "mixolydian": "", "mixolydisch": "",
}

// noteWords are all notes with all signs, by how they are written in small letters.
var noteWords = sync.OnceValue(func() map[string]alias {
	all := map[string]alias{}
	for _, n := range notes {
		for _, s := range signs {
			a := alias{spelled: n.spelled + s.spelled, from: max(n.from, s.from)}
			if _, err := ParseName(a.spelled); err != nil {
				continue
			}
			all[n.written+s.written] = a
			if len(s.written) > 2 && s.from == worded {
				all[n.written+" "+s.written], all[n.written+"-"+s.written] = a, a
			}
		}
	}
	return all
})

// noteWord is s as a word for a note; spelled is "" if it is none.
func noteWord(s string) alias {
	a := noteWords()[strings.ToLower(s)]
	a.written = s
	return a
}

// English is the English name of a note in another tongue or with a small letter; "" if s is
// no note.
func English(s string) string { return noteWord(s).spelled }

// translate takes a note's name from the start of s, the longest one after which the rest can
// be read as a quality, and returns that quality in English. If the rest can never be read,
// ok is false, and the note is the longest one there is.
func translate(s string, reads func(quality string) bool) (note alias, quality string, ok bool) {
	for size := len(s); size > 0; size-- {
		n, rest := noteWord(s[:size]), s[size:]
		mode, isMode := modes[strings.ToLower(strings.TrimLeft(rest, " -"))]
		switch {
		case n.spelled == "":
		case rest == "" && n.from == German && s[0] >= 'a':
			return n, "m", true // where H is a note, small letters are minor
		case reads(rest):
			return n, rest, true
		case isMode:
			return n, mode, true
		case note.spelled == "":
			note, quality = n, rest
		}
	}
	return note, quality, false
}

const germanH = "The German H is B here, and B is Bb."

// why is a sentence that says how a note is written here.
func (a alias) why() string {
	switch {
	case a.from == Solfege:
		return "Do, re, mi, fa, sol, la, si are C, D, E, F, G, A, B here."
	case strings.EqualFold(a.written, "h"):
		return germanH
	case a.from == German:
		return "The German " + a.written + " is " + a.spelled + " here, H is B, and B is Bb."
	case a.from == worded:
		return "A note is a capital letter with b or # if it needs one."
	}
	return "A chord begins with a capital letter, and an m makes it minor: " + a.spelled + "m."
}

// foreignChord is the error for a chord that the tables can translate, nil for any other.
func foreignChord(s string) *SymbolError {
	body, slash, bass := s, "", ""
	if i := strings.LastIndexByte(s, '/'); i > 0 {
		body, slash, bass = s[:i], "/", s[i+1:]
	}
	root, quality, ok := translate(body, suffixReads)
	low := noteWord(bass)
	if _, size := scanName(body); size > 0 && suffixReads(body[size:]) &&
		(root.from != Solfege || low.from != Solfege) {
		root, quality = alias{body[:size], body[:size], letter}, body[size:] // Do is English, but not over La
	}
	e := &SymbolError{Kind: NoRoot, Text: s, Length: len(root.written), Reason: root.why(),
		Tongue: max(root.from, low.from)}
	switch isRight := root.spelled+quality == body; {
	case isRight && low.from == letter:
		return nil
	case isRight:
		e.Kind, e.Offset, e.Length, e.Reason = NoBass, len(body)+1, len(bass), low.why()
	case root.from == letter && s[0] < 'a' && quality != body[len(root.written):]: // C moll: a right root
		e.Kind, e.Offset, e.Length = NoQuality, len(root.written), len(body)-len(root.written)
		e.Reason = "Minor is a small m here, and major nothing at all."
	case root.from == letter:
		e.Length = 1
		if strings.HasPrefix(quality, "m") {
			e.Reason = noRootReason
		}
	}
	for _, n := range [...]*alias{&root, &low} {
		if e.Tongue == German && n.from == letter && n.spelled == "B" {
			n.spelled = "Bb" // beside a German name a B is the German one
		}
	}
	e.Suggest = root.spelled + quality + slash + cmp.Or(low.spelled, bass)
	if _, err := parseEnglish(e.Suggest); err != nil {
		e.Suggest = ""
		if root.from == letter || !ok && (root.from != German || len(root.written) == 1) {
			return nil
		}
	}
	return e
}

// suffixReads reports whether s is a chord suffix.
func suffixReads(s string) bool {
	_, f := lookSuffix(s)
	return f == nil
}

// foreignKey is the error for a key that the tables can translate, nil for any other.
func foreignKey(s string) *SymbolError {
	text := strings.TrimSpace(s)
	tonic, mode, ok := translate(text, func(mode string) bool {
		_, err := parseKey("C" + mode)
		return err == nil
	})
	rest := text[len(tonic.written):]
	small := tonic.from == letter && rest == "" && tonic.written != tonic.spelled
	if !ok || tonic.from == letter && mode == rest && !small {
		return nil // no key in any tongue, or an English one with another mistake
	}
	e := &SymbolError{Kind: NoKey, Text: s, Offset: strings.Index(s, text), Length: len(text),
		Reason: `A key has its English name here: "Eb major", "C minor", "Eb", "Cm".`}
	word := strings.ToLower(strings.Trim(rest, " -"))
	switch {
	case small:
		e.Reason = `A key begins with a capital letter, and an m makes it minor: "` + tonic.spelled + `" or "` +
			tonic.spelled + `m".`
		return e
	case strings.HasSuffix(word, "ian") || strings.HasSuffix(word, "isch"):
		e.Reason = "A key is major or minor here; the chords say what else is in a mode."
	case (word == "dur" || word == "moll") && strings.EqualFold(tonic.written, "b"):
		tonic.spelled = "Bb" // the German B
	}
	if tonic.from == letter && tonic.written == tonic.spelled { // only the mode is wrong
		e.Offset, e.Length = e.Offset+len(text)-len(word), len(word)
	}
	k, err := parseKey(tonic.spelled + " " + mode)
	if e.Suggest = k.String(); err != nil {
		e.Suggest = err.Suggest // the same key by a name with a signature
	}
	return e
}
