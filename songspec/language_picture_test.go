package songspec

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"plinth/songspec/outline"
	"plinth/songspec/timecode"
	"plinth/songspec/timeline"
)

const scene = `
tempo    = 72
count_in = 1
picture {
  rate  = %s
  start = "%s"
}
section "verse" {
  chords = "| C | Am | F | G | C | Am | F | G |"
  rit "7: 3 - 8: 4" { to = 60 }
  hold "8: 4" {}
}
section "chorus" {
  tempo  = 96.5
  chords = "| C | F | G | C |"
}
form {
  play "verse" {}
  play "chorus" { at = "%s" }
  play "chorus" {
    cue "3: 2" {
      text = "door"
      at   = "%s"
    }
  }
}
`

// Each place lands on its frame: the play's first bar line and the cue, in every rate.
func TestLandings(t *testing.T) {
	untimed := strings.ReplaceAll(strings.ReplaceAll(scene, `{ at = "%s" }`, "{}"), "\n      at   = \"%s\"", "")
	written := good(t, fmt.Sprintf(untimed, "24", "01:02:10:00"))
	for _, row := range []struct{ rate, start, play, cue string }{
		{"24", "01:02:10:00", "01:02:38:12", "01:02:54:08"},
		{"23.976", "01:02:10:00", "01:02:38:12", "01:02:54:08"},
		{"25", "10:00:00:00", "10:00:28:16", "10:00:44:12"},
		{"29.97", "00:59:40;00", "01:00:08;20", "01:00:24;12"},
		{"29.97", "00:59:40:00", "01:00:08:20", "01:00:24:12"},
		{"30", "00:00:00:00", "00:00:28:15", "0:44.25"},
		{"50", "00:00:00:00", "0:28.7", "00:00:44:01"},
	} {
		tl := good(t, fmt.Sprintf(scene, row.rate, row.start, row.play, row.cue))
		clock := timeline.NewClock(tl.Tempos)
		first, last := tl.Passes[1].Start, tl.Passes[2].Start+2*3840+960
		for i, want := range []string{row.play, row.cue} {
			micros := clock.Micros([]int64{first, last}[i]) - clock.Micros(tl.Lead)
			if off := micros - tl.Landings[i].Micros; off > 100 || off < -100 {
				t.Errorf("%s at %s is %d microseconds off", want, row.rate, off)
			}
			if got := tl.Picture.Code(micros); timecode.IsCode(want) && got != want {
				t.Errorf("%s at %s lands on %s", want, row.rate, got)
			}
		}
		// The rit and the hold keep their shape, and after the last point the tempo is the written one.
		p, plain := &tl.Passes[0], &written.Passes[0]
		factor := float64(p.Tempos[0].Micros) / float64(plain.Tempos[0].Micros)
		if len(p.Tempos) != len(plain.Tempos) || factor == 1 {
			t.Fatalf("tempos %s, written %s", tempoMap(p), tempoMap(plain))
		}
		for k, s := range plain.Tempos {
			if off := float64(p.Tempos[k].Micros) - factor*float64(s.Micros); off > 30 || off < -30 {
				// a beat takes up what 26 before it lost
				t.Errorf("tempos %s, written %s", tempoMap(p), tempoMap(plain))
			}
		}
		if front := float64(tl.Tempos[0].Micros) / factor; front < 833330 || front > 833336 {
			t.Errorf("the click in front: %d", tl.Tempos[0].Micros)
		}
		if end := tl.Tempos[len(tl.Tempos)-1]; end.Tick != last || end.Micros != 621762 { // 60,000,000 / 96.5
			t.Errorf("after the last point %+v", end)
		}
	}
}

// In long songs of many tempos every landing is exact to less than a millisecond.
func TestLandingsOfLongSongs(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 30 {
		var b strings.Builder
		b.WriteString("section \"a\" {\n  chords = \"|: C | F | G :|x9\"\n  rit \"25-27\" { to = 70 }\n}\nform {\n")
		at := 0.0
		for i := range 12 {
			tempo := 80 + float64(r.Intn(20000))/1000
			fmt.Fprintf(&b, "  play \"a\" {\n    tempo = %.3f\n", tempo)
			if i > 0 && i%3 == 0 {
				fmt.Fprintf(&b, "    at = \"%d:%06.3f\"\n", int(at)/60, at-float64(int(at)/60*60))
			}
			b.WriteString("  }\n")
			at += 27*4*60/tempo + 3 + r.Float64()
		}
		tl, diags := build(b.String() + "}\n")
		if tl == nil {
			t.Fatalf("%v\n%s", diags, b.String())
		}
		clock := timeline.NewClock(tl.Tempos)
		if len(tl.Landings) != 3 {
			t.Fatal(len(tl.Landings))
		}
		for _, l := range tl.Landings {
			if off := clock.Micros(l.Tick) - l.Micros; off > 300 || off < -300 {
				t.Errorf("%s: %d microseconds off", l.What, off)
			}
		}
	}
}

// The outline says the picture, what lands, and with times when each bar comes.
func TestOutlineTimes(t *testing.T) {
	tl := good(t, fmt.Sprintf(scene, "24", "01:02:10:00", "01:02:38:12", "01:02:54:08"))
	var b strings.Builder
	if err := outline.WriteTimes(&b, tl); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"picture    24 frames a second, bar 1 at 01:02:10:00\n",
		"  the beginning of \"chorus\" at 01:02:38:12, tempo ",
		"  the cue \"door\" in \"chorus\" (2) at 01:02:54:08, tempo ",
		"     1  0:00.0  01:02:10:00 | C ", "     1  0:28.5  01:02:38:12 | C ", `cue 2 "door" at 01:02:54:08`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in\n%s", want, b.String())
		}
	}
}

// A caesura leaves the tempo map room to go as much slower as a picture may ask for: its silence
// lasts as much longer as all else does.
func TestCaesuraToPicture(t *testing.T) {
	const song = `
tempo = 60
section "a" {
  chords = "| C | F | G | C |"
  caesura "2: 4" {}
}
form {
  play "a" {}
  play "a" { at = "%s" }
}
`
	for at, want := range map[string]int64{"0:17": 1_000_000, "0:18.7": 1_100_000, "0:19.9": 1_170_588} {
		tl := read(t, fmt.Sprintf(song, at))
		clock, e := timeline.NewClock(tl.Tempos), tl.Passes[0].Events[0]
		if got := clock.Micros(e.End) - clock.Micros(e.Cut); got < want-100 || got > want+100 {
			t.Errorf("the second pass at %s: the caesura is silent for %d µs, want %d", at, got, want)
		}
	}
}
