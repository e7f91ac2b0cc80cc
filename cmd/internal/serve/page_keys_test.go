package serve

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// What the keys do, all that the sheet of keys lists.
func TestPageKeys(t *testing.T) {
	s := playing(t)
	saved(t, s, plain, "24 bars")
	w := opened(t, chromium(t), s, desktop)
	listed := eval[[]string](w, `
		[...document.querySelectorAll("#help section:first-child dt")].map(k => k.textContent)`)
	done := map[string]bool{}
	key := func(name, keys, expression string) {
		t.Helper()
		done[name] = true
		w.press(keys)
		w.until(expression)
	}
	focus := func(bar int) string { return fmt.Sprintf(`document.activeElement.dataset.bar === "%d"`, bar) }
	key("→", kb.ArrowRight, focus(1))
	key("→", kb.ArrowRight, focus(2))
	key("←", kb.ArrowLeft, focus(1))
	key("", kb.ArrowDown, focus(5))
	key("", kb.ArrowUp, focus(1))
	key("n", "n", focus(8))
	key("n", "n", focus(12))
	key("p", "p", focus(8))
	key("m", "m", `document.querySelector("#said").textContent === "a stretch begins with bar 9"`)
	w.press(kb.ArrowRight)
	key("m", "m", looped+` === "9 10"`)
	key("Esc", kb.Escape, looped+` === ""`)
	key("", kb.Enter, here+` === 9`)
	key("l", "l", looped+` === "9 10 11 12"`)
	key("l", "l", looped+` === ""`)
	w.press("n") // the bar that was chosen keeps the focus, and this pass is the one that plays
	w.until(here + ` === 12`)
	key("l", "l", looped+` === "13 14 15 16 17 18 19 20"`)
	key("l", "l", looped+` === ""`)
	key("", " ", here+` === -1`) // on a bar
	w.do(`document.activeElement.blur()`)
	key("Space", " ", here+` >= 0`)
	key("t", "t", here+` === 0`)
	w.until(here + ` === 1`)
	key("→", kb.ArrowRight, here+` >= 2`)
	key("Space", " ", here+` === -1`)
	key("−", "-", chosen+`.pace === 0.95`)
	key("+", "+", chosen+`.pace === 1`)
	w.press("+")
	key("0", "0", chosen+`.pace === 1`)
	for i, who := range []string{"drums", "bass", "piano", "guide"} {
		number := fmt.Sprint(i + 1)
		key(number, number, chosen+`.heard.`+who+` === false`)
		key(number, number, chosen+`.heard.`+who+` === true`)
	}
	key("5", "5", chosen+`.heard.click === true`)
	key("5", "5", chosen+`.heard.click === false`)
	key("i", "i", chosen+`.countIn === true`)
	w.do(`window.dispatchEvent(new WheelEvent("wheel"))`)
	key("f", "f", `document.querySelector(".back").hidden`)
	key("w", "w", `document.querySelector("#said").textContent === "Nothing is wrong."`)
	key("c", "c", `document.querySelector("#said").textContent === "The last save changed nothing that is heard."`)
	done["s"] = true // TestPageShowsWhatChanged
	key("?", "?", `document.querySelector("#help").open`)
	w.press("t") // behind the sheet nothing plays
	w.holds(here + ` === -1`)
	w.press(kb.Escape)
	w.until(`!document.querySelector("#help").open`)
	for _, name := range listed {
		if !done[name] {
			t.Errorf("the key %s is listed, and not tried", name)
		}
	}
	// A field has its own keys, and all single keys can be switched off.
	w.do(`document.querySelector(".click select").focus()`)
	w.press("t")
	w.do(`document.activeElement.blur()`)
	w.press("?")
	w.click("#help label")
	w.press(kb.Escape)
	w.press("t")
	w.press("5")
	w.until(`!document.querySelector("#help").open`)
	w.holds(here + ` === -1 && ` + chosen + `.heard.click === false`)
}

// By the keyboard alone everything is reached, in the order of the page, and seen to be reached.
func TestPageByTab(t *testing.T) {
	s := playing(t)
	saved(t, s, plain, "24 bars")
	for name, l := range map[string]look{"wide": desktop, "narrow": phone} {
		w := opened(t, chromium(t), s, l)
		w.do(`document.querySelector(".more").click()`)
		w.until(`document.querySelector("#coming").hidden`)
		var got []string
		for range 80 {
			w.press(kb.Tab)
			at := eval[string](w, `(() => {
				const at = document.activeElement;
				if (at === document.body) return "";
				const shown = at.closest(".pill") ? at.nextElementSibling : at;
				const style = getComputedStyle(shown);
				const seen = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
				if (!seen) return "unseen: " + at.outerHTML;
				return (at.labels?.[0] ?? at).textContent.trim() || at.ariaLabel;
			})()`)
			if at == "" {
				break
			}
			got = append(got, at)
		}
		all := strings.Join(got, "\n")
		for _, want := range []string{"To the bars", "verse (1), energy 2, 8 bars", "bar 1, C", "Play", "From the top",
			"Keys", "off", "−", "+", "count-in", "drums", "alone", "click", "loudness", "own sound"} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: Tab does not reach %q:\n%s", name, want, all)
			}
		}
		if strings.Contains(all, "unseen") || strings.Count(all, "bar ") > 1+strings.Count(all, "bars ") {
			t.Errorf("%s: Tab goes to\n%s", name, all)
		}
	}
}

// Who wants less motion has a line that stands still between beats.
func TestPageMovesLittle(t *testing.T) {
	s := playing(t)
	saved(t, s, plain, "24 bars")
	w := opened(t, chromium(t), s, desktop.with("prefers-reduced-motion", "reduce"))
	w.press(" ")
	w.until(here + ` === 2`)
	w.holds(`document.getAnimations().length === 0`)
	// It is seen on the four beats of a bar and nowhere else.
	places := eval[[]float64](w, `(async () => {
		const line = document.querySelector("#sheet > .line"), seen = new Set();
		for (let i = 0; i < 400 && `+here+` < 7; i++) {
			const bar = document.querySelector("[data-bar='4']").getBoundingClientRect();
			const at = line.getBoundingClientRect();
			if (`+here+` >= 4 && at.top > bar.top) seen.add(Math.round(8 * (at.left + 1 - bar.left) / bar.width));
			await new Promise(go => setTimeout(go, 10));
		}
		return [...seen];
	})()`)
	for _, at := range places {
		if int(at)%2 != 0 {
			t.Errorf("the line is seen off the beat, %v eighths of a bar in", at)
		}
	}
	if len(places) < 4 {
		t.Errorf("the line is seen at %v", places)
	}
	w.press(" ")
	w = opened(t, chromium(t), s, desktop)
	w.press(" ")
	w.until(`document.getAnimations().length === 2`)
}
