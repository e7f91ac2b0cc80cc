package sketch

import (
	"path/filepath"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/heard"
)

// examples are the example songs as they are heard, by file name.
func examples(tb testing.TB) map[string]*heard.Song {
	songs := map[string]*heard.Song{}
	for _, path := range songfiletest.Examples(tb, filepath.Join("..", "..", "..", "examples")) {
		_, tl, set := songfiletest.Example(tb, path)
		songs[filepath.Base(path)] = heard.Of(tl, groove.Perform(tl, set))
	}
	return songs
}

// notesOf are the notes of the bank that a song plays, each once.
func notesOf(b *Bank, song *heard.Song) []bank.Note {
	var notes []bank.Note
	had := map[bank.Note]bool{}
	for _, p := range song.Parts {
		for _, n := range p.Notes {
			note := b.Note(bank.Patch{Program: p.Sounds[n.Sound].Program, Drums: p.Drums}, n.Key, n.Velocity)
			if !had[note] {
				had[note] = true
				notes = append(notes, note)
			}
		}
	}
	return notes
}

// The notes of 19 keys of the piano, from F2 on in thirds and fourths, in three layers.
func BenchmarkPiano(b *testing.B) {
	for b.Loop() {
		for key := range 19 {
			for layer := range 3 {
				compute(bank.Note{Key: uint8(41 + 2*key), Layer: uint8(layer)}, bank.MaxFrames)
			}
		}
	}
}

func BenchmarkExample(b *testing.B) {
	for name, song := range examples(b) {
		b.Run(name, func(b *testing.B) {
			notes := notesOf(New(), song)
			bytes := 0
			for b.Loop() {
				bytes = 0
				for _, n := range notes {
					s := compute(n, bank.MaxFrames)
					bytes += 4 * len(s.Left) // as the page gets them: 16 bits, two sides
				}
			}
			b.ReportMetric(float64(len(notes)), "notes")
			b.ReportMetric(float64(bytes)/1e6, "MB")
		})
	}
}
