// The scheduler. It knows no browser: the clock is told with each tick, the outlet is handed in, and the
// same code plays on an audio clock, on one that is fed in steps and in a test. All times are whole
// microseconds: those of the clock (`t`) and those of the bed (`at`).
import { Bar, Count, moment, soundAt } from "./instance.js";
import { followed } from "./place.js";
import { bend, send } from "./send.js";
import { behind, swapHere, swapAtLine } from "./turn.js";

/** margin is what the clock may run on, in microseconds, until what is asked for is done: two buffers of a browser. */
const margin = 50000;
const rounding = 2; // microseconds by which times of two passes may disagree

/**
 * @typedef {object} Outlet
 * @property {number} ahead   how far it is scheduled, in microseconds
 * @property {boolean} recalls  whether what was scheduled and has not begun can be called back
 * @property {number} tail    how long it sounds after the last bar line
 * @property {number} busy    up to when what was sent is still under way, what ends it too
 * @property {(note: object, part: object, t: number, bed: object) => any} on  a handle; null: it is not heard
 * @property {(handle: any, t: number) => void} off
 * @property {(handle: any) => void} recall
 * @property {(part: object, program: number, t: number) => void} program
 * @property {(tick: number, t: number) => void} pulse  a MIDI clock
 * @property {(t: number) => void} silence  ends all that sounds or would, from t on
 * @property {(t: number) => void} stop  the transport has stopped
 */

/** Transport plays a bed bar by bar, in whatever order. */
export class Transport {
  /**
   * @param {object} o
   * @param {Outlet} o.outlet
   * @param {import("./place.js").Places} o.places
   * @param {() => "count-in"|boolean} [o.click]  where the click is heard
   * @param {(bed: object) => void} [o.onswap]  another bed is heard
   * @param {() => void} [o.onend]  the song is over
   */
  constructor({ outlet, places, click = () => "count-in", onswap = () => {}, onend = () => {} }) {
    Object.assign(this, { outlet, places, click, onswap, onend });
    this.shown = null; // the bed that is heard, or would be
    this.bed = null; // what plays, or will from a bar line on that is decided
    this.pending = null; // what is to be played from the next bar line on
    this.loop = null; // in the bed that plays
    this.loopBefore = null; // in the bed that is heard, where that is another
    this.pace = 1;
    this.late = 0; // notes left out because their time was past
    this.#clear();
  }

