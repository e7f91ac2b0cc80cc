// Ticks and microseconds by a bed's tempo map.

const quarterTicks = 960;
/** pulseTicks are the ticks from one MIDI clock to the next: 24 a quarter. */
export const pulseTicks = quarterTicks / 24;
/** sixteenthTicks are the ticks of a unit of MIDI's song position. */
export const sixteenthTicks = quarterTicks / 4;

/** last is the last of a list of which a value is not over x. */
function last(list, key, x) {
  let low = 0;
  for (let high = list.length - 1; low < high;) {
    const middle = (low + high + 1) >> 1;
    if (list[middle][key] <= x) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return list[low];
}

/** microsAt is when a tick is. */
function microsAt(tempos, tick) {
  const t = last(tempos, "tick", tick);
  return t.at + ((tick - t.tick) * t.quarter) / quarterTicks;
}

/** tickAt is the tick, with its fraction, at a time. */
function tickAt(tempos, at) {
  const t = last(tempos, "at", at);
  return t.tick + ((at - t.at) * quarterTicks) / t.quarter;
}

/** pulses are the MIDI clocks of a bar: its ticks that are multiples of pulseTicks, with their times. */
export function pulses(bed, bar) {
  const { tick, ticks } = bed.bars[bar];
  const out = [];
  for (let t = Math.ceil(tick / pulseTicks) * pulseTicks; t < tick + ticks; t += pulseTicks) {
    out.push({ tick: t, at: microsAt(bed.tempos, t) });
  }
  return out;
}

/**
 * countIn is a bar of click in a bar's meter at the tempo at which it is played: times from its start. A hold
 * in the bar does not count: the fastest tempo in it does.
 */
export function countIn(bed, bar) {
  const { at, length, tick, ticks, beats } = bed.bars[bar];
  const within = bed.tempos.filter((t) => t.at > at && t.at < at + length).map((t) => t.quarter);
  const quarter = Math.min(last(bed.tempos, "at", at).quarter, ...within);
  const micros = (t) => Math.round((t * quarter) / quarterTicks);
  return { length: micros(ticks), beats: beats.map((b) => micros(Math.round(tickAt(bed.tempos, b)) - tick)) };
}
