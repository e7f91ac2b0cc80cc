package serve

import (
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"runtime"
	"runtime/debug"
	"sync"

	"plinth/render/audio"
	"plinth/render/audio/bank"
	"plinth/render/page"
)

// maxCached is how many bytes of sound are kept. What falls out is rendered again when it is asked for.
const maxCached = 128 << 20

// noteCache renders the notes of a bank when they are asked for, each once, and keeps them.
type noteCache struct {
	bank  bank.Bank
	cores chan struct{} // as many as may render at one time

	mu    sync.Mutex
	kept  map[bank.Note]*cachedNote
	bytes int
	clock int // counts what was asked for

	impulse func() []byte
}

// cachedNote is a note that is rendered, or will be when ready is closed.
type cachedNote struct {
	ready  chan struct{}
	data   []byte
	failed any // what rendering has panicked with
	used   int
}

func newNoteCache(b bank.Bank) *noteCache {
	return &noteCache{bank: b, cores: make(chan struct{}, runtime.GOMAXPROCS(0)), kept: map[bank.Note]*cachedNote{},
		impulse: sync.OnceValue(func() []byte {
			hall := audio.Impulse()
			return pcm(bank.Sound{Left: hall.Left, Right: hall.Right})
		})}
}

// get is a note as the page gets it; nil where nobody waits for it any more. It panics where the
// bank does.
func (c *noteCache) get(ctx context.Context, n bank.Note) []byte {
	c.mu.Lock()
	c.clock++
	e := c.kept[n]
	if e == nil {
		e = &cachedNote{ready: make(chan struct{})}
		c.kept[n] = e
		go c.render(n, e)
	}
	e.used = c.clock
	c.mu.Unlock()
	select {
	case <-e.ready:
	case <-ctx.Done():
		return nil
	}
	if e.failed != nil {
		panic(e.failed)
	}
	return e.data
}

// render renders a note, and makes room for it.
func (c *noteCache) render(n bank.Note, e *cachedNote) {
	c.cores <- struct{}{}
	defer func() {
		if p := recover(); p != nil {
			e.failed = fmt.Sprintf("note %s: %v\n%s", page.NoteName(n), p, debug.Stack())
		}
		<-c.cores
		close(e.ready)
		c.mu.Lock()
		defer c.mu.Unlock()
		if e.failed != nil {
			delete(c.kept, n)
			return
		}
		c.bytes += len(e.data)
		for c.bytes > maxCached && c.dropOldest(e) {
		}
	}()
	e.data = pcm(c.bank.Sound(n))
}

// dropOldest drops the note that was asked for longest ago, but not the one that was just rendered. It
// reports whether there was any.
func (c *noteCache) dropOldest(but *cachedNote) bool {
	var oldest *cachedNote
	var of bank.Note
	for n, e := range c.kept {
		if e != but && isClosed(e.ready) && (oldest == nil || e.used < oldest.used) {
			oldest, of = e, n
		}
	}
	if oldest == nil {
		return false
	}
	c.bytes -= len(oldest.data)
	delete(c.kept, of)
	return true
}

func isClosed(c chan struct{}) bool {
	select {
	case <-c:
		return true
	default:
		return false
	}
}

// room is the impulse of the reverb.
func (c *noteCache) room() []byte { return c.impulse() }

// pcm is a sound on the wire: how many frames, the scale, the time constant of its release in seconds and
// its class, then the left and the right channel in 16 bits.
func pcm(s bank.Sound) []byte {
	peak := float32(0)
	for _, side := range [][]float32{s.Left, s.Right} {
		for _, x := range side {
			peak = max(peak, x, -x)
		}
	}
	b := make([]byte, 0, 16+4*len(s.Left))
	b = binary.LittleEndian.AppendUint32(b, uint32(len(s.Left)))
	b = binary.LittleEndian.AppendUint32(b, math.Float32bits(peak))
	b = binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(s.Release)))
	b = binary.LittleEndian.AppendUint32(b, uint32(s.Class))
	scale := float32(0)
	if peak > 0 {
		scale = math.MaxInt16 / peak
	}
	for _, side := range [][]float32{s.Left, s.Right} {
		for _, x := range side {
			b = binary.LittleEndian.AppendUint16(b, uint16(int16(math.Round(float64(x*scale)))))
		}
	}
	return b
}
