// Where a bar of one bed is in a later one.

/**
 * Places keeps what each revision says of the one before it (State.was), so that a place can be
 * followed over several saves of which some were never played.
 */
export class Places {
  constructor() {
    this.steps = []; // {rev, from, chunks}, the newest last
  }

  /** add keeps a step. A state that is told again is none. */
  add(state) {
    if (state.was && state.was.rev < state.rev) {
      this.steps.push({ rev: state.rev, from: state.was.rev, chunks: state.was.chunks });
      this.steps.splice(0, this.steps.length - kept);
    }
  }

  /** forget drops all steps: those that come count from 1 again. */
  forget() {
    this.steps = [];
  }

  /**
   * between maps each bar of one bed to its bar in another, or -1 where it is gone.
   * @returns {number[]}
   */
  between(from, to) {
    if (from === to) {
      return from.bars.map((_, i) => i);
    }
    return this.#byRevisions(from, to) ?? byName(from, to);
  }

  /** chain are the steps from one bed to another, or null. A bed that came again has several that lead to it. */
  #chain(from, to) {
    for (const last of this.steps.filter((s) => to.revs.has(s.rev))) {
      const chain = [];
      for (let step = last; step; step = this.steps.find((s) => s.rev === step.from)) {
        chain.unshift(step);
        if (from.revs.has(step.from)) {
          return chain;
        }
      }
    }
    return null;
  }

  /** byRevisions follows the steps; null where the chain is broken. */
  #byRevisions(from, to) {
    const steps = this.#chain(from, to);
    if (!steps) {
      return null;
    }
    const out = from.bars.map((bar) => {
      let chunk = bar.chunk;
      let inside = bar.index - from.chunks[chunk].bar;
      for (const step of steps) {
        const was = step.chunks[chunk];
        inside = was && was.chunk >= 0 ? was.bars[inside] ?? -1 : -1;
        if (inside < 0) {
          return -1;
        }
        chunk = was.chunk;
      }
      const place = to.chunks[chunk];
      return place && inside < place.data.bars.length ? place.bar + inside : -1;
    });
    return out.some((x) => x >= 0) ? out : null;
  }
}

const kept = 64; // steps: saves that may go by before the next bar line

/** byName finds passes by section and ordinal, and bars by their place in the pass. */
function byName(from, to) {
  const name = (c) => `${c.section}\n${c.ordinal}`;
  const chunks = new Map(to.chunks.map((c) => [name(c), c]));
  return from.bars.map((bar) => {
    const was = from.chunks[bar.chunk];
    const is = chunks.get(name(was));
    const inside = bar.index - was.bar;
    return is && inside < is.data.bars.length ? is.bar + inside : -1;
  });
}

/** standing is the bar itself in the other bed, or else the next bar that stands, or the last. */
export function standing(map, bar, to) {
  for (let i = bar; i < map.length; i++) {
    if (map[i] >= 0) {
      return map[i];
    }
  }
  for (let i = Math.min(bar, map.length - 1); i >= 0; i--) {
    if (map[i] >= 0) {
      return map[i];
    }
  }
  return Math.min(bar, to.bars.length - 1);
}

/**
 * followed is a loop in the other bed. One of whole passes stays one, whatever became of their bars; where none of
 * its bars stands, the pass that comes in their place is looped.
 */
export function followed(loop, map, from, to) {
  if (!loop || !to.bars.length) {
    return null;
  }
  const stands = [];
  for (let i = loop.from; i <= loop.to; i++) {
    if (map[i] >= 0) {
      stands.push(map[i]);
    }
  }
  if (!stands.length) {
    return passOf(to, standing(map, loop.from, to));
  }
  let first = stands[0];
  let last = Math.max(first, stands.at(-1));
  if (loop.from === passOf(from, loop.from).from && loop.to === passOf(from, loop.to).to) {
    first = passOf(to, first).from;
    last = passOf(to, last).to;
  }
  return { from: first, to: last };
}

/** passOf is the pass of a bar, as a stretch of bars. */
function passOf(bed, bar) {
  const chunk = bed.chunks[bed.bars[bar].chunk];
  return { from: chunk.bar, to: chunk.bar + chunk.data.bars.length - 1 };
}
