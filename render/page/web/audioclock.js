// The clock of our own sound: an audio context, what is heard of it, and whether it runs.

const still = 100; // milliseconds that the clock may stand still before the machine must have slept
const soon = 5000; // milliseconds: one that seems to sleep again so soon has a clock with a coarse tick
const smoothing = 0.1;
const leap = 50; // milliseconds: a larger difference is followed at once

/** AudioClock tells times of an audio context in microseconds. */
export class AudioClock {
  /**
   * @param {AudioContext} context
   * @param {{onblocked?: (blocked: boolean) => void, onsleep?: () => void}} on
   */
  constructor(context, { onblocked = () => {}, onsleep = () => {} } = {}) {
    Object.assign(this, { context, onblocked, onsleep });
    this.last = null; // {page, audio}: milliseconds of both clocks when they were looked at
    this.lag = null; // output time less the page's, in milliseconds
    this.moves = false; // it was seen to run since its state changed
    this.asleep = false;
    this.still = still;
    this.woke = -Infinity;
    context.onstatechange = () => {
      this.asleep ||= this.moves; // it ran, and was stopped by somebody else
      this.moves = false;
      this.last = null;
      this.lag = null;
      this.onblocked(this.blocked);
    };
  }

  now() {
    return this.context.currentTime * 1e6;
  }

  /** blocked: the browser does not let it run, or somebody has stopped it. */
  get blocked() {
    return this.context.state !== "running";
  }

  /** ready: it runs, and has been seen to. */
  get ready() {
    return !this.blocked && this.moves && !this.asleep;
  }

  /** resume starts it; a browser may wait for a gesture first, and then it is blocked. */
  resume() {
    if (this.blocked) {
      this.context.resume().catch(() => {});
    }
  }

  /** pause lets it stand, which costs nothing, until it is resumed. */
  pause() {
    this.context.suspend().catch(() => {});
  }

  /** look is called with each tick: it follows the output and finds out whether the machine slept. */
  look(page = performance.now()) {
    const audio = this.context.currentTime * 1000;
    const behind = this.last ? page - this.last.page - (audio - this.last.audio) : 0;
    if (!this.blocked && audio === this.last?.audio) {
      this.asleep ||= behind > this.still; // it stands: whoever plays waits until it moves
      return;
    }
    this.moves ||= !this.blocked && this.last !== null;
    this.last = { page, audio };
    if (!this.blocked && (this.asleep || behind > this.still)) {
      this.still = page - this.woke < soon ? 2 * this.still : still;
      this.woke = page;
      this.asleep = false;
      this.lag = null;
      this.onsleep();
    }
    const lag = this.#output(page) - page;
    this.lag = this.lag === null || Math.abs(lag - this.lag) > leap ? lag : this.lag + smoothing * (lag - this.lag);
  }

  /** output is the time of the context that is heard at a time of the page, in milliseconds. */
  #output(page) {
    const stamp = this.context.getOutputTimestamp?.();
    if (stamp?.performanceTime > 0) {
      return stamp.contextTime * 1000 + page - stamp.performanceTime;
    }
    return (this.context.currentTime - (this.context.outputLatency || 0)) * 1000;
  }

  /** heard is the time that is heard now. */
  heard() {
    if (this.blocked || this.lag === null) {
      return this.now();
    }
    return Math.min((performance.now() + this.lag) * 1000, this.now());
  }
}
