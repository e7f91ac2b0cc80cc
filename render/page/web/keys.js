// Single keys, the sheet that lists them, and what is to be seen in the bars.

import { el } from "./dom.js";
import { remember, remembered } from "./memory.js";

// list has the keys by their names in KeyboardEvent.key, how they are written, what they do, and the desk's method.
const list = [
  [[" "], "Space", "play or stop", "toggle"],
  [["t"], "t", "from the top", "fromTheTop"],
  [["ArrowLeft"], "←", "a bar back", "barBack"],
  [["ArrowRight"], "→", "a bar on", "barOn"],
  [["p"], "p", "a pass back", "passBack"],
  [["n"], "n", "a pass on", "passOn"],
  [["c"], "c", "to what the last save changed, and again to the next", "toChanged"],
  [["s"], "s", "play the saved now, not at the next bar line", "swapNow"],
  [["l"], "l", "loop this pass, or not", "loopPass"],
  [["m"], "m", "mark a stretch: once where it begins, once where it ends", "mark"],
  [["Escape"], "Esc", "forget the marked stretch", "unmark"],
  [["-"], "−", "slower", "slower"],
  [["+", "="], "+", "faster", "quicker"],
  [["0"], "0", "as fast as written", "asWritten"],
  [["1"], "1", "drums on or off", "drums"],
  [["2"], "2", "bass", "bass"],
  [["3"], "3", "piano", "piano"],
  [["4"], "4", "guide", "guide"],
  [["5"], "5", "click: off, in front, all through", "click"],
  [["i"], "i", "count-in or not", "countIn"],
  [["f"], "f", "back to the line, and follow it", "follow"],
  [["w"], "w", "to what is wrong", "toWrong"],
  [["?"], "?", "this sheet", "help"],
];

const inBars = [["Enter", "play from this bar"], ["Space", "play from it; while it plays, stop"],
  ["← →", "the bar beside"], ["↑ ↓", "the bar above or below"],
  ["Shift + Enter", "mark up to this bar; with the mouse, Shift and a click"]];

const seen = [
  ["the line", "what you hear now"],
  ["blue, hollow", "piano"], ["brown, solid", "bass"], ["the dark line", "voice: the guide vocal"],
  ["× ◆ ●", "cymbals; snare and toms; kick; larger is louder"],
  ["yellow opening", "a window: nobody sings"], ["arrows and two notes", "a range that voice and band leave free"],
  ["violet bar, a folded corner", "a pass that the last save changed"],
];

export class Keys {
  constructor(dialog, desk) {
    this.dialog = dialog;
    this.on = remembered("keys", true);
    this.does = new Map(list.flatMap(([keys, , , name]) => keys.map(key => [key, name])));
    this.#sheet();
    addEventListener("keydown", event => {
      const name = this.does.get(event.key);
      if (!name || !this.#ours(event)) return;
      event.preventDefault();
      desk[name]();
    });
  }

  // #ours says that a key is neither the browser's nor a field's, nor that of a button that has the focus.
  #ours(event) {
    if (event.defaultPrevented || event.ctrlKey || event.altKey || event.metaKey || event.isComposing) return false;
    if (!this.on && event.key !== "Escape" || this.dialog.open) return false;
    const { target } = event;
    if (event.shiftKey && !["?", "+", "="].includes(event.key)) return false;
    if (target.closest?.("select, textarea, [contenteditable]")) return false;
    const field = target.closest?.("input");
    const typed = field && field.type !== "checkbox" && field.type !== "radio";
    if (typed || field && (event.key === " " || event.key.startsWith("Arrow"))) return false;
    if (event.key === " " && target.closest?.("button, a, summary")) return false;
    return true;
  }

  #sheet() {
    const table = rows => el("dl", {}, rows.map(([key, does]) => el("div", {}, el("dt", {}, el("kbd", {}, key)),
      el("dd", {}, does))));
    const on = el("input", { type: "checkbox", onchange: () => {
      this.on = on.checked;
      remember("keys", this.on);
    } });
    on.checked = this.on;
    const close = el("button", { type: "button", class: "close", onclick: () => this.dialog.close() }, "Close");
    const columns = el("div", { class: "columns" },
      el("section", {}, el("h3", {}, "Anywhere"), table(list.map(([, key, does]) => [key, does]))),
      el("section", {}, el("h3", {}, "On a bar"), table(inBars), el("h3", {}, "In the bars"),
        el("dl", { class: "seen" }, seen.map(([sign, is]) => el("div", {}, el("dt", {}, sign), el("dd", {}, is))))));
    this.dialog.append(el("header", {}, el("h2", { id: "help-head" }, "Keys and signs"), close),
      el("label", { class: "pill" }, on, el("span", {}, "single keys are on")), columns);
  }

  help() {
    if (!this.dialog.open) this.dialog.showModal();
  }
}
