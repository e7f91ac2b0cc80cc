// The model of a bed: what the server says of a song (State and Chunks) as bars with their notes,
// in microseconds from the start of the file. A note stands in the bar that owns it, though it may
// begin before that bar.

/**
 * @typedef {{who: string, name: string, channel: number, drums: boolean, sounds: {at: number, program: number,
 *   name: string}[], key: string, level: {gain: number, pan: number, send: number}}} Part
 * @typedef {{at: number, length: number, key: number, velocity: number, note: string, program: number,
 *   part: number}} Note  part: index in the bed's parts
 * @typedef {{at: number, length: number, tick: number, ticks: number, chunk: number, number: number, inside: number,
 *   chords: object[], text: string, energy: number, beats: number[], meter: string, events: object[]}} Bar
 */

/** Chunks holds what was fetched, by hash: a chunk that two saves share is fetched and read once. */
export class Chunks {
  /** @param {(hash: string) => Promise<object>} get fetches a chunk */
  constructor(get) {
    this.get = get;
    this.byHash = new Map();
  }

  /** load is the bed of a state, with the chunks that are new fetched. */
  async load(state) {
    const hashes = [...new Set((state.chunks ?? []).map((p) => p.hash))];
    const missing = hashes.filter((h) => !this.byHash.has(h));
    const got = new Map(hashes.map((h) => [h, this.byHash.get(h)])); // they may be forgotten meanwhile
    const next = async () => {
      for (let hash; (hash = missing.shift());) {
        got.set(hash, read(await this.get(hash)));
      }
    };
    await Promise.all([next(), next(), next(), next()]);
    for (const [hash, chunk] of got) {
      this.byHash.set(hash, chunk);
    }
    return new Bed(state, this.byHash);
  }

  /** keep forgets the chunks that none of these beds has. */
  keep(beds) {
    const used = new Set(beds.flatMap((b) => b.chunks.map((c) => c.hash)));
    for (const hash of this.byHash.keys()) {
      if (!used.has(hash)) {
        this.byHash.delete(hash);
      }
    }
  }
}

const stride = 6; // integers a note
const keptRevs = 64;

/** read puts the notes of a chunk into its bars, each bar's by their start. */
function read(chunk) {
  const notes = chunk.bars.map(() => []);
  const longest = new Map(chunk.notes.map((name) => [name, 0]));
  chunk.parts.forEach((flat, part) => {
    for (let i = 0; i < flat.length; i += stride) {
      const note = chunk.notes[flat[i + 4]];
      longest.set(note, Math.max(longest.get(note), flat[i + 1]));
      notes[flat[i + 5]].push({
        at: flat[i], length: flat[i + 1], key: flat[i + 2], velocity: flat[i + 3], note, program: programOf(note), part,
      });
    }
  });
  notes.forEach((list) => list.sort((a, b) => a.at - b.at));
  return { bars: chunk.bars, events: chunk.events ?? [], notes, longest };
}

/** programOf is the program in the name of a bank's note, as d40-38-2 or p0-60-0 have it. */
function programOf(note) {
  return Number.parseInt(note.slice(1), 10) || 0;
}

/** Bed is a song as it is heard. One without bars is a song that was never right yet. */
export class Bed {
  /** @param {object} state @param {Map<string, object>} byHash */
  constructor(state, byHash) {
    this.state = state;
    this.revs = new Set([state.rev]); // the revisions that are this bed: a wrong save has the last good one's
    this.alike = likeness(state);
    this.room = null; // what it leaves free for others, when that is known
    /** @type {Part[]} */
    this.parts = (state.parts ?? []).map((p, i) => ({
      ...p, key: `${p.who}/${p.channel}`, level: state.levels?.[i] ?? { gain: 1, pan: 0, send: 0 },
    }));
    this.lead = state.lead ?? 0;
    this.end = state.end ?? 0;
    this.bank = state.bank?.id ?? "";
    this.named = new Map(); // names, by a bar's notes
    this.holds = state.bank?.holds ?? []; // seconds for which its notes can be asked for
    /** @type {Bar[]} */
    this.bars = [];
    this.chunks = (state.chunks ?? []).map((place, i) => {
      const data = byHash.get(place.hash);
      const chunk = { ...place, index: i, bar: this.bars.length, data };
      data.bars.forEach((b, j) => this.bars.push({
        ...b, at: place.at + b.at, tick: place.tick + b.tick, number: place.first + j, chunk: i,
        index: this.bars.length,
        beats: b.beats.map((x) => x + place.at),
        chords: (b.chords ?? []).map((c) => ({ ...c, at: c.at + place.at })),
        events: data.events.filter((e) => e.bar === j)
          .map((e) => ({ ...e, at: e.at + place.at, end: e.end + place.at })),
      }));
      return chunk;
    });
    this.tempos = state.tempos?.length ? state.tempos : [{ tick: 0, at: 0, quarter: 500000 }];
    this.#measureEarly();
  }

  /** tell has it be the bed of a later state too: of a wrong save, or of one that is heard and read alike. */
  tell(state) {
    this.state = state;
    this.revs.add(state.rev);
    if (this.revs.size > keptRevs) {
      this.revs.delete(Math.min(...this.revs));
    }
  }

  #measureEarly() {
    this.earlies = this.bars.map((bar, i) => {
      const list = this.#own(i);
      return list.length ? Math.max(0, bar.at - list[0].at - this.#offset(i)) : 0;
    });
    this.early = Math.max(0, ...this.earlies);
  }

  #offset(bar) {
    return this.chunks[this.bars[bar].chunk].at;
  }

  #own(bar) {
    const chunk = this.chunks[this.bars[bar].chunk];
    return chunk.data.notes[bar - chunk.bar];
  }

  /**
   * notes are those that a bar owns, by their start.
   * @param {number} bar @returns {Note[]}
   */
  notes(bar) {
    const offset = this.#offset(bar);
    return this.#own(bar).map((n) => ({ ...n, at: n.at + offset }));
  }

  /** names are the bank's notes that a bar plays, as the bank's paths: one list for bars that are the same. */
  names(bar) {
    const own = this.#own(bar);
    if (!this.named.has(own)) {
      this.named.set(own, [...new Set(own.map((n) => `${this.bank}/${n.note}`))]);
    }
    return this.named.get(own);
  }

  /** longest are all notes of the bank that it plays, by path, with the longest time for which each is held. */
  get longest() {
    if (!this.all) {
      this.all = new Map();
      for (const [name, length] of this.chunks.flatMap((c) => [...c.data.longest])) {
        const path = `${this.bank}/${name}`;
        this.all.set(path, Math.max(this.all.get(path) ?? 0, length));
      }
    }
    return this.all;
  }

  /** barAt is the index of the bar at a time. */
  barAt(at) {
    let low = 0;
    for (let high = this.bars.length - 1; low < high;) {
      const middle = (low + high + 1) >> 1;
      if (this.bars[middle].at <= at) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }
}

/** likeness is equal for states that sound and read the same. */
export function likeness(state) {
  const { chunks, tempos, parts, levels, bank, lead, end } = state;
  return JSON.stringify([chunks?.map((c) => [c.hash, c.at, c.tick, c.name, c.first]), tempos, parts, levels, bank, lead,
    end]);
}
