package serve

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"
	"time"

	"plinth/render/audio/bank"
	"plinth/render/page"
)

// namesOf are the names of a pitched note and of a drum's that a song plays.
func namesOf(s *Server) (pitched, drum string) {
	for name, k := range s.story.notes {
		if k.value.Drums {
			drum = name
		} else {
			pitched = name
		}
	}
	return pitched, drum
}

// onWire is a sound as the page reads it.
func onWire(frames uint32, scale, release float32, class uint32, held float32, sides ...[]int16) string {
	b := binary.LittleEndian.AppendUint32(nil, frames)
	b = binary.LittleEndian.AppendUint32(b, math.Float32bits(scale))
	b = binary.LittleEndian.AppendUint32(b, math.Float32bits(release))
	b = binary.LittleEndian.AppendUint32(b, class)
	b = binary.LittleEndian.AppendUint32(b, math.Float32bits(held))
	b = binary.LittleEndian.AppendUint32(b, uint32(len(sides)))
	for _, side := range sides {
		for _, x := range side {
			b = binary.LittleEndian.AppendUint16(b, uint16(x))
		}
	}
	return string(b)
}

// A note is on the wire as the page reads it: as much as it is held for, and its release; what is over before is whole.
func TestNotes(t *testing.T) {
	tone := &tones{panicAt: 255}
	s := serving(t, func(o *Options) { o.Sounds = page.Sounds{Bank: tone} })
	good(t, s, weir, "")
	pitched, drum := namesOf(s)
	b := open(t, s)
	_, headers, got := b.get("/note/tones1/" + drum + "?hold=1")
	inf := float32(math.Inf(1))
	if want := onWire(3, 0.5, 0.5, 3, inf, []int16{32767, -16383, 0}, []int16{0, 16384, -8192}); got != want {
		t.Errorf("%x instead of %x", got, want)
	}
	if headers.Get("Cache-Control") != immutable {
		t.Errorf("%v", headers)
	}
	for _, seconds := range []int{2, 12} {
		_, _, got := b.get(fmt.Sprintf("/note/tones1/%s?hold=%d", pitched, seconds))
		frames, held := bank.Frames(time.Duration(seconds)*time.Second, 0.5), float32(seconds)
		if seconds == 12 {
			held = inf
		}
		if want := onWire(uint32(frames), 0.5, 0.5, 3, held); len(got) != len(want)+4*frames || got[:20] != want[:20] {
			t.Errorf("%d s: %d bytes, %x", seconds, len(got), got[:header])
		}
	}
	asked := tone.asked.Load()
	for _, wrong := range []string{"p0-1-0?hold=1", strings.ToUpper(pitched) + "?hold=1", pitched + "-0?hold=1",
		"0" + pitched + "?hold=1", pitched + "%20?hold=1", pitched, pitched + "?", pitched + "?hold=",
		pitched + "?hold=5", pitched + "?hold=01", pitched + "?hold=1.0",
		pitched + "?hold=1&hold=2", pitched + "?hold=2&x=1",
		pitched + "?hold=13", pitched + "?hold=-1", "room?hold=1"} {
		if status, _, _ := b.get("/note/tones1/" + wrong); status != 404 {
			t.Errorf("%s: %d", wrong, status)
		}
	}
	if n := tone.asked.Load(); n != asked {
		t.Errorf("what is not to be had was rendered: %d", n-asked)
	}
	_, _, room := b.get("/note/tones1/room")
	if frames := binary.LittleEndian.Uint32([]byte(room)); frames < bank.Rate || len(room) != header+4*int(frames) {
		t.Errorf("the hall has %d frames in %d bytes", frames, len(room))
	}
}

// A note that was rendered longer is cut to what is asked for, so that an address always has the same; sides that are
// alike but for rounding are one channel.
func TestPCM(t *testing.T) {
	left, right := []float32{0.5, -0.25, 0.125, 0.1}, []float32{0.50000006, -0.25, 0.125, 0.1}
	inf := float32(math.Inf(1))
	for name, row := range map[string]struct {
		s    bank.Sound
		most int
		want string
	}{
		"longer": {bank.Sound{Left: left, Right: []float32{0, 0, 0, 0}}, 3,
			onWire(3, 0.5, 0, 0, 2, []int16{32767, -16383, 8192}, []int16{0, 0, 0})},
		"alike": {bank.Sound{Left: left, Right: right}, 5,
			onWire(4, 0.50000006, 0, 0, inf, []int16{32767, -16383, 8192, 6553})},
		"nothing": {bank.Sound{}, 5, onWire(0, 0, 0, 0, inf, nil)},
	} {
		if got := string(pcm(row.s, row.most, 2)); got != row.want {
			t.Errorf("%s: %x instead of %x", name, got, row.want)
		}
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
		status, h, body := b.get("/note/tones1/" + name + "?hold=1")
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
