package watch

import (
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"plinth/cmd/internal/files"
)

// play is a core with a clock of its own and a folder that is only a map.
type play struct {
	core  *core
	now   time.Time
	files map[string]view
	paths []string
	told  []verdict
	built []time.Duration // when, since the start
	start time.Time
}

func newPlay(paths ...string) *play {
	start := time.Date(2026, 2, 1, 20, 0, 0, 0, time.UTC)
	p := &play{core: newCore(defaultWaits(defaultQuiet)), now: start, start: start, files: map[string]view{},
		paths: append([]string{"song"}, paths...)}
	for _, path := range p.paths {
		p.put(path, "old old old\n")
	}
	p.core.rememberBuild(p.views())
	return p
}

func (p *play) put(path, text string) {
	p.files[path] = view{Path: path, Data: []byte(text), Mod: p.now}
}

func (p *play) views() []view {
	var out []view
	for _, path := range p.paths {
		v, ok := p.files[path]
		if !ok {
			v = view{Path: path, Kind: missing, Err: errors.New("no such file")}
		}
		out = append(out, v)
	}
	return out
}

// run lets ms pass, looking whenever the core wants to.
func (p *play) run(ms int) {
	end := p.now.Add(time.Duration(ms) * time.Millisecond)
	for {
		at, ok := p.core.nextLook()
		if !ok || at.After(end) {
			p.now = end
			return
		}
		p.now = laterOf(p.now, at)
		switch v := p.core.judge(p.now, p.now, p.views()); v {
		case wait:
			if next, ok := p.core.nextLook(); !ok || !next.After(p.now) {
				panic("the core waits for a moment that is over")
			}
		case build:
			p.built = append(p.built, p.now.Sub(p.start))
		case nothing:
		default:
			p.told = append(p.told, v)
		}
	}
}

// TestCoreTimes pins down when a build comes: the part of the latency that is ours to choose.
func TestCoreTimes(t *testing.T) {
	ms := func(n ...int) (out []time.Duration) {
		for _, x := range n {
			out = append(out, time.Duration(x)*time.Millisecond)
		}
		return out
	}
	save := func(p *play, text string) { p.put("song", text); p.core.noteChange(p.now, false) }
	saves := func(p *play, times, gap int) {
		for i := 0; i < times; i++ {
			save(p, "n"+string(rune('a'+i)))
			p.run(gap)
		}
	}
	for _, c := range []struct {
		name, why string
		do        func(p *play)
		built     []time.Duration
		told      []verdict
	}{
		{"in place", "75 ms after the write", func(p *play) { save(p, "new\n") }, ms(75), nil},
		{"renamed over", "a whole file needs only the time to gather others",
			func(p *play) { p.put("song", "new\n"); p.core.noteChange(p.now, true) }, ms(30), nil},
		{"renamed over, then written in place", "the longer window wins", func(p *play) {
			p.put("song", "new\n")
			p.core.noteChange(p.now, true)
			p.run(10)
			save(p, "newer\n")
		}, ms(85), nil},
		{"renamed over with a beginning", "a whole file may well be shorter",
			func(p *play) { p.put("song", "old"); p.core.noteChange(p.now, true) }, ms(30), nil},
		{"cut off for good", "believed after 400 ms", func(p *play) { save(p, "old") }, ms(400), nil},
		{"cut off for 300 ms", "then the whole",
			func(p *play) { save(p, "old"); p.run(300); save(p, "old old old\nold\n") }, ms(375), nil},
		{"blank for good", "said after 500 ms", func(p *play) { save(p, "\n") }, nil, []verdict{tellBlank}},
		{"blank for 480 ms", "never said", func(p *play) { save(p, ""); p.run(480); save(p, "new\n") }, ms(555), nil},
		{"gone twice", "said once until it has been back", func(p *play) {
			delete(p.files, "song")
			p.core.noteChange(p.now, false)
			p.run(600)
			p.core.noteChange(p.now, false)
			p.run(600)
		}, nil, []verdict{tellMissing}},
		{"gone, back, gone", "said anew after it has been back", func(p *play) {
			old := p.files["song"]
			for i := 0; i < 2; i++ {
				delete(p.files, "song")
				p.core.noteChange(p.now, false)
				p.run(600)
				p.files["song"] = old
				p.core.noteChange(p.now, false)
				p.run(600)
			}
		}, nil, []verdict{tellMissing, tellBack, tellMissing, tellBack}},
		{"blank, then as it was", "told that it is blank, the user is told that it is back",
			func(p *play) { save(p, ""); p.run(600); save(p, "old old old\n") }, nil, []verdict{tellBlank, tellBack}},
		{"the same bytes", "nothing", func(p *play) { save(p, "old old old\n") }, nil, nil},
		{"the event comes 60 ms late", "the file's clock counts", func(p *play) {
			save(p, "new\n")
			p.run(70)
			p.put("song", "newer\n") // its event has not come yet
		}, ms(145), nil},
		{"a mistake that stays", "an error is no news the second time", func(p *play) {
			p.files["song"] = view{Path: "song", Kind: refused, Err: files.ErrNotFile}
			p.core.noteChange(p.now, false)
			p.run(200)
			p.core.noteChange(p.now, false)
		}, ms(75), nil},
		{"saved every 40 ms for 1100 ms", "at the ceiling, 40 ms after the last save; then 75 ms after the last of all",
			func(p *play) { saves(p, 28, 40) }, ms(1000, 1155), nil},
		{"saved every 10 ms for 3500 ms", "never quiet; after three seconds the user has waited enough",
			func(p *play) { saves(p, 350, 10) }, ms(3000, 3565), nil},
		{"changes while it is read, for 200 ms", "looked at again until it holds still", func(p *play) {
			p.files["song"] = view{Path: "song", Kind: unstable}
			p.core.noteChange(p.now, false)
			p.run(200)
			p.files["song"] = view{Path: "song", Data: []byte("new\n"), Mod: p.now}
		}, ms(275), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := newPlay()
			c.do(p)
			p.run(3000)
			if !equal(p.built, c.built) || !equal(p.told, c.told) {
				t.Errorf("built at %v and told %v, want %v and %v: %s", p.built, p.told, c.built, c.told, c.why)
			}
		})
	}
}

