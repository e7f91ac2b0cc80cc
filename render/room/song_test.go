package room

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"

	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/songspec"
	"plinth/songspec/guide"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// exampleSong resolves a song of the examples folder.
func exampleSong(t testing.TB, name string) *timeline.Timeline {
	t.Helper()
	path := filepath.Join("..", "..", "examples", name)
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return resolve(t, name, src)
}

func resolve(t testing.TB, name string, src []byte) *timeline.Timeline {
	t.Helper()
	file, diags := songspec.Parse(name, src)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	env := songspec.Env{Feels: map[string]songspec.FeelInfo{}}
	tl, diags := file.Resolve(env)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	return tl
}

// sung is a note for a test's guide file: ticks of 960 from the file's start.
type sung struct {
	at, length int64
	key        uint8
}

// sing makes a format 0 file of the notes (in order, one at a time) and lays it on the song
// from bar 1 on, so that reading a guide is tested too.
func sing(t testing.TB, tl *timeline.Timeline, notes ...sung) {
	t.Helper()
	tl.Vocals = []timeline.Vocal{{Path: "voice.mid", From: 1}}
	vlq := func(n int64) []byte {
		out := []byte{byte(n & 0x7F)}
		for n >>= 7; n > 0; n >>= 7 {
			out = append([]byte{byte(n&0x7F) | 0x80}, out...)
		}
		return out
	}
	track := []byte("\x00\xFF\x03\x05Voice")
	now := int64(0)
	for _, s := range notes {
		track = append(append(track, vlq(s.at-now)...), 0x90, s.key, 80)
		track = append(append(track, vlq(s.length)...), 0x80, s.key, 64)
		now = s.at + s.length
	}
	track = append(track, "\x00\xFF\x2F\x00"...)
	src := append([]byte("MThd\x00\x00\x00\x06\x00\x00\x00\x01\x03\xC0MTrk"),
		binary.BigEndian.AppendUint32(nil, uint32(len(track)))...)
	file, err := guide.Read(append(src, track...))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range guide.Place(tl, 0, file) {
		if p.Error {
			t.Fatal(p.Detail)
		}
	}
}

// tune makes up a singable line over a song's chords: phrases of four bars, chord tones near
// each other, a breath after each phrase. sings says in which sections.
func tune(tl *timeline.Timeline, low, high uint8, sings func(section string) bool) []sung {
	// Starts and lengths in quarters × 2 within four bars of four.
	rhythm := [][2]int64{{1, 1}, {2, 2}, {4, 3}, {7, 1}, {8, 4}, {13, 1}, {14, 2}, {16, 2}, {18, 1}, {19, 3}, {22, 2},
		{24, 5}}
	var out []sung
	was := int(low+high) / 2
	for i := range tl.Passes {
		p := &tl.Passes[i]
		if !sings(p.Section) {
			continue
		}
		for bar := 0; bar+3 < len(p.Bars); bar += 4 {
			for k, x := range rhythm {
				at := p.Bars[bar].Start + x[0]*meter.TicksPerQuarter/2
				if at >= p.Length {
					break
				}
				for _, s := range p.Chords {
					if at < s.Start || at >= s.End || s.Chord.None {
						continue
					}
					best := was
					for d := 1; d < 13; d++ {
						try := was + d*(1-2*((k+bar+i)%2))
						if try >= int(low) && try <= int(high) && s.Chord.PCSet()&(1<<(try%12)) != 0 {
							best = try
							break
						}
						if try = was - d*(1-2*((k+bar+i)%2)); try >= int(low) && try <= int(high) &&
							s.Chord.PCSet()&(1<<(try%12)) != 0 {
							best = try
							break
						}
					}
					was = best
				}
				out = append(out, sung{p.Start + at - tl.Lead, x[1]*meter.TicksPerQuarter/2 - 40, uint8(was)})
			}
		}
	}
	return out
}

// builtin are the feels of the library.
var builtin = library.Builtin

func perform(tl *timeline.Timeline, set *feel.Set) *groove.Performance {
	return groove.Perform(tl, set)
}
