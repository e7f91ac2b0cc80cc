package midi

import (
	"testing"
	"unicode/utf8"
)

var texts = []struct{ name, in, want string }{
	{"plain text stays", "Lanterns on the Weir", "Lanterns on the Weir"},
	{"marks come off", "Café à l'été", "Cafe a l'ete"},
	{"marks that stand apart", "Cafe\u0301", "Cafe"},
	{"accidentals of Unicode", "Song in E♭ and F♯", "Song in Eb and F#"},
	{"letters that Unicode keeps whole", "Ødegård, Łódź, Straße, œuvre", "Odegard, Lodz, Strasse, oeuvre"},
	{"quotation marks and dashes", "“Home” — it’s far…", `"Home" - it's far...`},
	{"compatibility forms", "½ time №2 ﬁne", "1/2 time No2 fine"},
	{"control characters and blanks", " a\tb\r\n c\x00d ", "a b c d"},
	{"what has no plain form", "verse 歌", "verse ?"},
	{"nothing left", "歌", "fallback"},
	{"signs alone", "***", "fallback"},
	{"empty", "", "fallback"},
	{"broken UTF-8", "verse \xff", "verse ?"},
}

func TestASCII(t *testing.T) {
	for _, row := range texts {
		if got := toASCII(row.in, "fallback"); got != row.want {
			t.Errorf("%s: %q, expected %q", row.name, got, row.want)
		}
	}
}

// Any text becomes printable ASCII without outer blanks, which toASCII then leaves as it is.
func FuzzASCII(f *testing.F) {
	for _, row := range texts {
		f.Add(row.in)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := toASCII(s, "song")
		for i := 0; i < len(got); i++ {
			if got[i] < ' ' || got[i] >= utf8.RuneSelf-1 {
				t.Fatalf("%q gives %q", s, got)
			}
		}
		if again := toASCII(got, "song"); again != got || got == "" || got[0] == ' ' || got[len(got)-1] == ' ' {
			t.Fatalf("%q gives %q, and that %q", s, got, again)
		}
	})
}
