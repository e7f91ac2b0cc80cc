package guide

import (
	"reflect"
	"strings"
	"testing"

	"plinth/songspec/timeline"
)

var verse = part{name: "verse", meter: "4/4", chords: []string{"C", "F", "G7", "C"}}
var chorus = part{name: "chorus", meter: "4/4", chords: []string{"Am", "F", "C", "G"}}

func fourFour(s string) []byte { return meta(0, 0x58, s) }

// A note of a file at 480 a quarter stands at twice its tick, one quarter is
// 960, and bar 5 of a song in 4/4 begins at 4 × 3840.
func TestPlace(t *testing.T) {
	tl := song(t, "C", 60, 0, verse, chorus)
	tl.Vocals[0].From = 4
	got := place(t, tl, file(0, line("Vocal", 0, [3]int{67, 0, 480}, [3]int{69, 1920, 960}, [3]int{71, 9600, 480})))
	want := []timeline.SungNote{{Tick: 11520, Length: 960, Key: 67}, {Tick: 15360, Length: 1920, Key: 69}}
	// The third would begin on the song's end, 11520 + 2 × 9600 = 30720.
	if len(got) != 1 || got[0].Summary != "The voice is longer than the form" {
		t.Errorf("problems %v", got)
	}
	if n := tl.Vocals[0].Notes; len(n) != 2 || !reflect.DeepEqual(n, want) {
		t.Fatalf("notes %v, want %v", n, want)
	}
	// The verse has the chorus's first bar as well. Ticks are those of the pass.
	if s := tl.Passes[0].Sung; !reflect.DeepEqual(s, want) {
		t.Errorf("verse hears %v", s)
	}
	if s, w := tl.Passes[1].Sung, []timeline.SungNote{{Tick: -3840, Length: 960, Key: 67},
		{Tick: 0, Length: 1920, Key: 69}}; !reflect.DeepEqual(s, w) {
		t.Errorf("chorus hears %v, want %v", s, w)
	}
}

// A guide that is sung over the finished bed begins with the bars of the count-in. With two of
// them, its first bar is bar -1 of the song, and its third is bar 1.
func TestPlaceOverCountIn(t *testing.T) {
	tl := song(t, "C", 60, 2*3840, verse)
	tl.LeadBars = 2
	tl.Vocals[0].From = -1
	got := place(t, tl, file(0, line("Vocal", 0, [3]int{67, 2 * 1920, 480})))
	if want := []timeline.SungNote{{Tick: tl.Passes[0].Start, Length: 960, Key: 67}}; len(got) != 0 ||
		!reflect.DeepEqual(tl.Vocals[0].Notes, want) {
		t.Errorf("%v, notes %v, want %v", got, tl.Vocals[0].Notes, want)
	}
	tl.Vocals[0].From = -2
	if got := apply(t, tl, 0, file(0, line("Vocal", 0, [3]int{67, 0, 480}))); len(got) != 1 ||
		!strings.Contains(got[0].Detail, "bars -1 to 4") {
		t.Errorf("a bar before the file's first: %v", got)
	}
}

func TestPlaceScale(t *testing.T) {
	for _, tt := range []struct {
		name     string
		tick     int64
		division int
		want     int64
	}{
		{"24 a quarter", 36, 24, 1440},
		{"960 as it is", 777, 960, 777},
		{"halved", 1921, 1920, 961},
		{"thirds are rounded to the nearest", 1, 7, 137}, // 137.14
		{"a very long file does not overflow", 1 << 40, 32767, (1<<40)*960/32767 + 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := scale(tt.tick, tt.division); got != tt.want && tt.name[0] != 'a' || got <= 0 {
				t.Errorf("%d at %d a quarter is %d, want %d", tt.tick, tt.division, got, tt.want)
			}
		})
	}
}

