package midi

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/songspec/harmony"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"

	"gitlab.com/gomidi/midi/v2/smf"
)

// listing is a file as text, one event a line: tick and bytes. It shares no code with the
// writer and the checker.
func listing(t *testing.T, file []byte) (header string, tracks [][]string) {
	t.Helper()
	header = fmt.Sprintf("%X", file[:14])
	rest := file[14:]
	for len(rest) > 0 {
		if string(rest[:4]) != "MTrk" {
			t.Fatalf("no track chunk where one belongs: % X", rest[:4])
		}
		size := int(rest[4])<<24 | int(rest[5])<<16 | int(rest[6])<<8 | int(rest[7])
		data := rest[8 : 8+size]
		rest = rest[8+size:]
		var lines []string
		tick := 0
		for len(data) > 0 {
			delta := 0
			for {
				b := data[0]
				data = data[1:]
				delta = delta<<7 + int(b&0x7f)
				if b < 0x80 {
					break
				}
			}
			tick += delta
			size := 3
			switch {
			case data[0] == 0xFF:
				size = 3 + int(data[2]) // no text of ours is longer than 127 bytes
			case data[0]>>4 == 0xC:
				size = 2
			case data[0] < 0x80:
				t.Fatalf("running status at tick %d", tick)
			}
			text := fmt.Sprintf("%X", data[:size])
			if data[0] == 0xFF && data[1] < 0x10 {
				text = fmt.Sprintf("FF%02X %s", data[1], data[3:size])
			}
			lines = append(lines, fmt.Sprintf("%d %s", tick, text))
			data = data[size:]
		}
		tracks = append(tracks, lines)
	}
	return header, tracks
}

// Markers tell the passes of a section apart, and never two sections.
func TestMarkerNames(t *testing.T) {
	for _, row := range []struct{ form, want string }{
		{"verse|chorus|verse|chorus|chorus", "verse|chorus|verse (2)|chorus (2)|chorus (3)"},
		{"chorus|chorus (2)|chorus|chorus (2)", "chorus|chorus (2)|chorus (2)*|chorus (2) (2)"},
		{"chorus|chorus|chorus (2)", "chorus|chorus (2)*|chorus (2)"},
		{"café|cafe|café", "cafe|cafe*|cafe (2)"},
		{"ä|…|ä|…", "a|section 2|a (2)|section 2 (2)"},
	} {
		var passes []timeline.Pass
		for _, section := range strings.Split(row.form, "|") {
			passes = append(passes, timeline.Pass{Section: section})
		}
		if got := strings.Join(markerNames(passes), "|"); got != row.want {
			t.Errorf("%s: %s, want %s", row.form, got, row.want)
		}
	}
}

// A cue is a cue point of the first track (Standard MIDI Files 1.0: FF 07), in ASCII as all texts,
// behind the marker of its tick and in the order of the song file.
func TestCuePoints(t *testing.T) {
	tl, perf := smallSong()
	tl.Passes[1].Events = []timeline.Event{
		{Kind: timeline.Cue, Text: "Lights: blue"}, {Kind: timeline.Cue, Text: "Café"},
		{Kind: timeline.Cue, Tick: 480, End: 480, Text: "幕"},
	}
	file, err := Write(tl, perf)
	if err != nil {
		t.Fatal(err)
	}
	_, tracks := listing(t, file)
	start := tl.Passes[1].Start
	want := fmt.Sprintf("%[1]d FF06 verse (2)\n%[1]d FF07 Lights: blue\n%[1]d FF07 Cafe\n%[2]d FF07 cue",
		start, start+480)
	if got := strings.Join(tracks[0], "\n"); !strings.Contains(got, want) {
		t.Errorf("got\n%s\nwant among them\n%s", got, want)
	}
}

