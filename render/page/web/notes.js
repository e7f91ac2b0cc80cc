// The bank's notes for our own sound: fetched, those nearest to the playhead first, and kept within a bound.

/** rate is the bank's, in frames a second. */
export const rate = 48000;
const bound = 256 << 20; // bytes of samples
const atOnce = 4; // fetches
const again = 3000; // milliseconds before a note that could not be had is asked for once more
const header = 24; // bytes: frames, scale, release, class, for how long it may be held, channels

/** Notes holds sounds by bank and name. */
export class Notes {
  /**
   * @param {object} o
   * @param {(path: string) => Promise<ArrayBuffer>} o.get
   * @param {() => void} [o.onchange]  another note is there
   */
  constructor({ get, onchange = () => {} }) {
    Object.assign(this, { fetch: get, onchange });
    this.kept = new Map(); // by "bank/name": {buffer, release, group, bytes, held}
    this.bytes = 0;
    this.wanted = new Map(); // for how many seconds each is held; the nearest first
    this.running = new Set();
    this.failed = new Map(); // when, by key
    this.rooms = new Map(); // impulses, by bank
    this.add("click-high", tick(1760));
    this.add("click-low", tick(1175));
  }

  /** get is a sound, or null where it is not there yet. */
  get(bank, name) {
    return this.kept.get(name.startsWith("click-") ? name : `${bank}/${name}`) ?? null;
  }

  /**
   * want says what is needed and for how long it is held, the nearest first; what is no more wanted may be forgotten.
   * One that is wanted for longer than it was is had again; until then it is the shorter one.
   */
  want(wanted) {
    this.wanted = wanted;
    this.#next();
  }

  /** ready counts those of the keys that are there. */
  ready(keys) {
    return keys.reduce((n, k) => n + (this.kept.has(k) || this.failed.has(k) ? 1 : 0), 0);
  }

  #next() {
    const now = performance.now();
    let room = bound;
    for (const [key, held] of this.wanted) {
      const had = this.kept.get(key);
      room -= had?.bytes ?? 0;
      if (room <= 0 || this.running.size >= atOnce) {
        break;
      }
      if (!(had?.held >= held) && !this.running.has(key) && !(now - this.failed.get(key) < again)) {
        this.#load(key, held);
      }
    }
  }

  async #load(key, held) {
    this.running.add(key);
    try {
      this.add(key, read(await this.fetch(`/note/${key}?hold=${held}`)));
      this.failed.delete(key);
    } catch {
      this.failed.set(key, performance.now());
      setTimeout(() => this.#next(), again + 1);
    }
    this.running.delete(key);
    this.#forget();
    this.onchange();
    this.#next();
  }

  add(key, sound) {
    this.bytes += sound.bytes - (this.kept.get(key)?.bytes ?? 0);
    this.kept.set(key, sound);
  }

  /** forget keeps within the bound: first goes what is not wanted, then what is wanted last. */
  #forget() {
    if (this.bytes <= bound) {
      return;
    }
    const idle = [...this.kept.keys()].filter((k) => !this.wanted.has(k) && k.includes("/"));
    for (const key of [...idle, ...[...this.wanted.keys()].reverse()]) {
      if (this.bytes <= bound) {
        return;
      }
      this.bytes -= this.kept.get(key)?.bytes ?? 0;
      this.kept.delete(key);
    }
  }

  /** forgetFailed has all asked for again that could not be had, as after a lost connection. */
  forgetFailed() {
    this.failed.clear();
    this.#next();
  }

  /** impulse is the reverb of a bank. */
  async impulse(bank) {
    if (!this.rooms.has(bank)) {
      this.rooms.clear();
      this.rooms.set(bank, read(await this.fetch(`/note/${bank}/room`)).buffer);
    }
    return this.rooms.get(bank);
  }
}

/** read is a note as the server writes it. */
export function read(bytes) {
  const view = new DataView(bytes);
  const [frames, group, channels] = [0, 12, 20].map((at) => view.getUint32(at, true));
  const [scale, release, held] = [4, 8, 16].map((at) => view.getFloat32(at, true));
  const sound = { buffer: null, release, group, bytes: 64 + 4 * frames * channels, held };
  if (frames === 0) {
    return sound;
  }
  sound.buffer = new AudioBuffer({ length: frames, numberOfChannels: channels, sampleRate: rate });
  for (let c = 0; c < channels; c++) {
    const from = new Int16Array(bytes, header + 2 * frames * c, frames);
    const to = sound.buffer.getChannelData(c);
    for (let i = 0; i < frames; i++) {
      to[i] = (from[i] * scale) / 32767;
    }
  }
  return sound;
}

/** tick is a click of our own: a short tone that dies away, for songs whose notes have none. */
function tick(hertz) {
  const frames = Math.round(rate * 0.06);
  const buffer = new AudioBuffer({ length: frames, numberOfChannels: 1, sampleRate: rate });
  const to = buffer.getChannelData(0);
  for (let i = 0; i < frames; i++) {
    const t = i / rate;
    to[i] = 0.8 * Math.exp(-t / 0.01) * Math.sin(2 * Math.PI * hertz * t);
  }
  return { buffer, release: 0.01, group: 0, bytes: 4 * frames, held: Infinity };
}
