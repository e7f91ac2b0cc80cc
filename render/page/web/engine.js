// The engine: what the page plays with. It joins the line to plinth, the beds, the transport and its two
// outlets. Its events: "bed" (another state or bed is there), "swap" (another bed is heard), "change" (a
// setting, play or stop), "progress" (more notes are there), and "trouble" with {kind, text}, text being ""
// when the trouble is over. All troubles that last are in `troubles`.
import { AudioClock } from "./audioclock.js";
import { Chunks, likeness } from "./bed.js";
import { Link } from "./link.js";
import { remember, remembered } from "./memory.js";
import { Midi } from "./midi.js";
import { Notes } from "./notes.js";
import { nearest, namesOf } from "./nearest.js";
import { Places, standing } from "./place.js";
import { Ports } from "./ports.js";
import { Sound } from "./sound.js";
import { Transport } from "./transport.js";

const rate = 48000;
const patience = 1500; // milliseconds for which the first notes are waited for
const limits = { low: 0.5, high: 1.5 }; // of the pace

export class Engine extends EventTarget {
  #loading = 0; // counts states: only the newest is loaded to its end
  #starting = null; // {bar, since}: play was asked for, and waits for notes and for the browser
  #offered = null; // {bed, since}: waits for its notes
  #rest = null; // the bar where it stopped
  #near = -1; // the bar around which notes were last wanted

