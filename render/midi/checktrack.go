package midi

import (
	"errors"
	"fmt"

	"plinth/songspec/meter"
)

// Ranks of events at one tick; a track's ranks may not descend within a tick.
const (
	rankMeta = iota
	rankControl
	rankOff
	rankOn
)

// trackChecker reads one track of a file.
type trackChecker struct {
	reader
	index int

	tick    int64
	rank    int
	events  int  // read so far
	ended   bool // the end of the track was read
	named   bool // FF 04 was read
	program bool
	changed int64 // the tick of the last program
	under   int   // how many notes that sounded at that program have not been let go there

	sounding [128]bool
	keysDown int // how many are sounding

	// Of the first track: the bar line where the last meter began, the length of its
	// bars, and which of tempo, meter and key stand at tick 0.
	meterAt, bar            int64
	tempo0, meter0, keySig0 bool
}

// isConductor says whether this is the first track.
func (c *trackChecker) isConductor() bool { return c.index == 0 }

// check reads the whole track and returns the first thing that is wrong with it.
func (c *trackChecker) check() error {
	for c.pos < len(c.data) {
		if c.ended {
			return errors.New("something follows the end of the track")
		}
		delta, err := c.quantity()
		if err != nil {
			return err
		}
		if delta > 0 {
			if c.under > 0 {
				return errors.New("a program changes under a note")
			}
			c.tick += delta
			c.rank = rankMeta
		}
		if err := c.readEvent(c.byte()); err != nil {
			return err
		}
		if c.short {
			return errors.New("the track stops in the middle of an event")
		}
		c.events++
	}
	switch {
	case !c.ended:
		return errors.New("the track has no end")
	case c.keysDown > 0:
		return fmt.Errorf("%d notes still sound", c.keysDown)
	case c.isConductor() && !(c.tempo0 && c.meter0 && c.keySig0):
		return errors.New("tempo, meter or key does not stand at tick 0")
	case c.isConductor() && (c.tick-c.meterAt)%c.bar != 0:
		return errors.New("the end is on no bar line")
	case !c.isConductor() && !(c.named && c.program):
		return errors.New("the track has no instrument or no program")
	}
	return nil
}

// inRank takes the rank of an event. It is an error when an event of a higher rank was
// read at this tick already.
func (c *trackChecker) inRank(rank int) error {
	if rank < c.rank {
		return errors.New("the order at one tick is meta, program and controllers, note-offs, note-ons")
	}
	c.rank = rank
	return nil
}

func (c *trackChecker) readEvent(status byte) error {
	if status == 0xFF {
		return c.readMeta()
	}
	switch {
	case c.short:
		return nil
	case status < 0x80:
		return errors.New("an event without a status byte")
	case status >= 0xF0:
		return fmt.Errorf("status %X belongs in no file of ours", status)
	case c.isConductor():
		return errors.New("a channel event in the first track")
	case c.events == 0:
		return errors.New("the track's name is not its first event")
	case status&0x0f != trackAt(c.index).channel:
		return fmt.Errorf("channel %d instead of %d", status&0x0f+1, trackAt(c.index).channel+1)
	}
	switch status & 0xf0 {
	case 0x80, 0x90:
		return c.checkNote(status&0xf0 == 0x90, c.byte(), c.byte())
	case 0xB0:
		switch n, value := c.byte(), c.byte(); {
		case n == 0 || n == 32:
			return errors.New("a bank select")
		case n > 127 || value > 127:
			return errors.New("a controller or value over 127")
		}
		return c.inRank(rankControl)
	case 0xC0:
		if c.program && c.changed == c.tick {
			return errors.New("a second program change at one tick")
		}
		if c.byte() > 127 {
			return errors.New("a program over 127")
		}
		c.program, c.changed, c.under = true, c.tick, c.keysDown
		return c.inRank(rankControl)
	}
	return fmt.Errorf("status %X belongs in no file of ours", status)
}

