package serve

import (
	"testing"

	"plinth/render/page"
)

const slow = `title = "Slow"
tempo = 60
section "a" {
  energy = 1
  chords = "| C | F | G | C |"
}
form {
  play "a" {}
}
`

// A note is asked for by how long it is held at the pace that is set. Where that is slowed, it is asked for again, and
// the shorter one plays until then; faster again, it is there.
func TestPageAsksForLongerNotes(t *testing.T) {
	tone := &tones{panicAt: 255}
	s := serving(t, func(o *Options) { o.Sounds = page.Sounds{Bank: tone} })
	w := engine(bare(t, chromium(t), s))
	w.do("T.start()")
	saved(t, s, slow, "slow")
	const short = "[...T.engine.notes.wanted].filter(([key, held]) => !(T.engine.notes.kept.get(key)?.held >= held))"
	const sum = "[...T.engine.notes.wanted.values()].reduce((a, b) => a + b, 0)"
	w.do("T.until(() => T.engine.bed?.bars.length)")
	w.do("T.engine.play(), T.until(() => T.engine.notes.wanted.size > 5 && " + short + ".length === 0)")
	atOne := eval[float64](w, sum)
	if most := eval[float64](w, "Math.max(...T.engine.notes.wanted.values())"); most < 3 || most > 6 {
		t.Errorf("notes are asked for up to %g s, and a bar has four", most)
	}
	w.do("T.engine.setPace(0.5)")
	if n := eval[int](w, short+".filter(([key]) => T.engine.notes.kept.has(key)).length"); n == 0 {
		t.Error("no note is kept that is too short now")
	}
	w.do("T.until(() => " + short + ".length === 0)")
	if atHalf := eval[float64](w, sum); atHalf < 1.5*atOne {
		t.Errorf("at half the pace the notes are held for %g s, before for %g", atHalf, atOne)
	}
	asked := tone.asked.Load()
	w.do("T.engine.setPace(1), T.moved(1e6)")
	if eval[float64](w, sum) != atOne || tone.asked.Load() != asked || eval[int](w, "T.engine.left.missing") != 0 {
		t.Errorf("faster again, %d more were asked for", tone.asked.Load()-asked)
	}
	w.do("T.engine.stop()")
}