  constructor({ link = new Link(), ports = new Ports(), worker = null, store = globalThis.localStorage } = {}) {
    super();
    this.settings = remembered(store);
    this.store = store;
    this.state = null; // the newest, which may be a wrong save's
    this.newest = null; // the newest bed
    this.troubles = new Map();
    this.places = new Places();
    this.chunks = new Chunks(async (hash) => (await get(`/pass/${hash}`)).json());
    this.notes = new Notes({
      rate, get: async (path) => (await get(path)).arrayBuffer(), onchange: () => this.#tell("progress"),
    });
    this.ports = ports;
    this.instruments = new Midi();
    this.instruments.clock = this.settings.clock;
    this.sound = null;
    this.audio = null;
    this.transport = new Transport({
      outlet: this.instruments, places: this.places, click: () => this.#click(),
      onswap: () => this.#swapped(), onend: () => this.#ended(),
    });
    this.transport.pace = this.settings.pace;
    this.#applyHeard();
    this.worker = worker ?? new Worker(new URL("./ticker.js", import.meta.url));
    this.worker.onmessage = () => this.#tick();
    this.ports.addEventListener("change", () => this.#findPort());
    globalThis.addEventListener?.("pagehide", () => this.#hide());
    for (const gesture of ["pointerdown", "keydown"]) {
      globalThis.addEventListener?.(gesture, () => this.playing && this.audio?.resume(), true);
    }
    this.link = link;
    link.addEventListener("state", ({ detail }) => this.#take(detail));
    link.addEventListener("room", ({ detail }) => {
      this.room = detail;
      this.#tell("bed");
    });
    link.addEventListener("line", ({ detail }) => {
      this.#trouble("line", detail.up ? "" : detail.text);
      this.notes.forgetFailed();
    });
    link.addEventListener("playing", () => this.stop());
    if (this.settings.outlet === "midi") {
      this.settings.outlet = "sound";
      this.setOutlet("midi");
    }
  }

  // What there is.

  /** bed is what is heard, or would be. */
  get bed() {
    return this.transport.shown ?? this.newest;
  }

  /** pending is the bed that waits for the next bar line, or null. */
  get pending() {
    return this.newest === this.bed ? null : this.newest;
  }

  get playing() {
    return this.#starting !== null || this.transport.playing;
  }

  get loop() {
    return this.transport.loop;
  }

  get pace() {
    return this.settings.pace;
  }

  get countIn() {
    return this.settings.countIn;
  }

  get heard() {
    return this.settings.heard;
  }

  get loudness() {
    return this.settings.loudness;
  }

  get outlet() {
    return this.settings.outlet;
  }

  get midi() {
    const engine = this;
    const { ports, instruments } = this;
    return {
      supported: ports.supported, allowed: ports.allowed, ports: ports.list, clock: instruments.clock,
      port: instruments.port?.id ?? null, setPort: (id) => engine.setPort(id), setClock: (on) => engine.setClock(on),
    };
  }

  /** progress is how many of the bed's notes are there. */
  get progress() {
    const keys = this.newest ? namesOf(this.newest) : [];
    return { ready: this.notes.ready(keys), needed: keys.length };
  }

  /** left is how many notes were not heard: their sound was not there in time, or their time was past. */
  get left() {
    return { missing: this.sound?.missing ?? 0, late: this.transport.late };
  }

  /** now is what is heard: {bar, at, loop, count}, loop being how often it has begun again. */
  now() {
    if (this.#starting) {
      const { bar } = this.#starting;
      return { bar, at: this.bed.bars[bar].at, loop: 0, count: 0 };
    }
    if (!this.transport.playing) {
      return null;
    }
    const t = this.#heardTime();
    this.transport.tell(t);
    const here = this.transport.heard(t);
    return here && { bar: here.bar, at: here.at, loop: here.turn, count: here.count };
  }

  // What one can do.

  /** play plays from a bar; without one, from where it stopped. */
  play(bar = this.#rest ?? this.loop?.from ?? 0) {
    const { bed } = this;
    if (!bed?.bars.length) {
      return;
    }
    if (this.outlet === "midi" && !this.instruments.port) {
      this.#trouble("port", "No MIDI port is chosen. Choose one, or play plinth's own sound.");
      return;
    }
    const moved = this.playing;
    this.#halt();
    this.#starting = { bar: Math.max(0, Math.min(bar, this.bed.bars.length - 1)), since: performance.now(), moved };
    if (this.outlet === "sound") {
      this.#openSound();
      this.audio.resume();
    }
    this.link.playing();
    this.worker.postMessage("go");
    this.#want();
    this.#tell("change");
    this.#tick();
  }

  stop() {
    if (this.playing) {
      this.#halt();
      this.worker.postMessage("rest");
      this.#trouble("blocked", "");
      this.#tell("change");
    }
  }

  toggle() {
    return this.playing ? this.stop() : this.play();
  }

  /** swapNow plays the newest bed at once. */
  swapNow() {
    if (this.#offered) {
      this.transport.offer(this.#offered.bed);
      this.#offered = null;
    }
    if (this.transport.playing) {
      this.transport.swapNow(this.#clock());
    }
  }

  /** setLoop plays a stretch of bars over and over, both ends included; null plays on. */
  setLoop(from, to = from) {
    const loop = from === null ? null : { from: Math.min(from, to), to: Math.max(from, to) };
    this.transport.setLoop(loop, this.transport.playing ? this.#clock() : 0);
    this.#near = -1;
    this.#tell("change");
  }

  setCountIn(on) {
    this.#set({ countIn: on });
    this.#applyHeard();
  }

  setPace(x) {
    const pace = Math.max(limits.low, Math.min(limits.high, x));
    this.transport.setPace(pace, this.transport.playing ? this.#clock() : 0);
    this.#set({ pace });
  }

  /** setHeard has somebody play or keep silent; the click may be heard in a "count-in" alone. */
  setHeard(who, on) {
    this.#set({ heard: { ...this.heard, [who]: on } });
    this.#applyHeard();
  }

  setLoudness(x) {
    this.sound?.setLoudness(x);
    this.#set({ loudness: x });
  }

  /** setOutlet plays "sound" or "midi"; the browser may have to ask for leave, so it takes a while. */
  async setOutlet(name) {
    if (name === "midi") {
      const wrong = await this.ports.ask();
      this.#trouble("midi", wrong);
      if (wrong) {
        this.#tell("change");
        return;
      }
    }
    const here = this.playing ? this.now() : null;
    this.#halt();
    this.#set({ outlet: name });
    this.#trouble("port", "");
    this.#findPort();
    if (here) {
      this.play(here.bar);
    }
  }

  setPort(id) {
    const port = this.ports.list.find((p) => p.id === id) ?? null;
    this.#set({ port });
    this.#findPort();
  }

  setClock(on) {
    this.instruments.setClock(on);
    this.#set({ clock: on });
  }

  // How it is done.

  async #take(state) {
    const turn = ++this.#loading;
    this.state = state;
    if (this.newest && likeness(state) === this.newest.alike) {
      this.newest.state = state;
      this.newest.revs.add(state.rev);
      this.#tell("bed");
      return;
    }
    this.places.add(state);
    let bed = null;
    try {
      bed = await this.chunks.load(state);
    } catch {
      if (turn === this.#loading) {
        this.#trouble("load", "The bars of the last save could not be had from plinth; it is tried again.");
        setTimeout(() => turn === this.#loading && this.#take(state), 1000);
      }
      return;
    }
    if (turn === this.#loading) {
      this.#trouble("load", "");
      this.#bring(bed);
    }
  }

  /** bring has a new bed follow: at the next bar line once its first notes are there; at once where nothing plays. */
  #bring(bed) {
    const was = this.bed;
    this.newest = bed;
    if (bed.bars.length && !this.transport.playing) {
      this.transport.offer(bed);
      const follow = (bar) => standing(this.places.between(was, bed), bar, bed);
      if (was?.bars.length) {
        this.#rest = this.#rest === null ? null : follow(this.#rest);
        this.#starting &&= { ...this.#starting, bar: follow(this.#starting.bar) };
      }
    } else if (bed.bars.length) {
      this.#offered = { bed, since: performance.now() };
    }
    this.chunks.keep([bed, ...this.transport.beds()]);
    this.#want();
    this.#tell("bed");
    if (!this.transport.playing) {
      this.#tell("swap");
    }
    if (this.sound) {
      this.#openRoom();
    }
  }

  #tick() {
    this.audio?.look();
    const now = performance.now();
    if (this.#starting) {
      const { bar, since, moved } = this.#starting;
      const waits = this.outlet === "sound" &&
        (this.audio.blocked || (now - since < patience && !this.#ready(this.bed, bar)));
      if (!waits) {
        this.#starting = null;
        this.transport.start(bar, this.#clock(), { counted: this.countIn && !moved });
      }
      return;
    }
    if (this.#offered) {
      const { bed, since } = this.#offered;
      if (this.outlet === "midi" || now - since > patience || this.#ready(bed, this.#barIn(bed))) {
        this.#offered = null;
        this.transport.offer(bed);
      }
    }
    if (this.transport.playing && !this.audio?.asleep) {
      this.transport.tick(this.#clock(), this.#heardTime());
      this.#want();
    }
  }

  /** barIn is where the playhead is in a bed. */
  #barIn(bed) {
    const here = this.transport.playing ? this.transport.heard(this.#heardTime()) : null;
    if (!here) {
      return Math.min(this.#starting?.bar ?? this.#rest ?? 0, bed.bars.length - 1);
    }
    return standing(this.places.between(here.bed, bed), here.bar, bed);
  }

  #ready(bed, bar) {
    const keys = nearest(bed, bar, this.loop, 2);
    return this.notes.ready(keys) === keys.length;
  }

  /** want asks for the notes nearest to the playhead, those of the newest bed first. */
  #want() {
    const bed = this.bed;
    if (!bed?.bars.length || this.outlet !== "sound") {
      return;
    }
    const bar = this.#barIn(bed);
    if (bar === this.#near && this.wanted === this.newest) {
      return;
    }
    this.#near = bar;
    this.wanted = this.newest;
    const newest = this.newest.bars.length ? this.newest : bed;
    const first = nearest(newest, this.#barIn(newest), null, 4);
    this.notes.want([...new Set([...first, ...nearest(bed, bar, this.loop), ...namesOf(newest)])]);
  }

  #openSound() {
    if (this.sound) {
      return;
    }
    const context = new AudioContext({ sampleRate: rate, latencyHint: "interactive" });
    this.audio = new AudioClock(context, {
      onblocked: (blocked) => this.#trouble("blocked", blocked && this.playing ?
        "The browser lets no page sound before you have touched it: click into it, or press a key." : ""),
      onsleep: () => this.#woken(),
    });
    this.sound = new Sound(context, this.notes);
    this.sound.setLoudness(this.loudness);
    this.transport.outlet = this.sound;
    this.#applyHeard();
    this.#openRoom();
    this.audio.onblocked(this.audio.blocked);
  }

  async #openRoom() {
    const bank = this.newest?.bank;
    if (bank && this.roomOf !== bank) {
      this.roomOf = bank;
      const impulse = await this.notes.impulse(bank).catch(() => null); // without it the sound is dry
      if (this.roomOf === bank) {
        this.sound.setRoom(impulse);
      }
    }
  }

  /** woken plays the last bar again: the clock stood still, and what was scheduled is all past or wrong. */
  #woken() {
    const here = this.transport.playing ? this.transport.heard(this.audio.now()) : null;
    if (here && this.outlet === "sound") {
      const now = this.#clock();
      this.transport.stop(now);
      const { bed } = this.transport;
      this.transport.start(standing(this.places.between(here.bed, bed), here.bar, bed), now);
    }
  }

  #halt() {
    this.#starting = null;
    if (this.transport.playing) {
      const here = this.transport.stop(this.#clock());
      if (this.#offered) {
        this.transport.offer(this.#offered.bed);
      }
      const { bed } = this.transport;
      this.#rest = here ? standing(this.places.between(here.bed, bed), here.bar, bed) : null;
      if (here && here.bed !== bed) {
        this.#tell("swap");
      }
    }
    this.#offered = null;
  }

  #ended() {
    this.#rest = null;
    this.worker.postMessage("rest");
    this.#tell("change");
  }

  #swapped() {
    this.chunks.keep([this.newest, ...this.transport.beds()]);
    this.#near = -1;
    this.#tell("swap");
  }

  /** hide ends what sounds when the page goes: instruments would sound on. */
  #hide() {
    if (this.outlet === "midi") {
      this.stop();
    }
  }

  #findPort() {
    const { port, outlet } = this.settings;
    const list = this.ports.list;
    const found = this.ports.find(port) ?? (port === null && list.length === 1 ? this.ports.find(list[0]) : null);
    const lost = outlet === "midi" && port !== null && !found;
    this.instruments.setPort(found);
    this.transport.outlet = outlet === "midi" ? this.instruments : this.sound ?? this.instruments;
    this.#trouble("port", lost ? `The MIDI port “${port.name}” is gone. Connect it again, or choose another.` : "");
    this.#tell("change");
  }

  #clock() {
    return Math.round(this.outlet === "midi" ? this.instruments.now() : this.audio.now());
  }

  #heardTime() {
    return this.outlet === "midi" ? this.instruments.now() : this.audio.heard();
  }

  #click() {
    return this.heard.click || (this.countIn ? "count-in" : false);
  }

  #applyHeard() {
    const heard = (part) => (part.who === "click" ? this.#click() !== false : this.heard[part.who] !== false);
    this.instruments.setHeard(heard);
    this.sound?.setHeard(heard);
  }

  #set(some) {
    Object.assign(this.settings, some);
    remember(this.settings, this.store);
    this.#tell("change");
  }

  #trouble(kind, text) {
    if ((this.troubles.get(kind) ?? "") === text) {
      return;
    }
    this.troubles.set(kind, text);
    if (text === "") {
      this.troubles.delete(kind);
    }
    this.dispatchEvent(new CustomEvent("trouble", { detail: { kind, text } }));
  }

  #tell(type) {
    this.dispatchEvent(new Event(type));
  }
}

async function get(path) {
  const answer = await fetch(path);
  if (!answer.ok) {
    throw new Error(`${path}: ${answer.status}`);
  }
  return answer;
}
