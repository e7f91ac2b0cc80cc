package guide

import "encoding/binary"

// Builders of Standard MIDI File bytes for the tests. They write what they are
// told, right or wrong.

func vlqBytes(n uint32) []byte {
	out := []byte{byte(n & 0x7F)}
	for n >>= 7; n > 0; n >>= 7 {
		out = append([]byte{byte(n&0x7F) | 0x80}, out...)
	}
	return out
}

func cat(parts ...[]byte) []byte {
	var out []byte
	for _, p := range parts {
		out = append(out, p...)
	}
	return out
}

func chunk(id string, body []byte) []byte {
	return cat([]byte(id), binary.BigEndian.AppendUint32(nil, uint32(len(body))), body)
}

func header(format, tracks, division int) []byte {
	b := binary.BigEndian.AppendUint16(nil, uint16(format))
	b = binary.BigEndian.AppendUint16(b, uint16(tracks))
	b = binary.BigEndian.AppendUint16(b, uint16(division))
	return chunk("MThd", b)
}

func ev(delta uint32, bytes ...byte) []byte { return append(vlqBytes(delta), bytes...) }

func meta(delta uint32, kind byte, data string) []byte {
	return cat(ev(delta, 0xFF, kind), vlqBytes(uint32(len(data))), []byte(data))
}

var endOfTrack = ev(0, 0xFF, 0x2F, 0)

// file is a whole file of one format and 480 ticks a quarter; the tracks get
// their end of track.
func file(format int, tracks ...[]byte) []byte {
	out := header(format, len(tracks), 480)
	for _, t := range tracks {
		out = append(out, chunk("MTrk", cat(t, endOfTrack))...)
	}
	return out
}

// line writes notes on one channel (from 0): key, tick, length; in order,
// without overlap.
func line(name string, ch byte, notes ...[3]int) []byte {
	out := meta(0, 3, name)
	at := 0
	for _, n := range notes {
		out = cat(out, ev(uint32(n[1]-at), 0x90|ch, byte(n[0]), 80), ev(uint32(n[2]), 0x80|ch, byte(n[0]), 64))
		at = n[1] + n[2]
	}
	return out
}
