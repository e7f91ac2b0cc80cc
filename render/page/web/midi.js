// The outlet of our own instruments: Web MIDI (W3C). Nothing that was sent can be called back, so it looks
// ahead only a little, and knows what sounds so that it can end it. The channels and programs are the file's.
import { pulseTicks, sixteenthTicks } from "./tempo.js";

const status = { off: 0x80, on: 0x90, control: 0xb0, program: 0xc0, position: 0xf2, pulse: 0xf8, start: 0xfa,
  resume: 0xfb, stop: 0xfc };
const allNotesOff = 123;
const offVelocity = 64; // as in the file
const lastPosition = (1 << 14) - 1;
const gap = 1000; // microseconds between what a device must take one after the other

/** Midi is an outlet of the transport. Its clock is performance.now(). */
export class Midi {
  ahead = 60000;
  recalls = false;
  tail = 200000;

  constructor() {
    this.port = null;
    this.clock = false;
    this.heard = () => true;
    this.onfail = () => {};
    this.sounding = new Map(); // by channel and key: {id, part, channel, key, t}
    this.programs = new Map(); // by channel
    this.parts = new Map(); // by channel: who played on it
    this.last = 0; // the latest time of what was sent
    this.running = false; // those who follow the clock
    this.expected = null; // the tick of the next pulse, when they are to run on
  }

  get busy() {
    return this.last;
  }

  now() {
    return performance.now() * 1000;
  }

  /** setPort sends to another port from now on; on the old one all that sounds is ended. */
  setPort(port, now = this.now()) {
    if (port !== this.port) {
      this.silence(now);
      this.stop(now);
      this.port = port;
      this.programs.clear();
    }
  }

  setClock(on, now = this.now()) {
    this.clock = on;
    if (!on) {
      this.stop(now);
    }
  }

  /** setHeard ends the notes of those who are no longer heard. */
  setHeard(heard, now = this.now()) {
    const was = this.heard;
    this.heard = heard;
    const gone = [...this.parts].filter(([, part]) => was(part) && !heard(part)).map(([channel]) => channel);
    this.#end([...this.sounding.values()].filter((n) => gone.includes(n.channel)), now, gone);
  }

  on(note, part, t) {
    if (!this.heard(part)) {
      return null;
    }
    const { channel } = part;
    const n = { id: (channel << 7) | note.key, part, channel, key: note.key, t };
    this.program(part, note.program, t);
    this.off(this.sounding.get(n.id), t);
    this.sounding.set(n.id, n);
    this.#send([status.on | channel, note.key, note.velocity], t);
    return n;
  }

  /** off ends a note, unless another of its key has ended it already. */
  off(n, t) {
    if (n && this.sounding.get(n.id) === n) {
      this.sounding.delete(n.id);
      this.#send([status.off | n.channel, n.key, offVelocity], t);
    }
  }

  recall() {} // what was sent is sent

  program(part, program, t) {
    this.parts.set(part.channel, part);
    if (this.heard(part) && this.programs.get(part.channel) !== program) {
      this.programs.set(part.channel, program);
      this.#send([status.program | part.channel, program], t);
    }
  }

  /**
   * pulse is a MIDI clock at a tick of the song. Where it is not the tick behind the last one, those who follow
   * are stopped, told the place, and go on; they can be told only whole sixteenths.
   */
  pulse(tick, t) {
    if (!this.clock) {
      return;
    }
    if (tick !== this.expected) {
      if (this.running) {
        this.#send([status.stop], t - 2 * gap);
      }
      this.running = tick % sixteenthTicks === 0;
      this.expected = null;
      if (!this.running) {
        return;
      }
      this.#begin(tick / sixteenthTicks, t - gap);
    }
    this.#send([status.pulse], t);
    this.expected = tick + pulseTicks;
  }

  #begin(position, t) {
    if (position > 0 && position <= lastPosition) {
      this.#send([status.position, position & 0x7f, position >> 7], t);
    }
    this.#send([position > 0 ? status.resume : status.start], t);
  }

  /** stop stops those who follow the clock. */
  stop(t) {
    if (this.running) {
      this.#send([status.stop], Math.max(t, this.last));
    }
    this.running = false;
    this.expected = null;
  }

  /** silence ends all notes, those too that were sent and have not begun. */
  silence(t) {
    this.#end([...this.sounding.values()], t, [...this.programs.keys()]);
  }

  #end(notes, t, channels) {
    for (const n of notes) {
      this.off(n, Math.max(t, n.t + gap));
    }
    const then = Math.max(t, this.last);
    for (const channel of channels) {
      this.#send([status.control | channel, allNotesOff, 0], then);
    }
  }

  #send(bytes, t) {
    this.last = Math.max(this.last, t);
    try {
      this.port?.send(bytes, t / 1000);
    } catch (e) {
      this.onfail(e);
    }
  }
}
