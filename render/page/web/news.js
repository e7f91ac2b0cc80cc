// What the last save came to, in words, for the eye and for the ear.

import { setText } from "./dom.js";
import { summaryOf } from "./wrong.js";

export class News {
  constructor(engine) {
    this.engine = engine;
    this.said = document.querySelector("#said");
    this.news = document.querySelector("#news");
    this.coming = document.querySelector("#coming");
    this.bank = document.querySelector("#bank");
  }

  // say tells those who hear the page something, in their own time.
  say(text) {
    setText(this.said, text);
  }

  // show tells of a state that is new, and what is still to come of it.
  show(state, pending) {
    if (state && state.rev !== this.rev) {
      const first = this.rev === undefined;
      this.rev = state.rev;
      const time = new Date().toLocaleTimeString("en-GB");
      const says = state.says.split(/ {2,}/).join(" · ");
      const words = state.ok ? says : summaryOf(state);
      setText(this.news, first && state.ok ? says : `${time} · ${words}`);
      this.news.classList.toggle("is-wrong", !state.ok);
      if (!first || !state.ok) this.say(state.ok ? `Saved: ${says}` : summaryOf(state));
    }
    const { progress, bed } = this.engine;
    const words = [];
    if (pending) words.push("It plays from the next bar line on.");
    const { ready, needed } = progress;
    if (ready < needed) words.push(`${ready} of ${needed} sounds are ready.`);
    setText(this.coming, words.join(" "));
    this.coming.hidden = words.length === 0;
    const bank = (state?.bank ?? bed?.state.bank);
    if (bank) {
      setText(this.bank, bank.sketch ? "Sound: a sketch, which plinth computes itself. --soundfont plays a real one."
        : `Sound: ${bank.name}`);
    }
  }

  // trouble tells at once of what goes wrong, and that it is over.
  trouble({ text }) {
    this.say(text || "It is in order again.");
  }
}
