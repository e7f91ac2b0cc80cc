package serve

import (
	"errors"
	"fmt"
	"io"
	"net"
	"syscall"
	"testing"
	"time"
)

// Only so many connections are answered at a time; the others wait until one ends.
func TestConnectionsAreBounded(t *testing.T) {
	s := serving(t, nil)
	var open []net.Conn
	for range maxConnections + 1 {
		c, err := net.Dial("tcp4", fmt.Sprintf("127.0.0.1:%d", s.port))
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		open = append(open, c)
	}
	last := open[maxConnections]
	fmt.Fprintf(last, "GET / HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n\r\n", s.port)
	answer := make([]byte, 12)
	last.SetReadDeadline(time.Now().Add(20 * time.Millisecond))
	if _, err := io.ReadFull(last, answer); err == nil {
		t.Errorf("one too many is answered %q", answer)
	}
	open[0].Close()
	last.SetReadDeadline(time.Time{})
	if _, err := io.ReadFull(last, answer); err != nil || string(answer) != "HTTP/1.1 403" {
		t.Errorf("when there is room: %q, %v", answer, err)
	}
}

// A port that another program has is said in words; any other port is found.
func TestPort(t *testing.T) {
	s := serving(t, nil)
	_, err := Start(Options{Ports: []int{s.port}, Sounds: s.Sounds})
	var port *PortError
	if !errors.As(err, &port) || !errors.Is(err, syscall.EADDRINUSE) ||
		err.Error() != fmt.Sprintf("port %d is taken by another program, perhaps by another plinth watch; "+
			"leave --port out for a free one, or name another", s.port) {
		t.Errorf("%v", err)
	}
	if want := fmt.Sprintf("http://127.0.0.1:%d/?key=%s", s.port, s.key); s.Address() != want {
		t.Error(s.Address())
	}
	next, err := Start(Options{Ports: []int{s.port, s.port, 0}, Sounds: s.Sounds})
	if err != nil {
		t.Fatal(err)
	}
	defer next.Close()
	if next.port == s.port {
		t.Error("the port is taken twice")
	}
}
