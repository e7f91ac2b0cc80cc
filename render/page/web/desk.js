// What the controls and the keys do. Each is a method, named in the list of keys.

import { passName } from "./head.js";

const players = ["drums", "bass", "piano", "guide"];
const steps = 20; // of pace, from nothing to as written

export class Desk {
  // say tells those who hear the page; onChange is called when something is to be shown that the engine has not.
  constructor(engine, sheet, say, onChange) {
    Object.assign(this, { engine, sheet, say, onChange, marked: null, start: undefined, last: undefined });
  }

  // here is the bar that plays, or that would.
  here() {
    const last = Math.max((this.engine.bed?.bars.length ?? 1) - 1, 0);
    return Math.min(this.engine.now()?.bar ?? this.engine.bed?.lead ?? 0, last);
  }

  // at is the bar that a key means: the one that plays, and where nothing does the one with the focus. A bar that was
  // clicked keeps the focus while others play.
  at() {
    const bar = document.activeElement?.dataset?.bar;
    return bar === undefined || this.engine.playing ? this.here() : Number(bar);
  }

  toggle() { this.engine.toggle(); }
  fromTheTop() { this.#play(0); }
  swapNow() { this.engine.swapNow(); }

  #play(bar) {
    this.follow();
    this.engine.play(bar);
  }

  // choose plays from a bar of the sheet.
  choose(bar) {
    this.last = bar;
    this.#play(bar);
  }

