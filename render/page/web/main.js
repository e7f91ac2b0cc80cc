// The page: the engine that plays, and what is seen of it.

import { Engine } from "./engine.js";
import { setText } from "./dom.js";
import { Sheet } from "./sheet.js";
import { Form } from "./form.js";
import { Line } from "./line.js";
import { Follow } from "./follow.js";
import { Controls } from "./controls.js";
import { Settings } from "./settings.js";
import { Wrong } from "./wrong.js";
import { News } from "./news.js";
import { Keys } from "./keys.js";
import { Desk } from "./desk.js";
import { passName } from "./head.js";

const find = selector => document.querySelector(selector);

const engine = new Engine();
const sheet = new Sheet(find("#sheet"), () => show());
const news = new News(engine);
const desk = new Desk(engine, sheet, text => news.say(text), () => show());
const form = new Form(find("#form"), chunk => desk.choose(engine.bed.chunks[chunk].bar),
  () => line.refresh());
const line = new Line(engine, sheet, form, onBar);
const wrong = new Wrong(find("#wrong"));
const controls = new Controls(find("#ledge"), engine, desk);
const settings = new Settings(find("#ledge"), engine, desk);
const keys = new Keys(find("#help"), desk);
desk.help = () => keys.help();
desk.follower = new Follow(sheet, () => show());

// onBar is told each bar that begins to sound, and -1 when it stops.
let pass;
function onBar(bar) {
  sheet.setHere(bar);
  controls.tell();
  const chunk = engine.bed?.bars[bar]?.chunk;
  form.setHere(chunk);
  if (bar >= 0 && engine.playing) desk.follower.show(bar);
  if (chunk !== pass && chunk !== undefined && engine.playing) news.say(passName(engine.bed.chunks[chunk]));
  pass = chunk;
}

// drawBed draws the song that plays, where it is another than before.
let drawn;
function drawBed() {
  const { bed } = engine;
  if (!bed || bed === drawn) return;
  const wasMarked = desk.loopKind() === "marked";
  const { title, by, only } = bed.state.song;
  setText(find("#title"), only ? `${title}: ${only}` : title);
  setText(find("#by"), by);
  document.title = title;
  if (bed.bars.length) {
    form.show(bed);
    sheet.show(bed, engine.room);
    if (drawn) desk.swapped(wasMarked);
  }
  performance.mark("drawn");
  drawn = bed;
}

// show brings everything to the state of the engine.
function show() {
  drawBed();
  const { bed } = engine;
  const { state } = engine;
  if (state) wrong.show(state, Boolean(bed?.bars.length));
  desk.pending = Boolean(engine.pending);
  news.show(state, desk.pending);
  const kind = desk.loopKind();
  controls.show({ pending: desk.pending, changed: bed?.state.changed?.length ?? 0, following: desk.follower.on });
  settings.show({ loopKind: kind, marked: desk.markedWords(), only: desk.only() });
  if (bed?.bars.length) {
    const changed = new Set(bed.state.changed);
    form.setChanged(changed);
    sheet.setChanged(changed);
    sheet.setLoop(engine.loop, desk.start);
    form.setLoop(engine.loop);
    for (const who of ["drums", "bass", "piano", "guide"]) {
      sheet.root.classList.toggle(`no-${who}`, engine.heard[who] === false);
    }
    line.refresh();
  }
}

for (const name of ["bed", "swap", "change", "trouble"]) engine.addEventListener(name, show);

// Notes come by the dozen.
let telling = 0;
engine.addEventListener("progress", () => {
  telling ||= setTimeout(() => {
    telling = 0;
    news.show(engine.state, desk.pending);
  }, 200);
});
engine.addEventListener("room", () => { if (sheet.bed === engine.bed) sheet.showRoom(engine.room); });
engine.addEventListener("trouble", event => news.trouble(event.detail));

sheet.root.addEventListener("click", event => {
  const bar = event.target.closest(".bar")?.dataset.bar;
  if (bar === undefined) return;
  if (event.shiftKey) desk.markTo(Number(bar));
  else desk.choose(Number(bar));
});
sheet.root.addEventListener("keydown", event => {
  const bar = event.target.dataset?.bar;
  if (bar === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
  const across = sheet.size.bars;
  const move = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -across, ArrowDown: across }[event.key];
  if (move && !event.shiftKey) {
    event.preventDefault();
    const to = Number(bar) + move;
    if (to >= 0 && to < engine.bed.bars.length) sheet.focus(to);
  } else if (event.key === " ") {
    event.preventDefault();
    if (engine.playing) engine.stop();
    else desk.choose(Number(bar));
  }
});
sheet.root.addEventListener("keyup", event => {
  if (event.key === " " && event.target.dataset?.bar !== undefined) event.preventDefault();
});
find("#ledge").addEventListener("click", event => { // who uses the mouse has the keys for the sheet again
  if (event.detail > 0 && event.target.closest("button")) event.target.closest("button").blur();
});

show();
