package serve

import (
	"fmt"
	"io"
	"net"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"

	"plinth/render/page"
)

// valve is a way to a server that can be shut.
type valve struct {
	mu    sync.Mutex
	shut  bool
	to    *Server
	conns []net.Conn
	addr  net.Addr
}

func newValve(t *testing.T, s *Server) *valve {
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	v := &valve{addr: l.Addr()}
	v.lead(s)
	go func() {
		for {
			in, err := l.Accept()
			if err != nil {
				return
			}
			v.join(in)
		}
	}()
	return v
}

// lead has it lead to another server from now on.
func (v *valve) lead(s *Server) {
	v.mu.Lock()
	defer v.mu.Unlock()
	s.hosts = append(s.hosts, v.addr.String())
	v.to = s
}

func (v *valve) join(in net.Conn) {
	v.mu.Lock()
	defer v.mu.Unlock()
	out, err := net.Dial("tcp4", fmt.Sprintf("127.0.0.1:%d", v.to.port))
	if v.shut || err != nil {
		in.Close()
		return
	}
	v.conns = append(v.conns, in, out)
	for _, way := range [][2]net.Conn{{in, out}, {out, in}} {
		go func() {
			io.Copy(way[0], way[1])
			way[0].Close()
		}()
	}
}

// set opens or shuts it; shut, all that goes through it breaks off.
func (v *valve) set(shut bool) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.shut = shut
	for _, c := range v.conns {
		c.Close()
	}
	v.conns = nil
}

// A stream that drops is told in words, and the bed plays on; when it is back what was saved meanwhile comes.
func TestPageStreamDrops(t *testing.T) {
	s := playing(t)
	v := newValve(t, s)
	saved(t, s, fast, "good")
	w := engine(bareAt(t, chromium(t), s, v.addr.(*net.TCPAddr).Port))
	w.do("T.start(), T.until(() => T.engine.progress.needed && T.engine.progress.ready === T.engine.progress.needed)")
	w.do("T.engine.setLoop(0, 3), T.engine.play(), T.moved(5e5)")
	v.set(true)
	w.do("T.until(() => T.trouble('line'))")
	if got := eval[string](w, "T.trouble('line')"); !strings.Contains(got, "plinth does not answer. The bed plays on") {
		t.Error(got)
	}
	saved(t, s, fastChanged, "meanwhile")
	w.do("T.moved(1e6)")
	v.set(false)
	w.do("T.until(() => !T.trouble('line') && T.engine.bed.state.says === 'meanwhile')")
	w.do("T.moved(1e6)")
	// The stream drops before the bars are there: the same state is told again when it is back.
	w.do(`T.fetch = fetch.bind(globalThis), globalThis.fetch = (path, ...more) =>
		path.startsWith("/pass/") ? Promise.reject(new Error("no bars")) : T.fetch(path, ...more)`)
	saved(t, s, strings.Replace(fast, "| C | Am |", "| Em | C | Am |", 1), "again")
	w.do("T.until(() => T.trouble('load'))")
	v.set(true)
	w.do("T.until(() => T.trouble('line'))")
	v.set(false)
	w.do("T.until(() => !T.trouble('line')).then(() => { globalThis.fetch = T.fetch; })")
	w.do("T.until(() => T.engine.bed.state.says === 'again')")
	w.do("T.moved(1e6)")
	// Another plinth at the same address has another key.
	v.lead(playing(t))
	v.set(false)
	w.do("T.until(() => T.trouble('line').includes('another key. Open the address that it printed.'))")
	w.do("T.moved(1e6)")
}

// Tabs of one song have one stream; the one that played last sounds; when the one that has the stream is closed
// another takes it over.
func TestPageTwoTabs(t *testing.T) {
	s := playing(t)
	browser := chromium(t)
	saved(t, s, fast, "good")
	first, second := engine(bare(t, browser, s)), engine(bare(t, browser, s))
	there := "T.start(), T.until(() => T.engine.bed?.bars.length === 4)"
	first.do(there)
	second.do(there)
	streams := func() int {
		s.story.mu.Lock()
		defer s.story.mu.Unlock()
		return len(s.story.watchers)
	}
	await(t, "one stream for both tabs", func() bool { return streams() == 1 })
	first.do("T.engine.setLoop(0, 3), T.engine.play(), T.moved(5e5)")
	second.do("T.engine.setLoop(0, 3), T.engine.play(), T.moved(5e5)")
	first.do("T.until(() => !T.engine.playing)")
	saved(t, s, fastChanged, "both")
	for _, w := range []*tab{first, second} {
		w.do("T.until(() => T.engine.bed.state.says === 'both')")
	}
	if err := chromedp.Cancel(first.ctx); err != nil {
		t.Fatal(err)
	}
	saved(t, s, fast, "alone")
	second.do("T.until(() => T.engine.bed.state.says === 'alone' && T.engine.playing)")
	await(t, "one stream for the tab that is left", func() bool { return streams() == 1 })
}

// Another plinth at the same address counts its saves from 1 again: what it says is never taken for something of
// the song before. A tab that is opened then shows nothing of what is gone, though a tab that has not noticed yet
// has the stream.
func TestPageAnotherSongAtTheSameAddress(t *testing.T) {
	first, second, wrong := playing(t), playing(t), playing(t)
	v := newValve(t, first)
	port := v.addr.(*net.TCPAddr).Port
	saved(t, first, fast, "first")
	browser := chromium(t)
	w := engine(bareAt(t, browser, first, port))
	w.do("T.start(), T.until(() => T.engine.bed?.bars.length && T.engine.room)")
	w.do("T.engine.setLoop(0, 3), T.engine.play(), T.moved(5e5), T.old = T.engine.bed, T.room = T.engine.room")

	saved(t, second, strings.Replace(fast, "  play \"a\" {}\n", "  play \"a\" {}\n  play \"a\" {}\n", 1), "second")
	await(t, "the room of the second song", func() bool {
		second.story.mu.Lock()
		defer second.story.mu.Unlock()
		return second.story.room != nil
	})
	lead := func(s *Server) *tab {
		v.lead(s)
		v.set(false)
		w.do("T.until(() => T.trouble('line').includes('another key')).then(() => clearTimeout(T.engine.link.trying))")
		return engine(bareAt(t, browser, s, port))
	}
	other := lead(second)
	other.do("T.start(), T.until(() => T.engine.bed?.bars.length)")
	if says := eval[string](other, "T.engine.bed.state.says"); says != "second" {
		t.Errorf("a new tab shows %q", says)
	}
	w.do("T.until(() => T.engine.bed.state.says === 'second' && T.engine.room)")
	if !eval[bool](w, "T.old.room === T.room && T.engine.room.chunks.length === 2") {
		t.Error("the first song has the second one's room")
	}
	w.do("T.moved(1e6)")

	wrong.Wrong("wrong from the start", []page.Diag{{Severity: "error", Summary: "No song"}}, nil)
	third := lead(wrong)
	third.do("T.start()")
	w.do("T.until(() => T.engine.state.says === 'wrong from the start')")
	w.do("T.moved(1e6)")
	if eval[bool](w, "Boolean(T.engine.pending)") {
		t.Error("a song without bars waits for its bar line")
	}
}
