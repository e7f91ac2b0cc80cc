package library

import (
	"fmt"
	"strings"
	"testing"

	"plinth/groove/feel"
)

// The words and signs of groove files are data: people have files that use them. This is
// all of them in one file, and each voice of the kit in a level and a fill of its own.
func TestWordsOfGrooveFilesAreFrozen(t *testing.T) {
	voices := strings.Fields("crash ride_bell ride hat_open hat tambourine maracas cabasa claves cowbell triangle " +
		"clap tap slap sweep cross_stick snare tom_high tom_mid tom_low kick hat_foot")
	level := func(energy int, voice, signs string) string {
		return fmt.Sprintf("level %q {\n%s = %q\nbass = \"%s\"\ncomp = \"%s\"\nvoices = 3\ncentre = \"C4\"\n"+
			"answer {\nwithout = [%q]\nbass = \"1=======\"\ncomp = \"x===u===|r=======\"\n}\n}\n",
			fmt.Sprint(energy), voice, signs, "1-3-5-7-|8-a-w-g=", "x-X-s-1-|2-3-4-5l", voice)
	}
	for _, voice := range voices {
		signs, word := "-xXgsfd-", "two of it"
		if voice == "sweep" {
			signs = "-xXgs~~-"
		}
		src := fmt.Sprintf(`groove "frozen" {
about = "every word"
meter = ["4/4", "2/2"]
tempo = [60, 90]
grid = 8
kit = "brushes"
fills = "mine"
swing = "tempo"
swing_unit = "eighth"
syncopation = 30
changes = "ahead"
lag {
%s = 5
bass = -3
piano = 2
}
`, voice)
		for energy := 1; energy <= 4; energy++ {
			src += level(energy, voice, signs)
		}
		src += "level \"5\" {\nfrom = \"4\"\n}\n"
		src += fmt.Sprintf("}\nfills \"mine\" {\ngrid = 4\nfill %q {\ncolour = 5\nenergy = [1, 5]\n%s = "+
			"\"-xXg\"\n}\n}\n",
			word, voice)
		feels, fills, diags := Decode("frozen.hcl", []byte(src))
		if diags.HasErrors() || len(feels) != 1 || len(fills) != 1 {
			t.Fatalf("%s: %v\n%s", voice, diags, src)
		}
		v := feels[0].Levels[2].Drums[0].Voice
		if v.Word != voice || fills[0].Rows[0].Voice != v || feels[0].LagMS[voice] != 5 {
			t.Errorf("%s is read as %s", voice, v.Word)
		}
	}
	if n := len(feel.Voices()); n != len(voices) {
		t.Errorf("%d voices, and %d of them are held here", n, len(voices))
	}
}
