package serve

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
)

// plain is a song of which every bar is another.
const plain = `title = "Weir"
tempo = 240
section "verse" {
  energy = 2
  chords = "| C | Am | F | G | Em | Dm | Bb | A |"
}
section "chorus" {
  energy = 4
  chords = "| F | G | C | Am |"
}
form {
  play "verse" {}
  play "chorus" {}
  play "verse" {}
  play "chorus" {}
}
`

// chosen is what the engine keeps of its settings.
const chosen = `JSON.parse(localStorage.getItem("plinth") ?? "{}")`

// here is the bar that is marked as the one that plays, -1 for none.
const here = `Number(document.querySelector("#sheet .bar.here")?.dataset.bar ?? -1)`

// looped are the numbers of the bars that loop.
const looped = `[...document.querySelectorAll("#sheet .bar.looped .number")].map(n => n.textContent).join(" ")`

// What the mouse does: every control does what it says.
func TestPageControls(t *testing.T) {
	s := playing(t)
	saved(t, s, plain, "24 bars")
	w := opened(t, chromium(t), s, desktop)
	stops := func() {
		t.Helper()
		w.click(".play")
		w.until(here + ` === -1 && document.querySelector(".play").textContent === "Play"`)
	}
	w.click(".play")
	w.until(here + ` >= 0 && document.querySelector(".play").textContent === "Stop"`)
	w.until(`!document.querySelector("#sheet > .line").hidden && !document.querySelector("#form .line").hidden`)
	stops()
	w.click("[data-bar='5']")
	w.until(here + ` === 5`)
	w.until(here + ` === 6`)
	w.click(".top")
	w.until(here + ` === 0`)
	w.click("#form li:nth-child(2) button")
	w.until(`document.querySelector(".pass-name").textContent === "chorus (1)"`)
	w.holds(`document.querySelector("#form [aria-current]").textContent.includes("chorus (1)")`)
	w.click(".loop label:has([value=pass])")
	w.until(looped + ` === "9 10 11 12"`)
	w.until(here + ` === 11`)
	w.until(here + ` === 8`) // round again
	w.click(".loop label:has([value=off])")
	w.until(looped + ` === ""`)
	stops()
	w.holds(`document.querySelector(".loop [value=marked]").disabled`)
	w.click("[data-bar='2']")
	w.do(`document.querySelector("[data-bar='4']")
		.dispatchEvent(new MouseEvent("click", { bubbles: true, shiftKey: true }))`)
	w.until(looped + ` === "3 4 5"`)
	w.holds(`document.querySelector(".loop label:has([value=marked])").textContent === "bars 3 to 5"`)
	w.until(here + ` === 4`)
	w.until(here + ` === 2`)
	w.click(".loop label:has([value=off])")
	w.click(".loop label:has([value=marked])")
	w.until(looped + ` === "3 4 5"`)
	w.click(".loop label:has([value=off])")
	stops()
	for range 3 {
		w.click(".slower")
	}
	w.until(chosen + `.pace === 0.85 && document.querySelector(".figure").textContent === "85 %"`)
	w.click(".faster")
	w.until(chosen + `.pace === 0.9`)
	w.click(".reset")
	w.until(chosen + `.pace === 1 && document.querySelector(".reset").disabled`)
	w.click(".pace label")
	w.until(chosen + `.countIn === true`)
	for _, who := range []string{"drums", "bass", "piano"} {
		w.click("." + who + " label")
		w.until(chosen + `.heard.` + who + ` === false && document.querySelector("#sheet").matches(".no-` + who + `")`)
		w.click("." + who + " label")
		w.until(chosen + `.heard.` + who + ` === true`)
	}
	w.click(".drums label")
	w.click(".bass .alone")
	w.until(`JSON.stringify(["drums", "bass", "piano"].map(who => ` + chosen + `.heard[who])) === "[false,true,false]"`)
	w.holds(`document.querySelector(".bass .alone").ariaPressed === "true"`)
	w.click(".bass .alone")
	w.until(`JSON.stringify(["drums", "bass", "piano"].map(who => ` + chosen + `.heard[who])) === "[false,true,true]"`)
	for value, want := range map[string]string{"through": "true", "off": "false", "count-in": `"count-in"`} {
		w.do(`(() => {
			const select = document.querySelector(".click select");
			select.value = "` + value + `";
			select.dispatchEvent(new Event("change"));
		})()`)
		w.until(chosen + `.heard.click === ` + want)
	}
	w.do(`document.querySelector(".loudness input").focus()`)
	w.press(kb.Home + kb.ArrowRight)
	w.until(chosen + `.loudness === 0.01`)
	w.click(".sound label:has([value=midi])")
	w.until(`document.querySelector(".trouble").textContent.includes("MIDI") ||
		document.querySelector(".midi-news").textContent.includes("instrument")`)
	w.click(".sound label:has([value=sound])")
	w.until(chosen + `.outlet === "sound"`)
	w.click(".keys")
	w.until(`document.querySelector("#help").open`)
	w.click("#help .close")
	w.until(`!document.querySelector("#help").open`)
	w.do(`window.dispatchEvent(new WheelEvent("wheel"))`)
	w.until(`!document.querySelector(".back").hidden`)
	w.click(".back")
	w.until(`document.querySelector(".back").hidden`)
}

// instruments stand in for two ports of this computer; what they get is in sent.
const instruments = `
	globalThis.sent = { 1: [], 2: [] };
	const ports = ["Piano", "Rack"].map((name, i) => ({
		id: String(i + 1), name, state: "connected", connection: "open", type: "output",
		send(data) { sent[this.id].push([...data]); },
	}));
	navigator.requestMIDIAccess = async () => ({ outputs: new Map(ports.map(p => [p.id, p])), onstatechange: null });
`

// Own instruments are chosen, with the port and the clock; the page says what is missing.
func TestPageControlsInstruments(t *testing.T) {
	s := playing(t)
	saved(t, s, plain, "24 bars")
	l := phone
	l.before = instruments
	w := opened(t, chromium(t), s, l)
	w.do(`document.querySelector(".more").click()`)
	w.holds(`document.querySelector(".midi").hidden`)
	w.click(".sound label:has([value=midi])")
	w.until(`!document.querySelector(".midi").hidden`)
	w.holds(`[...document.querySelectorAll(".port option")].map(o => o.textContent).join() === "choose one,Piano,Rack"`)
	w.do(`document.querySelector(".play").click()`)
	w.until(`!document.querySelector(".trouble").hidden`) // which port is not said
	choose := func(id string) {
		w.do(`(() => {
			const select = document.querySelector(".port select");
			select.value = "` + id + `";
			select.dispatchEvent(new Event("change"));
		})()`)
	}
	choose("2")
	w.until(`document.querySelector(".trouble").hidden && ` + chosen + `.port.name === "Rack"`)
	w.do(`document.querySelector(".play").click()`)
	w.until(`sent[2].some(m => m[0] >> 4 === 9) && !sent[1].length && !sent[2].some(m => m[0] === 0xf8)`)
	w.click(".midi label:has([type=checkbox])")
	w.until(`sent[2].some(m => m[0] === 0xf8)`)
	choose("1")
	w.until(chosen + `.port.name === "Piano"`)
	w.do(`document.querySelector(".play").click()`)
	w.click(".sound label:has([value=sound])")
	w.until(`document.querySelector(".midi").hidden && ` + chosen + `.outlet === "sound"`)
}

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
