package serve

import (
	"strings"
	"testing"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/songspec/timeline"
)

// A count-in in which nothing is played but the click is a narrow stretch, and the singer's first note is named there.
func TestPageShowsTheCountIn(t *testing.T) {
	s := playing(t)
	tl, set, err := songfiletest.ExampleText("page.song.hcl", strings.Replace(weir, "section", "key = \"Eb\"\n"+
		"count_in = 1\nsection", 1))
	if err != nil {
		t.Fatal(err)
	}
	tl.Vocals = []timeline.Vocal{{Notes: []timeline.SungNote{{Tick: tl.Lead, Length: 960, Key: 63}}}}
	s.Good(tl, groove.Perform(tl, set), "12 bars", nil)
	w := opened(t, chromium(t), s, desktop)
	if got := w.text(".pass:nth-of-type(1) .facts"); got != "starting pitch E♭4" {
		t.Errorf("before bar 1 is written %q", got)
	}
	w.holds(`document.querySelector(".pass .system").offsetHeight < 60`)
	w.until(`document.querySelector(".pass:nth-of-type(2) .picture .voice-edge")`)
	// Twelve bars at 96 last half a minute from bar 1 on.
	w.holds(`document.querySelector("#ledge .time").textContent === "0:30"`)
	w.press("t")
	w.until(`/^−0:0[1-3] of 0:30$/.test(document.querySelector("#ledge .time").textContent)`)
	w.until(`/^0:0[01] of 0:30$/.test(document.querySelector("#ledge .time").textContent)`)
}

// The line in the strip stays in its pass when the window gets another width while it plays.
func TestPageLineInTheStrip(t *testing.T) {
	s := playing(t)
	saved(t, s, weir, "12 bars")
	w := opened(t, chromium(t), s, desktop)
	w.do(`document.querySelector("[data-bar='2']").click()`)
	w.until(`document.querySelector("#sheet [data-bar='3'].here")`)
	w.do(`document.body.style.width = "420px"`)
	w.until(`document.querySelectorAll(".pass:nth-of-type(1) .system:nth-of-type(1) .bar").length === 2`)
	if !eval[bool](w, `(async () => {
		for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
		const line = document.querySelector("#form .line").getBoundingClientRect();
		const block = document.querySelector("#form [aria-current]").getBoundingClientRect();
		return line.left >= block.left + block.width / 2 && line.right <= block.right;
	})()`) {
		t.Error("the line is elsewhere in the strip than what plays")
	}
}
