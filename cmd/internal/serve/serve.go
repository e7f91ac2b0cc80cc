// Package serve shows one song in the browsers of this machine: the page, what is played in it, and the
// sound of its notes, over HTTP on the loopback address alone. Whoever has the address with its key
// sees this one song, and nothing else of the machine.
package serve

import (
	"cmp"
	"context"
	"crypto/rand"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"golang.org/x/net/netutil"

	"plinth/render/page"
)

// Options say what to show and where.
type Options struct {
	Ports  []int // tried in this order; 0, or none at all: any that is free
	Sounds page.Sounds
	File   string // the song file's name, without its folder
	Only   string // the part of the song that is built; empty: all of it
	// Mistake is told of a mistake of ours in answering, with its stack. It must not block.
	Mistake func(text string)

	heartbeat time.Duration // for tests
}

// Server shows one song.
type Server struct {
	Options
	port  int
	key   string // in the address that is printed
	pass  string // in the cookie that a browser gets for it
	hosts []string
	http  *http.Server
	stop  context.CancelFunc
	done  chan struct{} // closed when the server has ended
	story *story
	lost  *page.State   // what was told before the song was lost; nil while it is there
	cores chan struct{} // has a place for each note that may be rendered at one time
	hall  func() []byte
}

// PortError is the error for a port that cannot be had.
type PortError struct {
	Port int
	Err  error
}

func (e *PortError) Error() string {
	what := fmt.Sprintf("cannot serve the page on port %d: %v", e.Port, reason(e.Err))
	if errors.Is(e.Err, syscall.EADDRINUSE) {
		what = fmt.Sprintf("port %d is taken by another program, perhaps by another plinth watch", e.Port)
	}
	if e.Port == 0 {
		return fmt.Sprintf("cannot serve the page: %v", reason(e.Err))
	}
	return what + "; leave --port out for a free one, or name another"
}

func (e *PortError) Unwrap() error { return e.Err }

// reason is the innermost of an error of the network, without addresses.
func reason(err error) error {
	for inner := errors.Unwrap(err); inner != nil; inner = errors.Unwrap(err) {
		err = inner
	}
	return err
}

// The bounds of the server.
const (
	maxConnections = 64 // at one time; a browser holds six
	maxStreams     = 24 // of these, for events
	maxHeader      = 16 << 10
	headerTime     = 5 * time.Second
	idleTime       = 2 * time.Minute
	writeTime      = 30 * time.Second // for an answer, or for an event of a stream
)

// UsualPorts are those of a page for which no port is asked for: the first that is free, because a browser
// remembers what was set in the page by its port. They are registered to nobody (from memory), and no system
// gives them away by chance as it does those from 32768 on.
func UsualPorts() []int {
	var out []int
	for port := 27480; port < 27488; port++ {
		out = append(out, port)
	}
	return append(out, 0)
}

// listen takes the first port that is free.
func listen(ports []int) (listener net.Listener, err error) {
	if len(ports) == 0 {
		ports = []int{0}
	}
	for _, port := range ports {
		if listener, err = net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port))); err == nil {
			return listener, nil
		}
		err = &PortError{port, err}
	}
	return nil, err
}

// Start serves a song that is still to come. The error is a *PortError.
func Start(o Options) (*Server, error) {
	listener, err := listen(o.Ports)
	if err != nil {
		return nil, err
	}
	o.heartbeat = cmp.Or(o.heartbeat, 15*time.Second)
	s := &Server{Options: o, port: listener.Addr().(*net.TCPAddr).Port, key: secret(), pass: secret(),
		done: make(chan struct{}), cores: make(chan struct{}, runtime.GOMAXPROCS(0)), hall: sync.OnceValue(hall)}
	for _, name := range []string{"127.0.0.1", "localhost"} {
		s.hosts = append(s.hosts, net.JoinHostPort(name, strconv.Itoa(s.port)))
		if s.port == 80 { // browsers leave it out
			s.hosts = append(s.hosts, name)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	s.stop = stop
	s.story = newStory(page.State{File: o.File, Only: o.Only})
	go s.story.measureRooms(ctx, s.room)
	s.http = &http.Server{
		Handler:           s.guarded(s.routes()),
		ReadHeaderTimeout: headerTime,
		ReadTimeout:       headerTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    maxHeader,
		ErrorLog:          log.New(io.Discard, "", 0),
		BaseContext:       func(net.Listener) context.Context { return ctx },
	}
	go func() {
		defer close(s.done)
		s.http.Serve(netutil.LimitListener(listener, maxConnections)) // ends when it is closed
	}()
	return s, nil
}

// secret is 128 bits of chance as text.
func secret() string {
	b := make([]byte, 16)
	rand.Read(b) // never fails
	return base64.RawURLEncoding.EncodeToString(b)
}

// Address is what to open in a browser. Only who has it sees the song.
func (s *Server) Address() string { return fmt.Sprintf("http://127.0.0.1:%d/?key=%s", s.port, s.key) }

// Close ends the server and all its streams at once.
func (s *Server) Close() {
	s.stop()
	s.http.Close()
	<-s.done
}

// cookie is the name of the browser's cookie. Cookies of one host are shared by all its ports.
func (s *Server) cookie() string { return "plinth-" + strconv.Itoa(s.port) }

// routes are the paths that there are.
func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("/{$}", s.servePage)
	mux.HandleFunc("/app/{name}", s.serveApp)
	mux.HandleFunc("/events", s.serveEvents)
	mux.HandleFunc("/pass/{hash}", s.serveChunk)
	mux.HandleFunc("/note/{bank}/{note}", s.serveNote)
	mux.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) { refuse(w, http.StatusNotFound) })
	return plainPaths(mux)
}

// plainPaths keeps paths that would be cleaned up, as with "..", from the mux, which would answer
// with another address.
func plainPaths(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if p := r.URL.EscapedPath(); strings.ContainsAny(p, "%\\") || strings.Contains(p, "//") ||
			strings.Contains(p, "/.") || !strings.HasPrefix(p, "/") {
			refuse(w, http.StatusNotFound)
			return
		}
		next.ServeHTTP(w, r)
	})
}
