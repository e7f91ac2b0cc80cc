package guide

import (
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

// FuzzPlace places every file that can be read. The voice must lie inside the song, each pass
// must have what sounds in it, windows must not touch, and every message must be a sentence.
func FuzzPlace(f *testing.F) {
	voice := line("Vocal", 0, [3]int{67, 0, 960}, [3]int{69, 960, 480}, [3]int{72, 3360, 480})
	for _, seed := range [][]byte{
		file(0, voice), file(1, line("", 0, [3]int{60, 0, 480}), line("Piano", 1, [3]int{48, 0, 480}),
			line("", 9, [3]int{36, 0, 480})),
		file(1, cat(fourFour("\x01\x02\x18\x08"), meta(480, 0x58, "\x04\x02\x18\x08"), meta(0, 0x51, "\x07\xA1\x20")),
			voice),
		file(0, cat(ev(0, 0x90, 60, 9), ev(0, 0x90, 64, 9), ev(480, 0x90, 60, 0), ev(0, 0x90, 64, 0))), file(0, nil),
		nil,
	} {
		f.Add(seed, uint8(1))
		f.Add(seed, uint8(7))
		f.Add(seed, uint8(timeline.MaxTranspose)) // in the song's key
	}
	f.Fuzz(func(t *testing.T, src []byte, from uint8) {
		file, err := Read(src)
		if err != nil {
			return
		}
		tl := song(t, "Eb", 72, 3840, verse, part{name: "dance", meter: "6/8", chords: []string{"Ab", "Bb7"}}, chorus)
		tl.Vocals[0].From, tl.Vocals[0].Transpose = int(from), int(from)%(2*timeline.MaxTranspose)-timeline.MaxTranspose
		tl.Vocals[0].RangeLow, tl.Vocals[0].RangeHigh = 55, 72
		problems := append(Place(tl, 0, file), Check(tl, 0)...)
		for _, p := range problems {
			if p.Summary == "" || !strings.HasSuffix(p.Detail, ".") || strings.Contains(p.Detail, "\n") {
				t.Fatalf("no message: %+v", p)
			}
		}
		notes := tl.Vocals[0].Notes
		for i, n := range notes {
			if n.Tick < 0 || n.Length < 1 || n.Tick+n.Length > tl.End || i > 0 && n.Tick < notes[i-1].Tick {
				t.Fatalf("note %d is %+v", i, n)
			}
			for j := range tl.Passes {
				p := &tl.Passes[j]
				if n.Tick >= p.Start && n.Tick < p.Start+p.Length {
					heard := false
					for _, s := range p.Sung {
						heard = heard || s.Tick == n.Tick-p.Start && s.Key == n.Key && s.Length == n.Length
					}
					if !heard {
						t.Fatalf("pass %d does not hear %+v", j, n)
					}
				}
			}
		}
		end := int64(-1)
		for _, w := range Windows(tl) {
			if w.Start <= end || w.End <= w.Start || w.End > tl.End || w.Beats < 1000 {
				t.Fatalf("window %+v after %d", w, end)
			}
			end = w.End
		}
	})
}
