package outline_test

import (
	"fmt"
	"strings"
	"testing"

	"plinth/songspec/outline"
)

// What became of the passes and their bars after an edit, as a person would say it: "0:0,1,-1" is a
// pass that is now the first, with its third bar gone.
func TestMatch(t *testing.T) {
	same := "0:01234567 1:0123 2:01234567 3:0123 4:01234567 5:0123"
	for name, row := range map[string]struct {
		pairs []string
		want  string
	}{
		"nothing":     {nil, same},
		"a word":      {[]string{"energy = 2", "energy = 3"}, same},
		"one chord":   {[]string{"| Cm7 | Ab / Abm6 /", "| C7 | Ab / Abm6 /"}, same},
		"another key": {[]string{`"Eb major"`, `"D major"`}, same},
		"bar put in": {[]string{"| Eb | Bb/D | Cm7", "| Eb | Fm7 | Bb/D | Cm7"},
			"0:02345678 1:0123 2:02345678 3:0123 4:01234567 5:0123"},
		"bars in front": {[]string{"| Ab | Bb/Ab |", "| Fm7 | Bb7 | Ab | Bb/Ab |"},
			"0:01234567 1:2345 2:01234567 3:2345 4:01234567 5:2345"},
		"bar taken out": {[]string{"| Ab | Bb/Ab | Gm7 |", "| Ab | Gm7 |", "4: 4&", "3: 4&"},
			"0:01234567 1:0-112 2:01234567 3:0-112 4:01234567 5:0-112"},
		"section moved": {[]string{"  play \"bridge\" {}\n", "", "form {\n", "form {\n  play \"bridge\" {}\n"},
			"1:01234567 2:0123 3:01234567 4:0123 0:01234567 5:0123"},
		"verse twice": {[]string{"form {\n", "form {\n  play \"verse\" {}\n"}, // which one is new, nobody can say
			"0:01234567 2:0123 3:01234567 4:0123 5:01234567 6:0123"},
		"pass taken out": {[]string{"  play \"bridge\" {}\n", ""},
			"0:01234567 1:0123 2:01234567 3:0123 -1:-1-1-1-1-1-1-1-1 4:0123"},
		"another name": {[]string{`section "bridge"`, `section "middle"`, `play "bridge"`, `play "middle"`}, same},
		"played twice": {[]string{`play "bridge" {}`, `play "bridge" { times = 2 }`}, same},
		"bars left out": {[]string{`play "bridge" {}`, `play "bridge" { only = "3-8" }`},
			"0:01234567 1:0123 2:01234567 3:0123 4:-1-1012345 5:0123"},
	} {
		src := edit(t, weir, row.pairs...)
		var got []string
		for _, m := range outline.Match(song(t, weir), song(t, src)) {
			text := fmt.Sprintf("%d:", m.Pass)
			for _, b := range m.Bars {
				text += fmt.Sprint(b)
			}
			got = append(got, text)
		}
		if strings.Join(got, " ") != row.want {
			t.Errorf("%s:\n%s\n%s", name, strings.Join(got, " "), row.want)
		}
	}
	// Of a section that is played twice as often the rounds stay where they are.
	twice := edit(t, weir, `play "bridge" {}`, `play "bridge" { times = 2 }`)
	back := outline.Match(song(t, twice), song(t, weir))[4].Bars
	if fmt.Sprint(back) != "[0 1 2 3 4 5 6 7 -1 -1 -1 -1 -1 -1 -1 -1]" {
		t.Errorf("%v", back)
	}
	longer := edit(t, twice, "| V7sus4 | V7 |", "| V7sus4 | V7sus4 | V7 |")
	rounds := outline.Match(song(t, twice), song(t, longer))[4].Bars
	if fmt.Sprint(rounds) != "[0 1 2 3 4 5 6 8 9 10 11 12 13 14 15 17]" &&
		fmt.Sprint(rounds) != "[0 1 2 3 4 5 7 8 9 10 11 12 13 14 16 17]" {
		t.Errorf("%v", rounds)
	}
}
