package serve

import (
	"fmt"
	"io"
	"net"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"
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
