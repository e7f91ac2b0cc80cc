// What is set once and kept: what loops, how fast, who is heard, how loud, and through what.

import { el, setText } from "./dom.js";

const players = ["drums", "bass", "piano", "guide"];

export class Settings {
  // desk has what more than one place does: see main.js.
  constructor(root, engine, desk) {
    Object.assign(this, { engine, desk, toggles: {} });
    root.append(el("div", { class: "settings", id: "settings" }, this.#loop(), this.#pace(), this.#heard(),
      this.#sound()));
  }

  #loop() {
    const { desk } = this;
    const radio = (value, words) => {
      const input = el("input", { type: "radio", name: "loop", value, onchange: () => desk.setLoop(value) });
      const text = el("span", {}, words);
      this["loop-" + value] = { input, text };
      return el("label", { class: "pill" }, input, text);
    };
    return el("fieldset", { class: "loop" }, el("legend", {}, "Loop"), radio("off", "off"), radio("pass", "this pass"),
      radio("marked", "marked"));
  }

  #pace() {
    const { engine, desk } = this;
    const step = (name, key, sign, by) => el("button", { type: "button", class: name, "aria-label": name,
      "aria-keyshortcuts": key, onclick: () => desk.faster(by) }, sign);
    this.pace = el("output", { class: "figure" });
    this.reset = el("button", { type: "button", class: "reset", "aria-keyshortcuts": "0",
      onclick: () => desk.asWritten() }, "as written");
    this.countIn = el("input", { type: "checkbox", onchange: () => engine.setCountIn(this.countIn.checked) });
    return el("fieldset", { class: "pace" }, el("legend", {}, "Tempo"),
      step("slower", "-", "−", -1), this.pace, step("faster", "+", "+", 1),
      this.reset, el("label", { class: "pill" }, this.countIn, el("span", {}, "count-in")));
  }

  #heard() {
    const { engine, desk } = this;
    const rows = players.map((who, i) => {
      const on = el("input", { type: "checkbox", onchange: () => desk.setHeard(who, on.checked),
        "aria-keyshortcuts": String(i + 1) });
      const alone = el("button", { type: "button", class: "alone", "aria-label": `${who} alone`,
        onclick: () => desk.alone(who) }, "alone");
      const row = el("div", { class: `player ${who}` }, el("label", { class: "pill" }, on, el("span", {}, who)), alone);
      this.toggles[who] = { on, alone, row };
      return row;
    });
    this.click = el("select", { "aria-keyshortcuts": "5", onchange: () => {
      engine.setHeard("click", { off: false, through: true }[this.click.value] ?? "count-in");
    } }, el("option", { value: "off" }, "off"), el("option", { value: "count-in" }, "in front"),
    el("option", { value: "through" }, "all through"));
    return el("fieldset", { class: "heard" }, el("legend", {}, "Heard"), rows,
      el("label", { class: "click" }, el("span", {}, "click"), this.click));
  }

  #sound() {
    const { engine } = this;
    this.loudness = el("input", { type: "range", min: "0", max: "100", step: "1",
      oninput: () => engine.setLoudness(this.loudness.value / 100) });
    const radio = (value, words) => {
      const input = el("input", { type: "radio", name: "outlet", value, onchange: () => engine.setOutlet(value) });
      this["outlet-" + value] = input;
      return el("label", { class: "pill" }, input, el("span", {}, words));
    };
    this.port = el("select", { onchange: () => engine.setPort(this.port.value || null) });
    this.clock = el("input", { type: "checkbox", onchange: () => engine.setClock(this.clock.checked) });
    this.midi = el("div", { class: "midi" }, el("label", { class: "port" }, el("span", {}, "port"), this.port),
      el("label", { class: "pill" }, this.clock, el("span", {}, "clock")));
    this.midiNews = el("p", { class: "midi-news" });
    return el("fieldset", { class: "sound" }, el("legend", {}, "Sound"),
      el("label", { class: "loudness" }, el("span", {}, "loudness"), this.loudness),
      radio("sound", "own sound"), radio("midi", "own instruments"), this.midi, this.midiNews);
  }

  // show brings all controls to what the engine has.
  show({ loopKind, marked, only }) {
    const { engine } = this;
    for (const kind of ["off", "pass", "marked"]) this["loop-" + kind].input.checked = kind === loopKind;
    this["loop-marked"].input.disabled = !marked;
    setText(this["loop-marked"].text, marked || "marked bars");
    setText(this.pace, `${Math.round(engine.pace * 100)} %`);
    this.reset.disabled = Math.abs(engine.pace - 1) < 0.001;
    this.countIn.checked = engine.countIn;
    const there = new Set(engine.bed?.parts.map(part => part.who));
    for (const who of players) {
      const { on, alone, row } = this.toggles[who];
      on.checked = engine.heard[who] !== false;
      alone.setAttribute("aria-pressed", String(only === who));
      row.hidden = who === "guide" && !there.has("guide");
    }
    const { click } = engine.heard;
    this.click.value = click === true ? "through" : click === false ? "off" : "count-in";
    if (document.activeElement !== this.loudness) this.loudness.value = Math.round(engine.loudness * 100);
    this.#showMidi();
  }

  #showMidi() {
    const { outlet, midi } = this.engine;
    this["outlet-sound"].checked = outlet === "sound";
    this["outlet-midi"].checked = outlet === "midi";
    this.midi.hidden = outlet !== "midi" || !midi.supported || !midi.ports.length;
    const ports = midi.ports.map(({ id, name }) => el("option", { value: id, selected: id === midi.port }, name));
    if (midi.port === null) ports.unshift(el("option", { value: "", selected: true }, "choose one"));
    const key = JSON.stringify([midi.ports, midi.port]);
    if (key !== this.ports) this.port.replaceChildren(...ports);
    this.ports = key;
    this.clock.checked = midi.clock;
    let news = "";
    if (!midi.supported) {
      this["outlet-midi"].disabled = true;
      news = "This browser has no Web MIDI. Chromium, Chrome, Edge, Opera and Firefox have it.";
    } else if (outlet === "midi" && !midi.allowed) {
      news = "The browser asks whether this page may use your instruments; or allow MIDI beside the address.";
    } else if (outlet === "midi" && !midi.ports.length) {
      news = "No instrument is there. Switch one on, or start a program that takes MIDI.";
    }
    setText(this.midiNews, news);
    this.midiNews.hidden = !news;
  }
}