// Exported upbeats: one bar of 1/4, then 4/4. The short bar stands before the
// bar that from names.
func TestPlaceUpbeat(t *testing.T) {
	up := cat(fourFour("\x01\x02\x18\x08"), meta(480, 0x58, "\x04\x02\x18\x08"))
	tl := song(t, "C", 60, 3840, verse)
	place(t, tl, file(1, up, line("Vocal", 0, [3]int{67, 0, 480}, [3]int{72, 480, 480})))
	want := []timeline.SungNote{{Tick: 3840 - 960, Length: 960, Key: 67}, {Tick: 3840, Length: 960, Key: 72}}
	if !reflect.DeepEqual(tl.Vocals[0].Notes, want) {
		t.Errorf("notes %v, want %v", tl.Vocals[0].Notes, want)
	}
	if s := At(tl, want[0].Tick); s.Bar != 0 || s.Count != "4" {
		t.Errorf("the upbeat is at %v", s)
	}
	// Without a bar in front there is no room for it.
	tl = song(t, "C", 60, 0, verse)
	got := place(t, tl, file(1, up, line("Vocal", 0, [3]int{67, 0, 480}, [3]int{72, 480, 480})))
	if len(got) != 1 || got[0].Summary != "The voice begins before the song" || len(tl.Vocals[0].Notes) != 1 {
		t.Errorf("problems %v, notes %v", got, tl.Vocals[0].Notes)
	}
}

func TestPlaceProblems(t *testing.T) {
	one := line("Vocal", 0, [3]int{67, 0, 480})
	for _, tt := range []struct {
		name, reason string
		set          func(*timeline.Vocal)
		src          []byte
		summary      string
		detail       string
		isError      bool
	}{
		{"no such track", "the nearest name is offered", func(v *timeline.Vocal) { v.Track = "Vokal" }, file(0, one),
			"No such voice", `did you mean "Vocal"?`, true},
		{"no such bar", "the song has four", func(v *timeline.Vocal) { v.From = 9 }, file(0, one), "No such bar",
			"bars 1 to 4", true},
		{"no notes", "the bed builds", nil, file(0, meta(0, 3, "Vocal")), "Silent guide vocal",
			"the file has no notes", false},
		{"named track silent", "the bed builds", func(v *timeline.Vocal) { v.Track = "Words" },
			file(1, one, meta(0, 3, "Words")), "Silent guide vocal", `track "Words"`, false},
		{"longer by a note", "one note is no notes", nil,
			file(0, line("Vocal", 0, [3]int{67, 0, 480}, [3]int{67, 7680, 480})),
			"The voice is longer than the form",
			"1 note of the guide comes after the song's last bar, 4, the first in what would be bar 5. " +
				"It is left out", false},
		{"longer than the form", "told, not cut in silence", nil,
			file(0, line("Vocal", 0, [3]int{67, 0, 480}, [3]int{67, 9600, 480}, [3]int{67, 10080, 480})),
			"The voice is longer than the form",
			"2 notes of the guide come after the song's last bar, 4, the first in what would be bar 6. " +
				"They are left out", false},
		{"another tempo", "placed by beats", nil, file(0, cat(meta(0, 0x51, "\x07\xA1\x20"), one)),
			"The guide's tempo is not the song's",
			"It is 120 beats a minute in the guide, 60 in the song, in bar 1 of \"verse\".",
			false},
		{"another meter", "bar lines part", nil, file(0, cat(fourFour("\x03\x02\x18\x08"), one)),
			"The guide's meter is not the song's",
			"It is 3/4 in the guide, 4/4 in the song, in bar 1 of \"verse\".", false},
		{"6/8 and 4/4", "likewise", nil, file(0, cat(fourFour("\x06\x03\x24\x08"), one)),
			"The guide's meter is not the song's", "6/8", false},
		{"two at once", "a third held together", nil,
			file(0, cat(meta(0, 3, "Vocal"), ev(480, 0x90, 60, 9), ev(0, 0x90, 64, 9), ev(480, 0x90, 60, 0),
				ev(0, 0x90, 64, 0))),
			"Two notes at once", "notes on top of each other at bar 1 count 2 of \"verse\";", false},
		{"two voices", "which one is said", nil,
			file(1, line("Vocal 1", 0, [3]int{67, 0, 480}), line("Vocal 2", 1, [3]int{64, 0, 480})),
			"More than one voice", `track = "Vocal 1"`, false},
		{"muted on export", "the accompaniment is not taken for the singer in silence", nil,
			file(1, meta(0, 3, "Vocal"), line("Piano", 1, [3]int{64, 0, 480})),
			"The voice's track is empty", `the track "Vocal" has no notes, so "Piano" is taken`, false},
		{"drums asked for", "channel 10 is drums", func(v *timeline.Vocal) { v.Track = "Kit" },
			file(1, line("Kit", 9, [3]int{64, 0, 480}), one),
			"A drum track for a voice", "channel 10", false},
		{"sloppy", "the reader's warning is passed on", nil, file(0, cat(one, ev(0, 0x90, 60, 0))),
			"Sloppy guide file", "note ends without a note", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tl := song(t, "C", 60, 0, verse)
			if tt.set != nil {
				tt.set(&tl.Vocals[0])
			}
			got := apply(t, tl, 0, tt.src)
			if len(got) != 1 {
				t.Fatalf("%d problems, want one (%s): %+v", len(got), tt.reason, got)
			}
			p := got[0]
			if p.Summary != tt.summary || p.Error != tt.isError || !strings.Contains(p.Detail, tt.detail) {
				t.Errorf("got %+v, want %q with %q (%s)", p, tt.summary, tt.detail, tt.reason)
			}
			if !strings.HasSuffix(p.Detail, ".") {
				t.Errorf("no sentence: %q", p.Detail)
			}
			for _, pass := range tl.Passes {
				if (pass.Sung == nil) != tt.isError {
					t.Errorf("Sung nil: %v; it is nil only when no voice could be placed", pass.Sung == nil)
				}
			}
		})
	}
	tl := song(t, "C", 60, 0, verse)
	// Nothing is said if they agree: 60 quarters a minute is 0F 42 40 (SMF 1.0), 4/4 is 04 02.
	good := file(0, cat(meta(0, 0x51, "\x0F\x42\x40"), fourFour("\x04\x02\x18\x08"), one))
	if got := apply(t, tl, 0, good); len(got) != 0 {
		t.Errorf("a good file: %+v", got)
	}
}

