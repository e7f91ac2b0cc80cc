package serve

import (
	"strings"
	"testing"

	"plinth/render/page"
)

// engine opens a tab with the engine in it.
func engine(w *tab) *tab {
	w.t.Helper()
	w.file("midi.js")
	w.file("engine.js")
	return w
}

const fast = `title = "Fast"
tempo = 240
section "a" {
  energy = 3
  chords = "| C | Am | F | G |"
}
form {
  play "a" {}
}
`

var fastChanged = strings.Replace(fast, "| F | G |", "| Dm | E7 |", 1)

// While it plays, a wrong save is told and the last good bed plays on; the next good one comes at a bar line. It
// stops behind the last bar line and the tail, and begins at the start again.
func TestPagePlaysOverAnError(t *testing.T) {
	s := playing(t)
	w := engine(bare(t, chromium(t), s))
	s.Wrong("wrong from the start", []page.Diag{{Severity: "error", Summary: "No song"}}, nil)
	w.do("T.start(), T.until(() => T.engine.bed?.state.wrong.length === 1)")
	w.do("T.engine.play()") // there is nothing to play yet
	if eval[bool](w, "T.engine.playing") {
		t.Error("it plays what is not there")
	}
	saved(t, s, fast, "good")
	w.do("T.until(() => T.engine.bed.bars.length === 4 && T.engine.room)")
	w.do("T.engine.setLoop(0, 3)")
	w.do("T.engine.play(), T.moved(1e6)")
	if loud := eval[float64](w, "T.loud()"); loud > 1 {
		t.Errorf("it is as loud as %v", loud)
	}
	w.do("T.bed = T.engine.bed")
	s.Wrong("wrong", []page.Diag{{Severity: "error", Summary: "A mistake"}}, nil)
	w.do("T.until(() => !T.engine.state.ok && T.engine.bed.state.wrong[0].summary === 'A mistake')")
	w.do("T.moved(2e6)")
	if !eval[bool](w, "T.engine.playing && T.engine.bed === T.bed && T.engine.pending === null") {
		t.Error("a wrong save has changed what plays")
	}
	saved(t, s, fastChanged, "mended")
	w.do("T.until(() => T.engine.bed.state.says === 'mended')")
	w.do("T.moved(1e6)")
	if !eval[bool](w, "T.engine.playing && T.engine.loop.to === 3 && T.engine.bed !== T.bed") {
		t.Error("the mended save does not play")
	}
	saved(t, s, fast, "at once")
	w.do("T.until(() => T.engine.pending || T.engine.bed.state.says === 'at once')")
	w.do("T.engine.swapNow(), T.until(() => T.engine.bed.state.says === 'at once')")
	w.do("T.engine.setLoop(null), T.until(() => !T.engine.playing)")
	w.do("T.engine.play()")
	if bar := eval[int](w, "T.engine.now().bar"); bar != 0 {
		t.Errorf("behind the end it plays from bar %d", bar)
	}
	w.do("T.moved(1.2e6).then(() => T.engine.stop())")
	w.do("T.engine.play()")
	if bar := eval[int](w, "T.engine.now().bar"); bar != 1 && bar != 2 {
		t.Errorf("it was stopped in bar 1 or soon behind it, and plays on from bar %d", bar)
	}
	w.do("T.engine.setHeard('drums', false), T.engine.setPace(0.8), T.engine.setCountIn(true)")
	w.do("T.drums = [...T.engine.player.sound.buses.values()].find((b) => b.part.who === 'drums')")
	w.do("T.until(() => T.drums.input.gain.value < 1e-3)")
	w.do("T.engine.stop(), T.start(), T.until(() => T.engine.bed?.bars.length)")
	if !eval[bool](w, "T.engine.heard.drums === false && T.engine.pace === 0.8 && T.engine.countIn && !T.engine.loop") {
		t.Error("what was set is not remembered")
	}
	w.do("T.engine.play(2), T.until(() => T.engine.now().count > 2)")
	if bar := eval[int](w, "T.engine.now().bar"); bar != 2 {
		t.Errorf("bar %d is counted in", bar)
	}
}

