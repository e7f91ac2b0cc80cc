package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/cmd/internal/bed"
	"plinth/songspec/meter"
)

// builtMIDI is the MIDI file of a song in 3/4 with one bar of 4/4.
func builtMIDI(t *testing.T) []byte {
	t.Helper()
	song := filepath.Join(t.TempDir(), "a.song.hcl")
	text := "meter = \"3/4\"\nlooseness = 0\nsection \"a\" {\n  chords = \"| C | (4/4) F | G | C |\"\n" +
		"  accent \"4: 2\" {}\n}\n"
	if err := os.WriteFile(song, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	res, err := bed.Build(bed.Request{Song: song})
	if err != nil || res.Failed() {
		t.Fatal(err, res.Diags)
	}
	return res.Outputs[0].Data
}

func TestFirstEvent(t *testing.T) {
	old := builtMIDI(t)
	const ticks = (3 + 4 + 3) * meter.TicksPerQuarter // where bar 4 begins
	bass := tracks(old)[2]
	for _, e := range bass.events {
		if e.tick >= ticks && strings.Contains(e.text, "velocity") {
			if e.tick != ticks || !strings.Contains(e.text, "ticks long") {
				t.Fatalf("the bass begins bar 4 with %+v", e)
			}
			break
		}
	}
	// The last note-on of the bass, one louder.
	at := bytes.LastIndex(old[:bytes.Index(old, []byte("Piano"))], []byte{0x91})
	now := bytes.Clone(old)
	now[at+2]++
	got := firstEvent(old, now)
	if !strings.HasPrefix(got, "Bass, bar 4 of the file, tick ") || strings.Count(got, "velocity") != 2 {
		t.Errorf("got %s", got)
	}
	if got := firstEvent(now, now[:len(now)-1]); !strings.Contains(got, "the new file is broken") {
		t.Errorf("got %s", got)
	}
}

func TestFirstOf(t *testing.T) {
	a := []event{{0, "x"}, {10, "y"}}
	for _, c := range []struct {
		now     []event
		tick    int64
		was, is string
	}{
		{[]event{{0, "x"}, {10, "z"}}, 10, "y", "z"},
		{[]event{{0, "x"}}, 10, "y", "nothing there"},
		{[]event{{0, "x"}, {5, "z"}, {10, "y"}}, 5, "nothing there", "z"},
		{[]event{{0, "x"}, {10, "y"}, {11, "z"}}, 11, "nothing there", "z"},
	} {
		if tick, was, is := firstOf(a, c.now); tick != c.tick || was != c.was || is != c.is {
			t.Errorf("%v: tick %d, %s, now %s", c.now, tick, was, is)
		}
	}
}

func TestFirstLine(t *testing.T) {
	if got := firstLine([]byte("a\nb"), []byte("a\nc\nd")); got != `line 2: "b"; now "c"` {
		t.Errorf("got %s", got)
	}
	if got := firstLine([]byte("a"), []byte("a\nd")); got != `line 2: nothing; now "d"` {
		t.Errorf("got %s", got)
	}
}

func TestRunRefuses(t *testing.T) {
	for _, c := range []struct {
		programs []string
		songs    int
		newer    bool
		also     string
		want     string
	}{
		{[]string{"one"}, 1, false, "", "two programs"},
		{[]string{"one", "two"}, 1, false, "fmt", "-also takes"},
		{[]string{"one", "two"}, 0, false, "", "no songs"},
		{[]string{"none/such", "none/such"}, 1, false, "", "random-1-001"},
		{[]string{"none/such", "none/such"}, 1, true, "", "random-1-001/random-1-001.song.hcl"},
	} {
		_, err := run(c.programs, c.songs, 1, c.newer, t.TempDir(), c.also)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: %v", c, err)
		}
	}
}
