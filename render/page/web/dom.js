// Elements are made here: texts only ever as text, so that a title or a cue carries no markup.

const svgSpace = "http://www.w3.org/2000/svg";

// el is an element with attributes and children. An attribute that is false or null is left out, one
// that is true has an empty value, and onNAME adds a listener.
export function el(name, attributes = {}, ...children) {
  return fill(document.createElement(name), attributes, children);
}

// svg is an element of a drawing.
export function svg(name, attributes = {}, ...children) {
  return fill(document.createElementNS(svgSpace, name), attributes, children);
}

function fill(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? "" : value);
  }
  node.append(...children.flat().filter(child => child || child === 0));
  return node;
}

// setText changes a text only where it is another one, so that nothing is laid out or read out again.
export function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

// still says that the reader has asked for as little motion as possible.
const motion = matchMedia("(prefers-reduced-motion: reduce)");
export const still = () => motion.matches;

// textWidth is how wide a text is in a font, as the canvas measures it, without laying anything out.
let context;
export function textWidth(text, font) {
  context ||= document.createElement("canvas").getContext("2d");
  context.font = font;
  return context.measureText(text).width;
}
