// The player: the transport with its two outlets and their clocks, what is to be played next, and the
// notes that this needs.
import { Midi } from "./midi.js";
import { ahead, nearest, wanted } from "./nearest.js";
import { standing } from "./place.js";
import { Speaker } from "./speaker.js";
import { Transport } from "./transport.js";

const patience = 1500; // milliseconds for which the first notes are waited for
const interval = { sound: 50, midi: 25 }; // milliseconds between two looks ahead, a fifth of it and less
const fading = 4000; // milliseconds in which all has died away behind a stop
const blockedText = "The browser lets no page sound before you have touched it: click into it, or press a key.";

export class Player {
  #starting = null; // {bar, since, moved}: play was asked for, and waits for notes and for the browser
  #offered = null; // {bed, since}: waits for its notes
  #rest = null; // the bar where it stopped
  #near = null; // {bar, bed, newest} for which notes were last wanted

  /**
   * @param {object} o
   * @param {object} o.settings  pace, countIn, heard, loudness, outlet
   * @param {import("./place.js").Places} o.places
   * @param {import("./notes.js").Notes} o.notes
   * @param {{postMessage: (interval: number) => void, onmessage: () => void}} o.worker
   * @param {(event: string) => void} o.tell  "swap" or "change"
   * @param {(kind: string, text: string) => void} o.trouble
   */
  constructor({ settings, places, notes, worker, tell, trouble }) {
    Object.assign(this, { settings, places, notes, worker, tell, trouble });
    this.newest = null; // the newest bed
    this.midi = new Midi();
    this.speaker = null; // made when it is first played: before a gesture a browser blocks it
    this.transport = new Transport({
      outlet: this.midi, places, click: () => this.#click(), onswap: () => this.#swapped(), onend: () => this.#ended(),
    });
    this.transport.pace = settings.pace;
    this.applyHeard();
    worker.onmessage = () => this.tick();
  }

  /** bed is what is heard, or would be. */
  get bed() {
    return this.transport.shown ?? this.newest;
  }

  get sound() {
    return this.speaker?.sound ?? null;
  }

  get audio() {
    return this.speaker?.clock ?? null;
  }

  get playing() {
    return this.#starting !== null || this.transport.playing;
  }

  get byMidi() {
    return this.settings.outlet === "midi";
  }

  /** now is what is heard: {bar, at, loop, count}: how often the loop has begun again, and a count-in's click. */
  now() {
    if (this.#starting) {
      const { bar } = this.#starting;
      return { bar, at: this.bed.bars[bar].at, loop: 0, count: 0 };
    }
    const here = this.#here();
    return here && { bar: here.bar, at: here.at, loop: here.turn, count: here.count };
  }

