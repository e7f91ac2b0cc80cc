package harmony

import "strings"

// Names of notes in other tongues: German and Dutch (Es, Fis, H), solfège (Mib,
// Fa#) and English in words (E flat). They are not read, since B is one note in
// Leipzig and another in London, and Do a diminished D; but whoever writes them is
// told the English name. The names are common practice of those countries, no
// single source.

// tongue is where a name comes from.
type tongue uint8

const (
	english tongue = iota // in words, or with a small letter
	german
	solfege
)

// foreign is a note's name in another tongue.
type foreign struct {
	name  Name
	size  int
	from  tongue
	small bool // with a small first letter, which in German says minor
	plain bool // an English letter, perhaps a small one
}

var solfegeNames = []struct {
	word string
	step int8
}{{"do", 0}, {"ut", 0}, {"ré", 1}, {"re", 1}, {"mi", 2}, {"fa", 3}, {"sol", 4}, {"la", 5}, {"si", 6}}

// scanForeign reads a note's name at the start of s, a plain English one with a
// small letter among them; ok is false when there is none.
func scanForeign(s string) (f foreign, ok bool) {
	if s == "" {
		return f, false
	}
	low := strings.ToLower(s)
	if len(low) != len(s) {
		return f, false // a letter that changes its length: no name
	}
	f.small = s[0] >= 'a' && s[0] <= 'z'
	for _, n := range solfegeNames {
		if strings.HasPrefix(low, n.word) {
			f.name, f.size, f.from = Name{Step: n.step}, len(n.word), solfege
			f.accidental(s)
			return f, true
		}
	}
	step := stepOf(strings.ToUpper(s[:1])[0])
	switch {
	case low[0] == 'h':
		step, f.from = 6, german
	case step < 0:
		return f, false
	}
	f.name, f.size = Name{Step: int8(step)}, 1
	rest := low[1:]
	for _, end := range [...]struct {
		text  string
		alter int8
	}{{"isis", 2}, {"eses", -2}, {"ses", -2}, {"is", 1}, {"es", -1}, {"s", -1}} {
		if !strings.HasPrefix(rest, end.text) || end.text[0] == 's' && low[0] != 'a' && low[0] != 'e' {
			continue
		}
		f.name.Alter, f.size, f.from = end.alter, 1+len(end.text), german
		return f, true
	}
	f.plain = low[0] != 'h'
	f.accidental(s)
	return f, true
}

// accidental takes the signs or words after a name: b, #, flat, bemol.
func (f *foreign) accidental(s string) {
	if n, size := scanName("C" + s[f.size:]); size > 1 {
		f.name.Alter, f.size = n.Alter, f.size+size-1
		return
	}
	rest := strings.ToLower(s[f.size:])
	for _, w := range [...]struct {
		text  string
		alter int8
	}{{"flat", -1}, {"sharp", 1}, {"bemolle", -1}, {"bemol", -1}, {"bémol", -1}, {"diesis", 1}, {"dièse", 1}, {"sostenido", 1}, {"b", -1}, {"#", 1}} {
		trimmed := strings.TrimLeft(rest, " -")
		if strings.HasPrefix(trimmed, w.text) && (len(w.text) > 1 || len(trimmed) == 1 || trimmed[1] == ' ') {
			f.name.Alter, f.size = w.alter, f.size+len(rest)-len(trimmed)+len(w.text)
			f.plain = false
			return
		}
	}
}

// English is the English name of a note in another tongue, or with a small letter,
// "" for what is none.
func English(s string) string {
	if f, ok := scanForeign(s); ok && f.size == len(s) {
		return f.name.String()
	}
	return ""
}

// Tongues says of a chord symbol whether a note in it has a German name or one of
// solfège, for symbols that are not read.
func Tongues(s string) (isGerman, isSolfege bool) {
	for i, part := range strings.Split(s, "/") {
		f, ok := scanForeign(part)
		if !ok || f.plain || i > 0 && f.size < len(part) {
			continue
		}
		isGerman, isSolfege = isGerman || f.from == german, isSolfege || f.from == solfege
	}
	return isGerman, isSolfege
}

// says is a sentence about a name that stands in s.
func (f foreign) says(s string) string {
	word := s[:f.size]
	switch {
	case f.from == solfege:
		return "Do, re, mi, fa, sol, la, si are C, D, E, F, G, A, B here."
	case f.from == german && (word == "H" || word == "h"):
		return "The German H is B here, and B is Bb."
	case f.from == german:
		return "The German " + word + " is " + f.name.String() + " here, H is B, and B is Bb."
	}
	return "A note is a capital letter with b or # if it needs one."
}

