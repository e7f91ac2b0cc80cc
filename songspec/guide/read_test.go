package guide

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// Valid and tolerated files, worked out by hand from the SMF 1.0 text (MIDI
// Manufacturers Association): what the bytes must mean.
func TestReadTolerates(t *testing.T) {
	on, off := []byte{0x90, 60, 80}, []byte{0x80, 60, 64}
	note := cat(ev(0, on...), ev(480, off...))
	whole := cat(note, endOfTrack)
	lying := func(length uint32) []byte {
		b := cat(header(0, 1, 480), chunk("MTrk", whole))
		b[18], b[19], b[20], b[21] = byte(length>>24), byte(length>>16), byte(length>>8), byte(length)
		return b
	}
	for _, tt := range []struct {
		name, reason string
		src          []byte
		notes        []Note // of all tracks
		warning      string // part of one warning; empty: none at all
	}{
		{"plain", "one note", file(0, note), []Note{{0, 480, 60, 80, 1}}, ""},
		{"running status", "the second status byte is left out",
			file(0, cat(ev(0, on...), ev(480, 60, 0))), []Note{{0, 480, 60, 80, 1}}, ""},
		{"velocity 0 ends", "note-on with velocity 0 is a note-off",
			file(0, cat(ev(10, 0x93, 72, 1), ev(20, 0x93, 72, 0))), []Note{{10, 20, 72, 1, 4}}, ""},
		{"running status over a meta", "many programs do it, SMF 1.0 forbids it",
			file(0, cat(ev(0, on...), meta(10, 1, "la"), ev(470, 60, 0))), []Note{{0, 480, 60, 80, 1}},
			"running status goes on"},
		{"running status over a sysex", "likewise",
			file(0, cat(ev(0, on...), ev(10, 0xF0, 2, 0x7D, 0xF7), ev(470, 60, 0))), []Note{{0, 480, 60, 80, 1}},
			"running status goes on"},
		{"system exclusive", "skipped by its length",
			file(0, cat(ev(0, 0xF0, 3, 0x7D, 0x01, 0xF7), note)), []Note{{0, 480, 60, 80, 1}}, ""},
		{"unknown chunk", "SMF 1.0: skip what is not known",
			cat(header(0, 1, 480), chunk("Junk", []byte{1, 2, 3}), chunk("MTrk", whole)), []Note{{0, 480, 60, 80, 1}},
			""},
		{"longer header", "SMF 1.0: honour the length, ignore the rest",
			cat(chunk("MThd", []byte{0, 0, 0, 1, 1, 0xE0, 9, 9}), chunk("MTrk", whole)), []Note{{0, 480, 60, 80, 1}},
			""},
		{"length too short", "the end of track event is trusted", lying(5), []Note{{0, 480, 60, 80, 1}},
			"wrong length"},
		{"length 0", "a length that was never filled in", lying(0), []Note{{0, 480, 60, 80, 1}}, "wrong length"},
		{"length beyond the file", "likewise; nothing is allocated for it", lying(0xFFFFFFFF),
			[]Note{{0, 480, 60, 80, 1}}, "longer than the file"},
		{"no end of track", "nothing is missing but the event",
			cat(header(0, 1, 480), chunk("MTrk", note)), []Note{{0, 480, 60, 80, 1}}, "no end of track"},
		{"end of track cut off", "no music is lost",
			cat(header(0, 1, 480), chunk("MTrk", whole))[:14+8+len(whole)-1], []Note{{0, 480, 60, 80, 1}},
			"end of track event is cut off"},
		{"bytes after the last track", "not a chunk, nothing promised is missing",
			cat(file(0, note), []byte{0}), []Note{{0, 480, 60, 80, 1}}, "1 bytes after the last track"},
		{"hanging note", "ended where the track ends",
			file(0, cat(ev(0, on...), meta(960, 1, "x"))), []Note{{0, 960, 60, 80, 1}}, "never end"},
		{"same pitch twice", "first in, first out: 0-200 and 100-300",
			file(0, cat(ev(0, on...), ev(100, on...), ev(100, off...), ev(100, off...))),
			[]Note{{0, 200, 60, 80, 1}, {100, 200, 60, 80, 1}}, "same pitch still sounds"},
		{"no length", "dropping it would be silent", file(0, cat(ev(0, on...), ev(0, off...))),
			[]Note{{0, 1, 60, 80, 1}}, "without length"},
		{"end without a note", "nothing to end", file(0, cat(ev(0, off...), note)), []Note{{0, 480, 60, 80, 1}},
			"without a note"},
		{"format 0 with two tracks", "read as format 1", file(0, note, note),
			[]Note{{0, 480, 60, 80, 1}, {0, 480, 60, 80, 1}}, "format 0 has one track"},
		{"more tracks than promised", "seen in real files",
			cat(header(1, 1, 480), chunk("MTrk", whole), chunk("MTrk", whole)),
			[]Note{{0, 480, 60, 80, 1}, {0, 480, 60, 80, 1}}, "promises 1 tracks, the file has 2"},
		{"tempo 0", "no such tempo: left out", file(0, cat(meta(0, 0x51, "\x00\x00\x00"), note)),
			[]Note{{0, 480, 60, 80, 1}}, "make no sense"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f, err := Read(tt.src)
			if err != nil {
				t.Fatalf("refused (%s): %v", tt.reason, err)
			}
			var got []Note
			for _, tr := range f.Tracks {
				got = append(got, tr.Notes...)
			}
			if !reflect.DeepEqual(got, tt.notes) {
				t.Errorf("notes %v, want %v: %s", got, tt.notes, tt.reason)
			}
			all := strings.Join(f.Warnings, "\n")
			if tt.warning == "" && all != "" || !strings.Contains(all, tt.warning) {
				t.Errorf("warnings %q, want %q: %s", all, tt.warning, tt.reason)
			}
		})
	}
}

