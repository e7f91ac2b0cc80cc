// Which of a bed's notes are needed first.

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
  return [...new Set(order.flatMap((i) => bed.names(i)))];
}
