package page

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"slices"
	"strconv"

	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// Chunk is a pass, or the bars in front of bar 1, as the page gets it.
type Chunk struct {
	Hash string // of what is in JSON
	JSON []byte
	// print is the hash of what is heard and read in the pass, the click not counted.
	print string
}

// hash is the shortened hash of some texts: 96 bits.
func hash(parts ...[]byte) string {
	h := sha256.New()
	for _, p := range parts {
		h.Write(binary.LittleEndian.AppendUint64(nil, uint64(len(p))))
		h.Write(p)
	}
	return base64.RawURLEncoding.EncodeToString(h.Sum(nil)[:12])
}

// writer writes chunks of a song.
type writer struct {
	tl    *timeline.Timeline
	song  *heard.Song
	bank  bank.Bank
	clock *timeline.Clock
	known map[bank.Patch]*struck
	notes []bank.Note // all that the bank has given
	// used are the notes of the chunk that is written, and at where each of notes stands among them.
	used []bank.Note
	at   []int
}

// struck are the bank's notes of a patch by key and velocity: indices in the writer's notes from 1 on, 0
// where it was not asked yet.
type struck [128][128]int32

// note is where the bank's note for a note that is heard stands among the chunk's.
func (w *writer) note(part *heard.Part, n *heard.Note) int64 {
	patch := bank.Patch{Program: part.Sounds[n.Sound].Program, Drums: part.Drums}
	table := w.known[patch]
	if table == nil {
		table = new(struck)
		w.known[patch] = table
	}
	id := &table[n.Key][n.Velocity]
	if *id == 0 {
		w.ask(id, patch, n)
	}
	at := &w.at[*id-1]
	if *at < 0 {
		*at = len(w.used)
		w.used = append(w.used, w.notes[*id-1])
	}
	return int64(*at)
}

// ask asks the bank for a note.
func (w *writer) ask(id *int32, patch bank.Patch, n *heard.Note) {
	note := w.bank.Note(patch, n.Key, n.Velocity)
	i := slices.Index(w.notes, note)
	if i < 0 {
		i = len(w.notes)
		w.notes, w.at = append(w.notes, note), append(w.at, -1)
	}
	*id = int32(i) + 1
}

// noteName is the name of a bank's note on the wire: "d40-38-2", "p0-60-0".
func noteName(n bank.Note) string {
	kind := "p"
	if n.Drums {
		kind = "d"
	}
	return kind + strconv.Itoa(int(n.Program)) + "-" + strconv.Itoa(int(n.Key)) + "-" + strconv.Itoa(int(n.Layer))
}

// relative gives the microseconds from a tick of the file to others. They do not depend on where in the
// song the tick stands, as differences of rounded times would.
func (w *writer) relative(start int64) func(tick int64) int64 {
	from := w.clock.Exact(start)
	return func(tick int64) int64 {
		d := w.clock.Exact(tick) - from
		if d < 0 {
			d -= meter.TicksPerQuarter - 1
		}
		return d / meter.TicksPerQuarter
	}
}

// stretch is what a chunk is made of: a pass and its notes.
type stretch struct {
	pass  *timeline.Pass // nil in front of bar 1
	first int            // index of its first bar in the song's
	bars  []heard.Bar
	notes [][]*heard.Note // by part
	count int             // of notes
}

// chunk writes a stretch. The bank's notes that it plays are in used then.
func (w *writer) chunk(s *stretch) Chunk {
	w.used = nil
	for i := range w.at {
		w.at[i] = -1
	}
	start := s.bars[0].Tick
	at := w.relative(start)
	b := append(make([]byte, 0, 32*s.count+2048), `{"bars":[`...)
	for i := range s.bars {
		b = w.bar(separate(b, i), s, i, at)
	}
	b = append(b, `],"events":[`...)
	if s.pass != nil {
		b = events(b, s.pass, start, at)
	}
	print := [][]byte{b}
	all := make([][]byte, len(s.notes)) // by part
	write := func(click bool) {
		for i, notes := range s.notes {
			if part := &w.song.Parts[i]; (part.Who == heard.Click) == click && len(notes) > 0 {
				all[i] = w.part(part, notes, at, s.first)
				if !click {
					print = append(print, []byte(part.Name), all[i])
				}
			}
		}
	}
	write(false)
	for _, n := range w.used {
		print = append(print, []byte(noteName(n)))
	}
	out := Chunk{print: hash(print...)}
	write(true)
	b = append(b, `],"notes":[`...)
	names := len(b)
	for i, n := range w.used {
		b = append(append(append(separate(b, i), '"'), noteName(n)...), '"')
	}
	whole := [][]byte{[]byte(out.print), b[names:]}
	b = append(b, `],"parts":[`...)
	for i, notes := range all {
		b = append(append(append(separate(b, i), '['), notes...), ']')
		whole = append(whole, []byte(w.song.Parts[i].Name))
		if w.song.Parts[i].Who == heard.Click {
			whole = append(whole, notes)
		}
	}
	out.JSON, out.Hash = append(b, "]}"...), hash(whole...)
	return out
}

// part writes the notes of a part, six numbers each. A note ends a microsecond early: rounding differs from chunk
// to chunk, and no note may end behind the next one of its key in another.
func (w *writer) part(part *heard.Part, notes []*heard.Note, at func(int64) int64, first int) []byte {
	b := make([]byte, 0, 32*len(notes))
	for j, n := range notes {
		begins := at(n.Tick)
		for k, v := range [...]int64{begins, at(n.Tick+n.Ticks) - begins - 1, int64(n.Key), int64(n.Velocity),
			w.note(part, n), int64(n.Bar) - int64(first)} {
			b = strconv.AppendInt(separate(b, j+k), v, 10)
		}
	}
	return b
}

// separate adds the comma in front of every item but the first.
func separate(b []byte, i int) []byte {
	if i > 0 {
		return append(b, ',')
	}
	return b
}

// field adds the name of a field and its number.
func field(b []byte, name string, v int64) []byte {
	return strconv.AppendInt(append(b, name...), v, 10)
}
