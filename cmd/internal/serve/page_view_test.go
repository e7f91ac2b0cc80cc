package serve

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/page"
)

// The page shows all of the song: its texts as they are, whatever they look like, and each bar with a name for
// those who hear it.
func TestPageShowsTheSong(t *testing.T) {
	s := playing(t)
	saved(t, s, marked, "20 bars")
	w := opened(t, chromium(t), s, desktop)
	for selector, want := range map[string]string{
		"#title": `Nell & <b>Tom</b> <img src=x onerror=alert(1)>`, "#by": "<i>Weir</i>", "#news": "20 bars",
		"#bank":                         "Sound: plucks",
		".pass:nth-of-type(2) .name":    "verse <s> (1)",
		".pass:nth-of-type(2) .facts":   "C major · quarter = 120 · 4/4 · ballad-eighths · energy 2 to 4",
		".pass:nth-of-type(3) .facts":   "energy 5 · bass tacet",
		".pass:nth-of-type(4) .facts":   "C# major · energy 2 to 4 · a half step up",
		"[data-bar='1'] .unseen":        "bar 1, F minor over C, push on 4 and",
		"[data-bar='1'] .number":        "1",
		"[data-bar='2'] .unseen":        "bar 2, B flat seventh suspended fourth, B flat seventh",
		"[data-bar='3'] .unseen":        `bar 3, E flat major seventh, cue on 2 "<u>lights</u>"`,
		"[data-bar='4'] .unseen":        "bar 4, no chord",
		"[data-bar='5'] .unseen":        "bar 5, 2 4 time, C sharp half-diminished",
		"[data-bar='5'] .meter":         "2/4",
		"[data-bar='8'] .unseen":        "bar 8, G, stop on 3",
		"[data-bar='1'] .chord":         "Fm/C",
		".event.cue":                    "“<u>lights</u>”",
		"#form li:nth-child(2) .unseen": "verse <s> (1), energy 2 to 4, 8 bars",
		"#form li:nth-child(3) .unseen": "chorus (1), energy 5, bass tacet, 4 bars",
		"#form li:nth-child(4) .marks":  "↑1",
	} {
		if selector == ".pass:nth-of-type(4) .facts" {
			want = strings.Replace(want, "C# major", w.text("#sheet .pass:nth-of-type(4) .facts span"), 1)
		}
		if got := strings.TrimSpace(w.text(selector)); got != want {
			t.Errorf("%s is %q, not %q", selector, got, want)
		}
	}
	w.holds(`document.title.startsWith("Nell & <b>")`)
	w.holds(`!document.querySelector("img, header b, header i:not([class]), .event u, h2 s")`)
	w.holds(`document.querySelectorAll("#form li").length === 5 && document.querySelectorAll("h2").length >= 5`)
	w.holds(`document.querySelector("#form li:nth-child(2) .power").style.clipPath ===
		"polygon(0px 100%, 0px 60%, 100% 20%, 100% 100%)"`) // from energy 2 to 4 of 5
	// A pass is as wide in the strip as it is long, but for the pixel of a border.
	w.holds(`(() => {
		const width = i => document.querySelectorAll("#form li")[i].getBoundingClientRect().width;
		return Math.abs(width(1) / width(3) - 1) < 0.02 && width(1) > 1.5 * width(2);
	})()`)
	w.until(`document.querySelector("[data-bar='7']").parentNode.querySelector(".picture .window .opening")`)
	w.holds(`["piano", "bass"].every(who => document.querySelector(".picture .notes." + who).getBBox().width > 900)`)
	w.holds(`document.querySelector(".picture .drums:not(.legend) .solids").getBBox().width > 500`)
}