  #here() {
    if (!this.transport.playing) {
      return null;
    }
    const t = this.#heardTime();
    this.transport.tell(t);
    return this.transport.heard(t);
  }

  /** beds are those that are still needed. */
  beds() {
    return [...new Set([this.newest, ...this.transport.beds()])].filter((bed) => bed);
  }

  /** play plays from a bar; without one, from where it stopped. */
  play(bar) {
    const moved = this.playing;
    this.halt();
    const from = bar ?? this.#rest ?? this.transport.loopHeard?.from ?? 0;
    this.#starting = { bar: Math.max(0, Math.min(from, this.bed.bars.length - 1)), since: performance.now(), moved };
    if (!this.byMidi) {
      this.#openSound();
      this.audio.resume();
      this.tellBlocked();
    }
    this.worker.postMessage(interval[this.settings.outlet]);
    this.want();
    this.tell("change");
    this.tick();
  }

  stop() {
    if (this.playing) {
      this.halt();
      this.#idle();
      this.trouble("blocked", "");
      this.tell("change");
    }
  }

  /** halt ends all sound; the next bed takes its place, and the bar is kept. */
  halt() {
    this.#rest = this.#starting?.bar ?? this.#rest;
    this.#starting = null;
    const offered = this.#offered?.bed;
    this.#offered = null;
    if (this.transport.playing) {
      const here = this.transport.stop(this.clock());
      if (offered) {
        this.transport.offer(offered);
      }
      const { bed } = this.transport;
      this.#rest = here ? standing(this.places.between(here.bed, bed), here.bar, bed) : null;
    }
  }

  /** swapNow plays the newest bed at once. */
  swapNow() {
    if (this.transport.playing) {
      if (this.#offered) {
        this.transport.offer(this.#offered.bed);
        this.#offered = null;
      }
      this.transport.swapNow(this.clock());
    }
  }

  setLoop(loop) {
    this.transport.setLoop(loop, this.transport.playing ? this.clock() : 0);
    this.#near = null;
    this.want();
  }

  setPace(pace) {
    this.transport.setPace(pace, this.transport.playing ? this.clock() : 0);
    this.#near = null; // notes are held for longer or shorter
    this.want();
  }

  setLoudness(x) {
    this.sound?.setLoudness(x);
  }

  /** applyHeard gives the outlets what is set of who is heard. */
  applyHeard() {
    const { heard } = this.settings;
    const hears = (part) => (part.who === "click" ? this.#click() !== false : heard[part.who] !== false);
    this.midi.setHeard(hears);
    this.sound?.setHeard(hears);
  }

  /** setOutlet plays on where it was, on the other outlet. */
  setOutlet(name, port) {
    const here = this.playing ? this.now() : null;
    this.halt();
    this.settings.outlet = name;
    this.midi.setPort(port);
    this.transport.outlet = this.byMidi ? this.midi : this.sound ?? this.midi;
    this.want();
    if (here && !(this.byMidi && !port)) {
      this.play(here.bar);
    } else if (here) {
      this.worker.postMessage(0);
    }
    this.#fade();
  }

  /** bring has a new bed follow: at a bar line once its first notes are there, or at once where nothing plays. */
  bring(bed) {
    const was = this.bed;
    this.newest = bed;
    if (bed.bars.length && this.transport.playing) {
      this.#offered = { bed, since: performance.now() };
    } else if (bed.bars.length) {
      if (was?.bars.length) {
        const map = this.places.between(was, bed);
        this.#rest = this.#rest === null ? null : standing(map, this.#rest, bed);
        this.#starting &&= { ...this.#starting, bar: standing(map, this.#starting.bar, bed) };
      }
      this.transport.offer(bed);
    }
    this.want();
    this.speaker?.furnish(bed.bank);
  }

  tick() {
    this.audio?.look();
    if (this.#starting) {
      this.#begin();
      return;
    }
    if (this.#offered) {
      const { bed, since } = this.#offered;
      if (this.byMidi || performance.now() - since > patience || this.#ready(bed, this.#barIn(bed))) {
        this.#offered = null;
        this.transport.offer(bed);
      }
    }
    if (this.transport.playing && (this.byMidi || this.audio.ready)) {
      this.transport.tick(this.clock(), this.#heardTime());
      this.want();
    }
  }

  #begin() {
    const { bar, since, moved } = this.#starting;
    if (!this.byMidi && (!this.audio.ready ||
      (performance.now() - since < patience && !this.#ready(this.bed, bar)))) {
      return;
    }
    this.#starting = null;
    this.transport.start(bar, this.clock(), { counted: this.settings.countIn && !moved });
  }

  /** barIn is where the playhead is in a bed. */
  #barIn(bed) {
    const here = this.transport.playing ? this.transport.heard(this.#heardTime()) : null;
    if (here) {
      return here.bed === bed ? here.bar : standing(this.places.between(here.bed, bed), here.bar, bed);
    }
    return Math.min(this.#starting?.bar ?? this.#rest ?? 0, bed.bars.length - 1);
  }

  #ready(bed, bar) {
    const keys = nearest(bed, bar, bed === this.bed ? this.transport.loopHeard : null, ahead);
    return this.notes.ready(keys) === keys.length;
  }

  /** want asks for the notes nearest to the playhead, those of the newest bed first. */
  want() {
    const { bed, newest } = this;
    if (this.byMidi || !bed?.bars.length || !newest.bars.length) {
      return;
    }
    const bar = this.#barIn(bed);
    if (this.#near?.bar === bar && this.#near.bed === bed && this.#near.newest === newest) {
      return;
    }
    this.#near = { bar, bed, newest };
    const { loop, pace } = this.transport;
    this.notes.want(wanted({ bed, bar, loop, pace }, newest, this.#barIn(newest)));
  }

  #openSound() {
    if (!this.speaker) {
      this.speaker = new Speaker(this.notes, { onblocked: () => this.tellBlocked(), onsleep: () => this.#woken() });
      this.setLoudness(this.settings.loudness);
      this.transport.outlet = this.sound;
      this.applyHeard();
    }
    this.speaker.furnish(this.newest.bank);
  }

  tellBlocked() {
    this.trouble("blocked", this.playing && !this.byMidi && this.audio?.blocked ? blockedText : "");
  }

  /** woken plays the last bar again: the clock stood still, and what was scheduled is past or wrong. */
  #woken() {
    if (!this.byMidi && this.transport.playing) {
      this.halt();
      this.transport.start(this.#rest ?? 0, this.clock());
    }
  }

  #ended() {
    if (this.#offered) {
      this.transport.offer(this.#offered.bed);
      this.#offered = null;
    }
    this.#rest = null;
    this.#idle();
    this.tell("change");
  }

  /** idle has nothing run on that costs something. */
  #idle() {
    this.worker.postMessage(0);
    this.#fade();
  }

  /** fade lets our own sound rest once all has died away. */
  #fade() {
    clearTimeout(this.fading);
    this.fading = setTimeout(() => (this.playing && !this.byMidi) || this.audio?.pause(), fading);
  }

  #swapped() {
    this.#near = null;
    this.tell("swap");
  }

  clock() {
    return Math.round(this.byMidi ? this.midi.now() : this.audio.now());
  }

  #heardTime() {
    return this.byMidi ? this.midi.now() : this.audio.heard();
  }

  /** click is where the click is heard: a count-in is never silent. */
  #click() {
    return this.settings.heard.click || (this.settings.countIn ? "count-in" : false);
  }
}
