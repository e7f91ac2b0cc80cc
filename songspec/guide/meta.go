package guide

import (
	"strings"
	"unicode/utf8"
)

// Meta event types (SMF 1.0).
const (
	metaText      = 0x01
	metaName      = 0x03
	metaLyric     = 0x05
	metaEnd       = 0x2F
	metaTempo     = 0x51
	metaMeter     = 0x58
	metaSignature = 0x59
)

// meta reads a meta event after its FF. An event with an impossible value is counted and
// skipped.
func (t *trackState) meta(r *reader, limit int) error {
	if t.pos >= limit {
		return errCut
	}
	kind := r.src[t.pos]
	t.pos++
	data, err := t.data(r.src, limit)
	if err != nil {
		return err
	}
	switch kind {
	case metaEnd:
		t.ended = true
	case metaName:
		if t.name == "" {
			t.name = text(data)
		}
	case metaLyric:
		t.lyrics = append(t.lyrics, t.tick)
	case metaText:
		if t.tick > 0 && len(data) > 0 && data[0] != '@' {
			t.texts = append(t.texts, t.tick)
		}
	case metaTempo, metaMeter, metaSignature:
		if !t.value(kind, data) {
			t.odd++
		}
	}
	return nil
}

// value takes a tempo or a meter and checks a key. It is false if the value is impossible.
func (t *trackState) value(kind byte, data []byte) bool {
	switch kind {
	case metaTempo:
		if len(data) != 3 || data[0]|data[1]|data[2] == 0 {
			return false
		}
		t.tempos = append(t.tempos, Tempo{t.tick, int64(data[0])<<16 | int64(data[1])<<8 | int64(data[2])})
	case metaMeter:
		if len(data) < 2 || data[0] == 0 || data[1] > 6 {
			return false
		}
		t.meters = append(t.meters, Meter{t.tick, int(data[0]), 1 << data[1]})
	case metaSignature:
		if len(data) < 2 || int8(data[0]) < -7 || int8(data[0]) > 7 || data[1] > 1 {
			return false
		}
	}
	return true
}

// text is a name from bytes, which should be ASCII and are UTF-8 or Latin-1 in practice. Blanks
// and control characters become single blanks; at most maxText bytes are kept.
func text(data []byte) string {
	if len(data) > maxText {
		data = data[:maxText]
		for len(data) > 0 && !utf8.Valid(data) && data[len(data)-1] >= 0x80 {
			data = data[:len(data)-1]
		}
	}
	s := string(data)
	if !utf8.Valid(data) {
		runes := make([]rune, len(data))
		for i, b := range data {
			runes[i] = rune(b)
		}
		s = string(runes)
	}
	s = strings.Map(func(c rune) rune {
		if c < 0x20 || c >= 0x7F && c < 0xA0 {
			return ' '
		}
		return c
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