func TestVocalChoice(t *testing.T) {
	tune := [][3]int{{67, 0, 400}, {69, 480, 400}, {71, 960, 400}, {72, 1440, 400}, {71, 1920, 400}, {69, 2400, 400},
		{67, 2880, 400}, {65, 3360, 400}}
	chords := func(name string) []byte {
		b := meta(0, 3, name)
		for i := 0; i < 8; i++ {
			b = cat(b, ev(0, 0x91, 48, 80), ev(0, 0x91, 52, 80), ev(0, 0x91, 55, 80), ev(480, 0x91, 48, 0),
				ev(0, 0x91, 52, 0), ev(0, 0x91, 55, 0))
		}
		return b
	}
	low := [][3]int{{36, 0, 400}, {36, 480, 400}, {38, 960, 400}, {36, 1440, 400}, {36, 1920, 400}, {31, 2400, 400},
		{36, 2880, 400}, {36, 3360, 400}}
	sung := meta(0, 3, "Track A")
	for i := 0; i < 8; i++ {
		sung = cat(sung, meta(0, 5, "la"), ev(0, 0x92, 66, 80), ev(480, 0x92, 66, 0))
	}
	for _, tt := range []struct {
		name, reason string
		src          []byte
		track        string
		want, why    string
	}{
		{"by name", "Vocal beats the rest", file(1, chords("Piano"), line("Vocal", 0, tune...),
			line("Bass", 3, low...)), "", "Vocal", `named "Vocal"`},
		{"melody", "the next best word", file(1, chords("Keys"), line("Melody", 0, tune...), line("Bass", 3, low...)),
			"", "Melody", `named "Melody"`},
		{"no names", "one note at a time in a voice's reach",
			file(1, chords(""), line("", 0, tune...), line("", 3, low...)), "", "track 2", "one note at a time"},
		{"lyrics", "words say it", file(1, line("Track B", 0, tune...), sung), "", "Track A", "words on its notes"},
		{"not the drums", "channel 10 never", file(1, line("Lead", 9, tune...), line("Other", 1, low...)), "",
			"Other", ""},
		{"not the backing", "a lead above its choir",
			file(1, line("Backing vocals", 0, tune...), line("Lead vocal", 1, tune...)), "", "Lead vocal", "named"},
		{"asked for", "in any case", file(1, line("Vocal", 0, tune...), line("Alt take", 1, tune...)), "ALT TAKE",
			"Alt take", "named in the song file"},
		{"one track of format 0", "channels are told apart", file(0, cat(line("", 0, tune...), line("", 9, low...))),
			"", "track 1, channel 1", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			f, err := Read(tt.src)
			if err != nil {
				t.Fatal(err)
			}
			c, err := f.Vocal(tt.track)
			if err != nil {
				t.Fatal(err)
			}
			if c.Track.Name != tt.want || !strings.Contains(c.Why, tt.why) {
				t.Errorf("took %q (%s), want %q (%s): %s", c.Track.Name, c.Why, tt.want, tt.why, tt.reason)
			}
		})
	}
}