  // go plays from a bar where it plays, and else brings the keyboard there.
  #go(bar) {
    const { bed, playing } = this.engine;
    if (!bed?.bars.length) return;
    const to = Math.min(Math.max(bar, 0), bed.bars.length - 1);
    if (playing) this.#play(to);
    else this.show(to);
  }

  // show brings a bar into view and gives it the focus.
  show(bar) {
    this.follower.show(bar, true);
    this.sheet.focus(bar);
  }

  barBack() { this.#go(this.at() - 1); }
  barOn() { this.#go(this.at() + 1); }

  passBack() {
    const { bed } = this.engine;
    if (!bed?.bars.length) return;
    const bar = this.at(), chunk = bed.bars[bar].chunk;
    const into = bar - bed.chunks[chunk].bar; // early in a pass it is the one before that is meant
    this.toPass(into <= (this.engine.playing ? 1 : 0) ? chunk - 1 : chunk);
  }

  passOn() {
    const { bed } = this.engine;
    if (bed?.bars.length) this.toPass(bed.bars[this.at()].chunk + 1);
  }

  toPass(chunk) {
    const place = this.engine.bed?.chunks[Math.max(chunk, 0)];
    if (place) this.#go(place.bar);
  }

  // toChanged goes to the next pass that the last save changed, round and round. What waits for its bar line plays
  // at once.
  toChanged() {
    if (this.pending) {
      this.engine.addEventListener("swap", () => this.toChanged(), { once: true });
      this.engine.swapNow();
      return;
    }
    const { bed } = this.engine;
    const changed = [...(bed?.state.changed ?? [])].sort((a, b) => a - b);
    if (!changed.length) {
      this.say("The last save changed nothing that is heard.");
      return;
    }
    const from = this.visited?.bed === bed ? this.visited.chunk : -1;
    const chunk = changed.find(one => one > from) ?? changed[0];
    this.visited = { bed, chunk };
    this.say(`${passName(bed.chunks[chunk])}, changed`);
    this.#go(bed.chunks[chunk].bar);
  }

  follow() {
    this.follower.set(true);
    const now = this.engine.now();
    if (now) this.follower.show(now.bar, true);
  }

  // loopKind is what loops: "off", "pass" or "marked".
  loopKind() {
    const { loop, bed } = this.engine;
    if (!loop || !bed) return "off";
    const isMarked = this.marked && this.marked.from === loop.from && this.marked.to === loop.to;
    const whole = bed.chunks.some(place => place.bar === loop.from && place.bar + place.bars - 1 === loop.to);
    if (!whole && !isMarked) this.marked = { from: loop.from, to: loop.to };
    return whole && !isMarked ? "pass" : "marked";
  }

  setLoop(kind) {
    const { engine } = this;
    if (kind === "off" || !engine.bed?.bars.length) {
      engine.setLoop(null);
    } else if (kind === "pass") {
      const { bar, bars } = engine.bed.chunks[engine.bed.bars[this.at()].chunk];
      engine.setLoop(bar, bar + bars - 1);
    } else if (this.marked) {
      engine.setLoop(this.marked.from, this.marked.to);
    }
  }

  loopPass() { this.setLoop(this.loopKind() === "pass" ? "off" : "pass"); }

  mark() { this.markTo(this.at(), false); }

  // markTo begins a stretch, or ends it. With the mouse a stretch also begins at the bar that was chosen last.
  markTo(bar, fromLast = true) {
    const { bed } = this.engine;
    if (!bed?.bars.length) return;
    const from = this.start ?? (fromLast ? this.last : undefined);
    if (from === undefined || from >= bed.bars.length) {
      this.start = bar;
      this.say(`a stretch begins with bar ${bed.bars[bar].number}`);
    } else {
      this.marked = { from: Math.min(from, bar), to: Math.max(from, bar) };
      this.start = this.last = undefined;
      this.engine.setLoop(this.marked.from, this.marked.to);
      this.say(`${this.markedWords()} loop`);
    }
    this.onChange();
  }

  unmark() {
    if (this.loopKind() === "marked") this.engine.setLoop(null);
    this.marked = null;
    this.start = this.last = undefined;
    this.onChange();
  }

  // markedWords are the bars of the marked stretch: "bars 5 to 8".
  markedWords() {
    const { bed } = this.engine;
    if (!this.marked || !bed || this.marked.to >= bed.bars.length) return "";
    const [from, to] = [bed.bars[this.marked.from].number, bed.bars[this.marked.to].number];
    return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
  }

  // swapped takes the marked stretch along into another bed, where the engine has taken the loop.
  swapped(wasMarked) {
    const { loop } = this.engine;
    this.start = this.last = undefined;
    this.marked = wasMarked && loop ? { from: loop.from, to: loop.to } : null;
  }

  faster(by) { this.#setPace(Math.round(this.engine.pace * steps + by) / steps); }
  slower() { this.faster(-1); }
  quicker() { this.faster(1); }
  asWritten() { this.#setPace(1); }

  #setPace(pace) {
    this.engine.setPace(Math.min(Math.max(pace, 0.5), 1.5));
    this.say(`${Math.round(this.engine.pace * 100)} per cent`);
  }

  setHeard(who, on) {
    this.before = null;
    this.engine.setHeard(who, on);
  }

  #toggleHeard(who) {
    const on = this.engine.heard[who] === false;
    this.setHeard(who, on);
    this.say(`${who} ${on ? "on" : "off"}`);
  }

  drums() { this.#toggleHeard("drums"); }
  bass() { this.#toggleHeard("bass"); }
  piano() { this.#toggleHeard("piano"); }
  guide() { this.#toggleHeard("guide"); }

  click() {
    const { click } = this.engine.heard;
    const next = click === false ? "count-in" : click === true ? false : true;
    this.engine.setHeard("click", next);
    this.say(`click ${next === true ? "all through" : next ? "in front" : "off"}`);
  }

  // only is the player who is heard alone, or null.
  only() {
    const on = this.#there().filter(who => this.engine.heard[who] !== false);
    return on.length === 1 && this.#there().length > 1 ? on[0] : null;
  }

  #there() {
    const parts = new Set(this.engine.bed?.parts.map(part => part.who));
    return players.filter(who => parts.has(who));
  }

  // alone lets one be heard alone, and the second time all as before.
  alone(who) {
    const { heard } = this.engine;
    if (this.only() === who) {
      const before = this.before ?? {};
      for (const one of this.#there()) this.engine.setHeard(one, before[one] ?? true);
      this.before = null;
      return;
    }
    this.before ??= { ...heard };
    for (const one of this.#there()) this.engine.setHeard(one, one === who);
  }

  countIn() {
    this.engine.setCountIn(!this.engine.countIn);
    this.say(`count-in ${this.engine.countIn ? "on" : "off"}`);
  }

  toWrong() {
    const head = document.querySelector("#wrong:not([hidden]) h2");
    if (!head) {
      this.say("Nothing is wrong.");
      return;
    }
    this.follower.set(false); // or the next system would scroll it away
    const doubts = head.closest("details");
    if (doubts) doubts.open = true;
    head.closest("#wrong").scrollIntoView({ block: "start" });
    (head.closest("summary") ?? head).focus();
  }
}
