package room

import (
	"slices"
	"sort"
	"strings"
	"testing"

	"plinth/groove"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
)

// The report names the hits that are played, by the rules of the song file: a stop silences
// an accent in it, an accent on the beat of a pushed chord is played with the push, a
// player who keeps out hits nothing, and under N.C. only the drums hit.
func TestHitsArePlayed(t *testing.T) {
	accent := func(tick int64, by timeline.Players) timeline.Event {
		return timeline.Event{Kind: timeline.Accent, Bar: int(tick / 3840), Tick: tick, End: tick, By: by, Weight: 2}
	}
	push := timeline.Event{Kind: timeline.Push, Bar: 0, Tick: 3360, End: 3360, Target: 3840, By: timeline.All}
	stop := timeline.Event{Kind: timeline.Stop, Bar: 1, Tick: 5760, End: 7680, By: timeline.All}
	band := timeline.Only(timeline.Bass) | timeline.Only(timeline.Piano)
	for _, tt := range []struct {
		name   string
		set    func(*timeline.Pass)
		events []timeline.Event
		want   string // the accents, then the pushes
	}{
		{"an accent", nil, []timeline.Event{accent(1920, timeline.All)}, "bar 1: 3 / "},
		{"in a stop", nil, []timeline.Event{stop, accent(6720, timeline.All), accent(3840, timeline.All)},
			"bar 2: 1 / "},
		{"at the stop's first beat", nil, []timeline.Event{accent(5760, timeline.All), stop}, " / "},
		{"where a push comes from", nil, []timeline.Event{push, accent(3840, timeline.All)}, "bar 1: 4& / bar 1: 4& F"},
		{"between a push and its beat", nil, []timeline.Event{push, accent(3600, timeline.All)},
			"bar 1: 4& / bar 1: 4& F"},
		{"pushed out of N.C.", func(p *timeline.Pass) { p.Chords[0].Chord = harmony.NoChord() },
			[]timeline.Event{push, accent(3360, timeline.All)}, "bar 1: 4& / bar 1: 4& F"},
		{"a push in a stop", nil, []timeline.Event{
			{Kind: timeline.Stop, Bar: 0, Tick: 2880, End: 3840, By: timeline.All}, push}, " / "},
		{"drums keep out", func(p *timeline.Pass) { p.Tacet = timeline.Only(timeline.Drums) },
			[]timeline.Event{accent(1920, timeline.All), accent(2880, timeline.Only(timeline.Drums))},
			"bar 1: 3 (bass and piano) / "},
		{"drums do not push", nil,
			[]timeline.Event{{Kind: timeline.Push, Tick: 3360, End: 3360, Target: 3840, By: band},
				accent(3840, timeline.All)},
			"bar 1: 4& (bass and piano); bar 2: 1 (drums) / bar 1: 4& F (bass and piano)"},
		{"no chord", func(p *timeline.Pass) { p.Chords[1].Chord = harmony.NoChord() },
			[]timeline.Event{accent(3840, timeline.All)}, "bar 2: 1 (drums) / "},
		{"said twice", nil, []timeline.Event{accent(2880, timeline.Only(timeline.Drums)), accent(2880, timeline.All)},
			"bar 1: 4 / "},
		{"two kinds of players", nil,
			[]timeline.Event{accent(0, timeline.All), accent(960, timeline.Only(timeline.Drums)),
				accent(2880, timeline.All)}, "bar 1: 1 4, 2 (drums) / "},
		{"pushed from the pass before", func(p *timeline.Pass) {
			p.Entry = &timeline.Event{Kind: timeline.Push, Tick: -480, By: timeline.All}
		}, []timeline.Event{accent(0, timeline.All)}, " / "},
		{"alone", nil, []timeline.Event{{Kind: timeline.Accent, Tick: 0, By: timeline.All, Weight: 2, Alone: true}},
			"bar 1: 1, nothing else / "},
	} {
		tl, _ := small(t)
		p := &tl.Passes[0]
		p.Events = tt.events
		if tt.set != nil {
			tt.set(p)
		}
		hits := Analyze(tl, nil).Passes[0].Hits
		if got := hitLine(hits, timeline.Accent, timeline.All) + " / " +
			hitLine(hits, timeline.Push, timeline.All); got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.name, got, tt.want)
		}
	}
}