func TestReadRefuses(t *testing.T) {
	note := cat(ev(0, 0x90, 60, 80), ev(480, 0x80, 60, 64))
	for _, tt := range []struct {
		name string
		src  []byte
		want string
	}{
		{"empty", nil, "the file is empty"},
		{"text", []byte("title = \"Lanterns on the Weir\""), "not a Standard MIDI File"},
		{"wave", []byte("RIFF\x00\x00\x00\x00WAVEfmt "), "RIFF"},
		{"header alone", header(1, 2, 480), "no track"},
		{"format 2", file(2, note), "format 2"},
		{"format 7", file(7, note), "format 7"},
		{"frames", cat(header(0, 1, 0xE728), chunk("MTrk", note)), "SMPTE"},
		{"division 0", cat(header(0, 1, 0), chunk("MTrk", note)), "no ticks per quarter"},
		{"short header", cat(chunk("MThd", []byte{0, 0, 0, 1}), chunk("MTrk", note)), "header says"},
		{"cut off in the music", file(0, cat(note, note))[:30], "cut off"},
		{"data without status", file(0, ev(0, 60, 80)), "without a status"},
		{"system common byte", file(0, cat(ev(0, 0xF4), note)), "F4"},
		{"clock byte", file(0, cat(ev(0, 0xF8), note)), "F8"},
		{"status in a value's place", file(0, ev(0, 0x90, 60, 0x90)), "where a value should be"},
		{"endless length", file(0, []byte{0xFF, 0xFF, 0xFF, 0xFF, 0x7F}), "longer than four bytes"},
		{"rubbish for a track", cat(header(1, 2, 480), chunk("MTrk", cat(note, endOfTrack)),
			[]byte{1, 2, 3, 4, 5, 6, 7, 8, 9}), "1 of 2 are missing"},
		{"too large", make([]byte, MaxBytes+1), "more than the 8388608"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f, err := Read(tt.src)
			if err == nil {
				t.Fatalf("read %d notes, warnings %v", noteCount(f), f.Warnings)
			}
			if !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %q, want %q in it", err, tt.want)
			}
		})
	}
}

func TestReadValues(t *testing.T) {
	f, err := Read(file(1,
		cat(meta(0, 3, "Lanterns"), meta(0, 0x51, "\x07\xA1\x20"), meta(0, 0x58, "\x06\x03\x24\x08"),
			meta(0, 0x59, "\xFD\x00")),
		cat(line("Singer\xE9", 2, [3]int{60, 0, 100}), meta(0, 5, "la")),
		cat(line("Two", 0, [3]int{60, 0, 10}), line("", 5, [3]int{62, 0, 10}))))
	if err != nil {
		t.Fatal(err)
	}
	// 07 A1 20 is 500,000 µs (SMF 1.0).
	if want := []Tempo{{0, 500000}}; !reflect.DeepEqual(f.Tempos, want) {
		t.Errorf("tempos %v", f.Tempos)
	}
	if want := []Meter{{0, 6, 8}}; !reflect.DeepEqual(f.Meters, want) {
		t.Errorf("meters %v", f.Meters)
	}
	var names []string
	for _, tr := range f.Tracks {
		names = append(names, tr.Name)
	}
	if want := []string{"Lanterns", "Singeré", "Two, channel 1", "Two, channel 6"}; !reflect.DeepEqual(names, want) {
		t.Errorf("names %q, want %q", names, want)
	}
	if f.Tracks[1].Lyrics != 1 || f.Tracks[1].Channel != 3 || f.Tracks[0].Channel != -1 {
		t.Errorf("tracks %+v", f.Tracks)
	}
}

