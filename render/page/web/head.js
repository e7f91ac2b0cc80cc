// The heading of a pass: its name, and what begins with it.

import { el } from "./dom.js";
import { signNode } from "./events.js";

// printed is a key or a pitch with the signs of print.
export const printed = key => key.replace(/^([A-G])b/, "$1♭").replace(/^([A-G])#/, "$1♯");

// energyWords says a pass's energy: "energy 2", "energy 2 to 3".
export function energyWords([from, to]) {
  return from === to ? `energy ${from}` : `energy ${from} to ${to}`;
}

// liftWords says by how much a pass lies higher or lower than the one before.
export function liftWords(semitones) {
  if (!semitones) return "";
  const size = Math.abs(semitones);
  const words = size === 1 ? "a half step" : size === 2 ? "a whole step" : `${size} half steps`;
  return `${words} ${semitones > 0 ? "up" : "down"}`;
}

export function tacetWords(tacet) {
  return tacet?.length ? `${tacet.join(" and ")} tacet` : "";
}

// passName is a pass's name; those in front of it have none.
export function passName(place) {
  return place.pass < 0 ? "before bar 1" : place.name || place.section;
}

// beginning are the facts of a pass that are other than those of the pass before it.
function beginning(bed, chunk) {
  const place = bed.chunks[chunk], before = bed.chunks.slice(0, chunk).findLast(other => other.pass >= 0);
  const out = [];
  for (const [name, words] of [["key", printed], ["tempo", tempoWords], ["meter", String], ["feel", String]]) {
    if (place[name] && place[name] !== before?.[name]) out.push(words(place[name], place));
  }
  return out;
}

// tempoWords is a tempo with the note that is counted: that of the meter's beat.
function tempoWords(tempo, place) {
  if (!/^[\d.]+$/.test(tempo)) return `tempo: ${tempo}`;
  const [count, unit] = place.meter.split(" ")[0].split("/").map(Number);
  const beat = unit === 2 ? "half" : unit === 8 && count % 3 === 0 && count > 3 ? "dotted quarter" : "quarter";
  return `${beat} = ${tempo}`;
}

// passHead is the heading, with the sign of what the last save changed.
export function passHead(bed, chunk) {
  const place = bed.chunks[chunk];
  const facts = [];
  if (place.pitch) facts.push(`starting pitch ${place.pitch.map(printed).join(", ")}`);
  if (place.pass >= 0) {
    facts.push(...beginning(bed, chunk), energyWords(place.energy));
    for (const words of [liftWords(place.lift), tacetWords(place.tacet)]) if (words) facts.push(words);
  }
  const head = el("header", { class: "head" },
    el("h2", { id: `head-${chunk}`, tabindex: "-1" },
      place.pass >= 0 && el("span", { class: "ordinal", "aria-hidden": "true" }, String(place.pass + 1)),
      el("span", { class: "name" }, passName(place)),
      el("span", { class: "changed" }, "changed")),
    el("p", { class: "facts" }, facts.map((fact, i) => [i > 0 && el("span", { class: "dot", "aria-hidden": "true" },
      " · "), el("span", {}, fact)]).flat().filter(Boolean)));
  if (place.vamp) head.append(el("p", { class: "vamp" }, signNode("cue"), " vamp " + place.vamp));
  return head;
}
