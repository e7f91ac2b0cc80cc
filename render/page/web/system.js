// A system: some bars side by side, each a button with its chords, events over them and the picture under them. It
// is an empty box of the right height until it comes near the screen.

import { el } from "./dom.js";
import { chordNodes, spokenChord } from "./chords.js";
import { eventNode, spokenEvent } from "./events.js";
import { heights } from "./layout.js";
import { pictureNode } from "./picture.js";

// emptySystem is the box of a system.
export function emptySystem(system) {
  const node = el("div", { class: "system" });
  node.style.height = system.height + "px";
  return node;
}

// fillSystem puts bars, events and picture into the box.
export function fillSystem(node, system, room) {
  const events = el("div", { class: "events", "aria-hidden": "true" },
    system.events.map(event => eventNode(event, heights.event)));
  const bars = [];
  for (let bar = system.from; bar < system.to; bar++) bars.push(barNode(system, bar));
  node.replaceChildren(events, ...bars, pictureNode(system, room));
}

// paintRoom draws the picture again, when the room has come.
export function paintRoom(node, system, room) {
  node.querySelector(".picture")?.replaceWith(pictureNode(system, room));
}

// barNode is a bar: a button over the whole height of the system.
function barNode({ bed, size, from, x, top, bottom }, index) {
  const bar = bed.bars[index];
  const left = size.gutter + size.bar * (index - from);
  const node = el("button", { type: "button", class: "bar", tabindex: "-1", "data-bar": index },
    el("span", { class: "unseen" }, spokenBar(bed, index)));
  node.style.left = left + "px";
  node.style.width = size.bar + "px";
  if (bed.chunks[bar.chunk].pass >= 0) {
    node.append(el("span", { class: "number", "aria-hidden": "true" }, String(bar.number)));
    node.lastChild.style.top = bottom - 15 + "px";
  }
  const newMeter = changedMeter(bed, index);
  const row = el("span", { class: crowded(bar, size) ? "chords crowded" : "chords", "aria-hidden": "true" });
  row.style.top = top + "px";
  let free = 0;
  if (newMeter) {
    row.append(el("span", { class: "meter" }, newMeter));
    free = 34;
  }
  for (const chord of bar.chords) {
    const one = el("span", { class: "chord" }, chordNodes(chord.text));
    const at = Math.max(x(chord.at) - left + 4, free);
    one.style.left = at + "px";
    free = at + 8 + chord.text.length * (crowded(bar, size) ? 7.5 : 10);
    row.append(one);
  }
  node.append(row);
  return node;
}

// crowded says that the chords of a bar want a smaller type.
function crowded(bar, size) {
  const letters = bar.chords.reduce((sum, chord) => sum + chord.text.length + 1, 0);
  return letters * 11 > size.bar || bar.chords.length > 2 && size.bar < 260;
}

// changedMeter is a bar's meter where it is another than that of the bar before; "" elsewhere, and in the first
// bar of a pass, whose heading says it.
function changedMeter(bed, index) {
  const bar = bed.bars[index], before = bed.bars[index - 1];
  if (before && before.chunk === bar.chunk) return before.meter === bar.meter ? "" : bar.meter;
  return bar.meter === (bed.chunks[bar.chunk].meter || bar.meter) ? "" : bar.meter;
}

// spokenBar is a bar's name for those who hear the page: "bar 5, F minor over C, push on 4 and".
function spokenBar(bed, index) {
  const bar = bed.bars[index];
  const out = [barName(bed, index)];
  const meter = changedMeter(bed, index);
  if (meter) out.push(meter.replace("/", " ") + " time");
  if (bar.chords.length) out.push(bar.chords.map(chord => spokenChord(chord.text)).join(", "));
  out.push(...bar.events.map(spokenEvent));
  return out.join(", ");
}

// barName is the bar's number in words; those in front of bar 1 are the count-in.
export function barName(bed, index) {
  return bed.chunks[bed.bars[index].chunk].pass < 0 ? "a bar before bar 1" : "bar " + bed.bars[index].number;
}
