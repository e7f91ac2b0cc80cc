// Which of a bed's notes are needed first.

/** ahead are the bars whose notes are to be there before a bed is played. */
export const ahead = 2;

/**
 * nearest are the notes, by the bank's paths, of the bars as they are played from one on, those of a loop
 * before all others: of as many bars as are wanted, or of all.
 */
export function nearest(bed, bar, loop, bars = Infinity) {
  const order = [];
  const add = (from, to) => {
    for (let i = from; i <= to && order.length < bars; i++) {
      order.push(i);
    }
  };
  if (loop && bar >= loop.from && bar <= loop.to) {
    add(bar, loop.to);
    add(loop.from, bar - 1);
  }
  add(bar, bed.bars.length - 1);
  add(0, bar - 1);
  const lists = new Set(order.map((i) => bed.names(i))); // a long song has few that differ
  return [...new Set([...lists].flat())];
}

/**
 * wanted are the notes that a playhead needs and for how many seconds each is held at a pace: first those of the
 * newest bed where it will be gone over to, then those of the bed that plays, then all.
 */
export function wanted({ bed, bar, loop, pace }, newest, newestBar) {
  const first = newest === bed ? [] : nearest(newest, newestBar, null, ahead + 1);
  const order = [...first, ...nearest(bed, bar, loop), ...newest.longest.keys()];
  const held = (key) => Math.max(bed.longest.get(key) ?? 0, newest.longest.get(key) ?? 0) / pace / 1e6;
  return new Map(order.map((key) => [key, roundedUp(held(key), newest.holds)]));
}

/** roundedUp is a time in seconds as notes can be asked for. */
function roundedUp(seconds, holds) {
  return holds.find((h) => h >= seconds) ?? holds.at(-1);
}
