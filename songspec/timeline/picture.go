package timeline

import (
	"fmt"

	"plinth/songspec/timecode"
)

// Picture is the picture that a song is for: how its frames are counted, and the frame of bar 1
// count 1.
type Picture struct {
	Count timecode.Count
	Start timecode.Frame
}

// Code is the time code of the frame that is nearest to a time from bar 1 count 1.
func (p *Picture) Code(micros int64) string { return p.Count.Code(p.Count.At(p.Start, micros)) }

// Landing is a place that comes at a time that the song file says.
type Landing struct {
	Tick   int64 // absolute
	Micros int64 // from bar 1 count 1
	What   string
	Change int64 // of the tempo up to it from the landing before, in hundredths of a per cent
}

// MinSecTenths writes microseconds as minutes and seconds with one decimal, to the nearest: "3:07.4".
func MinSecTenths(micros int64) string {
	s := (micros + 50_000) / 100_000
	return fmt.Sprintf("%d:%02d.%d", s/600, s/10%60, s%10)
}