// In each width the page is as wide as the screen, also with a wrong save; there are four bars side by side at
// 1400 pixels, eight from 1800 on, and two on a phone.
func TestPageWidths(t *testing.T) {
	s := playing(t)
	browser := chromium(t)
	long := strings.Replace(marked, "<u>lights</u>", strings.Repeat("lights ", 14), 1)
	saved(t, s, long, "20 bars")
	for _, row := range []struct{ width, height, bars int }{
		{1400, 900, 4}, {420, 860, 2}, {700, 450, 4}, {320, 640, 2}, {2000, 1100, 8}, {280, 500, 1},
	} {
		w := opened(t, browser, s, look{width: row.width, height: row.height})
		got := eval[int](w, `document.querySelectorAll(".pass:nth-of-type(2) .system:nth-of-type(1) .bar").length`)
		if got != row.bars {
			t.Errorf("%d bars side by side at %d pixels", got, row.width)
		}
		wrongSave(t, s, strings.Replace(marked, "Fm/C", "Fm/C | "+strings.Repeat("Cm7 | ", 30)+"Xsus", 1))
		w.until(`!document.querySelector("#wrong").hidden`)
		w.holds(`document.documentElement.scrollWidth <= innerWidth`)
		w.do(`document.querySelector(".more").click()`)
		w.holds(`document.documentElement.scrollWidth <= innerWidth`)
		w.holds(`[...document.querySelectorAll(".event")].every(e => e.getBoundingClientRect().right <= innerWidth)`)
		saved(t, s, long, "fixed")
		w.until(`document.querySelector("#wrong").hidden`)
	}
}

// A wrong save is shown with its line and what is wrong in it, and is gone with the next good one; the bars of the
// last good bed stay.
func TestPageShowsAWrongSave(t *testing.T) {
	s := playing(t)
	saved(t, s, marked, "20 bars")
	w := opened(t, chromium(t), s, phone)
	diags := wrongSave(t, s, strings.Replace(marked, "Fm/C", "Fm/C | Hm<b>", 1))
	w.until(`!document.querySelector("#wrong").hidden`)
	if got, want := w.text("#wrong h3"), "page.song.hcl:7:22 "+diags[0].Summary; got != want {
		t.Errorf("the mistake is %q, not %q", got, want)
	}
	if got := w.text("#wrong .detail"); got != diags[0].Detail {
		t.Errorf("the detail is %q, not %q", got, diags[0].Detail)
	}
	line := diags[0].Lines[slices.IndexFunc(diags[0].Lines, func(l page.Line) bool { return l.From != nil })]
	if got := w.text("#wrong .marked code"); strings.TrimSuffix(got, "\n") != line.Text {
		t.Errorf("the line is %q, not %q", got, line.Text)
	}
	if got := w.text("#wrong mark"); got != line.Text[*line.From:*line.To] {
		t.Errorf("%q is marked, not %q", got, line.Text[*line.From:*line.To])
	}
	w.holds(`document.querySelector("#said").textContent.startsWith("Mistake in line 7: ")`)
	w.holds(`document.querySelectorAll("#sheet .bar").length > 3 && !document.querySelector(".play").disabled`)
	w.holds(`(() => { // what is wrong is in sight, though its line is long
		const pre = document.querySelector("#wrong pre").getBoundingClientRect();
		return document.querySelector("#wrong mark").getBoundingClientRect().right <= pre.right;
	})()`)
	w.press("w")
	w.until(`document.activeElement.id === "wrong-head"`)
	saved(t, s, marked, "fixed: nothing that is heard")
	w.until(`document.querySelector("#wrong").hidden && document.querySelector(".mistake").hidden`)
	w.holds(`document.querySelector("#said").textContent === "Saved: fixed: nothing that is heard"`)
	tl, set, err := songfiletest.ExampleText("page.song.hcl", marked)
	if err != nil {
		t.Fatal(err)
	}
	s.Good(tl, groove.Perform(tl, set), "20 bars", []page.Diag{{Severity: "warning", Summary: "One bar short"}})
	w.until(`document.querySelector("#wrong .doubts summary")?.textContent === "One doubt"`)
	w.holds(`!document.querySelector("#wrong .doubts").open`)
	w.press("w") // opens them
	w.until(`document.querySelector("#wrong .doubts").open && document.activeElement.matches(".doubts summary")`)
}

