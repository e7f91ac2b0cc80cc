package harmony_test

import (
	"errors"
	"fmt"

	"plinth/songspec/harmony"
)

func ExampleParseChord() {
	c, err := harmony.ParseChord("E♭-7b5/Gb")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c, "with", c.Bass, "in the bass")
	for _, tone := range c.Tones() {
		fmt.Print(c.Spell(tone), " ")
	}
	// Output:
	// Ebm7b5/Gb with Gb in the bass
	// Eb Gb Bbb Db
}

func ExampleSymbolError() {
	_, err := harmony.ParseChord("Fism7")
	var e *harmony.SymbolError
	if errors.As(err, &e) {
		fmt.Println(e.Reason)
		fmt.Printf("%q is wrong, write %q\n", e.Text[e.Offset:e.Offset+e.Length], e.Suggest)
	}
	// Output:
	// The German Fis is F# here, H is B, and B is Bb.
	// "Fis" is wrong, write "F#m7"
}

func ExampleParseNumeral() {
	key, _ := harmony.ParseKey("Eb major")
	for _, numeral := range []string{"IVmaj7", "bVI", "V7/V", "I/5"} {
		c, err := harmony.ParseNumeral(numeral, key)
		fmt.Println(numeral, c, err)
	}
	// Output:
	// IVmaj7 Abmaj7 <nil>
	// bVI Cb <nil>
	// V7/V F7 <nil>
	// I/5 Eb/Bb <nil>
}

func ExampleParseKey() {
	key, err := harmony.ParseKey("Cm")
	fmt.Println(key, key.Fifths(), err)
	fmt.Println(key.Transpose(2), key.Scale())
	_, err = harmony.ParseKey("G# major")
	fmt.Println(err)
	// Output:
	// C minor -3 <nil>
	// D minor [C D Eb F G Ab Bb]
	// "G# major": G# major would need 8 sharps, and a signature has at most 7. Write "Ab major".
}
