package songspec

import (
	"regexp"
	"strings"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"
)

var (
	offeredLine = regexp.MustCompile(`\b[Ww]rite (?:[^":=.{}]*: )?([a-z_]+ = (?:"[^"]*"|\[[^\]]*\]|[-0-9.]*[0-9])|` +
		`[a-z]+ (?:"[^"]*" )?\{[^{}…]*\})`)
	offeredText = regexp.MustCompile(`\b[Ww]rite "([^"]+)"`)
)

// contexts are songs with a hole in each kind of block that a line may stand in.
var contexts = []string{
	"%\n" + one("| C |"),
	"%\nvocal \"a.mid\" {}\n" + one("| C |"),
	"section \"a\" {\n  chords = \"| C |\"\n  %\n}\n",
	"section \"a\" {\n  %\n}\n",
	one("| C |") + "form {\n  %\n}\n",
	one("| C |") + "form {\n  play \"a\" {\n    %\n  }\n}\n",
	one("| C |", "bars \"1\" {\n    %\n  }"),
	"picture {\n  start = \"01:00:00:00\"\n  %\n}\n" + one("| C |"),
	"picture {\n  rate = 24\n  %\n}\n" + one("| C |"),
	"picture {\n  rate  = 24\n  start = \"01:00:00:00\"\n}\n" + one("| C |") +
		"form {\n  play \"a\" {\n    %\n  }\n}\n",
	one("| C |") + "form {\n  play \"a\" {}\n  play \"a\" {\n    %\n  }\n}\n",
	"vocal \"a.mid\" {\n  %\n}\n" + one("| C |"),
	"drums {\n  %\n}\n" + one("| C |"),
	"bass {\n  %\n}\n" + one("| C |"),
	"piano {\n  %\n}\n" + one("| C |"),
	one("| C |", "accent \"1\" {\n    %\n  }"),
	one("| C |", "rit \"1\" {\n    %\n  }"),
	one("| C |", "hold \"1: 1\" {\n    %\n  }"),
	one("| C |", "cue \"1: 1\" {\n    %\n  }"),
}

// legal reports whether a line can be read somewhere in a song. What the song lacks for it, as a
// section of that name or a second bar, is no matter.
func legal(line string) bool {
	for _, c := range contexts {
		_, diags := Parse("t.song.hcl", []byte(strings.Replace(c, "%", line, 1)))
		good := true
		for _, d := range diags {
			good = good && (d.Severity != 1 || strings.HasPrefix(d.Summary, "No section named") ||
				d.Summary == "Two times for one place" || d.Summary == "A time code without a picture")
		}
		if good {
			return true
		}
	}
	return false
}

// readable reports whether a text can be read as one of the things that stand in quotes or in a chart.
func readable(text string) bool {
	_, place := meter.ParsePlace(text)
	_, ranges := meter.ParseRanges(text)
	_, stretch := meter.ParseStretch(text)
	_, _, chord := harmony.ParseEither(text, harmony.Key{})
	_, key := harmony.ParseKey(text)
	_, pitch := harmony.ParsePitch(text)
	_, signature := meter.Parse(text)
	return place == nil || ranges == nil || stretch == nil || chord == nil || key == nil || pitch || signature == nil ||
		legal("at = \""+text+"\"")
}

// What the messages offer can be read: every "write X" of the mistakes, whether or not there is a fix.
func TestOffered(t *testing.T) {
	lines, texts := 0, 0
	for _, m := range mistakes {
		_, diags := build(m.src)
		for _, d := range diags {
			for _, o := range offeredLine.FindAllStringSubmatch(d.Detail, -1) {
				if lines++; !legal(o[1]) {
					t.Errorf("%s: %q cannot be read", m.name, o[1])
				}
			}
			for _, o := range offeredText.FindAllStringSubmatch(d.Detail, -1) {
				if texts++; !readable(o[1]) {
					t.Errorf("%s: %q cannot be read, of %s", m.name, o[1], d.Detail)
				}
			}
		}
	}
	if lines < 60 || texts < 60 {
		t.Errorf("only %d lines and %d texts are offered", lines, texts)
	}
}