// The passes that the last save changed are marked, and the key goes from one to the next.
func TestPageShowsWhatChanged(t *testing.T) {
	s := playing(t)
	saved(t, s, marked, "20 bars")
	w := opened(t, chromium(t), s, desktop)
	w.holds(`!document.querySelector(".is-changed") && document.querySelector("#ledge .changed").hidden`)
	saved(t, s, strings.Replace(marked, "| F | G | C | Am |", "| F | G7 | C | Am |", 1), "chorus: chords of bar 2")
	const are = `.map(p => +p.classList.contains("is-changed")).join("")`
	const changed = `[...document.querySelectorAll("#sheet .pass")]` + are
	w.until(changed + ` === "00101"`)
	w.holds(`[...document.querySelectorAll("#form button")]` + are + ` === "00101"`)
	w.holds(`document.querySelector("#form li:nth-child(3) .unseen").textContent.endsWith("changed by the last save")`)
	w.holds(`document.querySelector("[data-bar='10'] .chord").textContent === "G7"`)
	w.holds(`document.querySelector("#news").textContent.endsWith("chorus: chords of bar 2")`)
	for _, bar := range []string{"9", "21", "9"} {
		w.press("c")
		w.until(`document.activeElement.dataset.bar === "` + bar + `"`)
	}
	w.click("#ledge .changed")
	w.until(`document.activeElement.dataset.bar === "21"`)
	// A save while it plays waits for the bar line; the key s, and the button, play it now.
	w.press("t")
	w.until(`document.querySelector("#sheet .bar.here")`)
	saved(t, s, strings.Replace(marked, "| F | G | C | Am |", "| F | Gm | C | Am |", 1), "chorus: chords of bar 2")
	w.until(`document.querySelector("#coming").textContent.includes("next bar line") || ` + changed + ` === "00101"`)
	w.press("s")
	w.until(`document.querySelector("#ledge .swap").hidden && document.querySelector("#coming").hidden`)
	w.press("c")
	w.until(`document.querySelector("#ledge .pass-name").textContent === "chorus (1)"`)
	w.until(`document.querySelector("#said").textContent.startsWith("chorus (1)")`)
	w.holds(`document.querySelector("#form li:nth-child(3) button").ariaCurrent === "true"`)
	w.press(kb.Escape)
}

// The keyboard stays on its bar when a save changes that pass or another, and when the page gets another width;
// so do the marks.
func TestPageKeepsTheKeyboard(t *testing.T) {
	s := playing(t)
	saved(t, s, marked, "20 bars")
	w := opened(t, chromium(t), s, desktop)
	w.do(`document.querySelector("[data-bar='9']").focus()`)
	for i, chord := range []string{"| F | G7 | C | Am |", "| F | Gm | C | Am |"} {
		saved(t, s, strings.Replace(marked, "| F | G | C | Am |", chord, 1), "chorus")
		w.until(`document.querySelector("[data-bar='10'] .chord").textContent === "` + []string{"G7", "Gm"}[i] + `"`)
		w.holds(`document.activeElement.dataset.bar === "9"`)
	}
	w.holds(`document.querySelectorAll("#sheet .bar[tabindex='0']").length === 1`)
	if err := chromedp.Do(w.ctx, chromedp.EmulateViewport(int64(phone.width), int64(phone.height))); err != nil {
		t.Fatal(err)
	}
	w.until(`document.activeElement.parentNode.querySelectorAll(".bar").length === 2`)
	w.holds(`document.activeElement.dataset.bar === "9"`)
	w.holds(`document.querySelectorAll("#sheet .is-changed").length === 2`)
	saved(t, s, strings.Replace(marked, "Bb7sus4 Bb7", "Bb7", 1), "verse <s>")
	w.until(`document.querySelector("#form li:nth-child(2) .is-changed")`)
	w.holds(`document.activeElement.dataset.bar === "9"`)
}

// Where plinth is gone the page says so, with what to do, and keeps its bars.
func TestPageSaysThatPlinthIsGone(t *testing.T) {
	s := playing(t)
	saved(t, s, marked, "20 bars")
	l := phone
	l.noisy = true
	w := opened(t, chromium(t), s, l)
	w.holds(`document.querySelector(".trouble").hidden`)
	s.Close()
	w.until(`!document.querySelector(".trouble").hidden`)
	w.holds(`document.querySelector(".trouble").textContent.length > 20`)
	w.holds(`document.querySelector(".trouble").textContent.includes(document.querySelector("#said").textContent)`)
	w.holds(`document.querySelector("#said").textContent.length > 20`)
	w.holds(`document.querySelectorAll("#sheet .bar").length > 3`)
	t.Log(w.text(".trouble"))
}

// Every file that the page's script needs is named in the page, so that they are all asked for at once.
func TestPageNamesItsModules(t *testing.T) {
	text, err := fs.ReadFile(page.Files(), "page.html")
	if err != nil {
		t.Fatal(err)
	}
	files, err := fs.Glob(page.Files(), "*.js")
	if err != nil || len(files) < 10 {
		t.Fatal(files, err)
	}
	for _, name := range files {
		if name != "ticker.js" && !strings.Contains(string(text), `"/app/`+name+`"`) { // a worker has no preload
			t.Errorf("page.html does not name %s", name)
		}
	}
}
