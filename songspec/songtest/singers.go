package songtest

import (
	"encoding/binary"
	"fmt"
)

// singers writes the blocks of one to three singers, and their guide.
func (w *writer) singers() {
	tracks := []string{"Soprano", "Alto", "Baritone"}
	lows := []int{60, 55, 45}
	n := 1 + w.more.Intn(3)
	file := binary.BigEndian.AppendUint16([]byte("MThd\x00\x00\x00\x06\x00\x01"), uint16(n))
	file = append(file, 480/256, 480%256) // ticks a quarter
	for i := range n {
		body := w.sung(tracks[i], lows[i], i == 0)
		file = binary.BigEndian.AppendUint32(append(file, "MTrk"...), uint32(len(body)))
		file = append(file, body...)
	}
	w.files["guide.mid"] = string(file)
	from, transpose := 1+w.more.Intn(3), w.more.Intn(5)-2
	for i := range n {
		w.line("vocal \"guide.mid\" {\n  from = %d\n  transpose = %d\n  track = %q", from, transpose, tracks[i])
		if n > 1 || w.later(2) {
			w.line("  name = %q", []string{"Nell", "Ada", "Tom"}[i])
		}
		if w.later(2) {
			w.line("  range = [\"%s\", \"%s\"]", []string{"C4", "G3", "A2"}[i], []string{"A5", "D5", "F4"}[i])
		}
		if w.later(3) {
			w.line("  rough = true")
		}
		w.line("}")
	}
}

// sung is a track of a Standard MIDI File: phrases of a few notes, with rests, and the tempo of each
// phrase where it leads.
func (w *writer) sung(name string, low int, leads bool) []byte {
	out := append([]byte{0, 0xff, 0x03, byte(len(name))}, name...)
	wait, key := 0, low+w.more.Intn(8)
	for range 4 + w.more.Intn(8) {
		if leads {
			micros := 60_000_000 / (45 + w.more.Intn(90))
			out = append(appendVariable(out, wait), 0xff, 0x51, 3, byte(micros>>16), byte(micros>>8), byte(micros))
			wait = 0
		}
		for range 1 + w.more.Intn(6) {
			key = min(max(key+w.more.Intn(7)-3, low), low+17)
			length := pick(w, 240, 240, 480, 960)
			out = append(appendVariable(out, wait), 0x90, byte(key), byte(70+w.more.Intn(30)))
			out = append(appendVariable(out, length-20), 0x80, byte(key), 0)
			wait = 20
		}
		wait += 480 * w.more.Intn(9)
	}
	return append(out, 0, 0xff, 0x2f, 0)
}

// appendVariable appends a number below 16384 as a MIDI file has it: seven bits a byte, and the top bit
// where another follows.
func appendVariable(to []byte, n int) []byte {
	if n >= 1<<14 {
		panic(fmt.Sprintf("songtest: %d takes more than two bytes", n))
	}
	if n >= 1<<7 {
		to = append(to, 0x80|byte(n>>7))
	}
	return append(to, byte(n&0x7f))
}
