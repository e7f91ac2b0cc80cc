// Bars as they are played: each time that a bar comes it is an instance of its own, with its place on
// the clock and its events.
import { clickPart, clicksOf, countInto } from "./click.js";
import { pulses } from "./tempo.js";

/** The order of events of one moment: what ends, the clock, the sound, what begins. */
export const rank = { off: 0, pulse: 1, program: 2, on: 3 };

/** moment is the bed's time at a time of the clock, by a base {t, at, pace}. */
export function moment(base, t) {
  return base.at + (t - base.t) * base.pace;
}

/** Instance is a stretch of the bed's time on the clock. */
class Instance {
  constructor(bed, bar, turn) {
    Object.assign(this, { bed, bar, turn, next: 0, sent: [], count: null, jump: null });
  }

  /** rebase says where on the clock it is: the bed's time `at` is at `t`. */
  rebase(base) {
    this.base = base;
    this.start = this.clockOf(this.at);
    this.end = this.clockOf(this.at + this.length);
  }

  clockOf(at) {
    return Math.round(this.base.t + (at - this.base.at) / this.base.pace);
  }
}

/** Bar is a bar of the bed. */
export class Bar extends Instance {
  constructor(bed, bar, turn) {
    super(bed, bar, turn);
    const { at, length } = bed.bars[bar];
    this.at = at;
    this.length = length;
    this.events = events(bed, bar);
  }

  /** clicks reports whether the click of this bar is heard. */
  clicks(mode) {
    return mode === true || (mode === "count-in" && this.bar < this.bed.lead);
  }
}

/** Count is a bar of click in front of a bar. */
export class Count extends Instance {
  constructor(bed, bar) {
    super(bed, bar, 0);
    const { length, clicks } = countInto(bed, bar);
    this.length = length;
    this.at = bed.bars[bar].at - length;
    this.events = clicks.map((note) => ({ kind: "on", at: note.at, note, part: clickPart(bed) }));
    this.count = this;
  }

  clicks() {
    return true;
  }

  /** beatAt is which click of it, counted from 1, was the last at a time of the bed. */
  beatAt(at) {
    return Math.max(1, this.events.filter((e) => e.at <= at).length);
  }
}

/** soundAt is the program that a part has at a time. */
export function soundAt(part, at) {
  return (part.sounds.findLast((s) => s.at <= at) ?? part.sounds[0]).program;
}

/** events are all of a bar in their order: its notes, its part's sounds, its MIDI clocks. */
function events(bed, bar) {
  const { at, length } = bed.bars[bar];
  const out = [];
  for (const part of bed.parts) {
    out.push({ kind: "program", at, part, program: soundAt(part, at) });
    for (const s of part.sounds) {
      if (s.at > at && s.at < at + length) {
        out.push({ kind: "program", at: s.at, part, program: s.program });
      }
    }
  }
  for (const p of pulses(bed, bar)) {
    out.push({ kind: "pulse", at: p.at, tick: p.tick });
  }
  for (const note of bed.notes(bar)) {
    out.push({ kind: "on", at: note.at, note, part: bed.parts[note.part] });
  }
  for (const note of clicksOf(bed, bar)) {
    out.push({ kind: "on", at: note.at, note, part: clickPart(bed) });
  }
  return out.sort((a, b) => a.at - b.at || rank[a.kind] - rank[b.kind]);
}
