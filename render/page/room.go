package page

import (
	"plinth/render/room"
	"plinth/songspec/guide"
	"plinth/songspec/timeline"
)

// The objects of the room, with their fields in the order of the file.
type (
	roomJSON struct {
		Low    int             `json:"low"` // the range of pitch to draw, in MIDI notes
		High   int             `json:"high"`
		Chunks []roomChunkJSON `json:"chunks"`
	}
	roomChunkJSON struct {
		Windows []windowJSON `json:"windows"`
		Free    []freeJSON   `json:"free"`
	}
	windowJSON struct { // in microseconds from the chunk's start
		From int64 `json:"from"`
		To   int64 `json:"to"`
	}
	freeJSON struct {
		Low   int       `json:"low"`
		High  int       `json:"high"`
		Names [2]string `json:"names"` // as the key spells them
	}
)

// Room measures the room that a bed leaves, and gives what the page is told of it but for the revision.
// It takes longer than all else that the page is told.
func Room(b *Bed) []byte {
	r := room.Analyze(b.Timeline, b.Performance)
	var out roomJSON
	out.Low, out.High = r.Field()
	clock := timeline.NewClock(b.Timeline.Tempos)
	for i := range b.Chunks {
		c := roomChunkJSON{[]windowJSON{}, []freeJSON{}}
		start, end := int64(0), b.Timeline.Lead
		if pass := i - b.front(); pass >= 0 {
			p, s := &b.Timeline.Passes[pass], &r.Passes[pass]
			start, end = p.Start, p.Start+p.Length
			for _, f := range s.Free {
				c.Free = append(c.Free, freeJSON{f.Low, f.High, [2]string{guide.PitchName(f.Low, s.Key),
					guide.PitchName(f.High, s.Key)}})
			}
		}
		for _, w := range r.Windows {
			if from, to := max(w.Start, start), min(w.End, end); from < to {
				at := clock.Micros(start)
				c.Windows = append(c.Windows, windowJSON{clock.Micros(from) - at, clock.Micros(to) - at})
			}
		}
		out.Chunks = append(out.Chunks, c)
	}
	return encode(out)
}

// RoomOf is the room for the page, for a revision with the bed that it was measured of.
func RoomOf(rev int, room []byte) []byte {
	return append(append(field(nil, `{"rev":`, int64(rev)), ','), room[1:]...)
}
