// What a musician has set, kept in the browser from one day to the next.

const key = (name) => `plinth.${name}`;

/** remembered is what was set last, or else the usual. */
export function remembered(name, usual) {
  try {
    return JSON.parse(localStorage.getItem(key(name))) ?? usual;
  } catch {
    return usual;
  }
}

/** remember keeps it; where the browser keeps nothing, as in a private window, it holds as long as the page. */
export function remember(name, value) {
  try {
    localStorage.setItem(key(name), JSON.stringify(value));
  } catch {
    // Nothing is lost but the memory.
  }
}