  #clear() {
    this.playing = false;
    this.queue = []; // bars and counts, one behind the other
    this.path = []; // what is heard from when on: {t, at, pace, x}
    this.sounding = []; // {handle, off, x}
    this.horizon = -Infinity; // up to where all is scheduled
    this.floor = -Infinity; // from where on something may be: before that, another bed was heard
    this.over = false; // the song's last bar is in the queue
    this.jump = null; // a jump to the loop's first bar: an instance that is behind it has it too
    this.replan = false; // what comes next is another bar than was planned
  }

  /** show says of a bed that it is heard, or would be. */
  #show(bed) {
    if (bed !== this.shown) {
      this.shown = bed;
      this.onswap(bed);
    }
  }

  /** start plays from a bar, with a bar of count-in where one is asked for and the song has none there. */
  start(bar, now, { counted = false } = {}) {
    this.#clear();
    this.playing = true;
    const count = counted && bar >= this.bed.lead ? new Count(this.bed, bar) : null;
    const early = Math.max(0, this.bed.earlies[bar] - (count?.length ?? 0));
    const from = Math.max(now, this.outlet.busy);
    const t = Math.round(from + margin + early / this.pace);
    if (count) {
      this.add(count, { t, at: count.at, pace: this.pace });
    }
    this.enter(this.bed, { bar, turn: 0, jump: null }, count ? null : t);
    for (const part of this.bed.parts) {
      this.outlet.program(part, soundAt(part, this.bed.bars[bar].at), from);
    }
    this.tick(now);
  }

  /** stop ends all at once. What was heard is returned, as of heard. */
  stop(now) {
    const here = this.heard(now);
    if (this.playing) {
      this.outlet.silence(now);
      this.outlet.stop(now);
    }
    const next = this.pending ?? this.bed;
    this.#clear();
    if (next) {
      this.offer(next);
    }
    return here;
  }

  /** offer has another bed played from the next bar line on; where nothing plays it takes its place. */
  offer(bed) {
    if (this.playing) {
      this.pending = bed === this.bed ? null : bed;
      return;
    }
    this.adopt(bed);
    this.#show(bed);
  }

  /** adopt makes a bed the one that plays: the loop follows into it. */
  adopt(bed) {
    if (bed !== this.bed) {
      this.loopBefore = this.loopHeard;
      const map = this.bed ? this.places.between(this.bed, bed) : [];
      this.loop = followed(this.loop, map, this.bed, bed);
      this.bed = bed;
    }
    this.pending = null;
  }

  /** loopHeard is the loop, in the bed that is heard. */
  get loopHeard() {
    return this.shown === this.bed ? this.loop : this.loopBefore;
  }

  /** setLoop plays a stretch of bars over and over; where another bar plays it goes there at the next line. */
  setLoop(loop, now) {
    this.loopBefore = loop;
    this.loop = loop && this.shown !== this.bed ?
      followed(loop, this.places.between(this.shown, this.bed), this.shown, this.bed) : loop;
    const here = this.playing ? this.queue.find((x) => x.end > now) ?? this.queue.at(-1) : null;
    this.jump = here && this.loop && (here.bar < this.loop.from || here.bar > this.loop.to) ? {} : null;
    this.replan = here !== null;
  }

  /** setPace plays faster or slower from the end of what is scheduled on. */
  setPace(pace, now) {
    if (this.playing) {
      bend(this, pace, Math.max(now, this.horizon));
    }
    this.pace = pace;
  }

  /** swapNow plays the newest bed at once, in the middle of the bar. */
  swapNow(now) {
    swapHere(this, now);
    this.tick(now);
  }

  /** tick schedules what begins within the look-ahead. It is called every few hundredths of a second. */
  tick(now, heard = now) {
    if (!this.playing) {
      return;
    }
    const horizon = Math.max(this.horizon, now + this.outlet.ahead);
    this.#extend(horizon);
    if ((this.pending || this.replan) && swapAtLine(this, now)) {
      this.#extend(horizon);
    }
    send(this, now, horizon);
    this.#forget(now);
    this.tell(heard);
  }

  /** beds are those that something is still to be heard of. */
  beds() {
    return [...new Set([this.bed, this.pending, ...this.path.map((p) => p.x.bed)])].filter((bed) => bed);
  }

  /** heard is what sounds at a time: {bed, bar, at, turn, count, x}, count being a count-in's click; or null. */
  heard(t) {
    const here = this.pathAt(t) ?? this.path[0];
    if (!here) {
      return null;
    }
    const { x } = here;
    const { bed, bar, turn, count } = x;
    const { at, length } = bed.bars[bar];
    const inside = Math.min(Math.max(moment(here, t), at), at + length);
    return { bed, bar, at: inside, turn, count: count ? count.beatAt(moment(here, t)) : 0, x };
  }

  /** settled is up to when nothing can be changed any more. */
  settled(now) {
    return this.outlet.recalls ? now + margin : Math.max(this.horizon, now);
  }

  /** pathAt is what is heard at a time: an entry of the path, or null. */
  pathAt(t) {
    return this.path.findLast((p) => p.t <= t) ?? null;
  }

  /** add puts an instance behind the queue. */
  add(x, base) {
    x.rebase(base);
    this.queue.push(x);
    this.path.push({ t: x.start, at: x.at, pace: base.pace, x });
  }

  /** enter puts a bar behind the queue: at a time, or without one right behind the last. */
  enter(bed, { bar, turn, jump }, t = null) {
    const x = new Bar(bed, bar, turn);
    x.jump = jump;
    const last = this.queue.at(-1);
    if (t === null && last.bed === bed && Math.abs(last.at + last.length - x.at) <= rounding) {
      this.add(x, last.base);
    } else {
      this.add(x, { t: t ?? last.end, at: x.at, pace: this.pace });
    }
    return x;
  }

  /** cut takes instances from the end of the queue, and what is scheduled of them and has not begun. */
  cut(from, settled) {
    const gone = new Set(this.queue.splice(from));
    for (const x of gone) {
      x.sent.filter((s) => s.t >= settled).forEach((s) => this.outlet.recall(s.handle));
    }
    this.path = this.path.filter((p) => !gone.has(p.x));
    this.sounding = this.sounding.filter((s) => !gone.has(s.x));
    this.over = false;
    this.replan = false;
  }

  /** extend has bars in the queue up to a time, and as far behind it as notes come before their bars. */
  #extend(until) {
    const early = Math.max(this.bed.early, this.pending?.early ?? 0);
    while (!this.over) {
      const last = this.queue.at(-1);
      if (last.end - early / this.pace > until) {
        return;
      }
      const next = behind(this, last);
      if (next) {
        this.enter(last.bed, next);
      } else {
        this.over = true;
      }
    }
  }

  /** forget drops what is past. */
  #forget(now) {
    const past = now - 1e6;
    while (this.queue.length > 1 && this.queue[0].end < past && this.queue[0].next === this.queue[0].events.length) {
      this.queue.shift();
    }
    const here = this.path.findLastIndex((p) => p.t <= past);
    this.path.splice(0, Math.max(0, here));
  }

  /** tell says what is heard at a time: another bed, or the end. */
  tell(t) {
    const here = this.pathAt(t);
    if (here) {
      this.#show(here.x.bed);
    }
    if (this.over && t > this.queue.at(-1).end + this.outlet.tail) {
      this.stop(t);
      this.onend();
    }
  }
}
