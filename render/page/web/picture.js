// The picture of a system: voice, piano and bass over time and pitch, the drums' strokes below, the room in it.
// The voice is a line, the bass is solid, the piano hollow: shape tells them apart, and colour says it again.

import { svg } from "./dom.js";
import { printed } from "./head.js";
import { allNotes, compass, heights, lanes, under } from "./layout.js";

const n = value => Math.round(value * 10) / 10;

// laneOf is the row of General MIDI's percussion instruments: the skins by key, all others are metal.
const kicks = new Set([35, 36]);
const skins = new Set([37, 38, 39, 40, 41, 43, 45, 47, 48, 50, 60, 61, 62, 63, 64, 65, 66]);
const laneOf = key => kicks.has(key) ? 2 : skins.has(key) ? 1 : 0;

// pictureNode draws a system. room is that of the bed, or null while it has not come.
export function pictureNode(system, room) {
  const { bed, size, from, to, x, top, height } = system;
  const width = size.gutter + size.bar * (to - from);
  const { low, high } = compass(bed);
  const unit = heights.picture / (high - low + 1);
  const y = key => system.field + (high - key) * unit;
  const field = { top: system.field, bottom: system.bottom };
  const out = svg("svg", { class: "picture", width: width + 2, height, viewBox: `0 0 ${width + 2} ${height}`,
    "aria-hidden": "true" });
  if (system.slim) {
    out.append(barLines(system, field, field.bottom));
    return out;
  }
  out.append(...roomBack(system, room, y, unit), ...pitchLines(size, width, low, high, y, unit),
    barLines(system, field, field.bottom + heights.lane * lanes.length));
  const notes = notesIn(system);
  bed.parts.forEach((part, i) => {
    const own = notes.filter(note => note.part === i);
    if (!own.length) return;
    if (part.drums) out.append(drumMarks(own, x, field.bottom));
    else if (part.who === "guide") out.append(...voiceLine(own, bed, i, x, y, unit));
    else if (part.who === "piano" || part.who === "bass") out.append(noteBars(own, part.who, system, y, unit));
  });
  out.append(...roomFront(system, room, field, y));
  if (bed.parts.some(part => part.drums)) out.append(laneSigns(size, field.bottom));
  return out;
}

// notesIn are the notes that sound in a system. Those that begin early belong to a later bar, and long ones to an
// earlier; a note that is only a hair early stands on the bar line that it means.
function notesIn({ bed, from, to }) {
  const start = bed.bars[from].at, end = bed.bars[to - 1].at + bed.bars[to - 1].length, hair = 60_000;
  const out = [];
  for (let bar = Math.max(0, from - 4); bar < Math.min(to + 1, bed.bars.length); bar++) {
    for (const note of bed.notes(bar)) {
      const own = bar >= from && bar < to;
      const at = own && note.at < start && note.at >= start - hair ? start : note.at;
      if (at >= end - (bar === to ? hair : 0) || at + note.length <= start + (own ? 0 : hair)) continue;
      if (at >= start || !bed.parts[note.part].drums) out.push({ ...note, at });
    }
  }
  return out.sort((a, b) => a.at - b.at);
}

// pitchLines are a dashed line at each C that is in use and a whole one at middle C, with names at the left.
function pitchLines(size, width, low, high, y, unit) {
  const out = [];
  for (let key = Math.ceil((low + under) / 12) * 12; key <= high; key += 12) {
    const at = n(y(key) + unit / 2);
    out.push(svg("path", { class: key === 60 ? "octave middle" : "octave", d: `M${size.gutter} ${at}H${width}` }));
    const name = svg("text", { class: "pitch", x: size.gutter - 6, y: at + 3.5 }, "C" + (key / 12 - 1));
    out.push(name);
  }
  return out;
}

// barLines are the lines of bars and, thinner, of beats; a pass ends with two, the song with a thick one.
function barLines({ bed, size, from, to, x }, field, bottom) {
  let beats = "", bars = `M${size.gutter} ${field.top}V${bottom}`;
  for (let bar = from; bar < to; bar++) {
    for (const beat of bed.bars[bar].beats.slice(1)) beats += `M${n(x(beat))} ${field.top}V${field.bottom}`;
    bars += `M${size.gutter + size.bar * (bar - from + 1)} ${field.top}V${bottom}`;
  }
  const right = size.gutter + size.bar * (to - from);
  const next = bed.bars[to];
  const out = svg("g", {}, svg("path", { class: "beats", d: beats || "M0 0" }),
    svg("path", { class: "bars", d: bars }));
  if (!next) out.append(svg("path", { class: "last", d: `M${right - 1} ${field.top}V${bottom}` }));
  if (!next || next.chunk !== bed.bars[from].chunk) {
    out.append(svg("path", { class: "bars", d: `M${right - 4.5} ${field.top}V${bottom}` }));
  }
  return out;
}

// noteBars are the notes of a player, each as long as it sounds, in one path.
function noteBars(notes, who, { bed, from, to, x }, y, unit) {
  const start = bed.bars[from].at, end = bed.bars[to - 1].at + bed.bars[to - 1].length;
  const thick = Math.max(unit * (who === "bass" ? 1.1 : 0.95), who === "bass" ? 3.4 : 2.4);
  let d = "";
  for (const note of notes) {
    const left = x(Math.max(note.at, start));
    const wide = Math.max(x(Math.min(note.at + note.length, end)) - left - 0.8, 2);
    d += `M${n(left)} ${n(y(note.key) + unit / 2 - thick / 2)}h${n(wide)}v${n(thick)}h${-n(wide)}z`;
  }
  return svg("path", { class: "notes " + who, d });
}

