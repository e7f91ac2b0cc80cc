package serve

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// axe is the text of axe-core, a checker of pages by WCAG: the file that PLINTH_AXE names.
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("PLINTH_AXE")
	if path == "" {
		t.Skip("PLINTH_AXE does not name axe.min.js of the npm package axe-core")
	}
	script, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(script)
}

// fault is a fault that axe finds.
type fault struct {
	Impact, ID string
	At         []string
}

// axe-core finds no serious fault: in light and dark, wide and narrow, with all settings open, with a wrong save,
// and with the sheet of keys.
func TestPageIsAccessible(t *testing.T) {
	script := axe(t)
	s := playing(t)
	browser := chromium(t)
	for name, l := range looks {
		saved(t, s, marked, "20 bars")
		w := opened(t, browser, s, l)
		w.do(script + "; undefined")
		check := func(with string) {
			t.Helper()
			text := eval[string](w, `axe.run(document, { resultTypes: ["violations"] }).then(found => JSON.stringify(
				found.violations.map(v => ({ Impact: v.impact, ID: v.id, At: v.nodes.map(n => n.html) }))))`)
			var faults []fault
			if err := json.Unmarshal([]byte(text), &faults); err != nil {
				t.Fatal(err)
			}
			for _, f := range faults {
				if f.Impact == "serious" || f.Impact == "critical" {
					t.Errorf("%s, %s: %s %s\n%s", name, with, f.Impact, f.ID, strings.Join(f.At, "\n"))
				}
			}
		}
		check("as it opens")
		w.do(`document.querySelector(".more").click()`)
		check("with the settings")
		w.do(`document.querySelector(".more").click()`)
		w.do(`document.querySelector(".keys").click()`)
		check("with the sheet of keys")
		w.do(`document.querySelector("#help .close").click()`)
		wrongSave(t, s, strings.Replace(marked, "Fm/C", "Fm/C | Hm", 1))
		w.until(`!document.querySelector("#wrong").hidden`)
		check("with a wrong save")
		saved(t, s, strings.Replace(marked, "| F | G | C | Am |", "| F | G7 | C | Am |", 1), "chorus: chords of bar 2")
		w.until(`document.querySelector("#sheet .is-changed")`)
		w.press(" ")
		w.until(here + ` >= 0`)
		check("while it plays, with what changed")
	}
}

// Of a song of ten thousand bars only what is near the screen is drawn; the last bar is a key away.
func TestPageOfTenThousandBars(t *testing.T) {
	browser := chromium(t)
	s := playing(t)
	var form strings.Builder
	for range 100 {
		form.WriteString("  play \"a\" { times = 25 }\n")
	}
	saved(t, s, "section \"a\" {\n  chords = \"| C | Am | F | G |\"\n}\nform {\n"+form.String()+"}\n", "10,000 bars")
	w := opened(t, browser, s, desktop)
	const drawn = `document.querySelectorAll("#sheet .bar").length`
	w.holds(drawn + ` < 60 && document.querySelectorAll("#form li").length === 100`)
	w.holds(`document.documentElement.scrollWidth <= innerWidth`)
	w.do(`document.querySelector("#form li:last-child button").click()`)
	w.until(here + ` === 9900`)
	w.press(" ")
	w.do(`document.querySelector("[data-bar='9900']").focus()`)
	for range 24 { // down to the last system
		w.press(kb.ArrowDown)
	}
	w.until(`document.activeElement.dataset.bar === "9996" && document.activeElement.textContent.includes("9997")`)
	w.until(drawn + ` < 120`)
	t.Logf("%d elements", eval[int](w, `document.querySelectorAll("*").length`))
}

// BenchmarkPage measures what the page costs with lanterns: its first paint, when the song is drawn, both in
// milliseconds from the first byte, and the share of a core that its thread takes at rest and while it plays.
func BenchmarkPage(b *testing.B) {
	s := playing(b)
	text, err := os.ReadFile("../../../examples/lanterns.song.hcl")
	if err != nil {
		b.Fatal(err)
	}
	saved(b, s, string(text), "lanterns")
	browser := chromium(b)
	for range b.N {
		w := opened(b, browser, s, desktop)
		w.until(`performance.getEntriesByName("first-contentful-paint").length`)
		const since = ` - performance.getEntriesByType("navigation")[0].responseStart`
		for unit, name := range map[string]string{"ms/paint": "first-contentful-paint", "ms/drawn": "drawn"} {
			b.ReportMetric(eval[float64](w, `performance.getEntriesByName("`+name+`")[0].startTime`+since), unit)
		}
		w.until(`document.querySelector("#coming").hidden`)
		b.ReportMetric(share(w, 5), "%/idle")
		w.press(" ")
		w.until(here + ` >= 0`)
		b.ReportMetric(share(w, 20), "%/playing")
	}
}

// share is how much of a core, in per cent, the page's thread takes over some seconds.
func share(w *tab, seconds int) float64 {
	w.t.Helper()
	read := func() (busy, at float64) {
		if _, err := chromedp.Call(w.ctx, performance.Enable, performance.EnableParams{}); err != nil {
			w.t.Fatal(err)
		}
		got, err := chromedp.Call(w.ctx, performance.GetMetrics, cdp.Empty{})
		if err != nil {
			w.t.Fatal(err)
		}
		for _, m := range got.Metrics {
			switch m.Name {
			case "TaskDuration":
				busy = m.Value
			case "Timestamp":
				at = m.Value
			}
		}
		return busy, at
	}
	busy, at := read()
	eval[chromedp.Void](w, fmt.Sprintf("new Promise(go => setTimeout(go, %d))", 1000*seconds))
	nowBusy, now := read()
	return 100 * (nowBusy - busy) / (now - at)
}