// A browser that keeps a page silent until it is touched is told of in words, and the touch starts it. A clock
// that stood still has the last bar played again; one that is only looked at late has not.
func TestPageBlockedAndAsleep(t *testing.T) {
	s := playing(t)
	w := engine(bare(t, chromium(t), s))
	saved(t, s, fast, "good")
	w.do(`globalThis.AudioContext = class extends AudioContext {
		constructor(o) { super(o); super.suspend(); }
		resume() { return T.touched ? super.resume() : new Promise(() => {}); }
	}`)
	w.do("T.start(), T.until(() => T.engine.bed?.bars.length)")
	w.do("T.engine.play(1), T.until(() => T.trouble('blocked'))")
	if got := eval[string](w, "T.trouble('blocked')"); !strings.Contains(got, "click into it, or press a key") {
		t.Error(got)
	}
	if at := eval[float64](w, "T.engine.now().at"); at != 1e6 {
		t.Errorf("blocked at %v", at)
	}
	w.do("T.touched = true, dispatchEvent(new Event('pointerdown')), T.moved(3e5)")
	if got := eval[string](w, "T.trouble('blocked')"); got != "" {
		t.Error(got)
	}
	w.do("T.engine.setLoop(0, 3)")
	w.do("T.engine.player.audio.context.suspend().then(() => { T.before = T.engine.player.transport.queue[0]; })")
	w.do("T.engine.player.audio.context.resume()")
	w.do("T.until(() => !T.engine.player.transport.queue.includes(T.before)), T.moved(1e6)")

	ticks := func(pairs ...[2]int) [][2]int { return pairs }
	var jerky [][2]int // it goes on by 150 milliseconds at a time
	for t := 0; t < 6000; t += 25 {
		jerky = append(jerky, [2]int{t, t / 150 * 150})
	}
	for name, row := range map[string]struct {
		looks [][2]int // the page's clock and the sound's, in milliseconds
		want  int
	}{
		"runs":           {ticks([2]int{0, 0}, [2]int{25, 25}, [2]int{50, 48}, [2]int{75, 75}), 0},
		"looked at late": {ticks([2]int{0, 0}, [2]int{25, 25}, [2]int{2025, 2025}, [2]int{2050, 2050}), 0},
		"coarse":         {ticks([2]int{0, 0}, [2]int{25, 0}, [2]int{50, 46}, [2]int{75, 46}, [2]int{100, 92}), 0},
		"jerky":          {jerky, 2},
		"stood":          {ticks([2]int{0, 0}, [2]int{25, 25}, [2]int{90, 25}, [2]int{160, 25}, [2]int{185, 50}), 1},
		"slept":          {ticks([2]int{0, 0}, [2]int{25, 25}, [2]int{3_600_025, 40}, [2]int{3_600_050, 65}), 1},
	} {
		if got := call[int](w, "clocked", row.looks); got != row.want {
			t.Errorf("%s: slept %d times, want %d", name, got, row.want)
		}
	}
}

// A save that comes while play waits for the browser is shown at once, with the bar that will play in it. A hall
// that could not be had is asked for again.
func TestPageSavedBeforeItSounds(t *testing.T) {
	s := playing(t)
	w := engine(bare(t, chromium(t), s))
	saved(t, s, fast, "good")
	w.do(`globalThis.AudioContext = class extends AudioContext {
		constructor(o) { super(o); super.suspend(); }
		resume() { return T.touched ? super.resume() : new Promise(() => {}); }
	}`)
	w.do(`T.fetch = fetch.bind(globalThis), globalThis.fetch = (path, ...more) =>
		path.endsWith("/room") && !T.touched ? Promise.reject(new Error("no hall")) : T.fetch(path, ...more)`)
	w.do("T.start(), T.until(() => T.engine.bed?.bars.length)")
	w.do("T.engine.play(3), T.until(() => T.trouble('blocked'))")
	w.do(`T.engine.addEventListener("swap", () => {
		try { T.at = String(T.engine.now().bar); } catch (e) { T.at = String(e); }
	})`)
	saved(t, s, strings.Replace(fast, " F | G |", "", 1), "shorter")
	w.do("T.until(() => T.engine.bed.bars.length === 2)")
	if at := eval[string](w, "T.at"); at != "1" {
		t.Errorf("when it is shown it will play from %s", at)
	}
	w.do("T.touched = true, T.engine.stop(), T.engine.play(), T.until(() => T.engine.player.sound.room.buffer)")
}
