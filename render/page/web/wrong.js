// A wrong save: each mistake with its source line, the place underlined, as the terminal shows it. Doubts are folded
// away under their number.

import { el } from './dom.js';

export class Wrong {
  constructor(root) {
    this.root = root;
  }

  // show says what is wrong with the last save, or nothing. playing is whether there is a bed that plays on.
  show({ ok, wrong = [], doubts = [] }, playing) {
    const key = JSON.stringify([ok, wrong, doubts, playing]);
    if (key === this.key) return;
    this.key = key;
    const out = [];
    if (!ok && wrong.length) {
      const many = wrong.length === 1 ? 'A mistake' : `${wrong.length} mistakes`;
      out.push(el('div', { class: 'mistakes' },
        el('h2', { id: 'wrong-head', tabindex: '-1' }, `${many} in the last save`),
        el('p', { class: 'still' }, playing ? 'The last good bed plays on.' : 'There is nothing to play yet.'),
        wrong.map(diagnostic)));
    }
    if (doubts.length) {
      const head = doubts.length === 1 ? 'One doubt' : `${doubts.length} doubts`;
      out.push(el('details', { class: 'doubts', open: this.root.querySelector('details')?.open },
        el('summary', {}, el('h2', { id: out.length ? 'doubts-head' : 'wrong-head' }, head)), doubts.map(diagnostic)));
    }
    this.root.hidden = out.length === 0;
    this.root.classList.toggle('is-wrong', !ok && wrong.length > 0);
    this.root.replaceChildren(...out);
  }
}

// summaryOf is what is said aloud of a wrong save.
export function summaryOf({ wrong = [] }) {
  if (!wrong.length) return 'The last save is wrong.';
  const { line, summary, severity } = wrong[0];
  const more = wrong.length > 1 ? ` And ${wrong.length - 1} more.` : '';
  return `${severity === 'error' ? 'Mistake' : 'Doubt'}${line ? ` in line ${line}` : ''}: ${summary}.${more}`;
}

function diagnostic({ summary, detail, file, line, column, lines = [] }) {
  const place = file ? `${file}:${line}:${column}` : '';
  return el('article', { class: 'diagnostic' },
    el('h3', {}, place && el('span', { class: 'place' }, place), ' ', summary),
    lines.length > 0 && el('pre', { tabindex: '0', 'aria-label': `line ${line}` }, lines.map(source)),
    detail && el('p', { class: 'detail' }, detail));
}

// source is a line of the song file, with the place underlined. A tab is as wide as the terminal makes it.
function source({ n, text, from, to }) {
  const marked = Number.isInteger(from) && Number.isInteger(to);
  const row = el('span', { class: marked ? 'source marked' : 'source' }, el('span', { class: 'n' }, String(n)));
  const code = el('code');
  if (!marked) code.append(text || ' ');
  else if (from >= text.length) code.append(text, el('mark', {}, ' '.repeat(Math.max(to - from, 1))));
  else code.append(text.slice(0, from), el('mark', {}, text.slice(from, Math.max(to, from + 1))), text.slice(Math.max(to, from + 1)));
  row.append(code, '\n');
  return row;
}
