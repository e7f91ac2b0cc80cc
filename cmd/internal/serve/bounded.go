package serve

import (
	"net"
	"sync"
)

// bounded is a listener that has so many connections open at most. Others wait.
func bounded(l net.Listener, most int) net.Listener {
	return &boundedListener{Listener: l, places: make(chan struct{}, most), closed: make(chan struct{})}
}

type boundedListener struct {
	net.Listener
	places chan struct{}
	once   sync.Once
	closed chan struct{}
}

func (b *boundedListener) Accept() (net.Conn, error) {
	select {
	case b.places <- struct{}{}:
	case <-b.closed:
		return nil, net.ErrClosed
	}
	c, err := b.Listener.Accept()
	if err != nil {
		<-b.places
		return nil, err
	}
	return &boundedConn{Conn: c, leave: sync.OnceFunc(func() { <-b.places })}, nil
}

func (b *boundedListener) Close() error {
	b.once.Do(func() { close(b.closed) })
	return b.Listener.Close()
}

type boundedConn struct {
	net.Conn
	leave func()
}

func (c *boundedConn) Close() error {
	defer c.leave()
	return c.Conn.Close()
}
