package serve

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"reflect"
	"strings"
	"testing"
	"time"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/page"
)

// A page gets the whole state at once, the room after it, and each save: also a wrong one, which leaves the
// last good bed, and the one that mends it.
func TestStream(t *testing.T) {
	s := serving(t, nil)
	b := open(t, s)
	early := b.listen("") // before there is a song
	good(t, s, weir, "first")
	first := early.until("first")
	if !first.OK || first.Rev != 1 || len(first.Chunks) != 3 || first.Was != nil || len(first.Changed) != 0 {
		t.Errorf("%+v", first)
	}
	if _, room := early.event("room"); !strings.HasPrefix(string(room), `{"rev":1,"low":`) {
		t.Errorf("%.60s", room)
	}
	late := b.listen("")
	if state := late.until("first"); !reflect.DeepEqual(state.Chunks, first.Chunks) {
		t.Errorf("%+v", state)
	}
	for i, c := range first.Chunks {
		status, _, body := b.get("/pass/" + c.Hash)
		if status != 200 || !strings.HasPrefix(body, `{"bars":[{"at":0,`) {
			t.Errorf("chunk %d: %d %.80s", i, status, body)
		}
	}

	s.Wrong("still playing", []page.Diag{{Severity: "error", Summary: "no"}}, nil)
	for _, at := range []*stream{early, late} {
		wrong := at.until("still playing")
		if wrong.OK || len(wrong.Wrong) != 1 || wrong.Wrong[0].Summary != "no" || wrong.Rev != 2 ||
			!reflect.DeepEqual(wrong.Chunks, first.Chunks) || wrong.Was.Rev != 1 || wrong.Was.Chunks[1].Bars[3] != 3 {
			t.Errorf("%+v", wrong)
		}
		if _, room := at.event("room"); !strings.HasPrefix(string(room), `{"rev":2,`) {
			t.Errorf("the room of the last good bed: %.60s", room)
		}
	}

	good(t, s, strings.Replace(weir, "| C | Am | F | G |", "| C | C | C | Am | F | G |", 1), "mended")
	mended := late.until("mended")
	if !mended.OK || mended.Wrong == nil || len(mended.Wrong) != 0 || fmt.Sprint(mended.Changed) != "[0 2]" ||
		mended.Was.Rev != 2 || fmt.Sprint(mended.Was.Chunks) != "[{0 [0 3 4 5]} {1 [0 1 2 3]} {2 [0 3 4 5]}]" {
		t.Errorf("%+v", mended)
	}
	if mended.Chunks[1].Hash != first.Chunks[1].Hash {
		t.Error("the chorus is another chunk")
	}
	if status, _, _ := b.get("/pass/" + first.Chunks[0].Hash); status != 200 {
		t.Error("a pass of the state before is gone")
	}
}

// A browser that lost the stream says how far it came, and is told where the passes of that state went.
func TestStreamAgain(t *testing.T) {
	s := serving(t, nil)
	b := open(t, s)
	good(t, s, weir, "1")
	good(t, s, strings.Replace(weir, "form {", "form {\n  play \"chorus\" {}", 1), "2")
	good(t, s, weir+"# again\n", "3")
	for last, want := range map[string]string{
		"":  "<nil>",
		"1": "&{1 [{0 [0 1 2 3]} {1 [0 1 2 3]} {2 [0 1 2 3]}]}",
		"2": "&{2 [{-1 [-1 -1 -1 -1]} {0 [0 1 2 3]} {1 [0 1 2 3]} {2 [0 1 2 3]}]}",
		"3": "&{3 [{0 [0 1 2 3]} {1 [0 1 2 3]} {2 [0 1 2 3]}]}",
		"9": "<nil>", "-1": "<nil>", "x": "<nil>",
	} {
		if got := fmt.Sprint(b.listen(last).until("3").Was); got != want {
			t.Errorf("after %q: %s instead of %s", last, got, want)
		}
	}
}