// foreignChord is the error of a chord with a name of another tongue in it, nil
// where there is none.
func foreignChord(s string) *SymbolError {
	body, bass, slash := s, "", strings.LastIndexByte(s, '/')
	if slash > 0 {
		body, bass = s[:slash], s[slash+1:]
	}
	e := &SymbolError{Kind: NoRoot, Text: s}
	root, inRoot := scanForeign(body)
	written, lost := "", false // lost: what follows the root is no quality
	if _, size := scanName(body); size > 0 && suffixReads(body[size:]) {
		written, inRoot = body, false
	} else if inRoot {
		quality := modeWord(body[root.size:])
		if !suffixReads(quality) {
			inRoot, quality, lost = root.from == german && root.size > 1, "", true
		}
		if root.from == german && root.small && quality == "" {
			quality = "m" // where H is a note, small letters are minor
		}
		written = root.name.String() + quality
		if inRoot && root.plain && !root.small {
			inRoot = quality != body[root.size:] // C moll
		}
	}
	low, inBass := scanForeign(bass)
	inBass = inBass && low.size == len(bass)
	if _, size := scanName(bass); size > 0 && size == len(bass) || bass == "" {
		inBass = false
	} else if inBass {
		bass = low.name.String()
	}
	// Beside a German name a B is the German one.
	if inRoot && root.from == german && bass == "B" {
		bass = "Bb"
	}
	if inBass && low.from == german && strings.HasPrefix(written, "B") && root.plain && root.name.Alter == 0 {
		written = "Bb" + written[1:]
	}
	switch {
	case inRoot:
		e.Length = root.size
		e.Reason = root.says(body)
		if root.plain {
			e.Length = firstRune(s)
			if root.small {
				e.Reason = "A chord begins with a capital letter A to G, or is a Roman numeral, or N.C."
				if !strings.HasPrefix(written[len(root.name.String()):], "m") {
					e.Reason = "A chord begins with a capital letter, and an m makes it minor: " + root.name.String() + "m."
				}
			} else {
				e.Kind, e.Offset, e.Length = NoQuality, root.size, len(body)-root.size
				e.Reason = "Minor is a small m here, and major nothing at all."
			}
		}
	case inBass && written != "":
		e.Kind, e.Offset, e.Length = NoBass, slash+1, len(s)-slash-1
		e.Reason = low.says(s[slash+1:])
		if low.plain {
			e.Reason = "After the slash comes the bass, a capital letter A to G with b or # if it needs one."
		}
	default:
		return nil
	}
	try := written
	if slash > 0 {
		try += "/" + bass
	}
	if _, fault := parseEnglish(try); fault == nil && try != s && !lost {
		e.Suggest = try
	} else if root.plain {
		return nil
	}
	return e
}

func suffixReads(s string) bool {
	_, fault, _, _ := lookSuffix(s)
	return fault == ""
}

// modeWord is the quality that a word for minor or major at the end of a name is.
func modeWord(s string) string {
	low := strings.ToLower(strings.TrimLeft(s, " -"))
	switch mode, ok := modes[low]; {
	case !ok:
		return s
	case mode:
		return "m"
	}
	return ""
}

// modes are the words for minor (true) and major in several tongues, and the third
// of the church modes.
var modes = map[string]bool{
	"minor": true, "moll": true, "mol": true, "minore": true, "mineur": true, "menor": true, "min": true, "m": true,
	"major": false, "dur": false, "maggiore": false, "majeur": false, "mayor": false, "maior": false, "maj": false,
	"dorian": true, "dorisch": true, "phrygian": true, "phrygisch": true, "aeolian": true, "äolisch": true, "aeolisch": true, "locrian": true,
	"ionian": false, "ionisch": false, "lydian": false, "lydisch": false, "mixolydian": false, "mixolydisch": false,
}

// foreignKey is the error of a key in other words, nil for what is none.
func foreignKey(s string) *SymbolError {
	text := strings.TrimSpace(s)
	f, ok := scanForeign(text)
	if !ok {
		return nil
	}
	word := strings.ToLower(strings.Trim(text[f.size:], " -"))
	minor, known := modes[word]
	if word == "" {
		known, minor = true, f.small && f.from == german
	}
	english := word == "" || word == "m" || word == "min" || word == "maj" || word == "minor" || word == "major"
	if !known || f.plain && !f.small && english {
		return nil // no key in any tongue, or an English one with another mistake
	}
	e := &SymbolError{Kind: NoKey, Text: s, Offset: strings.Index(s, text), Length: len(text),
		Reason: `A key has its English name here: "Eb major", "C minor", "Eb", "Cm".`}
	name := f.name
	if f.plain && !f.small { // the tonic is right
		e.Offset, e.Length = e.Offset+len(text)-len(word), len(word)
	}
	switch {
	case word == "dur" || word == "moll":
		if text[0]|0x20 == 'b' && f.size == 1 {
			name.Alter = -1 // the German B
			e.Offset, e.Length = strings.Index(s, text), len(text)
		}
	case strings.HasSuffix(word, "ian") || strings.HasSuffix(word, "isch"):
		e.Reason = "A key is major or minor here; the chords say what else is in a mode."
	case word == "" && f.plain && f.small:
		e.Reason = `A key begins with a capital letter, and an m makes it minor: "` + name.String() + `" or "` + name.String() + `m".`
		return e
	case f.plain && f.small:
		e.Reason = `A key is a capital letter with b or # if it needs one, then major or minor: "Eb major", "C minor", "Eb", "Cm".`
	}
	k, err := parseKey(Key{Tonic: name, Minor: minor}.String())
	if err != nil {
		e.Suggest = err.Suggest // the same key by a name with a signature
		return e
	}
	e.Suggest = k.String()
	return e
}
