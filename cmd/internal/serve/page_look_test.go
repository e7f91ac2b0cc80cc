package serve

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/hashicorp/hcl/v2"

	"plinth/groove/songfiletest"
	"plinth/render/page"
)

// marked is a song whose texts look like markup.
const marked = `title = "Nell & <b>Tom</b> <img src=x onerror=alert(1)>"
by = "<i>Weir</i>"
tempo = 120
count_in = 1
section "verse <s>" {
  energy = [2, 4]
  chords = "| Fm/C | Bb7sus4 Bb7 | Ebmaj7 | N.C. | (2/4) C#m7b5 | Am | F | G |"
  push "1: 4&" {}
  cue "3: 2" { text = "<u>lights</u>" }
  space "7: 1" { beats = 2 }
  stop "8: 3" {}
}
section "chorus" {
  energy = 5
  tacet = ["bass"]
  chords = "| F | G | C | Am |"
  accent "2 4" { by = ["drums"] }
  rit "3-4" { to = 96 }
}
form {
  play "verse <s>" {}
  play "chorus" {}
  play "verse <s>" { lift = 1 }
  play "chorus" {}
}
`

// look is how a page is looked at.
type look struct {
	width, height int
	noisy         bool   // the console may have messages
	before        string // a script that runs before the page's
	features      []*emulation.MediaFeature
}

var (
	desktop = look{width: 1400, height: 900}
	phone   = look{width: 420, height: 860}
	looks   = map[string]look{
		"wide": desktop, "narrow": phone, "wide, dark": desktop.with("prefers-color-scheme", "dark"),
		"narrow, dark": phone.with("prefers-color-scheme", "dark"),
	}
)

func (l look) with(feature, value string) look {
	l.features = append(slices.Clone(l.features), &emulation.MediaFeature{Name: feature, Value: value})
	return l
}

// opened opens the page of a server in a tab, and waits until its bars are there. A message in the console that is
// no mere information fails the test.
func opened(t testing.TB, browser context.Context, s *Server, l look) *tab {
	t.Helper()
	ctx, stop := chromedp.NewContext(browser)
	t.Cleanup(stop)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(int64(l.width), int64(l.height))); err != nil {
		t.Fatal(err)
	}
	features := emulation.SetEmulatedMediaParams{Features: l.features}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, features); err != nil {
		t.Fatal(err)
	}
	before := cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: l.before}
	if _, err := chromedp.Call(ctx, cdppage.AddScriptToEvaluateOnNewDocument, before); err != nil {
		t.Fatal(err)
	}
	said := chromedp.Console(ctx)
	done := make(chan []string)
	go func() {
		var out []string
		for m, err := range said {
			if err != nil {
				break
			}
			if m.IsException() || m.Type == "error" || m.Type == "warning" {
				out = append(out, m.String())
			}
		}
		done <- out
	}()
	t.Cleanup(func() {
		stop()
		for _, m := range <-done {
			if l.noisy {
				break
			}
			t.Errorf("in the console: %s", m)
		}
	})
	if err := chromedp.Do(ctx, chromedp.Navigate(s.Address())); err != nil {
		t.Fatal(err)
	}
	w := &tab{t, ctx}
	w.until(`document.querySelector("#sheet .bar .number")`)
	return w
}

// until waits, without hurry, until an expression is true.
func (w *tab) until(expression string) {
	w.t.Helper()
	if !eval[bool](w, `(async () => {
		for (let i = 0; i < 600; i++) {
			if (`+expression+`) return true;
			await new Promise(go => setTimeout(go, 50));
		}
		return false;
	})()`) {
		w.t.Fatalf("never true: %s\nthe page says: %s", expression, w.text("body > header .news"))
	}
}

// holds reports a mistake unless an expression is true.
func (w *tab) holds(expression string) {
	w.t.Helper()
	if !eval[bool](w, "Boolean("+expression+")") {
		w.t.Errorf("not true: %s", expression)
	}
}

// text is the text of the first element that a selector finds.
func (w *tab) text(selector string) string {
	w.t.Helper()
	return eval[string](w, fmt.Sprintf("document.querySelector(%q)?.textContent ?? \"\"", selector))
}

// click clicks into the middle of an element, as a mouse does.
func (w *tab) click(selector string) {
	w.t.Helper()
	if err := chromedp.Do(w.ctx, chromedp.Click(chromedp.CSS(selector))); err != nil {
		w.t.Fatal(selector, err)
	}
}

// press presses a key.
func (w *tab) press(keys string) {
	w.t.Helper()
	if err := chromedp.Do(w.ctx, chromedp.KeyEvent(keys)); err != nil {
		w.t.Fatal(keys, err)
	}
}

// wrongSave tells a server of a song that does not read.
func wrongSave(t testing.TB, s *Server, text string) []page.Diag {
	t.Helper()
	_, _, err := songfiletest.ExampleText("page.song.hcl", text)
	diags, ok := err.(hcl.Diagnostics)
	if !ok {
		t.Fatalf("%v", err)
	}
	wrong, doubts := Diags(diags, map[string][]byte{"page.song.hcl": []byte(text)})
	s.Wrong("still playing the last good one", wrong, doubts)
	return wrong
}
