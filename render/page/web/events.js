// What is asked of the band, in the signs and words that stand over the bars.

import { el, svg, textWidth } from "./dom.js";
import { spokenCount } from "./chords.js";

// signs are drawn in a field of 16 by 12, its middle at the event's place. The room's picture has the same ones.
const signs = {
  accent: { d: "M5 1l6 10h-6z M8 1l4 10h-8z", solid: true },
  push: { d: "M2 6l7-4v8z M9 6h6" },
  stop: { d: "M1 4h14v4h-14z", solid: true },
  fill: { d: "M2 11l3-10 M6 11l3-10 M10 11l3-10" },
  hold: { d: "M1 10a7 7 0 0 1 14 0 M7.2 8.6h1.6" },
  rit: { d: "M1 6h3 M6 6h3 M11 6h3" },
  accel: { d: "M1 6h3 M6 6h3 M11 6h3" },
  cue: { d: "M3 12v-11h10l-3 3 3 3h-10" },
  space: { d: "M2 2v8 M14 2v8 M2 3h12 M2 9h12" },
  caesura: { d: "M4 11l4-10 M9 11l4-10" },
};

// signNode is the sign of a kind of event; readers who cannot see it have the words.
export function signNode(kind) {
  const sign = signs[kind] || signs.cue;
  return svg("svg", { class: sign.solid ? "sign solid" : "sign", viewBox: "0 0 16 12", "aria-hidden": "true" },
    svg("path", { d: sign.d }));
}

// counted finds the count in an event's words: "push 4&".
const counted = /^(\w+) (\d+[&aetl]?)(?=$|[ ,])/;

// spokenEvent is an event as it is read out: "push on 4 and".
export function spokenEvent(event) {
  return event.text.replace(counted, (_, kind, count) => `${kind} on ${spokenCount(count)}`);
}

// labelOf is what stands in the sheet: without the count, since the sign stands there.
function labelOf(event) {
  return event.kind === "cue" ? `“${event.cue}”` : event.text.replace(counted, "$1");
}

// rowsOf lays the events of a system out in rows, so that no two are over each other. x(at) is where a moment
// lies, right is where the system ends. A label is said once where signs follow each other with the same one.
export function rowsOf(events, x, right, font) {
  const ends = [];
  const out = [];
  const said = {};
  for (const event of events) {
    const label = labelOf(event);
    const words = said[event.kind] === label && event.kind !== "cue" ? "" : label;
    said[event.kind] = label;
    const width = Math.min(20 + (words ? textWidth(words, font) + 10 : 0), right);
    const left = Math.max(0, Math.min(x(event.at) - 8, right - width));
    let row = ends.findIndex(end => end <= left);
    if (row < 0) row = ends.push(0) - 1;
    ends[row] = left + width;
    const reach = event.kind === "rit" || event.kind === "accel" ? Math.max(0, x(event.end) - left - width) : 0;
    if (reach > 0) ends[row] = left + width + reach;
    out.push({ event, words, left, row, reach, width });
  }
  return { list: out, rows: ends.length };
}

// eventNode is an event in its place in a system.
export function eventNode({ event, words, left, row, reach, width }, height) {
  const node = el("span", { class: `event ${event.kind}${event.acts === false ? " dropped" : ""}` },
    signNode(event.kind), words && el("span", { title: words }, words));
  if (!reach) node.style.maxWidth = width + "px"; // a cue may be longer than the page is wide
  node.style.transform = `translate(${left}px, ${row * height}px)`;
  if (reach > 12) {
    const dashes = el("span", { class: "reach" });
    dashes.style.width = reach - 8 + "px";
    node.append(dashes);
  }
  return node;
}