// The collection's manifest says which files are valid and how many notes each
// holds (jazz-soft's test files, MIT; note counts by a strict reader of another
// hand). Valid ones must be read with those notes; the others refused, or read
// with a warning.
func TestConformance(t *testing.T) {
	dir := os.Getenv("PLINTH_DATA")
	if dir == "" {
		t.Skip("PLINTH_DATA is not set")
	}
	dir = filepath.Join(dir, "smf-conformance")
	in, err := os.Open(filepath.Join(dir, "manifest.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	rows, err := csv.NewReader(in).ReadAll()
	if err != nil || len(rows) < 70 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	read, refused := 0, 0
	for _, row := range rows[1:] {
		name, declared, format := row[1], row[4], row[7]
		t.Run(name, func(t *testing.T) {
			src, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				t.Fatal(err)
			}
			f, err := Read(src)
			switch {
			case declared == "unusual-but-valid" && format == "2":
				// The one exception, on purpose: patterns without a common time.
				if err == nil || !strings.Contains(err.Error(), "format 2") {
					t.Errorf("format 2: %v", err)
				}
				refused++
			case declared == "unusual-but-valid":
				want, _ := strconv.Atoi(row[10])
				if err != nil {
					t.Fatal(err)
				}
				if noteCount(f) != want {
					t.Errorf("%d notes, want %d; warnings %v", noteCount(f), want, f.Warnings)
				}
				read++
			case err == nil && len(f.Warnings) == 0:
				t.Errorf("declared %s, but read without a word: %d notes", declared, noteCount(f))
			case err == nil:
				t.Logf("%d notes, %q", noteCount(f), f.Warnings)
				read++
			default:
				t.Log(err)
				refused++
			}
		})
	}
	t.Logf("%d read, %d refused", read, refused)
}

func noteCount(f *File) int {
	n := 0
	for i := range f.Tracks {
		n += len(f.Tracks[i].Notes)
	}
	return n
}

func FuzzRead(f *testing.F) {
	note := cat(ev(0, 0x90, 60, 80), ev(480, 0x80, 60, 64))
	seeds := [][]byte{
		file(0, note), file(1, line("Voice", 0, [3]int{60, 0, 480}), line("Piano", 1, [3]int{48, 0, 480})),
		file(0, cat(ev(0, 0x90, 60, 80), meta(10, 1, "la"), ev(470, 60, 0))),
		file(0, cat(ev(0, 0x90, 60, 80), ev(5, 0x90, 60, 80), ev(5, 0x90, 60, 0))),
		cat(header(0, 1, 480), chunk("MTrk", note)),
		cat(header(1, 3, 96), chunk("Junk", note), chunk("MTrk", cat(note, endOfTrack))),
		cat(file(0, cat(meta(0, 0x51, "\x07\xA1\x20"), meta(0, 0x58, "\x03\x02\x18\x08"))), []byte{0, 1}),
	}
	if dir := os.Getenv("PLINTH_DATA"); dir != "" {
		names, _ := filepath.Glob(filepath.Join(dir, "smf-conformance", "*.mid"))
		for _, n := range names {
			if b, err := os.ReadFile(n); err == nil && len(b) < 4096 {
				seeds = append(seeds, b)
			}
		}
	}
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		file, err := Read(src)
		if err != nil {
			if s := err.Error(); file != nil || s == "" || strings.ContainsAny(s, "\n") {
				t.Fatalf("file %v with error %q", file, s)
			}
			return
		}
		if file.Division < 1 || file.Division > 32767 || len(file.Tracks) == 0 || noteCount(file) > len(src) {
			t.Fatalf("division %d, %d tracks, %d notes of %d bytes", file.Division, len(file.Tracks), noteCount(file),
				len(src))
		}
		for _, tr := range file.Tracks {
			for i, n := range tr.Notes {
				if n.Tick < 0 || n.Length < 1 || n.End() > file.End || n.Key > 127 || n.Velocity < 1 ||
					n.Velocity > 127 || int(n.Channel) != tr.Channel {
					t.Fatalf("note %+v in %q, end %d", n, tr.Name, file.End)
				}
				if i > 0 && (n.Tick < tr.Notes[i-1].Tick || n.Tick == tr.Notes[i-1].Tick && n.Key < tr.Notes[i-1].Key) {
					t.Fatalf("notes not in order at %d in %q", i, tr.Name)
				}
			}
			if len(tr.Notes) == 0 != (tr.Channel == -1) {
				t.Fatalf("track %q: channel %d, %d notes", tr.Name, tr.Channel, len(tr.Notes))
			}
		}
		for _, x := range file.Tempos {
			if x.Micros < 1 || x.Tick < 0 {
				t.Fatalf("tempo %+v", x)
			}
		}
		for _, x := range file.Meters {
			if x.Num < 1 || x.Den < 1 || x.Den > 64 {
				t.Fatalf("meter %+v", x)
			}
		}
	})
}