func TestWriteLayout(t *testing.T) {
	file, err := Write(smallSong())
	if err != nil {
		t.Fatal(err)
	}
	header, tracks := listing(t, file)
	if header != "4D546864000000060001000503C0" { // format 1, five tracks, 960 a quarter
		t.Errorf("header %s", header)
	}
	if len(tracks) != 5 {
		t.Fatalf("%d tracks", len(tracks))
	}
	for _, row := range []struct {
		name, why string
		track     int
		want      []string
	}{
		{"first track", "title; tempo, meter and key at 0; markers; an equal tempo at bar 4 is not said again", 0,
			[]string{
				"0 FF03 Lanterns on the Weir", "0 FF51030CB735", "0 FF580404021808", "0 FF5902FD00",
				"3840 FF06 verse", "11520 FF06 verse (2)",
				"19200 FF51030C3500", "19200 FF5902FD01", "19200 FF06 chorus",
				"23040 FF580406032408", "25920 FF2F00",
			}},
		{"drums", "channel 10, brush program, two strokes of one tick by key", 1, []string{
			"0 FF03 Drums", "0 FF04 Brush Kit", "0 C928", "3840 992450", "3840 992A01", "3960 892440", "3960 892A40",
		}},
		{"bass", "channel 2; a note-off goes before the next note-on of its tick", 2, []string{
			"0 FF03 Bass", "0 FF04 Electric Bass (finger)", "0 C121", "3840 91277F", "4800 812740", "4800 91277F",
		}},
		{"piano", "channel 1; what rings to the end is let go before the end of the track", 3, []string{
			"0 FF03 Piano", "0 FF04 Acoustic Grand Piano", "0 C000", "3840 90373C", "3840 903A3C", "3840 903F3C",
			"25920 803740", "25920 803A40", "25920 803F40", "25920 FF2F00",
		}},
		{"click", "a channel and a sound of its own, the bar's first beat high", 4, []string{
			"0 FF03 Click", "0 FF04 Woodblock", "0 C273", "0 92545A", "240 825440", "960 92485A",
		}},
	} {
		got := tracks[row.track]
		if len(got) > len(row.want) {
			got = got[:len(row.want)]
		}
		if strings.Join(got, "\n") != strings.Join(row.want, "\n") {
			t.Errorf("%s (%s):\n%s\nexpected\n%s", row.name, row.why, strings.Join(got, "\n"),
				strings.Join(row.want, "\n"))
		}
	}
	for i, track := range tracks {
		if last := track[len(track)-1]; last != "25920 FF2F00" {
			t.Errorf("track %d ends with %s instead of the last bar line", i, last)
		}
	}
}

// Of several tempos, meters or keys at one tick only the last is written: two points at
// one place of a sequencer's tempo map would not show which of them counts. Where the last
// was in force before, nothing is written.
func TestOneChangeATick(t *testing.T) {
	tl, perf := smallSong()
	tl.Tempos = []timeline.Tempo{
		{Tick: 0, Micros: 500000}, {Tick: 0, Micros: 833333},
		{Tick: 3 * bar, Micros: 600000}, {Tick: 3 * bar, Micros: 833333},
		{Tick: 5 * bar, Micros: 700000}, {Tick: 5 * bar, Micros: 750000}, {Tick: 5 * bar, Micros: 800000},
	}
	three := timeline.MeterChange{Tick: 6 * bar, Meter: meter.Meter{Num: 3, Den: 4}}
	tl.Meters = append(tl.Meters[:1:1], three, tl.Meters[1])
	tl.Keys = append(tl.Keys[:1:1], timeline.KeyChange{Tick: 5 * bar, Key: cMajor}, tl.Keys[1])
	file, err := Write(tl, perf)
	if err != nil {
		t.Fatal(err)
	}
	plain, err := Write(smallSong())
	if err != nil {
		t.Fatal(err)
	}
	_, got := listing(t, file)
	_, want := listing(t, plain)
	if strings.Join(got[0], "\n") != strings.Join(want[0], "\n") {
		t.Errorf("the first track is\n%s\nexpected, as without what is out of force at once,\n%s",
			strings.Join(got[0], "\n"), strings.Join(want[0], "\n"))
	}
}

