// Chord symbols as they are printed and as they are spoken.

import { el } from "./dom.js";

const symbol = /^([A-G])([b#]*)(.*?)(?:\/([A-G])([b#]*))?$/;

const printedSigns = { b: "♭", "#": "♯" };
const printed = signs => signs.replace(/[b#]/g, sign => printedSigns[sign]);

// split parts a symbol into root, quality and bass; null for what has no root, such as N.C.
function split(text) {
  const found = symbol.exec(text);
  if (!found) return null;
  const [, letter, signs, quality, bass, bassSigns] = found;
  return { letter, signs, quality, bass, bassSigns };
}

// chordNodes are the pieces of a chord in type: a large root, a smaller quality, the bass after a slash.
export function chordNodes(text) {
  const parts = split(text);
  if (!parts) return [el("span", { class: "none" }, text)];
  const out = [parts.letter];
  if (parts.signs) out.push(el("span", { class: "accidental" }, printed(parts.signs)));
  if (parts.quality) {
    out.push(el("span", { class: "quality" }, parts.quality.replace(/[b#](?=\d)/g, sign => printedSigns[sign])));
  }
  if (parts.bass) out.push(el("span", { class: "over" }, "/" + parts.bass + printed(parts.bassSigns)));
  return out;
}

// spokenNote is a note's name in words: "E flat".
function spokenNote(letter, signs) {
  return letter + signs.replace(/b/g, " flat").replace(/#/g, " sharp");
}

// spokenQualities are what the pieces of a quality are called, longest first.
const spokenQualities = [
  ["m(maj7)", "minor major seventh"], ["m7b5", "half-diminished"], ["dim7", "diminished seventh"],
  ["dim", "diminished"],
  ["maj", "major"], ["aug", "augmented"], ["sus24", "suspended second and fourth"], ["sus4", "suspended fourth"],
  ["sus2", "suspended second"], ["sus", "suspended"], ["alt", "altered"], ["add", "added"], ["no", "without"],
  ["6/9", "six nine"], ["m", "minor"], ["b", "flat"], ["#", "sharp"], ["13", "thirteenth"], ["11", "eleventh"],
  ["9", "ninth"], ["7", "seventh"], ["6", "sixth"], ["5", "fifth"], ["4", "fourth"], ["2", "second"], ["3", "third"],
];

// spokenChord is a chord in words: "F minor over C".
export function spokenChord(text) {
  if (text === "N.C.") return "no chord";
  const parts = split(text);
  if (!parts) return text;
  const words = [spokenNote(parts.letter, parts.signs)];
  let rest = parts.quality;
  while (rest) {
    const found = spokenQualities.find(([written]) => rest.startsWith(written));
    if (found) words.push(found[1]);
    rest = rest.slice(found ? found[0].length : 1);
  }
  if (parts.bass) words.push("over", spokenNote(parts.bass, parts.bassSigns));
  return words.join(" ");
}

// spokenCount is a count in words: "4 and", "2 e".
export function spokenCount(count) {
  const tails = { "&": " and", t: " trip", l: " let", e: " e", a: " a" };
  return count.replace(/[&tlea]/, tail => tails[tail]);
}
