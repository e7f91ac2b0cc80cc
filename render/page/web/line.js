// The moving line, in the sheet and in the strip. The browser moves it by itself from where it is to the end of its
// system; here it is only looked at some times a second, and put right where what is heard is elsewhere. Who wants
// less motion has a line that steps by beats.

import { still } from "./dom.js";

const looks = 50; // milliseconds between two looks
const astray = 25_000; // microseconds by which the line may be wrong

export class Line {
  // onBar is called with each bar that begins to sound, -1 when nothing does.
  constructor(engine, sheet, form, onBar) {
    Object.assign(this, { engine, sheet, form, onBar, bar: -1, run: null });
    document.addEventListener("visibilitychange", () => this.refresh());
  }

  // refresh draws the line where it is, and goes on while it plays.
  refresh() {
    this.#halt();
    clearTimeout(this.timer);
    this.#look();
  }

  #look() {
    const { engine, sheet } = this;
    const now = engine.bed ? engine.now() : null;
    const bar = now ? Math.min(now.bar, engine.bed.bars.length - 1) : -1;
    if (bar >= 0 && sheet.bed === engine.bed) this.#draw(bar, now.at, now.count > 0);
    else if (!now) this.#hide();
    if (bar !== this.bar) {
      this.bar = bar;
      this.onBar(bar);
    }
    if (engine.playing && !document.hidden) this.timer = setTimeout(() => this.#look(), looks);
  }

  #draw(bar, at, waits) {
    if (still() || waits) {
      this.#halt();
      this.#put(bar, still() ? this.#beat(bar, at) : at);
      return;
    }
    const { run } = this;
    const expected = run && run.at + (performance.now() - run.since) * 1000 * run.pace;
    if (run && bar >= run.from && bar < run.to && Math.abs(expected - at) < astray) return;
    this.#start(bar, at);
  }

  // #beat is the beat of a bar that has begun at a moment.
  #beat(bar, moment) {
    const { at, beats } = this.sheet.bed.bars[bar];
    return beats.findLast(beat => beat <= moment) ?? at;
  }

  // #put puts both lines where a moment is.
  #put(bar, at) {
    const { sheet, form } = this;
    const place = sheet.placeOf(bar, at);
    if (!place) return null;
    if (place.system !== this.system || sheet.line.hidden) {
      this.system = place.system;
      const box = place.system.node.getBoundingClientRect(), root = sheet.root.getBoundingClientRect();
      this.top = box.top - root.top + place.top;
      this.left = box.left - root.left;
      sheet.line.style.height = place.height + "px";
      sheet.line.hidden = form.line.hidden = false;
    }
    move(sheet.line, `translate(${this.left + place.x}px, ${this.top}px)`);
    move(form.line, `translate(${form.placeOf(sheet.bed.bars[bar].chunk, at)}px, 0)`);
    return place.system;
  }

  // #start has the browser move both lines to the end of the system.
  #start(bar, at) {
    this.#halt();
    const { engine, sheet, form } = this;
    const { bars } = sheet.bed;
    const system = this.#put(bar, at);
    if (!system || !engine.playing) return;
    const end = bars[system.to - 1].at + bars[system.to - 1].length;
    const long = end - at;
    if (long <= 0) return;
    const frames = [], along = [];
    const add = (moment, inBar) => {
      const offset = (moment - at) / long;
      frames.push({ offset, transform: `translate(${this.left + system.size.gutter + (inBar - system.from) *
        system.size.bar}px, ${this.top}px)` });
      along.push({ offset, transform: `translate(${form.placeOf(bars[bar].chunk, moment)}px, 0)` });
    };
    add(at, bar + (at - bars[bar].at) / bars[bar].length);
    for (let next = bar + 1; next < system.to; next++) add(bars[next].at, next);
    add(end, system.to);
    const timing = { duration: long / 1000 / engine.pace, fill: "forwards" };
    this.run = { at, from: system.from, to: system.to, since: performance.now(), pace: engine.pace,
      moving: [sheet.line.animate(frames, timing), form.line.animate(along, timing)] };
  }

  #halt() {
    this.run?.moving.forEach(one => one.cancel());
    this.run = null;
  }

  #hide() {
    this.#halt();
    this.sheet.line.hidden = this.form.line.hidden = true;
    this.system = null;
  }
}

// move puts an element where it is not already.
function move(node, transform) {
  if (node.style.transform !== transform) node.style.transform = transform;
}
