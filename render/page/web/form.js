// The form as a strip: a block a pass, as wide as it is long and as high as its energy.

import { el, setText } from "./dom.js";
import { energyWords, liftWords, passName, tacetWords } from "./head.js";

export class Form {
  // onGo is called with the index of a chunk that was chosen, onResize when the strip has another width.
  constructor(root, onGo, onResize) {
    this.root = root;
    this.list = root.querySelector("ol");
    this.line = root.querySelector(".line");
    this.list.addEventListener("click", event => {
      const block = event.target.closest("button");
      if (block) onGo(Number(block.dataset.chunk));
    });
    new ResizeObserver(() => {
      this.edges = null;
      onResize();
    }).observe(this.list);
  }

  show(bed) {
    this.bed = bed;
    const { chunks, end } = bed;
    const at = document.activeElement?.dataset?.chunk; // the keyboard stays where it is
    this.root.classList.toggle("many", chunks.length > 60);
    this.list.replaceChildren(...chunks.map((place, i) => {
      const item = el("li", {}, block(place, i, bed.bars.slice(place.bar, place.bar + place.bars)));
      item.style.flexGrow = Math.max((place.end - place.at) / end, 0.001);
      return item;
    }));
    this.edges = null;
    this.here = undefined;
    if (at !== undefined) this.list.children[Math.min(at, chunks.length - 1)]?.firstChild.focus();
  }

  // setChanged marks the passes that the last save changed, by their blocks and in the sheet.
  setChanged(changed) {
    for (const node of this.list.querySelectorAll("button")) {
      const is = changed.has(Number(node.dataset.chunk));
      node.classList.toggle("is-changed", is);
      setText(node.firstChild, node.title + (is ? ", changed by the last save" : ""));
    }
  }

  // setHere marks the pass that plays.
  setHere(chunk) {
    if (this.here === chunk) return;
    this.here = chunk;
    this.list.querySelectorAll("[aria-current]").forEach(node => node.removeAttribute("aria-current"));
    const item = this.list.children[chunk];
    item?.firstChild.setAttribute("aria-current", "true");
    if (item) this.root.scrollLeft = item.offsetLeft - this.root.clientWidth / 3; // where there are many passes
  }

  // setLoop marks the passes that lie in the stretch that loops.
  setLoop(loop) {
    this.list.querySelectorAll("button").forEach((node, i) => {
      const { bar, bars } = this.bed.chunks[i];
      node.classList.toggle("looped", Boolean(loop) && loop.from < bar + bars && loop.to >= bar);
    });
  }

  // placeOf is where a moment of a chunk lies in the strip, from its left edge.
  placeOf(chunk, at) {
    this.edges ||= [...this.list.children].map(node => [node.offsetLeft, node.offsetWidth]);
    const place = this.bed.chunks[chunk], edge = this.edges[chunk];
    if (!place || !edge) return null;
    return edge[0] + edge[1] * Math.min(Math.max((at - place.at) / (place.end - place.at), 0), 1);
  }
}

// block is one pass of the strip.
function block(place, index, bars) {
  const front = place.pass < 0;
  const marks = front ? [] : [liftWords(place.lift), tacetWords(place.tacet)].filter(Boolean);
  const label = [passName(place), front ? "" : energyWords(place.energy), ...marks,
    front ? "" : place.bars === 1 ? "one bar" : `${place.bars} bars`].filter(Boolean).join(", ");
  const node = el("button", { type: "button", "data-chunk": index, title: label, class: front ? "front" : "" },
    el("span", { class: "unseen" }, label));
  const power = el("span", { class: "power" });
  if (!front) power.style.clipPath = outline(place, bars);
  const [, section, ordinal] = /^(.*?)(?: (\(\d+\)))?$/.exec(passName(place));
  const seen = el("span", { class: "seen", "aria-hidden": "true" }, power, el("span", { class: "name" }, section,
    ordinal && " ", ordinal && el("span", { class: "time" }, ordinal)));
  if (!front) seen.append(el("span", { class: "energy" }, [...new Set(place.energy)].join("–")));
  if (marks.length) {
    const lift = place.lift && (place.lift > 0 ? "↑" : "↓") + Math.abs(place.lift);
    seen.append(el("span", { class: "marks" }, [lift, place.tacet?.length && "tacet"].filter(Boolean).join(" ")));
  }
  seen.append(el("span", { class: "ear" }));
  node.append(seen);
  return node;
}

// outline is the shape of a pass's energy: a slope where it moves evenly, steps where bars have their own.
function outline({ energy: [from, to] }, bars) {
  const height = level => `${100 - 20 * level}%`;
  const points = [];
  const way = Math.sign(to - from);
  const even = bars.every((bar, i) => (bar.energy - (i ? bars[i - 1].energy : from)) * way >= 0 &&
    (way || bar.energy === from) && (to - bar.energy) * way >= 0);
  if (even) points.push(`0 ${height(from)}`, `100% ${height(to)}`);
  else {
    bars.forEach((bar, i) => points.push(`${100 * i / bars.length}% ${height(bar.energy)}`,
      `${100 * (i + 1) / bars.length}% ${height(bar.energy)}`));
  }
  return `polygon(0 100%, ${points.join(", ")}, 100% 100%)`;
}
