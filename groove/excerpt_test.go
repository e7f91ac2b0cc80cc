package groove_test

import (
	"math/rand"
	"slices"
	"testing"

	"plinth/groove"
	"plinth/groove/groovetest"
	"plinth/groove/library"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// What is struck after the first bar line of an excerpt and before its last is what is struck
// there in the song, with its lengths, and it takes the same time. On the first bar line it is
// that, and what rings on from a push.
func TestExcerptIsAsInTheSong(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	feels, rung := randomFeels(), 0
	for range 60 {
		_, tl := randomSong(t, r, feels)
		song := groove.Perform(tl, library.Builtin())
		for _, which := range ways(tl) {
			cut, played := groove.Excerpt(tl, song, which)
			_, stretches := tl.Excerpt(which)
			clock, inSong := timeline.NewClock(cut.Tempos), timeline.NewClock(tl.Tempos)
			for _, s := range stretches {
				length := s.To - s.From
				if got, want := clock.Micros(s.At+length)-clock.Micros(s.At),
					inSong.Micros(s.To)-inSong.Micros(s.From); got-want > 1 || want-got > 1 {
					t.Fatalf("passes %v last %d µs, in the song %d", which, got, want)
				}
				for who := range played.Parts {
					want := struckIn(song.Parts[who], s.From+1, s.To, s.At-s.From, s.At+length)
					got := struckIn(played.Parts[who], s.At+1, s.At+length, 0, s.At+length)
					if !slices.Equal(got, want) {
						t.Fatalf("passes %v, %s:\n%v\nin the song\n%v", which, timeline.Player(who), got, want)
					}
					for _, n := range song.Parts[who] {
						if n.Tick <= s.From && n.Tick+n.Length > s.From {
							if n.Tick < s.From {
								rung++
							}
							if !sounds(played.Parts[who], s.At, n) {
								t.Fatalf("passes %v, %s: %v does not sound at %d", which, timeline.Player(who), n, s.At)
							}
						}
					}
				}
			}
			for i := range cut.Passes {
				p, was := &cut.Passes[i], &tl.Passes[which[i]]
				for _, b := range p.Bars {
					at, in := p.Start+b.Start, was.Start+b.Start
					if meterAt(cut, at) != meterAt(tl, in) || keyAt(cut, at) != keyAt(tl, in) {
						t.Fatalf("passes %v: a bar at %d has %v in %v, in the song %v in %v", which, at,
							meterAt(cut, at), keyAt(cut, at), meterAt(tl, in), keyAt(tl, in))
					}
				}
			}
		}
	}
	if rung < 50 {
		t.Errorf("only %d notes ring on from a push", rung)
	}
}

// sounds reports whether a note begins at a tick with the pitch, and the velocity of n.
func sounds(notes []groove.Note, tick int64, n groove.Note) bool {
	return slices.ContainsFunc(notes, func(m groove.Note) bool {
		return m.Tick == tick && m.Key == n.Key && m.Velocity == n.Velocity
	})
}

// ways are several choices of a song's passes: each alone, the first section's, all.
func ways(tl *timeline.Timeline) [][]int {
	var all []int
	var out [][]int
	for i := range tl.Passes {
		all = append(all, i)
		out = append(out, []int{i})
	}
	return append(out, all, tl.Named(tl.Passes[0].Section), tl.Named(tl.Passes[len(all)-1].Section))
}

// struckIn are the notes struck from a tick to another, moved, and ended where the last bar
// line is.
func struckIn(notes []groove.Note, from, to, by, end int64) []groove.Note {
	var out []groove.Note
	for _, n := range notes {
		if n.Tick >= from && n.Tick < to {
			n.Tick, n.Pass, n.Meant = n.Tick+by, 0, 0
			n.Length = min(n.Length, end-n.Tick)
			out = append(out, n)
		}
	}
	return out
}

func meterAt(tl *timeline.Timeline, tick int64) (out string) {
	for _, c := range tl.Meters {
		if c.Tick <= tick {
			out = c.Meter.String()
		}
	}
	return out
}

func keyAt(tl *timeline.Timeline, tick int64) (out string) {
	for _, c := range tl.Keys {
		if c.Tick <= tick {
			out = c.Key.String()
		}
	}
	return out
}

// A whole song is an excerpt of itself.
func TestExcerptOfAll(t *testing.T) {
	for _, path := range songfiletest.Examples(t, "../examples") {
		_, tl, set := songfiletest.Example(t, path)
		song := groove.Perform(tl, set)
		var all []int
		for i := range tl.Passes {
			all = append(all, i)
		}
		cut, played := groove.Excerpt(tl, song, all)
		if cut.End != tl.End || cut.Lead != tl.Lead || !slices.Equal(cut.Tempos, tl.Tempos) ||
			!slices.Equal(cut.Meters, tl.Meters) || !slices.Equal(cut.Keys, tl.Keys) {
			t.Errorf("%s: the song's times are other ones", path)
		}
		for who, notes := range song.Parts {
			if want := struckIn(notes, -1, tl.End, 0, tl.End); !slices.Equal(played.Parts[who], want) {
				t.Errorf("%s: the %s plays %d notes, in the song %d", path, timeline.Player(who),
					len(played.Parts[who]), len(want))
			}
		}
		if !slices.Equal(played.Click, song.Click) {
			t.Errorf("%s: another click", path)
		}
	}
}

// A push leads into the chorus and out of it: the first chord is there from the first bar line
// on, and the push into the next verse is struck in the last bar.
func TestExcerptBetweenPushes(t *testing.T) {
	for _, countIn := range []string{"", "count_in = 1\n"} {
		tl := songfiletest.Song(t, countIn+`looseness = 0
section "verse" {
  chords = "| C | Am | F | G |"
  push "4: 4&" {}
}
section "chorus" {
  chords = "| F | C | Dm | Bb |"
  push "4: 4&" {}
}
form {
  play "verse" {}
  play "chorus" {}
  play "verse" {}
}
`)
		cut, played := groove.Excerpt(tl, groove.Perform(tl, library.Builtin()), []int{1})
		start, end := cut.Lead, cut.End
		if cut.LeadBars != tl.CountIn || end-start != 4*groovetest.Bar44 || len(played.Click) == 0 != (countIn == "") {
			t.Errorf("%q: %d bars in front, %d ticks, %d clicks", countIn, cut.LeadBars, end-start, len(played.Click))
		}
		for _, who := range []timeline.Player{timeline.Bass, timeline.Piano} {
			notes := played.Parts[who]
			if len(notes) == 0 || notes[0].Tick != start {
				t.Fatalf("%q: the %s begins with %v, the bar line is at %d", countIn, who, notes[:min(1, len(notes))],
					start)
			}
			last := notes[len(notes)-1]
			if last.Tick != end-groovetest.Eighth || last.Tick+last.Length != end {
				t.Errorf("%q: the %s's last note is at %d for %d, the end is at %d", countIn, who, last.Tick,
					last.Length, end)
			}
		}
		for _, n := range played.Parts[timeline.Drums] {
			if n.Tick < start || n.Tick+n.Length > end {
				t.Errorf("%q: the kit is struck at %d for %d, out of %d to %d", countIn, n.Tick, n.Length, start,
					end)
			}
		}
	}
}
