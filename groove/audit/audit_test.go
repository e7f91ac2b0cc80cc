package audit

import (
	"sort"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter is the length of a quarter in ticks.
const quarter = meter.TicksPerQuarter

// auditSong is a song that the audit has nothing against, played by the fixtures'
// feel: a verse at energy 2 and at 4, with a stop in the bar before its last.
func auditSong(t *testing.T) (*timeline.Timeline, *groove.Performance) {
	stop := func(p *timeline.Pass) {
		groovetest.Event(p, timeline.Stop, 6, 2*quarter, nil)
	}
	tl := groovetest.Song(t, groovetest.Section{Name: "verse", Chords: "C|G/B|Am7|F|C|Dm7|G7|C", Energy: 2,
		Change: stop, NoFills: true},
		groovetest.Section{Name: "verse", Chords: "C|G/B|Am7|F|C|Dm7|G7|C", Energy: 4, Change: stop, NoFills: true},
		groovetest.Section{Name: "coda", Chords: "F|C", Energy: 3, NoFills: true})
	return tl, groove.Perform(tl, groovetest.Set(nil))
}

func auditOf(tl *timeline.Timeline, perf *groove.Performance) *Report {
	set := groovetest.Set(nil)
	set.Feels["test"].Syncopation = 2
	return Song(tl, perf, set)
}

// added puts notes into a part and keeps it in order.
func added(notes []groove.Note, more ...groove.Note) []groove.Note {
	notes = append(append([]groove.Note(nil), notes...), more...)
	sort.SliceStable(notes, func(i, j int) bool {
		if notes[i].Tick != notes[j].Tick {
			return notes[i].Tick < notes[j].Tick
		}
		return notes[i].Key < notes[j].Key
	})
	return notes
}

// every is one key struck again and again.
func every(from, step int64, n int, key uint8) []groove.Note {
	var out []groove.Note
	for i := 0; i < n; i++ {
		out = append(out, groovetest.NoteAt(from+int64(i)*step, 20, key, 70))
	}
	return out
}

func TestTheSongOfTheseTestsIsClean(t *testing.T) {
	tl, perf := auditSong(t)
	if r := auditOf(tl, perf); len(r.Findings) > 0 {
		t.Fatalf("%+v", r.Findings)
	}
}

// broken is a way to break the clean song, and what the audit is to find.
type broken struct {
	name string
	rule string
	who  timeline.Player
	pass int
	bar  int
	does func(*groove.Performance)
	why  string
}

func brokenSongs() []broken {
	const bar = 4 * quarter
	const us100 = 960 * 100 / 600 // 100 ms in ticks at 100 beats a minute
	const (
		drums = timeline.Drums
		bass  = timeline.Bass
		piano = timeline.Piano
	)
	add := func(who timeline.Player, notes ...groove.Note) func(*groove.Performance) {
		return func(p *groove.Performance) { p.Passes[0].Notes[who] = added(p.Passes[0].Notes[who], notes...) }
	}
	return []broken{
		{"no such drum", "range", drums, 0, 1, add(drums, groovetest.NoteAt(bar, 10, 30, 70)),
			"General MIDI percussion begins at 35, the kit of groove files at 36"},
		{"under the bass", "range", bass, 0, 2, rekey(0, bass, 2*bar, 21), "A0 is under E1, the lowest string of four"},
		{"over the bass", "range", bass, 0, 2, rekey(0, bass, 2*bar, 57), "A3 is over G3"},
		{"under the piano", "range", piano, 0, 0, add(piano, groovetest.NoteAt(40, 10, 9, 60)),
			"a piano begins at A0"},
		{"drum on itself", "overlap", drums, 0, 1, lengthen(0, drums, bar, 42, quarter),
			"a hi-hat held over its next stroke"},
		{"bass on itself", "overlap", bass, 0, 0, lengthen(0, bass, 0, 0, 2*quarter+1),
			"one string struck while it sounds"},
		{"piano on itself", "overlap", piano, 0, 4, lengthen(0, piano, 4*bar, 0, 2*quarter+5),
			"one key struck while it is down"},
		{"three hands", "hands", drums, 0, 1, add(drums, groovetest.NoteAt(bar+quarter, 10, 49, 90)),
			"hat, cross-stick and crash"},
		{"a hand too fast", "speed", drums, 0, 2, add(drums, every(2*bar+quarter/2, us100/2-4, 4, 43)...),
			"four strokes 47 ms from one to the next, where the hat goes on"},
		{"a foot too fast", "foot", drums, 0, 0, func(p *groove.Performance) {
			lengthen(0, drums, 0, 36, 20)(p)
			add(drums, every(us100-6, bar, 1, 36)...)(p)
		}, "two kicks within 97 ms"},
		{"the other foot", "foot", drums, 0, 0, add(drums, every(quarter+quarter/4, us100-4, 2, 44)...),
			"two pedal strokes within 98 ms"},
		{"two hats in one", "hat", drums, 0, 1, add(drums, groovetest.NoteAt(bar, 10, 46, 50)),
			"open and closed at once"},
		{"two basses", "voice", bass, 0, 2, lengthen(0, bass, bar+2*quarter, 0, 2*quarter+40),
			"a note held into the next"},
		{"the wrong bass", "bass", bass, 0, 2, rekey(0, bass, 2*bar, 34), "Bb under Am7"},
		{"no bass", "bass", bass, 0, 3, without(0, bass, 3*bar), "nothing is struck where F begins"},
		{"a kick alone", "lock", bass, 0, 0, clip(0), "short notes on 1 and kicks on 1 and 3"},
		{"the drums in a stop", "stop", drums, 0, 6, add(drums, groovetest.NoteAt(6*bar+3*quarter, 10, 42, 30)),
			"one ghost is one too many"},
		{"the bass in a stop", "stop", bass, 0, 6, lengthen(0, bass, 6*bar, 0, 2*quarter+10),
			"ringing into it is sounding in it"},
		{"the piano in a stop", "stop", piano, 0, 6, add(piano, groovetest.NoteAt(7*bar-10, 10, 69, 30)),
			"at its very end"},
		{"busy", "density", piano, 0, 0, busy(0), "two attacks a beat at energy 2"},
		{"off the beat", "syncopation", drums, 0, 1, offBeat(0, bar), "strokes before 2, 3 and 4 and none on them"},
		{"less with more", "energy", drums, 1, 0, thinOut(1), "a verse at energy 4 with fewer notes than at 2"},
		{"no hand is so wide", "span", piano, 0, 7, add(piano, groovetest.NoteAt(7*bar+quarter, 10, 27, 50),
			groovetest.NoteAt(7*bar+quarter, 10, 45, 50)),
			"two low keys that no hand joins, and a chord that does not reach down"},
		{"mud", "low", piano, 0, 7, add(piano, groovetest.NoteAt(7*bar+quarter, 100, 48, 50),
			groovetest.NoteAt(7*bar+quarter, 100, 49, 50)), "a minor second on C3"},
		{"over the ceiling", "ceiling", piano, 0, 5, add(piano, groovetest.NoteAt(5*bar+2*quarter, 10, 70, 60)),
			"Bb4 over A4"},
		{"a key too fast", "repeat", piano, 0, 5, add(piano, groovetest.NoteAt(6*bar-400, 10, 69, 60),
			groovetest.NoteAt(6*bar-400+us100-4, 10, 69, 60)), "98 ms from one to the next"},
		{"octaves", "octaves", piano, 0, 1, func(p *groove.Performance) {
			p.Passes[0].Notes[piano] = []groove.Note{groovetest.NoteAt(0, bar, 60, 50),
				groovetest.NoteAt(bar, bar, 59, 50)}
		}, "C to B over C to B"},
		{"too fast over the border", "speed", drums, 1, 0, func(p *groove.Performance) {
			p.Passes[0].Notes[drums] = added(p.Passes[0].Notes[drums], every(8*bar-us100/2, 1, 1, 43)...)
			p.Passes[1].Notes[drums] = added(p.Passes[1].Notes[drums], every(us100/4, 1, 1, 43)...)
		}, "the last stroke of a pass and the first of the next are the same two hands'"},
		{"a key too fast over the border", "repeat", piano, 1, 0, func(p *groove.Performance) {
			p.Passes[0].Notes[piano] = added(p.Passes[0].Notes[piano], groovetest.NoteAt(8*bar-us100/2, 10, 69, 50))
			p.Passes[1].Notes[piano] = added(p.Passes[1].Notes[piano], groovetest.NoteAt(us100/4, 10, 69, 50))
		}, "75 ms from the end of a pass into the next"},
	}
}

// Each row must be found, in its pass and bar, and nothing else with it; and every
// rule has a row.
func TestAuditFinds(t *testing.T) {
	fired := map[string]bool{}
	for _, tt := range brokenSongs() {
		fired[tt.rule] = true
		t.Run(tt.name, func(t *testing.T) {
			tl, perf := auditSong(t)
			tt.does(perf)
			r := auditOf(tl, perf)
			var got []string
			for _, f := range r.Findings {
				got = append(got, f.Rule)
			}
			if len(r.Findings) == 0 {
				t.Fatalf("nothing found: %s", tt.why)
			}
			f := r.Findings[0]
			for _, other := range r.Findings {
				if other.Rule != tt.rule {
					t.Errorf("found %q too: %+v", other.Rule, other)
				}
			}
			if f.Rule != tt.rule || f.Player != tt.who || f.Pass != tt.pass || f.Bar != tt.bar {
				t.Errorf("found %v, first %+v; want %s of the %s in pass %d, bar %d: %s", got, f, tt.rule, tt.who,
					tt.pass, tt.bar, tt.why)
			}
			if want := tl.Passes[tt.pass].FirstBar + tt.bar; f.SongBar != want {
				t.Errorf("bar %d of the song, want %d", f.SongBar, want)
			}
			if f.Title() == "" || (f.Severity == Fault) == (rules[tt.rule].severity == Remark) || f.Text == "" ||
				strings.HasSuffix(f.Text, ".") {
				t.Errorf("%+v", f)
			}
		})
	}
	for rule := range rules {
		if !fired[rule] {
			t.Errorf("no row breaks the rule %q", rule)
		}
	}
}

// rekey gives the note of a pass at a tick another key.
func rekey(pass int, who timeline.Player, tick int64, key uint8) func(*groove.Performance) {
	return func(p *groove.Performance) {
		notes := p.Passes[pass].Notes[who]
		for i := range notes {
			if notes[i].Tick == tick {
				notes[i].Key = key
			}
		}
	}
}

// lengthen holds the note of a pass at a tick, on a key where one is given, for
// length ticks.
func lengthen(pass int, who timeline.Player, tick int64, key uint8, length int64) func(*groove.Performance) {
	return func(p *groove.Performance) {
		notes := p.Passes[pass].Notes[who]
		for i := range notes {
			if notes[i].Tick == tick && (key == 0 || notes[i].Key == key) {
				notes[i].Length = length
				return
			}
		}
	}
}

// without takes out what a pass has at a tick.
func without(pass int, who timeline.Player, tick int64) func(*groove.Performance) {
	return func(p *groove.Performance) {
		var out []groove.Note
		for _, n := range p.Passes[pass].Notes[who] {
			if n.Tick != tick {
				out = append(out, n)
			}
		}
		p.Passes[pass].Notes[who] = out
	}
}

// clip leaves of a bass part the short notes on the first beats.
func clip(pass int) func(*groove.Performance) {
	return func(p *groove.Performance) {
		var out []groove.Note
		for _, n := range p.Passes[pass].Notes[timeline.Bass] {
			if n.Tick%(4*quarter) == 0 {
				n.Length = 100
				out = append(out, n)
			}
		}
		p.Passes[pass].Notes[timeline.Bass] = out
	}
}

// busy strikes one key on every eighth of a pass but in the stop.
func busy(pass int) func(*groove.Performance) {
	return func(p *groove.Performance) {
		var out []groove.Note
		for i := int64(0); i < 64; i++ {
			if at := i * quarter / 2; at < 26*quarter || at >= 28*quarter {
				out = append(out, groovetest.NoteAt(at, 100, uint8(60+i%2), 60))
			}
		}
		p.Passes[pass].Notes[timeline.Piano] = out
	}
}

// offBeat puts the kick of a bar a sixteenth before 2, 3 and 4 and takes the other
// strokes of kick and stick away.
func offBeat(pass int, from int64) func(*groove.Performance) {
	return func(p *groove.Performance) {
		var out []groove.Note
		for _, n := range p.Passes[pass].Notes[timeline.Drums] {
			if n.Tick < from || n.Tick >= from+4*quarter || n.Key == 42 {
				out = append(out, n)
			}
		}
		for i := int64(1); i < 4; i++ {
			out = added(out, groovetest.NoteAt(from+i*quarter-quarter/4, 100, 36, 70))
		}
		p.Passes[pass].Notes[timeline.Drums] = out
	}
}

// thinOut leaves of the drums of a pass its first stroke.
func thinOut(pass int) func(*groove.Performance) {
	return func(p *groove.Performance) {
		p.Passes[pass].Notes[timeline.Drums] = p.Passes[pass].Notes[timeline.Drums][:1]
	}
}

// The drums are many, the others are one.
func TestSounds(t *testing.T) {
	for who, want := range []string{"drums sound", "bass sounds", "piano sounds"} {
		if got := sounds(timeline.Player(who)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
