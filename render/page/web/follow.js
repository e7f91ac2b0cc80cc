// The sheet follows the line, until the reader scrolls by himself.

import { still } from "./dom.js";

export class Follow {
  // onChange is called when it stops or begins to follow.
  constructor(sheet, onChange) {
    this.sheet = sheet;
    this.onChange = onChange;
    this.on = true;
    const away = () => this.set(false);
    addEventListener("wheel", away, { passive: true });
    addEventListener("touchmove", away, { passive: true });
    addEventListener("keydown", event => {
      if (["PageUp", "PageDown", "Home", "End", "ArrowUp", "ArrowDown"].includes(event.key) &&
        event.target === document.body) away();
    });
    addEventListener("pointerdown", event => { // on the scroll bar
      if (event.target === document.documentElement) away();
    });
  }

  set(on) {
    if (this.on === on) return;
    this.on = on;
    this.onChange(on);
  }

  // show brings the system of a bar into view, where it is not there whole, with the next one after it.
  show(bar, always = false) {
    if (!this.on && !always) return;
    const system = this.sheet.byBar?.[bar];
    if (!system || system === this.shown && !always) return;
    this.shown = system;
    const { top, bottom } = system.node.getBoundingClientRect();
    const from = edge("#form", "bottom"), to = edge("#ledge", "top");
    const wanted = Math.min(bottom + (bottom - top), bottom + 220);
    if (top >= from + 8 && (wanted <= to || bottom <= to && bottom - top > (to - from) / 2)) return;
    scrollTo({ top: scrollY + top - from - 48, behavior: still() || always ? "auto" : "smooth" });
  }
}

// edge is where what sticks to the top or to the bottom of the window leaves the sheet free.
function edge(selector, side) {
  const node = document.querySelector(selector);
  const sticks = getComputedStyle(node).position === "sticky";
  if (!sticks) return side === "bottom" ? 0 : innerHeight;
  return node.getBoundingClientRect()[side];
}
