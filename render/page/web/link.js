// The line to plinth: one stream of events for all tabs, because a browser opens only six connections to a
// host. One tab leads and has the stream; it tells the others. Where tabs cannot talk, each has its own.

const patience = 1500; // milliseconds that a leader has to answer
const pauses = [1000, 2000, 5000]; // milliseconds before it tries again

/**
 * Link has the events "state" and "room" with their value as detail, "line" with {up, text}, and "playing"
 * when another tab has begun to play.
 */
export class Link extends EventTarget {
  constructor() {
    super();
    this.latest = {}; // the last message of each kind, as text
    this.source = null;
    this.leads = false;
    this.tries = 0;
    this.up = null;
    this.tabs = globalThis.BroadcastChannel ? new BroadcastChannel("plinth") : null;
  }

  /** open begins to listen: to the tab that leads, or to plinth itself. */
  open() {
    if (!this.tabs || !navigator.locks) {
      this.#open();
      return;
    }
    this.tabs.onmessage = ({ data }) => this.#told(data);
    navigator.locks.request("plinth-stream", () => this.#lead()).catch(() => this.#open());
    this.#ask();
    document.addEventListener("visibilitychange", () => document.hidden || this.leads || this.#ask());
  }

  /** playing tells the other tabs that this one sounds now. */
  playing() {
    this.tabs?.postMessage({ kind: "playing" });
  }

  /** lead keeps the lock for as long as the tab is there. */
  #lead() {
    this.leads = true;
    clearTimeout(this.asking);
    if (!this.source) {
      this.#open();
    }
    return new Promise(() => {});
  }

  /** ask wants all that the leader knows; one that does not answer may be asleep. */
  #ask() {
    this.tabs.postMessage({ kind: "ask" });
    clearTimeout(this.asking);
    this.asking = setTimeout(() => this.source || this.#open(), patience);
  }

  #told({ kind, name, text, up }) {
    if (kind === "playing") {
      this.dispatchEvent(new Event("playing"));
    } else if (kind === "ask" && this.leads) {
      if (this.source.readyState === 2) { // it may be another plinth's tab that asks: try at once
        clearTimeout(this.trying);
        this.#open();
        return;
      }
      this.#share({ kind: "line", up: this.up?.up ?? false, text: this.up?.text ?? "" });
      for (const [name, text] of Object.entries(this.latest)) {
        this.#share({ kind: "event", name, text });
      }
    } else if (kind === "event" && !this.leads) {
      this.#led();
      this.#take(name, text);
    } else if (kind === "line" && !this.leads) {
      this.#led();
      this.#line(up, text);
    }
  }

  /** led gives up a stream of our own, for there is a leader who speaks. */
  #led() {
    clearTimeout(this.asking);
    clearTimeout(this.trying);
    this.source?.close();
    this.source = null;
  }

  #share(message) {
    if (this.leads) {
      this.tabs.postMessage(message);
    }
  }

  #open() {
    const source = new EventSource("/events");
    this.source = source;
    source.onopen = () => {
      this.tries = 0;
      this.#line(true, "");
    };
    source.onerror = () => {
      if (this.source !== source) {
        return;
      }
      if (source.readyState !== 2) { // it tries again by itself
        this.#line(false, "plinth does not answer. The bed plays on; what you save comes when plinth is back.");
        return;
      }
      this.#refused(source);
    };
    for (const name of ["state", "room"]) {
      source.addEventListener(name, ({ data }) => {
        this.#share({ kind: "event", name, text: data });
        this.#take(name, data);
      });
    }
  }

  /** refused is a stream that the browser has given up: plinth is gone, or is another one with another key. */
  async #refused(source) {
    const answer = await fetch("/", { method: "HEAD", cache: "no-store" }).catch(() => null);
    if (this.source !== source) {
      return;
    }
    this.#line(false, answer?.status === 403 ?
      "plinth has begun again with another key. Open the address that it printed." :
      "plinth does not answer. The bed plays on; run plinth watch --page again and open the address that it prints.");
    clearTimeout(this.trying);
    this.trying = setTimeout(() => this.#open(), pauses[Math.min(this.tries++, pauses.length - 1)]);
  }

  #take(name, text) {
    if (this.latest[name] !== text) {
      this.latest[name] = text;
      this.dispatchEvent(new CustomEvent(name, { detail: JSON.parse(text) }));
    }
  }

  #line(up, text) {
    if (this.up?.up !== up || this.up.text !== text) {
      this.up = { up, text };
      this.#share({ kind: "line", up, text });
      this.dispatchEvent(new CustomEvent("line", { detail: this.up }));
    }
  }
}
