// The click: that of the song's own click part, or where it has none, one on the beats of its bars.
import { countIn } from "./tempo.js";

const woodblock = 115; // General MIDI's, counted from 0, as in the MIDI file
const high = { key: 84, velocity: 110 };
const low = { key: 72, velocity: 90 };
const length = 62500; // microseconds

/** clickPart is the part that clicks, the bed's or one that stands in for it. */
export function clickPart(bed) {
  return bed.parts.find((p) => p.who === "click") ?? {
    who: "click", name: "Click", channel: 2, drums: false, sounds: [{ at: 0, program: woodblock, name: "Woodblock" }],
    key: "click/2", level: { gain: 0.35, pan: 0, send: 0 },
  };
}

/** clickName is the bank's note for a click, or a name of our own where the song's notes have none. */
function clickName(bed, first) {
  const index = bed.parts.findIndex((p) => p.who === "click");
  const key = first ? high.key : low.key;
  for (let bar = 0; index >= 0 && bar < Math.min(bed.bars.length, 2); bar++) {
    const found = bed.notes(bar).find((n) => n.part === index && n.key === key);
    if (found) {
      return found.note;
    }
  }
  return first ? "click-high" : "click-low";
}

function clicks(bed, times) {
  const part = clickPart(bed);
  return times.map((at, i) => {
    const first = i === 0;
    return { ...(first ? high : low), at, length, program: part.sounds[0].program, note: clickName(bed, first) };
  });
}

/** clicksOf are the clicks that a bar lacks: none where the song has a click of its own. */
export function clicksOf(bed, bar) {
  return bed.parts.some((p) => p.who === "click") ? [] : clicks(bed, bed.bars[bar].beats);
}

/** countInto is the count-in in front of a bar: its length and its clicks, in the bed's time. */
export function countInto(bed, bar) {
  const count = countIn(bed, bar);
  const start = bed.bars[bar].at - count.length;
  return { length: count.length, clicks: clicks(bed, count.beats.map((b) => start + b)) };
}