// A hold and a rit are places to know, too.
func TestHoldAndRit(t *testing.T) {
	tl, _ := small(t)
	p := &tl.Passes[0]
	p.Events = []timeline.Event{
		{Kind: timeline.Rit, Bar: 0, Tick: 0, End: 7680, To: 52_000},
		{Kind: timeline.Hold, Bar: 1, Tick: 6720, End: 7680, Extra: 1920},
	}
	moves := timeline.Timeline{Passes: []timeline.Pass{*p}}
	moves.Passes[0].Events = []timeline.Event{
		{Kind: timeline.Accel, Bar: 0, Tick: 1920, End: 4800, To: 96_500},
		{Kind: timeline.Rit, Bar: 1, Tick: 5760, End: 7680, To: 52_000},
		{Kind: timeline.Cue, Bar: 1, Tick: 6720, End: 6720, Text: "lights"},
	}
	got := ""
	for _, h := range Analyze(&moves, nil).Passes[0].Hits {
		got += hitLine([]Hit{h}, h.Kind, timeline.All) + "; "
	}
	if want := "bars 1-2: from 3 to 1, reaching 96.5; bar 2: from 3 to 4, reaching 52; " +
		`bar 2 count 4 "lights"; `; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	hits := Analyze(tl, nil).Passes[0].Hits
	if got, want := hitLine(hits, timeline.Rit, timeline.All), "bars 1-2: to 52"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := hitLine(hits, timeline.Hold, timeline.All), "bar 2 count 4, 2 beats longer"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// In the performance of the example, each player who is named for an accent plays it, and
// nobody plays in a stop.
func TestHitsSound(t *testing.T) {
	told := 0
	for _, name := range songs {
		r := exampleReport(t, name)
		for i := range r.Passes {
			for _, h := range r.Passes[i].Hits {
				for who := range timeline.Player(len(timeline.PlayerNames)) {
					switch {
					case h.Kind == timeline.Stop:
						for _, n := range notesBetween(r.perf.Parts[who], h.Tick-16*960, h.End) {
							if n.Tick+n.Length > h.Tick+together && n.Tick < h.End-together {
								t.Errorf("%s: %s sounds in the stop of bar %d", name, who, h.Bar)
								break
							}
						}
					case h.Kind == timeline.Accent && h.By.Has(who):
						told++
						if len(notesBetween(r.perf.Parts[who], h.Tick-together, h.Tick+together)) == 0 {
							t.Errorf("%s: bar %d count %s names the %s, who do not sound", name, h.Bar, h.Count, who)
						}
					}
				}
			}
		}
	}
	if told < 30 {
		t.Errorf("only %d accents looked at", told)
	}
}

// notesBetween returns the played notes that begin from start on and before end.
func notesBetween(notes []groove.Note, start, end int64) []groove.Note {
	i := sort.Search(len(notes), func(i int) bool { return notes[i].Tick >= start })
	j := sort.Search(len(notes), func(j int) bool { return notes[j].Tick >= end })
	return notes[i:j]
}

// A lift of a half step from Eb to E moves every pedal of the harp (three flats
// to four sharps: F C G D up, B E A up from flat); C to G moves one (F); a
// relative key none. By the signatures.
func TestPedals(t *testing.T) {
	for _, tt := range []struct {
		from, to string
		want     int
	}{{"Eb", "E", 7}, {"C", "G", 1}, {"Dm", "F", 0}, {"G", "Ab", 5}, {"F", "Gb", 5}} {
		a, err := harmony.ParseKey(tt.from)
		if err != nil {
			t.Fatal(err)
		}
		b, err := harmony.ParseKey(tt.to)
		if err != nil {
			t.Fatal(err)
		}
		if got := pedals(a, b); got != tt.want {
			t.Errorf("%s to %s: %d, want %d", tt.from, tt.to, got, tt.want)
		}
	}
}

// Counts that are free in every beat are named together, the others one by one.
func TestCountsWord(t *testing.T) {
	var g Grid
	for _, c := range strings.Fields("1 1e 1& 1a 2 2e 2& 2a") {
		g.Steps = append(g.Steps, Step{Count: c})
	}
	for _, tt := range []struct{ free, want string }{
		{"1e 1a 2e 2a", "every e and a"},
		{"1e 2e 1& 2", "every e, 1& 2"},
		{"1& 2a", "1& 2a"},
		{"", ""},
	} {
		free := func(s Step) bool { return strings.Contains(" "+tt.free+" ", " "+s.Count+" ") }
		if got := countsWord(&g, free); got != tt.want {
			t.Errorf("%q: got %q, want %q", tt.free, got, tt.want)
		}
	}
}

// The hits of a pass come as they are played, and those of one kind in a row share a line.
func TestHitsInOrder(t *testing.T) {
	tl, perf := small(t)
	r := Analyze(tl, perf)
	hit := func(kind timeline.EventKind, bar int, tick int64, count string) Hit {
		return Hit{Kind: kind, Bar: bar, LastBar: bar, Tick: tick, Count: count, By: timeline.All, Chord: "C",
			Beats: 1000}
	}
	r.Passes[0].Hits = []Hit{
		hit(timeline.Push, 1, 3360, "4&"), hit(timeline.Accent, 2, 3840, "1"), hit(timeline.Hold, 2, 4800, "2"),
		hit(timeline.Accent, 3, 7680, "1"), hit(timeline.Accent, 4, 12480, "2"), hit(timeline.Push, 4, 14880, "4&"),
	}
	var got []string
	for _, row := range r.hitRows() {
		got = append(got, row[1]+" "+row[2])
	}
	want := []string{"push bar 1: 4& C", "accent bars 2-3: 1", "hold bar 2 count 2, 1 beat longer", "accent bar 4: 2",
		"push bar 4: 4& C"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// hitLine is the hits of one kind in a line.
func hitLine(hits []Hit, kind timeline.EventKind, plays timeline.Players) string {
	var out []string
	for _, p := range hitPlaces(hits, kind, plays) {
		out = append(out, p.String())
	}
	return strings.Join(out, "; ")
}