// gomidi's reader, which the checker does not use, finds the notes of the performance.
func TestWriteReadsBack(t *testing.T) {
	tl, perf := smallSong()
	file, err := Write(tl, perf)
	if err != nil {
		t.Fatal(err)
	}
	song, err := smf.ReadFrom(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range [][]groove.Note{nil, perf.Parts[timeline.Drums], perf.Parts[timeline.Bass],
		perf.Parts[timeline.Piano], clickNotes(perf.Click)} {
		var got []groove.Note
		open := map[uint8]groove.Note{}
		tick := int64(0)
		for _, e := range song.Tracks[i] {
			tick += int64(e.Delta)
			var channel, key, velocity uint8
			if e.Message.GetNoteOn(&channel, &key, &velocity) {
				open[key] = groove.Note{Tick: tick, Key: key, Velocity: velocity}
			} else if e.Message.GetNoteOff(&channel, &key, &velocity) {
				n := open[key]
				n.Length = tick - n.Tick
				got = append(got, n)
			}
		}
		if len(got) != len(want) {
			t.Errorf("track %d: %d notes come back of %d", i, len(got), len(want))
			continue
		}
		for j := range got { // all notes of a track here have one length, so their ends keep their order
			if got[j] != want[j] {
				t.Errorf("track %d, note %d: %v, expected %v", i, j, got[j], want[j])
			}
		}
	}
}

func TestWriteIsTheSameEveryTime(t *testing.T) {
	first, err := Write(smallSong())
	if err != nil {
		t.Fatal(err)
	}
	for range 20 {
		again, err := Write(smallSong())
		if err != nil || !bytes.Equal(first, again) {
			t.Fatalf("another run gives other bytes (%v)", err)
		}
	}
}

// Each player has a row in the table, with his own name and channel.
func TestEveryPlayerHasATrack(t *testing.T) {
	channels := map[uint8]string{clickTrack.channel: clickTrack.name}
	for who, name := range timeline.PlayerNames {
		track := playerTracks[who]
		if !strings.EqualFold(track.name, name) {
			t.Errorf("the track of the player %s is named %s", name, track.name)
		}
		if other, taken := channels[track.channel]; taken {
			t.Errorf("%s and %s share channel %d", track.name, other, track.channel+1)
		}
		channels[track.channel] = track.name
	}
}

// Names, order and channels stay when a player has nothing to play: programs tie
// their settings to them.
func TestSilentPlayersKeepTheirTracks(t *testing.T) {
	tl, perf := smallSong()
	perf.Click, perf.Sounds[timeline.Drums] = nil, nil
	for who := range perf.Parts {
		perf.Parts[who] = nil
	}
	file, err := Write(tl, perf)
	if err != nil {
		t.Fatal(err)
	}
	_, tracks := listing(t, file)
	if len(tracks) != 4 {
		t.Fatalf("%d tracks", len(tracks))
	}
	for i, want := range []string{"", "0 FF03 Drums|0 FF04 Standard Kit|0 C900",
		"0 FF03 Bass|0 FF04 Electric Bass (finger)|0 C121", "0 FF03 Piano|0 FF04 Acoustic Grand Piano|0 C000"} {
		if got := strings.Join(tracks[i], "|"); i > 0 && got != want+"|25920 FF2F00" {
			t.Errorf("track %d is %s", i, got)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	for _, row := range []struct {
		name, want string
		spoil      func(*timeline.Timeline, *groove.Performance)
	}{
		{"a note before 0", "not within the song",
			func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[0][0].Tick = -1 }},
		{"a note past the end", "not within the song",
			func(tl *timeline.Timeline, p *groove.Performance) { p.Parts[2][0].Length++ }},
		{"a note of no length", "not within the song",
			func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[1][0].Length = 0 }},
		{"a length past all numbers", "not within the song",
			func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[1][0].Length = 1<<63 - 1 }},
		{"velocity 0, a note-off in disguise", "velocity 0",
			func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[1][0].Velocity = 0 }},
		{"velocity 128", "velocity 128", func(_ *timeline.Timeline,
			p *groove.Performance) {
			p.Parts[1][0].Velocity = 128
		}},
		{"key 128", "key 128", func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[1][0].Key = 128 }},
		{"one pitch twice at a time", "struck while it sounds",
			func(_ *timeline.Timeline, p *groove.Performance) { p.Parts[1][0].Length++ }},
		{"program 128", "program 128", func(_ *timeline.Timeline, perf *groove.Performance) {
			perf.Sounds[timeline.Piano][0].Program = 128
		}},
		{"no tempo", "begin at tick 0", func(tl *timeline.Timeline, _ *groove.Performance) { tl.Tempos = nil }},
		{"a meter that begins late", "begin at tick 0",
			func(tl *timeline.Timeline, _ *groove.Performance) { tl.Meters[0].Tick = bar }},
		{"a tempo of nothing", "microseconds",
			func(tl *timeline.Timeline, _ *groove.Performance) { tl.Tempos[1].Micros = 0 }},
		{"a key of eight flats", "8 accidentals", func(tl *timeline.Timeline, _ *groove.Performance) {
			tl.Keys[1].Key = harmony.Key{Tonic: harmony.Name{Step: 3, Alter: -1}}
		}},
		{"a pass after the end", "not within the song",
			func(tl *timeline.Timeline, _ *groove.Performance) { tl.Passes[2].Start = tl.End + 1 }},
		{"a meter off the bar line", "no bar line",
			func(tl *timeline.Timeline, _ *groove.Performance) { tl.Meters[1].Tick += quarter }},
		{"an end off the bar line", "no bar line", func(tl *timeline.Timeline, _ *groove.Performance) { tl.End += 1 }},
		{"longer than the format", "further than a MIDI file can say",
			func(tl *timeline.Timeline, _ *groove.Performance) { tl.End += 1 << 28 }},
	} {
		tl, perf := smallSong()
		row.spoil(tl, perf)
		file, err := Write(tl, perf)
		if err == nil || !strings.Contains(err.Error(), row.want) || file != nil {
			t.Errorf("%s: %d bytes and %v, expected an error with %q", row.name, len(file), err, row.want)
		}
	}
}
