// What a musician has set, kept in the browser from one day to the next.

const name = "plinth";
const first = {
  pace: 1, countIn: false, loudness: 0.8, outlet: "sound", port: null, clock: false,
  heard: { drums: true, bass: true, piano: true, guide: true, pitch: true, click: "count-in" },
};

/** remembered is what was set last, over what is set at first. */
export function remembered(store = globalThis.localStorage) {
  try {
    const had = JSON.parse(store.getItem(name) ?? "{}");
    return { ...first, ...had, heard: { ...first.heard, ...had.heard } };
  } catch {
    return structuredClone(first);
  }
}

/** remember keeps it; where the browser keeps nothing it holds until the page is closed. */
export function remember(settings, store = globalThis.localStorage) {
  try {
    store.setItem(name, JSON.stringify(settings));
  } catch {
    // Nothing is lost but the memory.
  }
}
