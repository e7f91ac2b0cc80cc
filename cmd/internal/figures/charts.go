package main

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"

	"plinth/groove/library"
	"plinth/songspec/meter"
)

// progression says which chords may follow a chord, a likelier one more than once.
type progression map[string][]string

// major and minor are functional harmony in numerals: common practice, no single source.
var major = progression{
	"I":      {"IV", "IV", "vi", "vi", "V", "V", "ii", "V/3", "iii", "I/3"},
	"I/3":    {"IV", "ii"},
	"V/3":    {"vi", "vi", "I"},
	"ii":     {"V", "V", "V7sus4", "IV"},
	"ii7":    {"V7", "V"},
	"iii":    {"vi", "IV"},
	"IV":     {"I", "I/3", "V", "V", "ii7", "iv"},
	"iv":     {"I"},
	"V":      {"I", "I", "vi", "IV"},
	"V7":     {"I", "vi"},
	"V7sus4": {"V7", "I"},
	"vi":     {"IV", "IV", "ii", "V", "V7/V"},
	"V7/V":   {"V", "ii7"},
}

var minor = progression{
	"i":    {"iv", "bVI", "bVI", "bVII", "V7", "bIII"},
	"iv":   {"V7", "i", "bVII", "i"},
	"bIII": {"bVI", "bVII", "iv"},
	"bVI":  {"bVII", "bVII", "bIII", "iv", "V7"},
	"bVII": {"i", "bIII", "bVI"},
	"V7":   {"i", "i", "bVI"},
}

// changeOnOne and changeOnThree are how often in a hundred a pop chart's chord changes on
// the first and on the third beat of a bar.
const changeOnOne, changeOnThree = 65, 28

// chart writes one song of our own.
type chart struct {
	r     *rand.Rand
	b     strings.Builder
	next  progression
	home  string
	meter meter.Meter
}

func pick[T any](r *rand.Rand, from ...T) T { return from[r.Intn(len(from))] }

func (c *chart) line(format string, args ...any) { fmt.Fprintf(&c.b, format+"\n", args...) }

// chartText is the text of a song in a feel: verse, chorus and bridge over a functional
// progression, verse and chorus played again at the same energy and at others, and a close
// that comes to rest, after a rit in every third song. Accents and a push stand in the
// bridge alone.
func chartText(r *rand.Rand, feel library.Entry) string {
	c := &chart{r: r, meter: meter.Common, next: major, home: "I"}
	if m := feel.ParsedMeters(); len(m) > 0 {
		c.meter = m[0]
	}
	key := pick(r, "C", "Eb", "G", "A", "F", "Bb", "D", "E")
	if r.Intn(3) == 0 {
		c.next, c.home, key = minor, "i", pick(r, "Am", "Cm", "Em", "Fm", "Gm", "Dm", "Bm")
	}
	tempo := feel.TempoLow + r.Intn(feel.TempoHigh-feel.TempoLow+1)
	c.line("key = %q\nmeter = %q\ntempo = %d\nfeel = %q\ntake = %d", key, c.meter, tempo, feel.Name, 1+r.Intn(99))
	c.section("verse", pick(r, 8, 8, 16, 12), false)
	c.section("chorus", pick(r, 8, 8, 16, 9), false)
	c.section("bridge", pick(r, 8, 8, 12, 6, 7, 10, 5), true)
	last := c.home
	c.line("section \"close\" {\n  chords = \"| %s | %s | %s | %s |\"", last, c.follow(last), pick(r, "V7", "V"), last)
	if r.Intn(3) == 0 {
		c.line("  rit \"3-4\" { to = %d }", tempo*3/4)
	}
	c.line("}")
	c.form()
	return c.b.String()
}

// section writes a section of some bars, with hits in it if it is to have them.
func (c *chart) section(name string, bars int, hits bool) {
	c.line("section %q {\n  chords = <<-EOT", name)
	now := c.home
	for bar := range bars {
		if bar > 0 && c.r.Intn(100) < changeOnOne {
			now = c.follow(now)
		}
		text := now
		twice := slices.Contains([]string{"4/4", "12/8", "6/8", "2/4"}, c.meter.String())
		if twice && c.r.Intn(100) < changeOnThree {
			now = c.follow(now)
			text += " " + now
		}
		c.b.WriteString(strings.Repeat("    ", 1-min(1, bar%4)) + "| " + text + " ")
		if bar%4 == 3 || bar == bars-1 {
			c.line("|")
		}
	}
	c.line("  EOT")
	if hits {
		c.line("  accent \"2: 1\" { weight = %d }\n  accent \"4: 2\" {}", 1+c.r.Intn(3))
		if c.meter.Den == 4 {
			c.line("  push \"3: %d&\" {}", c.meter.Num)
		}
	}
	c.line("}")
}

func (c *chart) follow(chord string) string { return pick(c.r, c.next[chord]...) }

// form writes the order of play. A chorus is one or two energies above its verse.
func (c *chart) form() {
	verse := 1 + c.r.Intn(3)
	chorus := verse + 1 + c.r.Intn(2)
	plays := []string{"verse", "verse", "chorus", "verse", "chorus", "bridge", "chorus", "chorus", "close"}
	if c.r.Intn(2) == 0 {
		plays = []string{"verse", "chorus", "verse", "chorus", "bridge", "verse", "chorus", "close"}
	}
	c.line("form {")
	for i, name := range plays {
		energy := map[string]int{"verse": verse, "chorus": chorus, "bridge": 1 + c.r.Intn(5), "close": chorus}[name]
		if i == len(plays)-2 {
			energy = min(5, chorus+1)
		}
		if name == "close" && c.r.Intn(2) == 0 {
			energy = verse
		}
		c.line("  play %q { energy = %d }", name, energy)
	}
	c.line("}")
}