func (c *trackChecker) checkNote(on bool, key, velocity byte) error {
	switch {
	case c.short:
		return nil // check reports it
	case key > 127 || velocity > 127:
		return fmt.Errorf("key %d or velocity %d is over 127", key, velocity)
	case !c.program:
		return errors.New("a note before the program change")
	case on && velocity == 0:
		return errors.New("a note-on of velocity 0")
	case on && c.sounding[key]:
		return fmt.Errorf("key %d is struck while it sounds", key)
	case !on && !c.sounding[key]:
		return fmt.Errorf("key %d is let go and does not sound", key)
	}
	c.sounding[key] = on
	if on {
		if c.under > 0 {
			return errors.New("a program changes under a note")
		}
		c.keysDown++
		return c.inRank(rankOn)
	}
	c.under = max(0, c.under-1)
	c.keysDown--
	return c.inRank(rankOff)
}

// readMeta reads a readMeta event after its FF.
func (c *trackChecker) readMeta() error {
	kind := c.byte()
	size, err := c.quantity()
	if err != nil {
		return err
	}
	data := c.take(size)
	if c.short {
		return nil
	}
	if c.events == 0 && (kind != 0x03 || c.tick != 0) {
		return errors.New("the first event is not the name at tick 0")
	}
	switch kind {
	case 0x2F:
		c.ended = true
		if size != 0 {
			return errors.New("the end of the track has data")
		}
		return nil // it comes last, whatever stands at its tick
	case 0x03, 0x04, 0x06, 0x07:
		err = c.checkText(kind, data)
	case 0x51, 0x58, 0x59:
		err = c.checkSignature(kind, data)
	default:
		err = fmt.Errorf("meta event %X belongs in no file of ours", kind)
	}
	if err != nil {
		return err
	}
	return c.inRank(rankMeta)
}

// checkText checks a name, an instrument, a marker or a cue point.
func (c *trackChecker) checkText(kind byte, data []byte) error {
	for _, b := range data {
		if b < ' ' || b > '~' {
			return fmt.Errorf("the text %q is not plain ASCII", data)
		}
	}
	switch {
	case len(data) == 0:
		return errors.New("an empty text")
	case kind == 0x03 && c.events > 0:
		return errors.New("a second name")
	case kind == 0x03 && !c.isConductor() && string(data) != trackAt(c.index).name:
		return fmt.Errorf("the track is named %q instead of %q", data, trackAt(c.index).name)
	case kind == 0x04 && (c.isConductor() || c.named):
		return errors.New("an instrument where none belongs")
	case kind == 0x06 && !c.isConductor():
		return errors.New("a marker outside the first track")
	case kind == 0x07 && !c.isConductor():
		return errors.New("a cue point outside the first track")
	}
	c.named = c.named || kind == 0x04
	return nil
}

// checkSignature checks a tempo, a meter or a key.
func (c *trackChecker) checkSignature(kind byte, data []byte) error {
	want := map[byte]int{0x51: 3, 0x58: 4, 0x59: 2}[kind]
	switch {
	case !c.isConductor():
		return errors.New("a tempo, meter or key outside the first track")
	case len(data) != want:
		return fmt.Errorf("meta event %X has %d bytes instead of %d", kind, len(data), want)
	}
	switch kind {
	case 0x51:
		if data[0]|data[1]|data[2] == 0 {
			return errors.New("a tempo of 0 microseconds a quarter")
		}
		c.tempo0 = c.tempo0 || c.tick == 0
	case 0x58:
		if data[0] == 0 || data[1] > 5 || data[2] == 0 || data[3] != 8 {
			return fmt.Errorf("the meter % X", data)
		}
		if c.bar > 0 && (c.tick-c.meterAt)%c.bar != 0 {
			return errors.New("a meter that begins on no bar line")
		}
		c.meterAt, c.bar = c.tick, int64(data[0])*4*meter.TicksPerQuarter>>data[1]
		c.meter0 = c.meter0 || c.tick == 0
	case 0x59:
		if sf := int8(data[0]); sf < -7 || sf > 7 || data[1] > 1 {
			return fmt.Errorf("the key % X", data)
		}
		c.keySig0 = c.keySig0 || c.tick == 0
	}
	return nil
}
