package serve

import (
	"fmt"
	"strings"
	"testing"
)

// What keeps instruments from playing is told in plain words, and a page that goes leaves no note.
func TestPageInstruments(t *testing.T) {
	s := playing(t)
	w := engine(bare(t, chromium(t), s))
	saved(t, s, fast, "good")
	w.do("T.midi('none'), T.start(), T.until(() => T.engine.bed?.bars.length)")
	w.do("T.engine.setOutlet('midi')")
	if got := eval[string](w, "T.trouble('midi')"); !strings.Contains(got, "This browser has no Web MIDI") {
		t.Error(got)
	}
	w.do("T.midi('refused'), T.engine.setOutlet('midi')")
	if got := eval[string](w, "T.trouble('midi')"); !strings.Contains(got, "was not allowed to use MIDI") {
		t.Error(got)
	}
	if eval[string](w, "T.engine.outlet") != "sound" {
		t.Error("it plays on instruments that it does not have")
	}
	w.do("T.midi(['Piano', 'Drums']), Promise.all([T.engine.setOutlet('midi'), T.engine.setOutlet('sound')])")
	if eval[string](w, "T.engine.outlet") != "sound" {
		t.Error("what was chosen while the browser asked is not what plays")
	}
	w.do("T.engine.setOutlet('midi')")
	w.do("T.engine.play()")
	if got := eval[string](w, "T.trouble('port')"); !strings.Contains(got, "No MIDI port is chosen") {
		t.Error(got)
	}
	w.do("T.engine.setPort('1'), T.engine.setClock(true), T.engine.setLoop(0, 3)")
	w.do("T.port = T.access.outputs.get('1')")
	sounds := "T.until(() => T.engine.player.midi.sounding.size > 1)"
	quiet := func(what string) {
		t.Helper()
		if left := eval[[]string](w, "T.left(T.port)"); len(left) > 0 {
			t.Errorf("%s: %q", what, left)
		}
	}
	w.do("T.engine.play(), " + sounds)
	w.do("dispatchEvent(new Event('pagehide'))")
	quiet("the page was left")
	w.do("T.engine.play(), " + sounds)
	w.do("T.engine.setOutlet('sound')")
	quiet("its own sound was chosen")
	w.do("T.moved(3e5).then(() => T.engine.setOutlet('midi')).then(() => " + sounds + ")")
	w.do("T.engine.setPort('0')")
	quiet("another port was chosen")
	w.do("T.port = T.access.outputs.get('0'), T.until(() => T.port.sent.length > 20)")
	// W3C: a port that is pulled out is disconnected, and its access says so.
	w.do("T.port.state = 'disconnected', T.access.onstatechange({ port: T.port })")
	if got := eval[string](w, "T.trouble('port')"); !strings.Contains(got, "“Piano” is gone") {
		t.Error(got)
	}
	if eval[bool](w, "T.engine.playing") {
		t.Error("it plays into a port that is gone")
	}
	// What sounded cannot be ended any more; another day begins.
	w.do("T.port.sent = [], T.port.state = 'connected', T.access.onstatechange({ port: T.port })")
	if got := eval[string](w, "T.trouble('port')"); got != "" {
		t.Error(got)
	}
	w.do("T.engine.play(), " + sounds)
	w.do("T.engine.stop()")
	quiet("stopped")
	w.do("T.start(), T.until(() => T.engine.midi.port === '0')")
	if !eval[bool](w, "T.engine.outlet === 'midi' && T.engine.midi.clock") {
		t.Error("the port is not remembered")
	}
}

// Who plays on the only instrument there is plays on when another is plugged in. Our own sound costs nothing
// meanwhile, and is there again when it is chosen.
func TestPageAnotherInstrument(t *testing.T) {
	s := playing(t)
	w := engine(bare(t, chromium(t), s))
	saved(t, s, fast, "good")
	w.do("T.midi(['Piano']), T.start(), T.until(() => T.engine.bed?.bars.length)")
	w.do("T.engine.setLoop(0, 3), T.engine.play(), T.moved(3e5)")
	w.do("T.engine.setOutlet('midi')")
	w.do("T.until(() => T.engine.player.midi.sounding.size > 1)")
	w.do("T.access.outputs.set('1', new T.Port('1', 'Drums')), T.access.onstatechange({})")
	if !eval[bool](w, "T.engine.playing && T.engine.midi.port === '0'") {
		t.Error("another instrument has stopped the one that plays")
	}
	w.do("T.until(() => T.engine.player.audio.context.state === 'suspended')")
	w.do("T.engine.setOutlet('sound'), T.moved(1e6), T.loud()")
}

// Who follows the clock is told the place again when the page stood still for a while, and gets no heap of pulses
// that are past.
func TestPageStoodStillForFollowers(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	saved(t, s, pushed, "song")
	call[int](w, "next", "song")
	w.file("midi.js")
	got := sent{Sent: call[[][]float64](w, "stood", 5_000_000, 12_000_000)}
	_, system := got.messages()
	past, told := 0, ""
	for _, m := range system {
		switch {
		case m.bytes == "\xf8" && m.at > 5_100_000 && m.at < 11_000_000:
			past++
		case m.bytes != "\xf8" && m.at > 5_100_000:
			told += fmt.Sprintf("%x ", m.bytes[:1])
		}
	}
	if past > 0 || told != "fc f2 fb " {
		t.Errorf("%d pulses are past, told %q", past, told)
	}
}
