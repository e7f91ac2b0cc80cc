package realsongs

import (
	"fmt"
	"io/fs"
	"math"
	"strings"

	"plinth/songspec/meter"
)

// ArtSong is a song for voice and piano of the nineteenth century with its harmony, as a folder of
// lieder-dev has it in truth.json (scores CC0, analyses CC BY-SA 4.0). Positions and lengths are
// in quarters.
type ArtSong struct {
	Meters []struct {
		Bar   int // from 1
		Meter string
	}
	Bars   []struct{ Q float64 }
	Chords []ArtChord
	Home   string `json:"home_key"`
}

// ArtChord is a chord from its place to the next chord's.
type ArtChord struct {
	Bar     int // from 1
	Pos     float64
	Root    string
	Quality string
	Seventh any // semitones above the root, or nil
	Bass    string
}

// ArtSongs reads the songs of the folder lieder-dev, in order. It is an error if there is none.
func ArtSongs(data fs.FS) ([]*ArtSong, error) {
	songs, _, err := read[ArtSong](data, "lieder-dev")
	return songs, err
}

// artSuffixes are the data set's qualities and sevenths as suffixes of a symbol. An augmented sixth
// is the seventh that it sounds like.
var artSuffixes = map[string]string{"maj <nil>": "", "maj 10": "7", "maj 11": "maj7", "min <nil>": "m", "min 10": "m7",
	"dim <nil>": "dim", "dim 9": "dim7", "dim 10": "m7b5", "aug <nil>": "aug", "aug 10": "aug7", "aug 11": "maj7#5",
	"aug6 true": "7"}

// Symbol is the chord as a chart has it; ok is false for one that has no symbol.
func (c *ArtChord) Symbol() (symbol string, ok bool) {
	suffix, ok := artSuffixes[fmt.Sprintf("%s %v", c.Quality, c.Seventh)]
	if c.Bass != "" && c.Bass != c.Root {
		suffix += "/" + c.Bass
	}
	return c.Root + suffix, ok
}

// ArtChart is the chart of an art song.
type ArtChart struct {
	Meter string
	Lines string // a bar a line, the chords with their counts
	// Changes are those of the song, Off those of them off the felt beats, and Unsaid those that have no
	// spoken count and are left out.
	Changes, Off, Unsaid int
}

// Chart writes a song's chart.
func (s *ArtSong) Chart() (ArtChart, error) {
	out := ArtChart{Meter: s.Meters[0].Meter}
	var b strings.Builder
	last, next, usual := "", 0, meter.Meter{}
	for i, bar := range s.Bars {
		for _, m := range s.Meters {
			if m.Bar == i+1 {
				var err error
				if usual, err = meter.Parse(m.Meter); err != nil {
					return out, err
				}
			}
		}
		m := usual
		for ticks := int64(math.Round(bar.Q * meter.TicksPerQuarter)); m.BarTicks() != ticks; {
			if m.Num = int(ticks / m.UnitTicks()); m.BarTicks() == ticks {
				break
			}
			if m.Den *= 2; m.Den > 32 {
				m = usual // a bar that is no bar
				break
			}
		}
		if b.WriteString("|"); m != usual || m.String() != out.Meter {
			fmt.Fprintf(&b, " (%s)", m)
		}
		words := 0
		for ; next < len(s.Chords) && s.Chords[next].Bar == i+1; next++ {
			c := &s.Chords[next]
			tick := int64(math.Round(c.Pos * meter.TicksPerQuarter))
			count := m.CountAt(tick)
			symbol, ok := c.Symbol()
			if !ok {
				return out, fmt.Errorf("bar %d: no symbol for %+v", i+1, *c)
			}
			if tick > 0 && words == 0 && last == "" {
				fmt.Fprint(&b, " N.C.")
			}
			if symbol == last && tick > 0 {
				continue
			}
			if symbol != last {
				out.Changes++
			}
			switch {
			case strings.Contains(count, "+") || tick >= m.BarTicks():
				out.Unsaid++
				continue
			case tick > 0:
				fmt.Fprintf(&b, " %s@%s", symbol, count)
			default:
				fmt.Fprintf(&b, " %s", symbol)
			}
			if tick > 0 && m.NextBeat(tick-1) != tick {
				out.Off++
			}
			last, words = symbol, words+1
		}
		switch {
		case words == 0 && last == "":
			b.WriteString(" N.C.")
		case words == 0:
			b.WriteString(" " + last)
		}
		b.WriteString(" |\n")
	}
	out.Lines = b.String()
	return out, nil
}
