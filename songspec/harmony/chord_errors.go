package harmony

import (
	"fmt"
	"strconv"
	"strings"
)

func tooLong(s string) error {
	return &SymbolError{Kind: TooLong, Text: s, Length: len(s),
		Reason: fmt.Sprintf("A chord is no longer than %d bytes.", MaxSymbol)}
}

const noRootReason = "A chord begins with a capital letter A to G, or is a Roman numeral, or N.C."

func noRoot(s string) error {
	e := &SymbolError{Kind: NoRoot, Text: s, Length: firstRune(s),
		Reason: noRootReason}
	if up := capital(s); up != "" {
		if _, err := parseEnglish(up); err == nil {
			e.Suggest = up
		}
	} else if strings.HasPrefix(s, "H") {
		e.Reason = germanH
	}
	return e
}

// badSuffix makes the error for a fault in the suffix, which is s[root:end]. When only the
// part after a slash cannot be read, the bass is wrong and not the quality.
func badSuffix(s string, root, end int, f *fault) error {
	e := &SymbolError{Kind: NoQuality, Text: s, Offset: root + f.at, Length: f.length, Reason: f.why}
	if slash := strings.LastIndexByte(s[:end], '/'); slash >= root {
		if c, bad := lookSuffix(s[root:slash]); bad == nil {
			e.Kind, e.Offset, e.Length = NoBass, slash+1, end-slash-1
			e.Reason = "After the slash comes the bass, a capital letter A to G with b or # if it needs one."
			if up := capital(s[slash+1:]); up != "" {
				if _, size := scanName(up); size == len(up) {
					e.Suggest = s[:slash+1] + up
				}
			}
			if other := otherSpellings[s[root:end]]; e.Suggest == "" && other != "" {
				e.Reason = "A suspension is sus2, sus4 or sus24, and after the slash comes the bass."
				e.Suggest = s[:root] + other
			}
			if e.Suggest == "" {
				e.Suggest = degreeBass(s[:root], c, s[slash+1:])
			}
			tone := s[:slash] + s[slash+1:end]
			if e.Suggest != "" && slash > root && strings.ContainsAny(s[slash+1:], "b#") {
				if _, err := parseEnglish(tone); err == nil { // C7/b5 may be either
					e.Reason = fmt.Sprintf("After the slash comes the bass. For the tone in the chord write %s, for "+
						"that note in the bass %s.", tone, e.Suggest)
					e.Suggest = ""
				}
			}
			return e
		}
	}
	if f.why == bareFour {
		e.Suggest = s[:root+f.at] + "sus" + s[root+f.at:]
	} else if near := nearSuffix(s[root:end]); near != "" {
		e.Suggest = s[:root] + near + s[end:]
	} else if f.why == openBracket {
		e.Suggest = s[:end] + map[byte]string{'(': ")", '[': "]"}[s[root+f.at]] + s[end:]
	}
	if _, err := parseEnglish(e.Suggest); err != nil {
		e.Suggest = ""
	}
	return e
}

// degreeBass is the symbol with its bass as a note, C/E for C/3 and C/Bb for C/b7; "" for
// other text, or when the chord has no tone of a degree without a sign.
func degreeBass(root string, c Chord, digits string) string {
	c.Root, _ = scanName(root)
	if alter, signs := oneOrTwo(digits); signs > 0 && len(digits) == signs+1 {
		if d := strings.IndexByte("1234567", digits[signs]); d > 0 {
			if note, ok := c.Root.Up(d, majorScale[d]+alter); ok {
				return root + c.Suffix + "/" + note.String()
			}
		}
		return ""
	}
	for _, t := range c.tones[:c.n] {
		if t.Degree <= 7 && strconv.Itoa(int(t.Degree)) == digits {
			return root + c.Suffix + "/" + c.Spell(t).String()
		}
	}
	return ""
}
