package serve

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/page"
)

// tones is a bank of tones that fill the time for which they are asked, but for drums, which are over at once. It
// counts what it is asked for, and panics at a key.
type tones struct {
	asked   atomic.Int32
	panicAt uint8
}

func (*tones) Name() string { return "tones" }
func (*tones) ID() string   { return "tones1" }
func (*tones) Note(p bank.Patch, key, velocity uint8) bank.Note {
	return bank.Note{Patch: p, Key: key}
}

func (b *tones) Sound(n bank.Note, hold int) bank.Sound {
	b.asked.Add(1)
	if n.Key == b.panicAt {
		panic("a wrong note")
	}
	s := bank.Sound{Left: []float32{0.5, -0.25, 0}, Right: []float32{0, 0.25, -0.125}, Release: 0.5, Class: 3}
	if !n.Drums {
		more := make([]float32, bank.Frames(hold, s.Release)-len(s.Left))
		for i := range more {
			more[i] = 0.25
		}
		s.Left, s.Right = append(s.Left, more...), append(s.Right, more...)
	}
	return s
}

const weir = `title = "Weir"
section "verse" {
  energy = 2
  chords = "| C | Am | F | G |"
}
section "chorus" {
  energy = 4
  chords = "| F | G | C | Am |"
}
form {
  play "verse" {}
  play "chorus" {}
  play "verse" {}
}
`

// good tells a server of a song's text.
func good(t testing.TB, s *Server, src, says string) {
	t.Helper()
	tl, set, err := songfiletest.ExampleText("weir.song.hcl", src)
	if err != nil {
		t.Fatal(err)
	}
	s.Good(tl, groove.Perform(tl, set), says, nil)
}

// serving starts a server.
func serving(t testing.TB, change func(o *Options)) *Server {
	t.Helper()
	o := Options{Sounds: page.Sounds{Bank: &tones{}}, File: "weir.song.hcl"}
	if change != nil {
		change(&o)
	}
	s, err := Start(o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// browser is a client that has come in by the key.
type browser struct {
	t    testing.TB
	http *http.Client
	base string
}

func open(t testing.TB, s *Server) *browser {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	b := &browser{t, &http.Client{Jar: jar, Transport: &http.Transport{}},
		strings.TrimSuffix(s.Address(), "/?key="+s.key)}
	t.Cleanup(b.http.CloseIdleConnections)
	if status, _, body := b.get("/?key=" + s.key); status != 200 || !strings.Contains(body, "<!doctype html>") {
		t.Fatalf("%d %s", status, body)
	}
	return b
}

func (b *browser) get(path string) (int, http.Header, string) {
	b.t.Helper()
	r, err := b.http.Get(b.base + path)
	if err != nil {
		b.t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil {
		b.t.Fatal(err)
	}
	return r.StatusCode, r.Header, string(body)
}

// stream is what a page listens to.
type stream struct {
	t    testing.TB
	body io.ReadCloser
	in   *bufio.Reader
}

func (b *browser) listen(lastID string) *stream {
	b.t.Helper()
	req, _ := http.NewRequest("GET", b.base+"/events", nil)
	if lastID != "" {
		req.Header.Set("Last-Event-ID", lastID)
	}
	r, err := b.http.Do(req)
	if err != nil || r.StatusCode != 200 || r.Header.Get("Content-Type") != "text/event-stream" {
		b.t.Fatal(r, err)
	}
	s := &stream{b.t, r.Body, bufio.NewReaderSize(r.Body, 16)}
	b.t.Cleanup(func() { s.body.Close() })
	return s
}

// event is the next event of a kind; heartbeats and others are passed over.
func (s *stream) event(kind string) (id string, data []byte) {
	s.t.Helper()
	got := ""
	for {
		line, err := s.in.ReadBytes('\n')
		if err != nil {
			s.t.Fatal(err)
		}
		line = bytes.TrimSuffix(line, []byte("\n"))
		switch name, value, _ := bytes.Cut(line, []byte(": ")); string(name) {
		case "id":
			id = string(value)
		case "event":
			got = string(value)
		case "data":
			if got == kind {
				return id, value
			}
		}
	}
}

// seen is what the tests look at of a state.
type seen struct {
	Rev     int
	Says    string
	OK      bool
	Wrong   []page.Diag
	Doubts  []page.Diag
	Chunks  []struct{ Hash, Name string }
	Changed []int
	Was     *page.Since
}

// until reads states up to the one that says so.
func (s *stream) until(says string) seen {
	s.t.Helper()
	// The stream ends with the test's own limit in time where it never comes.
	for {
		_, data := s.event("state")
		var out seen
		if err := json.Unmarshal(data, &out); err != nil {
			s.t.Fatalf("%v\n%s", err, data)
		}
		if out.Says == says {
			return out
		}
	}
}

// soon waits for what must come, without hurry.
func soon(t testing.TB, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(2 * time.Minute); !is(); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("waited in vain: " + what)
		}
	}
}
