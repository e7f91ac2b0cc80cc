// The MIDI ports of this computer, asked for only when somebody wants them.

/** Ports are the outputs that the browser shows, and what keeps it from showing them. */
export class Ports extends EventTarget {
  constructor() {
    super();
    this.access = null;
    this.refused = "";
  }

  get supported() {
    return typeof navigator.requestMIDIAccess === "function";
  }

  /** allowed is null as long as nobody has asked. */
  get allowed() {
    return this.access ? true : this.refused ? false : null;
  }

  /** ask has the browser ask for leave; it returns what is wrong, or "". */
  async ask() {
    if (this.access) {
      return "";
    }
    if (!this.supported) {
      return "This browser has no Web MIDI, so it cannot play your instruments. Chromium, Chrome, Edge, Opera and " +
        "Firefox have it.";
    }
    try {
      this.access = await navigator.requestMIDIAccess({ sysex: false });
      this.refused = "";
      this.access.onstatechange = () => this.dispatchEvent(new Event("change"));
    } catch {
      this.refused = "The browser was not allowed to use MIDI. Allow it for this page in the browser's settings of " +
        "the site, and choose your instruments again.";
    }
    return this.refused;
  }

  /** list are the ports that are connected. */
  get list() {
    return this.#connected.map((p) => ({ id: p.id, name: p.name ?? "no name" }));
  }

  get #connected() {
    const outputs = this.access ? [...this.access.outputs.values()] : [];
    return outputs.filter((p) => p.state !== "disconnected");
  }

  /** find is the port of a remembered {id, name}: ids may change from one day to the next. */
  find(remembered) {
    const there = remembered ? this.#connected : [];
    return there.find((p) => p.id === remembered.id && p.name === remembered.name) ??
      there.find((p) => p.name === remembered.name) ?? there.find((p) => p.id === remembered.id) ?? null;
  }
}
