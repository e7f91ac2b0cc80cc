package page

import (
	"crypto/sha256"
	"encoding/base64"
	"strconv"
	"strings"

	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/outline"
	"plinth/songspec/timeline"
)

// Chunk is a pass, or the bars in front of bar 1, as the page gets it.
type Chunk struct {
	Hash string // of JSON
	JSON []byte
	// print is the hash of what is heard and read in the pass, the click not counted.
	print string
}

// hash is the shortened hash of some bytes: 96 bits.
func hash(parts ...[]byte) string {
	h := sha256.New()
	for _, p := range parts {
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
	known map[struck]bank.Note // what the bank has said
}

// struck is a note as a player asks a bank for it.
type struck struct {
	bank.Patch
	key, velocity uint8
}

// note is the note of the bank for a note that is heard.
func (w *writer) note(part *heard.Part, n *heard.Note) bank.Note {
	q := struck{bank.Patch{Program: part.Sounds[n.Sound].Program, Drums: part.Drums}, n.Key, n.Velocity}
	out, ok := w.known[q]
	if !ok {
		out = w.bank.Note(q.Patch, q.key, q.velocity)
		w.known[q] = out
	}
	return out
}

// NoteName is the name of a bank's note on the wire: "d40-38-2", "p0-60-0".
func NoteName(n bank.Note) string {
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
}

// chunk writes a stretch. It also gives the bank's notes that it plays.
func (w *writer) chunk(s *stretch) (Chunk, []bank.Note) {
	start := s.bars[0].Tick
	at := w.relative(start)
	b := append(make([]byte, 0, 4096), `{"bars":[`...)
	for i := range s.bars {
		b = w.bar(separate(b, i), s, i, at)
	}
	b = append(b, `],"events":[`...)
	if s.pass != nil {
		b = events(b, s.pass, start, at)
	}
	b = append(b, `],"notes":[`...)
	index := map[bank.Note]int{}
	var used []bank.Note
	for i, notes := range s.notes {
		for _, n := range notes {
			note := w.note(&w.song.Parts[i], n)
			if _, ok := index[note]; !ok {
				index[note] = len(used)
				b = append(append(append(separate(b, len(used)), '"'), NoteName(note)...), '"')
				used = append(used, note)
			}
		}
	}
	b = append(b, `],"parts":[`...)
	read := len(b)
	var heardParts [][]byte
	for i, notes := range s.notes {
		part := &w.song.Parts[i]
		b = append(separate(b, i), '[')
		from := len(b)
		for j, n := range notes { // six numbers each, one behind the other
			begins := at(n.Tick)
			for k, v := range [...]int64{begins, at(n.Tick+n.Ticks) - begins, int64(n.Key), int64(n.Velocity),
				int64(index[w.note(part, n)]), int64(n.Bar) - int64(s.first)} {
				b = strconv.AppendInt(separate(b, j+k), v, 10)
			}
		}
		if len(notes) > 0 && part.Who != heard.Click {
			heardParts = append(heardParts, []byte(part.Name), b[from:])
		}
		b = append(b, ']')
	}
	b = append(b, "]}"...)
	return Chunk{Hash: hash(b), JSON: b, print: hash(append(heardParts, b[:read])...)}, used
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

// bar writes a bar of a stretch.
func (w *writer) bar(b []byte, s *stretch, i int, at func(int64) int64) []byte {
	start, end := s.bars[i].Tick, s.bars[0].Tick
	m, energy, inside := w.tl.Meters[0].Meter, 0, i+1
	var chords []timeline.Span
	text := ""
	if s.pass == nil {
		end = start + w.tl.Lead/int64(len(s.bars))
	} else {
		p := &s.pass.Bars[i]
		end += p.Start + p.Length
		m, energy, inside = p.Meter, s.pass.EnergyAt(i), s.pass.NumberOf(i)
		chords, text = outline.ChordsIn(s.pass, p), strings.Join(strings.Fields(p.Text), " ")
	}
	b = field(b, `{"at":`, at(start))
	b = field(b, `,"length":`, at(end)-at(start))
	b = field(b, `,"tick":`, start-s.bars[0].Tick)
	b = field(b, `,"ticks":`, end-start)
	b = field(b, `,"inside":`, int64(inside))
	b = field(b, `,"energy":`, int64(energy))
	b = append(b, `,"beats":[`...)
	for j, beat := range m.Beats() {
		if beat < end-start {
			b = strconv.AppendInt(separate(b, j), at(start+beat), 10)
		}
	}
	b = appendText(append(b, `],"meter":`...), m.String())
	b = append(b, `,"chords":[`...)
	for j, c := range chords {
		name, from := c.Chord.String(), s.bars[0].Tick+c.Start
		if from < start {
			name, from = "/", start
		}
		b = field(separate(b, j), `{"at":`, at(from))
		b = append(appendText(append(b, `,"text":`...), name), '}')
	}
	b = appendText(append(b, `],"text":`...), text)
	return append(b, '}')
}

// events writes the events of a pass as they are played.
func events(b []byte, p *timeline.Pass, start int64, at func(int64) int64) []byte {
	for i, played := range cue.Events(p) {
		e := &p.Events[i]
		tick := e.Tick
		if played.Acts && played.Moved != 0 && played.Moved == played.By {
			tick = played.At
		}
		b = field(separate(b, i), `{"bar":`, int64(e.Bar))
		b = field(b, `,"at":`, at(start+tick))
		b = field(b, `,"end":`, at(start+max(tick, e.End)))
		b = appendText(append(b, `,"kind":`...), e.Kind.String())
		b = appendText(append(b, `,"text":`...), outline.Describe(e, played, p, &p.Bars[e.Bar]))
		if e.Text != "" {
			b = appendText(append(b, `,"cue":`...), e.Text)
		}
		b = append(b, `,"by":[`...)
		for j, who := range played.By.Names() {
			b = appendText(separate(b, j), who)
		}
		b = strconv.AppendBool(append(b, `],"acts":`...), played.Acts)
		b = append(b, '}')
	}
	return b
}
