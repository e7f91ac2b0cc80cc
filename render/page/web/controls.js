// The row with which one plays: play, from the top, where it is, and what has come of the last save.

import { el, setText } from "./dom.js";
import { passName } from "./head.js";
import { barName } from "./system.js";

// Controls is that row. desk is what its buttons do: see main.js.
export class Controls {
  constructor(root, engine, desk) {
    this.engine = engine;
    const button = (name, words, hint, does) => {
      const node = el("button", { type: "button", class: name, onclick: does, "aria-keyshortcuts": hint },
        el("span", { class: "words" }, ...words));
      this[name] = node;
      return node;
    };
    button("play", ["Play"], "Space", () => desk.toggle());
    button("top", [el("span", { class: "wide" }, "From the "), el("span", { class: "last" }, "top")], "t",
      () => desk.fromTheTop());
    button("swap", ["Play the saved now"], "s", () => desk.swapNow());
    button("mistake", ["To the mistake"], "w", () => desk.toWrong());
    button("changed", ["To what changed"], "c", () => desk.toChanged());
    button("back", ["Back to the line"], "f", () => desk.follow());
    button("more", ["More"], null, () => this.setOpen(this.more.getAttribute("aria-expanded") !== "true"));
    button("keys", ["Keys"], "?", () => desk.help());
    this.more.setAttribute("aria-expanded", "false");
    this.more.setAttribute("aria-controls", "settings");
    this.place = el("p", { class: "place" }, this.pass = el("span", { class: "pass-name" }),
      this.bar = el("span", { class: "bar-name" }), this.time = el("span", { class: "time" }));
    this.root = root;
    this.trouble = el("p", { class: "trouble" });
    root.append(this.trouble, el("div", { class: "row" }, this.play, this.top, this.place,
      el("div", { class: "saved" }, this.mistake, this.swap, this.changed, this.back), this.keys, this.more));
    for (const node of [this.mistake, this.swap, this.changed, this.back]) node.hidden = true;
    setInterval(() => { if (engine.playing) this.tell(); }, 500);
  }

  setOpen(open) {
    this.more.setAttribute("aria-expanded", String(open));
    this.root.classList.toggle("open", open);
  }

  // show brings all buttons to the state of the engine.
  show({ pending, changed, following }) {
    const { engine } = this;
    setText(this.play.firstChild, engine.playing ? "Stop" : "Play");
    this.play.classList.toggle("playing", engine.playing);
    this.play.disabled = this.top.disabled = !engine.bed?.bars.length;
    this.mistake.hidden = engine.state?.ok !== false;
    this.swap.hidden = !pending;
    this.changed.hidden = changed === 0;
    this.back.hidden = following;
    setText(this.trouble, [...engine.troubles.values()].join(" "));
    this.trouble.hidden = engine.troubles.size === 0;
    this.tell();
  }

  // tell says where the line is.
  tell() {
    const { engine } = this;
    const { bed } = engine;
    const now = bed?.bars.length ? engine.now() : null;
    const first = bed?.bars[bed.lead]?.at ?? 0; // the outline counts from bar 1, too
    if (!now || !bed.bars[now.bar]) {
      setText(this.pass, bed?.bars.length ? "stopped" : "");
      setText(this.bar, "");
      setText(this.time, bed?.bars.length ? length(bed.end - first) : "");
      return;
    }
    setText(this.pass, passName(bed.chunks[bed.bars[now.bar].chunk]));
    setText(this.bar, now.count ? "count-in" : barName(bed, now.bar));
    setText(this.time, `${length(now.at - first)} of ${length(bed.end - first)}`);
  }
}

// length is a time in minutes and seconds; in front of bar 1 it is negative.
function length(micros) {
  const seconds = Math.abs(Math.floor(micros / 1e6));
  return `${micros < 0 ? "−" : ""}${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
