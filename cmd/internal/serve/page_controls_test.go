package serve

import (
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
const chosen = `JSON.parse(localStorage.getItem("plinth.settings") ?? "{}")`

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
