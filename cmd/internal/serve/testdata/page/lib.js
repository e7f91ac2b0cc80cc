// What the tests of the page's engine share. Members of T are called from Go.
(async () => {
  const T = globalThis.T = {};
  T.load = async (...names) => Object.assign({}, ...await Promise.all(names.map((n) => import(`/app/${n}.js`))));
  Object.assign(T, await T.load("bed", "place", "transport", "sound", "notes", "midi", "tempo"));

  T.chunks = new T.Chunks(async (hash) => (await fetch(`/pass/${hash}`)).json());
  T.places = new T.Places();
  T.beds = [];
  const waiting = [];
  T.states = [];
  const source = new EventSource("/events");
  source.addEventListener("state", ({ data }) => {
    T.states.push(JSON.parse(data));
    waiting.splice(0).forEach((go) => go());
  });
  T.close = () => source.close();

  /** next is the bed of the next state that says so. */
  T.next = async (says) => {
    for (let state; ;) {
      while ((state = T.states.shift())) {
        T.places.add(state);
        let had = T.beds.findIndex((bed) => bed.alike === T.likeness(state));
        if (had < 0 && state.says === says) had = T.beds.push(await T.chunks.load(state)) - 1;
        T.beds[had]?.revs.add(state.rev);
        if (state.says === says) return had;
      }
      await new Promise((go) => waiting.push(go));
    }
  };

  /** Record is an outlet that writes down what it gets. */
  T.Record = class {
    constructor(recalls) {
      Object.assign(this, { recalls, ahead: recalls ? 250000 : 60000, tail: 500000, busy: 0, all: [], pulses: [] });
    }
    on(note, part, t, bed) {
      const n = { note, part, t, bed, off: null };
      this.all.push(n);
      return n;
    }
    off(n, t) { n.off = t; }
    recall(n) {
      if (!this.recalls) throw new Error("what was sent is called back");
      n.gone = true;
    }
    program() {}
    pulse(tick, t) { this.pulses.push({ tick, t }); }
    silence(t) {
      for (const n of this.all) {
        n.gone ||= n.t >= t && this.recalls;
        n.off = n.off === null || n.off > t ? Math.max(t, n.t) : n.off;
      }
    }
    stop() {}
    get played() { return this.all.filter((n) => !n.gone).sort((a, b) => a.t - b.t); }
  };

  /** from are the notes of a stretch of a bed's bars, its first bar at t. */
  T.from = (bed, first, last, t) => {
    const out = [];
    for (let bar = first; bar <= last; bar++) {
      for (const note of bed.notes(bar)) {
        const part = bed.parts[note.part];
        if (part.who === "click" && bar >= bed.lead) continue;
        out.push({ note, part, bed, t: Math.round(t + note.at - bed.bars[first].at) });
      }
    }
    return out;
  };

  T.tick = 25000;
  /** run ticks a transport up to a time; at has what is done at some times. */
  T.run = (tp, until, at = {}, from = 0) => {
    const times = Object.keys(at).map(Number).sort((a, b) => a - b);
    for (let t = from; t <= until && (t === from || tp.playing); t += T.tick) {
      while (times.length && times[0] <= t) at[times.shift()](tp, t);
      tp.tick(t);
    }
  };
})()
