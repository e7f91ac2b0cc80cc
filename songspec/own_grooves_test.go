package songspec

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestOwnGrooves: what is said to a song whose own groove is not called what the
// song calls it. The grooves stand in files beside the song songs/t.song.hcl.
func TestOwnGrooves(t *testing.T) {
	for _, c := range []struct {
		name, reason string
		song         string
		own          map[string]string // groove: file
		at           int               // line of the only message; 0 for none
		says         string
	}{
		{"not renamed", "the file was copied from a waltz",
			"grooves = [\"my-waltz.groove.hcl\"]\nmeter = \"3/4\"\nfeel = \"my-waltz\"\n",
			map[string]string{"waltz": "my-waltz.groove.hcl"}, 3,
			`"my-waltz.groove.hcl" holds the groove "waltz". A feel is the groove's name, not its file's: write ` +
				`feel = "waltz", or rename the groove in its file.`},
		{"the file's name with its end", "likewise", "grooves = [\"g/my-waltz.groove.hcl\"]\nmeter = \"3/4\"\nfeel " +
			"= \"my-waltz.groove.hcl\"\n",
			map[string]string{"ferry": "g/my-waltz.groove.hcl"}, 3, `write feel = "ferry"`},
		{"misspelt", "the nearest, wherever it comes from", "grooves = [\"a.hcl\"]\nfeel = \"fery\"\n",
			map[string]string{"ferry": "a.hcl"}, 2, `Is it "ferry"?`},
		{"quite another name", "all that the file offers", "grooves = [\"a.hcl\"]\nfeel = \"boat\"\n",
			map[string]string{"mill": "a.hcl", "weir": "a.hcl"}, 2, `"a.hcl" holds the grooves "mill" and "weir".`},
		{"no file", "where it would be named", "feel = \"boat\"\n", nil, 1, `grooves = ["mine.groove.hcl"]`},
		{"renamed, but not in the song", "the built-in one is played, silently",
			"grooves = [\"a.hcl\"]\nmeter = \"3/4\"\nfeel = \"waltz\"\n",
			map[string]string{"my-waltz": "a.hcl"}, 1, `"a.hcl" holds the groove "my-waltz". Write feel = ` +
				`"my-waltz" where it is to be played.`},
		{"in place of a built-in one", "that is allowed", "grooves = [\"a.hcl\"]\nmeter = \"3/4\"\nfeel = \"waltz\"\n",
			map[string]string{"waltz": "a.hcl"}, 0, ""},
		{"one of two", "the other may wait", "grooves = [\"a.hcl\"]\nfeel = \"mill\"\n",
			map[string]string{"mill": "a.hcl", "weir": "a.hcl"}, 0, ""},
		{"fills alone", "no groove is in the file", "grooves = [\"a.hcl\"]\n", nil, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			name := filepath.Join("songs", "t.song.hcl")
			f, diags := Parse(name, []byte(c.song+one("| C |")))
			if len(diags) > 0 {
				t.Fatal(diags)
			}
			e := env()
			for g, file := range c.own {
				e.Feels[g] = FeelInfo{Meters: e.Feels[g].Meters, File: filepath.Join("songs", filepath.FromSlash(file))}
			}
			_, diags = f.Resolve(e)
			switch {
			case c.at == 0 && len(diags) == 0:
			case len(diags) != 1 || diags[0].Subject.Start.Line != c.at || !strings.Contains(diags[0].Detail, c.says):
				t.Errorf("%v, want %q on line %d (%s)", diags, c.says, c.at, c.reason)
			}
		})
	}
}