// 200 saves one after another: nobody waits for a page that does not read, and it gets the newest state, with
// where the passes went in all the saves that it missed.
func TestManySavesAndASlowPage(t *testing.T) {
	s := serving(t, nil)
	b := open(t, s)
	good(t, s, weir, "first")
	slow, quick := b.listen(""), b.listen("")
	slow.until("first")
	quick.until("first")
	songs := [2]string{weir, strings.Replace(weir, "| F | G |\"", "| F | Em | G |\"", 1)}
	for i := range 200 {
		good(t, s, songs[i%2], fmt.Sprint(i))
	}
	if state := quick.until("199"); state.Rev != 201 {
		t.Errorf("%+v", state)
	}
	state := slow.until("199")
	for _, c := range state.Chunks {
		if status, _, _ := b.get("/pass/" + c.Hash); status != 200 {
			t.Errorf("%d for %s", status, c.Name)
		}
	}
	s.story.mu.Lock()
	chunks, notes, went := len(s.story.chunks), len(s.story.notes), len(s.story.went)
	s.story.mu.Unlock()
	if chunks > 8 || notes > 100 || went > keptStates {
		t.Errorf("%d chunks, %d notes and %d steps are kept", chunks, notes, went)
	}
}

// A pass that no state has had for long is forgotten.
func TestForgotten(t *testing.T) {
	s := serving(t, nil)
	good(t, s, strings.Replace(weir, "| F | G | C |", "| F | G | D |", 1), "")
	old := s.story.state.Bed.Chunks[1].Hash
	for range keptStates {
		good(t, s, weir, "")
	}
	if _, ok := s.story.chunk(old); !ok {
		t.Error("it is forgotten too soon")
	}
	good(t, s, weir, "")
	if _, ok := s.story.chunk(old); ok {
		t.Error("it is never forgotten")
	}
	// Where the passes are large it is forgotten sooner; what is played now is not.
	for rev := 10; rev < 20; rev++ {
		s.story.chunks[fmt.Sprint(rev)] = kept[[]byte]{make([]byte, maxKept/4), rev}
	}
	good(t, s, weir, "")
	for rev := 10; rev < 20; rev++ {
		if _, ok := s.story.chunk(fmt.Sprint(rev)); ok != (rev > 16) {
			t.Errorf("a large pass of state %d of %d is there: %v", rev, s.story.state.Rev, ok)
		}
	}
	if _, ok := s.story.chunk(s.story.state.Bed.Chunks[0].Hash); !ok {
		t.Error("what is played is forgotten")
	}
}

// A beat goes through a stream on which nothing happens, and a stream ends with the server at once.
func TestHeartbeatAndEnd(t *testing.T) {
	s := serving(t, func(o *Options) { o.heartbeat = 2 * time.Millisecond })
	b := open(t, s)
	good(t, s, weir, "first")
	at := b.listen("")
	at.until("first")
	at.event("room")
	for beats := 0; beats < 3; {
		line, err := at.in.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		if line == ":\n" {
			beats++
		}
	}
	s.Close()
	io.Copy(io.Discard, at.in) // ends
	if _, err := net.Dial("tcp", fmt.Sprintf("127.0.0.1:%d", s.port)); err == nil {
		t.Error("the port still answers")
	}
}

// There may be so many streams and no more; who ends one makes room.
func TestTooManyStreams(t *testing.T) {
	s := serving(t, nil)
	good(t, s, weir, "first")
	b := open(t, s)
	var all []*stream
	for range maxStreams {
		all = append(all, b.listen(""))
		all[len(all)-1].until("first")
	}
	if status, _, body := b.get("/events"); status != http.StatusServiceUnavailable || !strings.Contains(body, "tabs") {
		t.Errorf("%d %s", status, body)
	}
	all[0].body.Close()
	soon(t, "a place for another stream", func() bool {
		s.story.mu.Lock()
		defer s.story.mu.Unlock()
		return len(s.story.watchers) < maxStreams
	})
	b.listen("").until("first")
}

// What is being measured of an older bed is not told of a newer one.
func TestRoomIsOfTheNewest(t *testing.T) {
	s := serving(t, nil)
	tl, set, err := songfiletest.ExampleText("weir.song.hcl", weir)
	if err != nil {
		t.Fatal(err)
	}
	for range 50 {
		s.Good(tl, groove.Perform(tl, set), "x", nil)
	}
	_, room := open(t, s).listen("").event("room")
	if !strings.HasPrefix(string(room), `{"rev":50,`) {
		t.Errorf("%.40s", room)
	}
}
