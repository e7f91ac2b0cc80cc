package room

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"plinth/groove/library"
)

// Where the bass keeps out, the pianist's left hand plays its line. The report offers that
// register to nobody, and no hint speaks of room between bass and comp.
func TestLeftHandTakesTheLowRoom(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("..", "..", "examples", "lanterns.song.hcl"))
	if err != nil {
		t.Fatal(err)
	}
	low := func(src []byte) (piano int, free bool, gap bool) {
		tl := resolve(t, "lanterns.song.hcl", src)
		r := Analyze(tl, perform(tl, library.Builtin()))
		intro := &r.Passes[0]
		for _, b := range intro.Free {
			free = free || b.Low < 48
		}
		_, _, gap = intro.gap()
		return intro.piano().P5, free, gap
	}
	if piano, free, gap := low(src); piano < 48 || !free || !gap {
		t.Errorf("with the bass the piano begins at %d, free below C3 %v, a gap %v", piano, free, gap)
	}
	alone := bytes.Replace(src, []byte(`tacet  = ["drums"]`), []byte(`tacet  = ["drums", "bass"]`), 1)
	if piano, free, gap := low(alone); piano > 41 || free || gap {
		t.Errorf("without it the piano begins at %d, free below C3 %v, a gap %v", piano, free, gap)
	}
}
