// The moving line, in the sheet and in the strip. While it plays each frame only moves two elements that are drawn
// already; what has to be laid out happens once a bar. Who wants less motion has a line that steps by beats.

import { still } from './dom.js';

export class Line {
  // onBar is called with each bar that begins to sound, -1 when nothing does.
  constructor(engine, sheet, form, onBar) {
    Object.assign(this, { engine, sheet, form, onBar, bar: -1, system: null });
  }

  // refresh draws the line where it is, and goes on while it plays.
  refresh() {
    this.system = null;
    if (this.running) return;
    this.running = true;
    requestAnimationFrame(() => this.#frame());
  }

  #frame() {
    const { engine, sheet } = this;
    const now = engine.bed ? engine.now() : null;
    const bar = now ? Math.min(now.bar, engine.bed.bars.length - 1) : -1;
    const shown = bar >= 0 && sheet.bed === engine.bed;
    if (shown) this.#move(bar, now.at);
    else if (!now) this.#hide();
    if (bar !== this.bar) {
      this.bar = bar;
      this.onBar(bar);
    }
    this.running = engine.playing;
    if (this.running) requestAnimationFrame(() => this.#frame());
  }

  #move(bar, moment) {
    const { sheet, form } = this;
    const at = still() ? this.#beat(bar, moment) : moment;
    const place = sheet.placeOf(bar, at);
    if (!place) return;
    if (place.system !== this.system) {
      this.system = place.system;
      this.top = place.system.node.offsetTop + place.top;
      this.left = place.system.node.offsetLeft;
      sheet.line.style.height = place.height + 'px';
      sheet.line.hidden = form.line.hidden = false;
    }
    put(sheet.line, this.left + place.x, this.top);
    const along = form.placeOf(sheet.bed.bars[bar].chunk, at);
    if (along !== null) put(form.line, along, 0);
  }

  // #beat is the beat of a bar that has begun at a moment.
  #beat(bar, moment) {
    const { at, beats } = this.sheet.bed.bars[bar];
    return beats.findLast(beat => beat <= moment) ?? at;
  }

  #hide() {
    this.sheet.line.hidden = this.form.line.hidden = true;
    this.system = null;
  }
}

// put moves an element by half pixels, and only where that is another place.
function put(node, x, y) {
  const transform = `translate(${Math.round(x * 2) / 2}px, ${y}px)`;
  if (node.at === transform) return;
  node.at = transform;
  node.style.transform = transform;
}
