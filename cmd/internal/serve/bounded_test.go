package serve

import (
	"errors"
	"fmt"
	"net"
	"syscall"
	"testing"
	"time"
)

// Only so many connections are taken at a time; the others wait until one ends.
func TestConnectionsAreBounded(t *testing.T) {
	listener, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	two := bounded(listener, 2)
	taken := make(chan net.Conn, 3)
	go func() {
		for {
			c, err := two.Accept()
			if err != nil {
				close(taken)
				return
			}
			taken <- c
		}
	}()
	for range 3 {
		c, err := net.Dial("tcp4", listener.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
	}
	first, second := <-taken, <-taken
	select {
	case <-taken:
		t.Error("a third is taken")
	case <-time.After(20 * time.Millisecond):
	}
	first.Close()
	first.Close() // a second time makes no room
	third := <-taken
	two.Close()
	if _, more := <-taken; more {
		t.Error("one more is taken")
	}
	second.Close()
	third.Close()
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