// What is written while the files are read is not quiet yet, even when the reading
// took so long, the machine being busy elsewhere, that its end lies far behind. A
// file whose clock is ahead of ours is not waited for.
func TestCoreReadsSlowly(t *testing.T) {
	for _, c := range []struct {
		name        string
		written, by int // when the song was written and when it had been read, in ms after the look
		want        verdict
	}{
		{"written before the look, read at once", -80, 0, build},
		{"written before the look, read slowly", -80, 500, build},
		{"written in the quiet before the look", -20, 500, wait},
		{"written between the look and the reading", 10, 500, wait},
		{"the clock is ahead", 1000, 500, build},
	} {
		p := newPlay()
		p.core.noteChange(p.now, false)
		p.now = p.now.Add(75 * time.Millisecond)
		at := p.now.Add(time.Duration(c.written) * time.Millisecond)
		p.files["song"] = view{Path: "song", Data: []byte("new\n"), Mod: at}
		if got := p.core.judge(p.now, p.now.Add(time.Duration(c.by)*time.Millisecond), p.views()); got != c.want {
			t.Errorf("%s: verdict %d, want %d", c.name, got, c.want)
		}
		if next, ok := p.core.nextLook(); c.want == wait && (!ok || !next.Equal(at.Add(75*time.Millisecond))) {
			t.Errorf("%s: looks again at %v, want 75 ms after it was written", c.name, next)
		}
	}
}

func equal[T comparable](a, b []T) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// TestCoreSettles plays random histories. Whatever happened, a core that is left
// alone comes to rest, knows the files as they are, and has built at most as
// often as something happened.
func TestCoreSettles(t *testing.T) {
	texts := []string{"", " \n", "old", "old old old\n", "old old old\nmore\n", "new\n", "other\n"}
	for seed := uint64(0); seed < 3000; seed++ {
		rnd := rand.New(rand.NewPCG(seed, 1))
		p := newPlay("groove")
		steps := 1 + rnd.IntN(20)
		for i := 0; i < steps; i++ {
			path := p.paths[rnd.IntN(2)]
			switch rnd.IntN(8) {
			case 0:
				delete(p.files, path)
			case 1:
				p.files[path] = view{Path: path, Kind: unstable}
			case 2:
				p.files[path] = view{Path: path, Kind: refused, Err: files.ErrNotFile}
			default:
				p.put(path, texts[rnd.IntN(len(texts))])
			}
			p.core.noteChange(p.now, rnd.IntN(4) == 0)
			p.run(rnd.IntN(300))
		}
		for _, path := range p.paths { // nothing is written for ever
			if p.files[path].Kind == unstable {
				p.put(path, "at last\n")
			}
		}
		p.run(5000)
		if _, ok := p.core.nextLook(); ok {
			t.Fatalf("seed %d: the core does not come to rest", seed)
		}
		song := p.views()[0]
		if len(p.built) > steps {
			t.Fatalf("seed %d: %d builds for %d changes", seed, len(p.built), steps)
		}
		if song.Kind == missing || song.blank() {
			continue // kept, and said
		}
		for _, v := range p.views() {
			if !p.core.known[v.Path].same(v) {
				t.Fatalf("seed %d: %s is %q, but the last build saw %q", seed, v.Path, v.Data,
					p.core.known[v.Path].Data)
			}
		}
	}
}
