// Which of a bed's notes are needed first.

/** namesOf are all notes of a bed, as the bank's paths. */
export function namesOf(bed) {
  bed.allNames ??= [...new Set(bed.chunks.flatMap((c) => c.data.names))].map((name) => `${bed.bank}/${name}`);
  return bed.allNames;
}

/**
 * nearest are the notes of the bars as they are played from one on, those of a loop before all others: as many
 * bars as are wanted, or all.
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
  return [...new Set(order.flatMap((i) => [...bed.names(i)].map((name) => `${bed.bank}/${name}`)))];
}
