// The sheet: the bars by pass, in systems as wide as the page. Only what is near the screen is drawn, so that ten
// thousand bars are as quick as ten.

import { el } from "./dom.js";
import { measure, systemsOf } from "./layout.js";
import { emptySystem, fillSystem, paintRoom } from "./system.js";
import { passHead } from "./head.js";

export class Sheet {
  // onResize is called when the page has another width.
  constructor(root, onResize) {
    this.root = root;
    this.line = root.querySelector(".line");
    this.systems = []; // with the node of each, by place
    this.near = new IntersectionObserver(seen => this.#seen(seen), { rootMargin: "900px 0px" });
    this.room = null;
    this.focused = 0;
    let width = 0;
    new ResizeObserver(() => {
      const now = root.clientWidth;
      if (now === width || !this.bed) return;
      width = now;
      this.show(this.bed, this.room);
      onResize();
    }).observe(root);
  }

  // show draws a bed. Passes that are as they were keep their elements, so that the page does not jump.
  show(bed, room) {
    const style = getComputedStyle(this.root);
    const size = measure(this.root.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight));
    const kept = new Map((this.passes || []).map(pass => [pass.key, pass]));
    this.bed = bed;
    this.room = room;
    this.size = size;
    this.passes = bed.chunks.map(place => {
      const head = passHead(bed, place.index);
      const key = JSON.stringify([place.hash, place.index, place.bar, place.first, place.at, size.width,
        head.textContent]);
      return kept.get(key) || this.#pass(bed, place, size, key, head);
    });
    for (const pass of kept.values()) {
      if (!this.passes.includes(pass)) pass.systems.forEach(system => this.near.unobserve(system.node));
    }
    this.systems = this.passes.flatMap(pass => pass.systems);
    for (const system of this.systems) {
      if (system.bed === bed) continue;
      system.bed = bed; // what sounds into it from its neighbours may be new
      if (system.drawn) paintRoom(system.node, system, room);
    }
    this.byBar = [];
    this.systems.forEach(system => {
      for (let bar = system.from; bar < system.to; bar++) this.byBar[bar] = system;
    });
    this.#arrange(kept.values());
    this.focused = Math.min(this.focused, Math.max(bed.bars.length - 1, 0));
    this.#tabStop();
    this.setChanged(this.changed ?? new Set());
  }

  // #arrange puts the passes into the page. Those that stay are not touched, and the keyboard stays on its bar.
  #arrange(before) {
    const at = document.activeElement?.dataset?.bar;
    for (const pass of before) if (!this.passes.includes(pass)) pass.node.remove();
    let next = this.line.nextElementSibling;
    for (const { node } of this.passes) {
      if (node === next) next = next.nextElementSibling;
      else this.root.insertBefore(node, next);
    }
    if (at !== undefined && document.activeElement?.dataset?.bar === undefined) {
      this.barNode(Math.min(Number(at), this.bed.bars.length - 1))?.focus({ preventScroll: true });
    }
  }

  // #pass makes the elements of a pass: its heading and the boxes of its systems.
  #pass(bed, place, size, key, head) {
    const systems = systemsOf(bed, place.bar, place.bars, size);
    const node = el("section", { class: "pass", "aria-labelledby": `head-${place.index}` }, head);
    for (const system of systems) {
      system.node = emptySystem(system);
      system.node.system = system;
      node.append(system.node);
      this.near.observe(system.node);
    }
    return { key, node, systems };
  }

  // showRoom draws windows and free ranges into what is drawn already.
  showRoom(room) {
    this.room = room;
    for (const system of this.systems) if (system.drawn) paintRoom(system.node, system, room);
  }

  #seen(entries) {
    for (const { isIntersecting, target } of entries) {
      if (isIntersecting) this.#draw(target.system);
      else if (target.system.drawn && !target.contains(document.activeElement)) {
        target.system.drawn = false;
        target.replaceChildren();
      }
    }
  }

  #draw(system) {
    if (system.drawn) return;
    system.drawn = true;
    fillSystem(system.node, system, this.room);
    this.#mark(system);
    this.#tabStop();
  }

  // barNode is the button of a bar, drawn if need be.
  barNode(bar) {
    const system = this.byBar?.[bar];
    if (!system) return null;
    this.#draw(system);
    return system.node.querySelector(`[data-bar="${bar}"]`);
  }

  // focus moves the keyboard to a bar.
  focus(bar) {
    const node = this.barNode(bar);
    if (!node) return;
    this.focused = bar;
    this.#tabStop();
    node.focus();
  }

  // #tabStop leaves one bar in the order of the Tab key; arrows move among them.
  #tabStop() {
    this.root.querySelectorAll('.bar[tabindex="0"]').forEach(node => { node.tabIndex = -1; });
    const system = this.byBar?.[this.focused];
    const bar = `[data-bar="${this.focused}"]`;
    const node = system?.drawn ? system.node.querySelector(bar) : this.root.querySelector(".bar");
    if (node) node.tabIndex = 0;
  }

  // setHere marks the bar that plays; -1 marks none.
  setHere(bar) {
    const before = this.here;
    this.here = bar;
    for (const one of [before, bar]) if (this.byBar?.[one]?.drawn) this.#mark(this.byBar[one]);
    const chunk = this.bed?.bars[bar]?.chunk;
    this.passes?.forEach((pass, i) => pass.node.classList.toggle("here", i === chunk));
  }

  // setChanged marks the passes that the last save changed.
  setChanged(changed) {
    this.changed = changed;
    this.passes?.forEach((pass, i) => pass.node.classList.toggle("is-changed", changed.has(i)));
  }

  // setLoop marks the stretch that loops, and start the bar at which a stretch was begun.
  setLoop(loop, start) {
    this.loop = loop;
    this.start = start;
    for (const system of this.systems) if (system.drawn) this.#mark(system);
  }

  #mark(system) {
    for (const node of system.node.querySelectorAll(".bar")) {
      const bar = Number(node.dataset.bar);
      const { loop } = this;
      node.classList.toggle("here", bar === this.here);
      if (bar === this.here) node.setAttribute("aria-current", "true");
      else node.removeAttribute("aria-current");
      node.classList.toggle("looped", Boolean(loop) && bar >= loop.from && bar <= loop.to);
      node.classList.toggle("loop-from", bar === loop?.from || bar === this.start);
      node.classList.toggle("loop-to", bar === loop?.to);
    }
  }

  // placeOf is where a moment lies in the sheet: from its left and top edge, and how high the line is there.
  placeOf(bar, at) {
    const system = this.byBar?.[bar];
    if (!system) return null;
    return { system, x: system.x(at), top: system.field - 4, height: system.height - system.field };
  }
}