// voiceLine is a singer: level on each note, joined to the next where there is hardly a rest between them. Each
// of several has dashes of its own.
function voiceLine(notes, bed, part, x, y, unit) {
  const gap = 250_000;
  let d = "", last = -Infinity;
  for (const note of notes) {
    const at = n(y(note.key) + unit / 2);
    d += `${note.at - last > gap ? "M" : "L"}${n(x(note.at))} ${at}H${n(x(note.at + note.length))}`;
    last = note.at + note.length;
  }
  const which = bed.parts.slice(0, part).filter(other => other.who === "guide").length;
  return [svg("path", { class: "voice-edge", d }), svg("path", { class: `notes guide dashes-${which % 4}`, d })];
}

// drumMarks are the strokes: crosses for metal, lozenges for skins, dots for the kick, larger where they are louder.
function drumMarks(notes, x, top) {
  let crosses = "", solids = "";
  for (const note of notes) {
    const lane = laneOf(note.key);
    const cx = n(x(note.at)), cy = top + heights.lane * (lane + 0.5) + 1;
    const r = n(1.4 + 2.4 * note.velocity / 127);
    if (lane === 0) crosses += `M${cx - r} ${cy - r}l${2 * r} ${2 * r}m0 ${-2 * r}l${-2 * r} ${2 * r}`;
    else if (lane === 1) solids += `M${cx} ${cy - r - 1}l${r} ${r + 1}l${-r} ${r + 1}l${-r} ${-r - 1}z`;
    else solids += `M${n(cx - r)} ${cy}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
  }
  return svg("g", { class: "notes drums" }, svg("path", { class: "crosses", d: crosses || "M0 0" }),
    svg("path", { class: "solids", d: solids || "M0 0" }));
}

// laneSigns name the rows of the drums by their signs.
function laneSigns(size, top) {
  const x = size.gutter - 11;
  const at = lane => top + heights.lane * (lane + 0.5) + 1;
  return svg("g", { class: "drums legend" },
    svg("path", { class: "crosses", d: `M${x - 2.5} ${at(0) - 2.5}l5 5m0-5l-5 5` }),
    svg("path", { class: "solids", d: `M${x} ${at(1) - 3.5}l2.5 3.5-2.5 3.5-2.5-3.5z` +
      `M${x - 2.5} ${at(2)}a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0-5 0z` }));
}

// windowsIn are the windows of a system, cut to it, from the start of the file.
function windowsIn({ bed, from, to }, room) {
  const chunk = bed.bars[from].chunk, place = bed.state.chunks[chunk];
  const start = bed.bars[from].at, end = bed.bars[to - 1].at + bed.bars[to - 1].length;
  return (room?.chunks[chunk]?.windows || [])
    .map(w => ({ from: Math.max(w.from + place.at, start), to: Math.min(w.to + place.at, end) }))
    .filter(w => w.to - w.from > 100_000);
}

// roomBack are the windows, as wall openings are drawn on a plan, in the singer's register.
function roomBack(system, room, y, unit) {
  const voice = voiceRange(system.bed);
  const top = n(y(voice.high)), bottom = n(y(voice.low) + unit);
  return windowsIn(system, room).map(w => {
    const left = n(system.x(w.from) + 1.5), right = n(system.x(w.to) - 1.5);
    return svg("g", { class: "window" },
      svg("path", { class: "opening", d: `M${left} ${top}H${right}V${bottom}H${left}z` }),
      svg("path", { class: "jambs", d: `M${left} ${top - 2}V${bottom + 2}M${right} ${top - 2}V${bottom + 2}` }));
  });
}

// voiceRange is where the windows stand: where the singers sing, or from C4 to C5 when nobody is known.
const ranges = new WeakMap();
function voiceRange(bed) {
  let found = ranges.get(bed);
  if (found) return found;
  const keys = [];
  for (const note of allNotes(bed)) if (bed.parts[note.part].who === "guide") keys.push(note.key);
  keys.sort((a, b) => a - b);
  found = keys.length ? { low: keys[Math.floor(keys.length * 0.05)], high: keys[Math.floor(keys.length * 0.95)] }
    : { low: 60, high: 72 };
  ranges.set(bed, found);
  return found;
}

// roomFront are the free ranges of a pass, over its first bar: a line with an arrow at each end, and its pitches.
function roomFront({ bed, size, from }, room, field, y) {
  const chunk = bed.bars[from].chunk;
  if (!room || from > 0 && bed.bars[from - 1].chunk === chunk) return [];
  const { low, high } = compass(bed);
  const shown = f => f.low > low && f.low <= high - 4 && f.high - f.low >= 7;
  return (room.chunks[chunk]?.free || []).filter(shown).map(f => {
    const open = f.high > high;
    const top = n(open ? field.top + 2 : y(f.high) + 1), bottom = n(y(f.low) - 1), x = size.gutter + 12;
    const [from, to] = f.names.map(printed);
    const name = open ? `${from} up` : `${from} to ${to}`;
    return svg("g", { class: "free" },
      svg("path", { d: `M${x} ${top + 3}V${bottom - 3}` }),
      svg("path", { class: "tip", d: `M${x} ${top}l-3.5 7h7zM${x} ${bottom}l-3.5-7h7z` }),
      svg("text", { x: x + 8, y: n(open ? top + 10 : (top + bottom) / 2 + 4) }, "free " + name));
  });
}
