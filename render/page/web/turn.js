// How the transport turns to another bed or another loop: at the next bar line, or at once.
import { followed, standing } from "./place.js";

/** @typedef {{bar: number, turn: number, jump: object | null}} Next  turn: how often the loop has begun again */

/**
 * behind is what plays after an instance, or null at the end of the song.
 * @param {{loop: object | null, jump: object | null}} way
 * @returns {Next | null}
 */
export function behind({ loop, jump }, x) {
  if (x.count) {
    return { bar: x.bar, turn: 0, jump: x.jump };
  }
  if (jump && x.jump !== jump) {
    return { bar: loop.from, turn: 0, jump };
  }
  if (loop && x.bar === loop.to) {
    return { bar: loop.from, turn: x.turn + 1, jump: x.jump };
  }
  return x.bar + 1 < x.bed.bars.length ? { bar: x.bar + 1, turn: x.turn, jump: x.jump } : null;
}

/**
 * swapAtLine turns at the first bar line from which on nothing has begun of what is to go, and nothing would
 * come too late of what is to come. False: the lines that are planned are all too near.
 */
export function swapAtLine(tp, now) {
  const settled = tp.settled(now);
  const bed = tp.pending ?? tp.bed;
  const loop = bed === tp.bed ? tp.loop : followed(tp.loop, tp.places.between(tp.bed, bed), tp.bed, bed);
  const lines = tp.queue.length + (tp.over ? 1 : 0);
  for (let i = 0; i < lines; i++) {
    const before = tp.queue[i - 1];
    const line = tp.queue[i]?.start ?? before.end;
    if (line < settled || (i === 0 && tp.queue[0].count) || begun(tp.queue.slice(i), settled)) {
      continue;
    }
    const next = before ? follower({ loop, jump: tp.jump }, before, tp, bed) : same(tp.queue[0], tp, bed);
    if (next && line - bed.earlies[next.bar] / tp.pace < settled) {
      continue;
    }
    tp.cut(i, settled);
    tp.adopt(bed);
    if (next) {
      tp.enter(bed, next, line);
    }
    tp.over = !next;
    return true;
  }
  return false;
}

/** begun reports whether a note of these instances can no longer be called back. */
function begun(queue, settled) {
  return queue.some((x) => x.sent.some((s) => s.t < settled));
}

/** same is the bar of an instance in another bed, or the next that stands there. */
function same(x, tp, bed) {
  return { bar: standing(tp.places.between(x.bed, bed), x.bar, bed), turn: x.turn, jump: x.jump };
}

/** follower is what plays in another bed after an instance: what is behind its bar there. */
function follower(way, before, tp, bed) {
  const map = tp.places.between(before.bed, bed);
  if (before.count || map[before.bar] >= 0 || (way.jump && before.jump !== way.jump)) {
    return behind(way, { ...same(before, tp, bed), bed, count: before.count });
  }
  const { turn, jump } = before;
  const next = map.find((to, from) => from > before.bar && to >= 0);
  if (next !== undefined && !(way.loop && next > way.loop.to)) {
    return { bar: next, turn, jump };
  }
  if (way.loop) {
    return { bar: way.loop.from, turn: turn + 1, jump };
  }
  return map.some((to) => to >= 0) ? null : { bar: standing(map, before.bar + 1, bed), turn, jump };
}

/** swapHere plays the newest bed from where the clock can still be told, in the middle of the bar. */
export function swapHere(tp, now) {
  const bed = tp.pending ?? tp.bed;
  const settled = Math.round(tp.settled(now));
  const here = tp.playing ? tp.heard(settled) : null;
  if (!here || here.bed === bed || here.count > 0) {
    return;
  }
  const map = tp.places.between(here.bed, bed);
  const next = { bar: standing(map, here.bar, bed), turn: here.turn, jump: here.x.jump };
  const was = here.bed.bars[here.bar];
  const is = bed.bars[next.bar];
  const share = map[here.bar] === next.bar ? (here.at - was.at) / was.length : 0;
  const path = tp.path.filter((p) => p.t < settled);
  tp.cut(0, settled);
  tp.outlet.silence(settled);
  tp.sounding = [];
  tp.adopt(bed);
  const from = Math.max(settled, Math.round(tp.outlet.busy));
  tp.floor = from;
  tp.enter(bed, next, Math.round(from - (share * is.length) / tp.pace));
  tp.path = [...path, { ...tp.path.at(-1), t: from, at: is.at + share * is.length }];
}
