// The engine: what the page plays with. It joins the line to plinth, the beds that come by it, and the player,
// and keeps what is set. Its events: "bed" (another state or bed is there), "swap" (another bed is heard),
// "room", "change" (a setting, play or stop), "progress" (more notes are there), and "trouble" with {kind,
// text}, text being "" when the trouble is over. All troubles that last are in `troubles`.
import { Chunks } from "./bed.js";
import { Intake } from "./intake.js";
import { Link } from "./link.js";
import { remember, remembered } from "./memory.js";
import { Notes } from "./notes.js";
import { Places } from "./place.js";
import { Player } from "./player.js";
import { Ports } from "./ports.js";

const patience = 2000; // milliseconds that a note may be late before anybody is told
const lacking = "Some notes could not be had from plinth yet. They are left out, and asked for again.";
const paces = { lowest: 0.5, highest: 1.5 };
const first = {
  pace: 1, countIn: false, loudness: 0.8, outlet: "sound", port: null, clock: false,
  heard: { drums: true, bass: true, piano: true, guide: true, pitch: true, click: "count-in" },
};

export class Engine extends EventTarget {
  constructor() {
    super();
    const had = remembered("settings", {});
    this.settings = { ...first, ...had, heard: { ...first.heard, ...had.heard } };
    this.troubles = new Map();
    this.places = new Places();
    this.notes = new Notes({ get: async (path) => (await get(path)).arrayBuffer(), onchange: () => this.#noted() });
    this.ports = new Ports();
    this.player = new Player({
      settings: this.settings, places: this.places, notes: this.notes, worker: new Worker("/app/ticker.js"),
      tell: (event) => this.#told(event), trouble: (kind, text) => this.#trouble(kind, text),
    });
    this.player.midi.setClock(this.settings.clock);
    this.intake = new Intake({
      chunks: new Chunks(async (hash) => (await get(`/pass/${hash}`)).json()), places: this.places,
      player: this.player, tell: (event) => this.#tell(event), trouble: (kind, text) => this.#trouble(kind, text),
    });
    this.ports.addEventListener("change", () => this.#findPort());
    addEventListener("pagehide", () => this.#hide());
    for (const gesture of ["pointerdown", "keydown"]) {
      addEventListener(gesture, () => this.playing && this.player.audio?.resume(), true);
    }
    this.#listen();
    if (this.settings.outlet === "midi") {
      this.settings.outlet = "sound";
      this.setOutlet("midi");
    }
  }

  #listen() {
    const link = this.link = new Link();
    link.addEventListener("state", ({ detail }) => this.intake.take(detail));
    link.addEventListener("room", ({ detail }) => this.intake.furnish(detail));
    link.addEventListener("line", ({ detail }) => {
      this.#trouble("line", detail.up ? "" : detail.text);
      this.notes.forgetFailed();
      this.#noted();
    });
    link.addEventListener("playing", () => this.stop());
    link.open();
  }

  /** state is the newest, which may be a wrong save's; null before the first. */
  get state() {
    return this.intake.state;
  }

  /** bed is what is heard, or would be; null before the first. One without bars was never right yet. */
  get bed() {
    return this.player.bed;
  }

  /** pending is the bed that waits for the next bar line, or null. */
  get pending() {
    const { newest } = this.player;
    return newest === this.bed || !newest.bars.length ? null : newest;
  }

  /** room is the bed's room for others, where it is known. */
  get room() {
    return this.bed?.room ?? null;
  }

  get playing() {
    return this.player.playing;
  }

  get loop() {
    return this.player.transport.loopHeard;
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
    const { supported, allowed, list } = this.ports;
    const { port, clock } = this.player.midi;
    return {
      supported, allowed, ports: list, clock, port: port?.id ?? null,
      setPort: (id) => this.setPort(id), setClock: (on) => this.setClock(on),
    };
  }

  /** progress is how many of the newest bed's notes are there. */
  get progress() {
    const keys = [...(this.player.newest?.longest.keys() ?? [])];
    return { ready: this.notes.ready(keys), needed: keys.length };
  }

  /** left is how many notes were left out: their sound was not there, or it was too late for them. */
  get left() {
    return { missing: this.player.sound?.missing ?? 0, late: this.player.transport.late };
  }

  /** now is what is heard: {bar, at, loop, count}, or null; see Player. */
  now() {
    return this.player.now();
  }

  /** play plays from a bar; without one, from where it stopped. */
  play(bar) {
    if (!this.bed?.bars.length) {
      return;
    }
    if (this.outlet === "midi" && !this.player.midi.port) {
      this.#trouble("port", "No MIDI port is chosen. Choose one, or play plinth's own sound.");
      return;
    }
    this.link.playing();
    this.player.play(bar);
  }

  stop() {
    this.player.stop();
  }

  toggle() {
    return this.playing ? this.stop() : this.play();
  }

  /** swapNow plays the pending bed at once. */
  swapNow() {
    this.player.swapNow();
  }

  /** setLoop plays a stretch of bars over and over, both ends included; null plays on. */
  setLoop(from, to = from) {
    this.player.setLoop(from === null ? null : { from: Math.min(from, to), to: Math.max(from, to) });
    this.#tell("change");
  }

  setCountIn(on) {
    this.#set({ countIn: on });
    this.player.applyHeard();
  }

  setPace(x) {
    const pace = Math.max(paces.lowest, Math.min(paces.highest, x));
    this.player.setPace(pace);
    this.#set({ pace });
  }

  /** setHeard has somebody play or keep silent; the click may be heard in a "count-in" alone. */
  setHeard(who, on) {
    this.#set({ heard: { ...this.heard, [who]: on } });
    this.player.applyHeard();
  }

  setLoudness(x) {
    const loudness = Math.max(0, Math.min(1, x));
    this.player.setLoudness(loudness);
    this.#set({ loudness });
  }

  /** setOutlet plays "sound" or "midi"; the browser may have to ask for leave, so that takes a while. */
  async setOutlet(name) {
    this.chosen = name;
    const wrong = name === "midi" ? await this.ports.ask() : "";
    if (name !== this.chosen) {
      return;
    }
    this.#trouble("midi", wrong);
    if (!wrong) {
      this.player.setOutlet(name, this.#port());
    }
    this.#set({});
    this.#findPort();
  }

  setPort(id) {
    this.#set({ port: this.ports.list.find((p) => p.id === id) ?? null });
    this.#findPort();
  }

  setClock(on) {
    this.player.midi.setClock(on);
    this.#set({ clock: on });
  }

  /** noted says of notes that cannot be had, if that lasts and is not because plinth is gone. */
  #noted() {
    const lacks = () => this.notes.failed.size > 0 && !this.troubles.has("line");
    const say = () => this.#trouble("notes", lacks() ? lacking : "");
    clearTimeout(this.noting);
    if (lacks()) {
      this.noting = setTimeout(say, patience);
    } else {
      say();
    }
    this.#tell("progress");
  }

  #told(event) {
    if (event === "swap") {
      this.intake.forget();
    }
    this.#tell(event);
  }

  /** hide ends what sounds when the page goes: instruments would sound on. */
  #hide() {
    if (this.outlet === "midi") {
      this.stop();
    }
  }

  /** port is the port that is remembered, or that it plays on, or the only one there is. */
  #port() {
    const { list } = this.ports;
    const only = list.length === 1 ? list[0] : null;
    return this.ports.find(this.settings.port ?? this.player.midi.port ?? only);
  }

  /** findPort plays on the port that is chosen, and says so where it is gone. */
  #findPort() {
    const found = this.#port();
    const { port } = this.settings;
    this.player.midi.setPort(found);
    const lost = this.outlet === "midi" && port !== null && !found;
    this.#trouble("port", lost ? `The MIDI port “${port.name}” is gone. Connect it again, or choose another.` : "");
    if (this.outlet === "midi" && !found) {
      this.stop();
    }
    this.#tell("change");
  }

  #set(some) {
    Object.assign(this.settings, some);
    remember("settings", this.settings);
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
