// A wrong save: each mistake with its source line, the place underlined, as the terminal shows it. Doubts are folded
// away under their number.

import { el } from "./dom.js";

export class Wrong {
  constructor(root) {
    this.root = root;
  }

  // show says what is wrong with the last save, or nothing. playing is whether there is a bed that plays on.
  show({ wrong = [], doubts = [] }, playing) {
    const key = JSON.stringify([wrong, doubts, playing]);
    if (key === this.key) return;
    this.key = key;
    const out = [];
    if (wrong.length) {
      const many = wrong.length === 1 ? "A mistake" : `${wrong.length} mistakes`;
      out.push(el("div", { class: "mistakes" },
        el("h2", { id: "wrong-head", tabindex: "-1" }, `${many} in the last save`),
        el("p", { class: "still" }, playing ? "What plays is the last good bed." : "There is nothing to play yet."),
        wrong.map(diagnostic)));
    }
    if (doubts.length) {
      const head = doubts.length === 1 ? "One doubt" : `${doubts.length} doubts`;
      out.push(el("details", { class: "doubts", open: this.root.querySelector("details")?.open },
        el("summary", {}, el("h2", { id: out.length ? "doubts-head" : "wrong-head" }, head)), doubts.map(diagnostic)));
    }
    this.root.hidden = out.length === 0;
    this.root.replaceChildren(...out);
    for (const mark of this.root.querySelectorAll("mark")) { // into view, where a line is longer than the page is wide
      const pre = mark.closest("pre");
      pre.scrollLeft = Math.max(0, mark.offsetLeft + mark.offsetWidth + 24 - pre.offsetLeft - pre.clientWidth);
    }
  }
}

// summaryOf is a wrong save in a line: "Mistake in line 31: Not a chord: "Xsus5". And 1 more."
export function summaryOf(state) {
  const [first, ...others] = state.wrong ?? [];
  if (!first) return state.says || "The last save is wrong.";
  const more = others.length ? ` And ${others.length} more.` : "";
  return `Mistake${first.line ? ` in line ${first.line}` : ""}: ${first.summary}.${more}`;
}

function diagnostic({ summary, detail, file, line, column, lines = [] }) {
  const place = file ? `${file}:${line}:${column}` : "";
  return el("article", { class: "diagnostic" },
    el("h3", {}, place && el("span", { class: "place" }, place), " ", summary),
    lines.length > 0 && el("pre", { tabindex: "0", "aria-label": `line ${line}` }, lines.map(source)),
    detail && el("p", { class: "detail" }, detail));
}

// source is a line of the song file, with the place underlined. A tab is as wide as the terminal makes it.
function source({ n, text, from, to }) {
  const marked = Number.isInteger(from) && Number.isInteger(to);
  const row = el("span", { class: marked ? "source marked" : "source" }, el("span", { class: "n" }, String(n)));
  const code = el("code");
  if (!marked) {
    code.append(text || " ");
  } else if (from >= text.length) {
    code.append(text, el("mark", {}, " ".repeat(Math.max(to - from, 1))));
  } else {
    const end = Math.max(to, from + 1);
    code.append(text.slice(0, from), el("mark", {}, text.slice(from, end)), text.slice(end));
  }
  row.append(code, "\n");
  return row;
}
