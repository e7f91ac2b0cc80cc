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
// its class, then the left and the right channel in 16 bits. Where nothing is left in 16 bits, it ends.
func pcm(s bank.Sound) []byte {
	peak := max(loudest(s.Left), loudest(s.Right))
	scale := float32(0)
	if peak > 0 {
		scale = math.MaxInt16 / peak
	}
	frames := len(s.Left)
	for frames > 0 && sample(s.Left[frames-1]*scale) == 0 && sample(s.Right[frames-1]*scale) == 0 {
		frames--
	}
	b := make([]byte, 16+4*frames)
	binary.LittleEndian.PutUint32(b, uint32(frames))
	binary.LittleEndian.PutUint32(b[4:], math.Float32bits(peak))
	binary.LittleEndian.PutUint32(b[8:], math.Float32bits(float32(s.Release)))
	binary.LittleEndian.PutUint32(b[12:], uint32(s.Class))
	left, right := b[16:16+2*frames], b[16+2*frames:]
	for i := range frames {
		binary.LittleEndian.PutUint16(left[2*i:], uint16(sample(s.Left[i]*scale)))
		binary.LittleEndian.PutUint16(right[2*i:], uint16(sample(s.Right[i]*scale)))
	}
	return b
}

// sample is the nearest of 16 bits.
func sample(x float32) int16 { return int16(int32(x+32768.5) - 32768) }

// loudest is the sample that is farthest from 0, without its sign. Positive floats are ordered as their bits.
func loudest(x []float32) float32 {
	most := uint32(0)
	for _, v := range x {
		most = max(most, math.Float32bits(v)&^(1<<31))
	}
	return math.Float32frombits(most)
}
