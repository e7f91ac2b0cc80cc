package harmony

import "strings"

// Charts in numbers (1 4 5-, 1/3) are not read. In them a figure after a slash is a degree
// of the key, here it is one of the chord: their 5/7 is our V/3. Whoever writes numbers is
// told the numeral.

// numbered is the error for a chord in numbers, nil for any other text.
func numbered(s string, k Key) *SymbolError {
	_, signs := accidentals(s)
	if signs == len(s) || s[signs] < '1' || s[signs] > '7' || signs > 0 && strings.ContainsAny(s[:signs], "𝄫𝄪") {
		return nil
	}
	e := &SymbolError{Kind: NoRoot, Text: s, Length: len(s),
		Reason: "A number is written as a Roman numeral, small for minor: 1 is I, 6- is vi, 57 is V7."}
	head, bass := s[signs+1:], ""
	if i := strings.LastIndexByte(head, '/'); i >= 0 && head[i+1:] != "9" {
		head, bass = head[:i], head[i+1:]
		e.Reason = "A number is written as a Roman numeral, and the bass as a degree of its own chord: 1/3 is I/3, " +
			"and 5/7 is V/3."
	}
	if signs == 0 && len(s) == 3 && (bass == "4" || bass == "8") { // as likely a meter without its brackets
		e.Reason += " A meter stands in brackets, in front of the bar's chords: (" + s + ")."
		return e
	}
	roman := romans[s[signs]-'1']
	major := strings.HasPrefix(head, "maj") || strings.HasPrefix(head, "ma7")
	if !major && (strings.HasPrefix(head, "-") || strings.HasPrefix(head, "m")) {
		roman, head = strings.ToLower(roman), head[1:]
	}
	if strings.HasPrefix(head, "o") || strings.HasPrefix(head, "°") || strings.HasPrefix(head, "dim") ||
		strings.HasPrefix(head, "ø") {
		roman = strings.ToLower(roman)
	}
	try := s[:signs] + roman + head
	if bass != "" {
		c, err := readNumeral(try, k)
		if err != nil {
			return e
		}
		low, took := accidental(bass)
		if len(bass) != took+1 || bass[took] < '1' || bass[took] > '7' {
			return e
		}
		degree := int(bass[took] - '1')
		note, ok := k.Tonic.Up(degree, majorScale[degree]+low)
		if !ok {
			return e
		}
		if note != c.Root {
			_, try = overBass(try, c, note, k)
		}
	}
	if _, err := readNumeral(try, k); try != "" && err == nil {
		e.Suggest = try
	}
	return e
}
