// Where things stand in the sheet: which bars make a system, how wide and high it is, where a moment lies in it.

import { rowsOf } from "./events.js";

// heights are of the parts of a system, from the top, in CSS pixels.
export const heights = { event: 19, chords: 32, picture: 150, slim: 26, lane: 11, foot: 10 };
export const lanes = ["cymbals", "snare and toms", "kick"];

// measure says how many bars a system has in a width and how wide they are.
export function measure(width) {
  const bars = width < 280 ? 1 : width < 660 ? 2 : width < 1750 ? 4 : 8;
  const gutter = width < 660 ? 26 : 38;
  return { bars, gutter, bar: Math.floor((width - gutter - 2) / bars), width, font: "italic 14px " + serif };
}

const serif = '"Iowan Old Style", "Palatino Linotype", Palatino, P052, "Liberation Serif", Georgia, serif';

// systemsOf parts a chunk's bars, from first on, into systems.
export function systemsOf(bed, first, count, size) {
  const out = [];
  const slim = bed.chunks[bed.bars[first].chunk].pass < 0 && isBare(bed, first, count);
  for (let from = first; from < first + count; from += size.bars) {
    const to = Math.min(from + size.bars, first + count);
    const system = { bed, size, from, to };
    system.x = at => placeIn(system, at);
    const events = [];
    for (let bar = from; bar < to; bar++) events.push(...bed.bars[bar].events);
    const rows = events.length ? rowsOf(events, system.x, size.gutter + size.bar * (to - from), size.font)
      : { list: [], rows: 0 };
    system.events = rows.list;
    system.top = rows.rows * heights.event + 4;
    system.slim = slim;
    system.field = system.top + (slim ? 0 : heights.chords);
    system.bottom = system.field + (slim ? heights.slim : heights.picture);
    system.height = system.bottom + (slim ? 0 : heights.lane * lanes.length) + heights.foot;
    out.push(system);
  }
  return out;
}

// isBare says that in some bars nothing is heard but the click and a starting pitch: they need no picture.
function isBare(bed, first, count) {
  for (let bar = first; bar < first + count; bar++) {
    if (bed.notes(bar).some(note => !["click", "pitch"].includes(bed.parts[note.part].who))) return false;
  }
  return true;
}

// placeIn is where a moment lies in a system, in pixels from its left: evenly inside each bar, which are all as
// wide as each other.
function placeIn({ bed, from, to, size }, at) {
  let bar = from;
  while (bar + 1 < to && at >= bed.bars[bar + 1].at) bar++;
  const { at: start, length } = bed.bars[bar];
  const inside = Math.min(Math.max((at - start) / length, 0), 1);
  return size.gutter + size.bar * (bar - from + inside);
}

// compass is the range of pitch that all systems of a bed show: what voice, piano and bass use, and three octaves
// at least. Under the lowest note is room for the number of the bar.
export const under = 7; // semitones
const compasses = new WeakMap();
export function compass(bed) {
  let found = compasses.get(bed);
  if (found) return found;
  const pitched = pitchedParts(bed);
  let low = 43, high = 77;
  for (const note of allNotes(bed)) {
    if (!pitched[note.part]) continue;
    if (note.key < low) low = note.key;
    if (note.key > high) high = note.key;
  }
  found = { low: low - under, high: high + 6 };
  compasses.set(bed, found);
  return found;
}

// pitchedParts are the parts that the picture shows by pitch, by index.
function pitchedParts(bed) {
  return bed.parts.map(part => !part.drums && ["piano", "bass", "guide"].includes(part.who));
}

// allNotes are the notes of a bed, those of passes that are alike once.
export function* allNotes(bed) {
  for (const data of new Set(bed.chunks.map(chunk => chunk.data))) for (const bar of data.notes) yield* bar;
}
