package serve

import (
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"plinth/render/audio/bank"
	"plinth/render/page"
)

// A note is asked for by many at once and rendered once, and is on the wire as the page reads it.
func TestNotes(t *testing.T) {
	tone := &tones{panicAt: 255, hold: make(chan struct{})}
	s := serving(t, func(o *Options) { o.Sounds = page.Sounds{Bank: tone} })
	good(t, s, weir, "")
	name := ""
	for n := range s.story.notes {
		name = n
	}
	b := open(t, s)
	var all sync.WaitGroup
	answers := make([]string, 20)
	for i := range answers {
		all.Go(func() { _, _, answers[i] = b.get("/note/tones1/" + name) })
	}
	close(tone.hold)
	all.Wait()
	if n := tone.rendered.Load(); n != 1 {
		t.Errorf("rendered %d times", n)
	}
	want := binary.LittleEndian.AppendUint32(nil, 3)
	want = binary.LittleEndian.AppendUint32(want, math.Float32bits(0.5))
	want = binary.LittleEndian.AppendUint32(want, math.Float32bits(0.5))
	want = binary.LittleEndian.AppendUint32(want, 3)
	for _, x := range []int16{32767, -16383, 0, 0, 16384, -8192} {
		want = binary.LittleEndian.AppendUint16(want, uint16(x))
	}
	for _, a := range answers {
		if a != string(want) {
			t.Fatalf("%x instead of %x", a, want)
		}
	}
	for _, wrong := range []string{"p0-1-0", strings.ToUpper(name), name + "-0", "0" + name, name + "%20"} {
		if status, _, _ := b.get("/note/tones1/" + wrong); status != 404 {
			t.Errorf("%s: %d", wrong, status)
		}
	}
	if n := tone.rendered.Load(); n != 1 {
		t.Errorf("what the song does not play was rendered: %d", n)
	}
	_, _, room := b.get("/note/tones1/room")
	if frames := binary.LittleEndian.Uint32([]byte(room)); frames < bank.Rate || len(room) != 16+4*int(frames) {
		t.Errorf("the hall has %d frames in %d bytes", frames, len(room))
	}
}

// A panic is a mistake of ours: it is told, who asked is told too, and all else goes on.
func TestPanic(t *testing.T) {
	var mu sync.Mutex
	var said []string
	tone := &tones{}
	s := serving(t, func(o *Options) {
		o.Sounds = page.Sounds{Bank: tone}
		o.Mistake = func(text string) {
			mu.Lock()
			defer mu.Unlock()
			said = append(said, text)
		}
	})
	good(t, s, weir, "")
	name := ""
	for n, k := range s.story.notes {
		name, tone.panicAt = n, k.value.Key
	}
	b := open(t, s)
	for i := range 2 { // it is not kept as a sound
		status, h, body := b.get("/note/tones1/" + name)
		if status != 500 || !strings.Contains(body, "a mistake in plinth") || h.Get("Cache-Control") != "no-store" {
			t.Errorf("%d %v %s", status, h, body)
		}
		mu.Lock()
		if len(said) != i+1 || !strings.Contains(said[i], "a wrong note") || !strings.Contains(said[i], "rig_test.go") {
			t.Errorf("%q", said)
		}
		mu.Unlock()
	}
	if status, _, _ := b.get("/"); status != 200 {
		t.Error(status)
	}
}

// big is a bank of notes of 24 MB.
type big struct{ tones }

func (b *big) Sound(n bank.Note) bank.Sound {
	b.rendered.Add(1)
	long := make([]float32, 6<<20)
	long[len(long)-1] = 1
	return bank.Sound{Left: long, Right: long}
}

// What is kept is bounded: what was asked for longest ago goes.
func TestNotesAreBounded(t *testing.T) {
	b := &big{}
	c := newNoteCache(b)
	get := func(key uint8) {
		if got := c.get(context.Background(), bank.Note{Key: key}); len(got) != 16+24<<20 {
			t.Errorf("%d: %d bytes", key, len(got))
		}
	}
	for key := range uint8(8) {
		get(key)
		get(0) // stays
	}
	if n := b.rendered.Load(); n != 8 {
		t.Errorf("rendered %d times", n)
	}
	c.mu.Lock()
	keys := fmt.Sprint(len(c.kept), c.kept[bank.Note{Key: 0}] != nil, c.kept[bank.Note{Key: 1}] != nil)
	if c.bytes > maxCached || keys != "5 true false" {
		t.Errorf("%d bytes, %s", c.bytes, keys)
	}
	c.mu.Unlock()
}
