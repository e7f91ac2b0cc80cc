// What the transport plays, as it is written down by an outlet: where it goes at swaps, loops and paces.
(() => {
  const T = globalThis.T;

  const heardOf = (list) => list.map((n) => `${n.t} ${n.part.key} ${n.note.key} ${n.note.velocity}`).sort();

  /** player is a transport over a record. */
  T.player = (recalls, bed, click) => {
    const outlet = new T.Record(recalls);
    const tp = new T.Transport({ outlet, places: T.places, click });
    tp.offer(T.beds[bed]);
    return { tp, outlet };
  };

  /**
   * everyMoment offers a fresh bed at each of many moments. It tells how many there were, at how many
   * lines it came, how many notes came before these, and where what was played is not both beds' bars.
   */
  T.everyMoment = (recalls, from, to, step, old, fresh) => {
    const [a, b] = [T.beds[old], T.beds[fresh]];
    const wrong = [];
    const lines = new Set();
    let early = 0;
    let moments = 0;
    for (let at = from; at < to; at += step, moments++) {
      const { tp, outlet } = T.player(recalls, old);
      let line = null;
      tp.start(0, 0);
      const start = tp.path[0].t;
      T.run(tp, 60e6, {
        [at]: () => tp.offer(b), ...watch(tp, at, to + 5e6, (p) => { line ??= p.x.bed === b ? p : null; }),
      });
      const behind = T.from(b, line.x.bar, b.bars.length - 1, line.t);
      const [want, got] = [heardOf([...T.from(a, 0, line.x.bar - 1, start), ...behind]), heardOf(outlet.played)];
      if (want.join() !== got.join()) wrong.push({ at, line: line.t, lost: less(want, got), more: less(got, want) });
      if (outlet.played.some((n) => n.off === null || n.off <= n.t)) wrong.push({ at, line: line.t, lost: ["an off"] });
      lines.add(line.x.bar);
      early += behind.filter((n) => n.t < line.t).length;
    }
    return { moments, lines: lines.size, early, wrong };
  };

  const less = (a, b) => a.filter((x) => !b.includes(x)).slice(0, 5);

  /** watch looks at the path at each tick between two times. */
  function watch(tp, from, to, look) {
    const out = {};
    for (let t = from; t < to; t += T.tick) out[t + 0.5] = () => tp.path.forEach(look);
    return out;
  }

  /** walk plays and tells the bars that were heard: "bed section ordinal bar", from 0. */
  T.walk = ({ recalls = true, bed = 0, start, until, loop = null, at = [] }) => {
    const { tp } = T.player(recalls, bed);
    if (loop) tp.setLoop({ from: loop[0], to: loop[1] }, 0);
    tp.start(start, 0);
    const plan = {};
    for (const [time, what, ...args] of at) plan[time] = (_, t) => acts[what](tp, t, ...args);
    const seen = [];
    let last = null;
    const see = (t) => {
      const here = tp.heard(t);
      const now = here && `${T.beds.indexOf(here.bed)} ${here.bar} ${here.turn}`;
      if (here && now !== last) {
        const { chunk } = here.bed.bars[here.bar];
        const { section, ordinal, bar } = here.bed.chunks[chunk];
        seen.push(`${T.beds.indexOf(here.bed)} ${section || "front"} ${ordinal} ${here.bar - bar}`);
      }
      last = now;
    };
    for (let t = 0; t < until; t += T.tick) plan[t + 1] = (_, now) => see(now);
    T.run(tp, until, plan);
    return { seen, loop: tp.loop && [tp.loop.from, tp.loop.to], playing: tp.playing };
  };

  /** loops are the loops that there were while each bed was heard, when the second comes in a loop of the first. */
  T.loops = (from, to) => {
    const { tp } = T.player(true, 0);
    tp.setLoop({ from, to }, 0);
    tp.start(from, 0);
    const seen = new Set();
    const look = () => seen.add(`${T.beds.indexOf(tp.shown)} ${tp.loopHeard.from} ${tp.loopHeard.to}`);
    const plan = { 500000: () => tp.offer(T.beds[1]) };
    for (let t = 0; t < 9e6; t += T.tick) plan[t + 1] = look;
    T.run(tp, 9e6, plan);
    return [...seen];
  };

  const acts = {
    offer: (tp, t, bed) => tp.offer(T.beds[bed]),
    loop: (tp, t, from, to) => tp.setLoop(from === null ? null : { from, to }, t),
    now: (tp, t) => tp.swapNow(t),
  };

  /** paced tells how far notes are from where they belong when the pace changes at a time. */
  T.paced = (recalls, at, pace) => {
    const plain = T.player(recalls, 0);
    plain.tp.start(0, 0);
    T.run(plain.tp, 40e6);
    const { tp, outlet } = T.player(recalls, 0);
    let bend = 0;
    tp.start(0, 0);
    T.run(tp, 80e6, { [at]: (_, t) => { bend = Math.max(tp.horizon, t); tp.setPace(pace, t); } });
    const moved = (t) => (t < bend ? t : bend + (t - bend) / pace);
    const far = (key) => outlet.played.map((n, i) => Math.abs(n[key] - moved(plain.outlet.played[i][key])));
    return {
      notes: outlet.played.length, same: plain.outlet.played.length,
      on: Math.max(...far("t")), off: Math.max(...far("off")),
      pulses: Math.max(...outlet.pulses.map((p, i) => Math.abs(p.t - moved(plain.outlet.pulses[i].t)))),
    };
  };

  /** counted tells when the clicks of a count-in come, from the bar on that follows. */
  T.counted = (bar, bed = 0) => {
    const { tp, outlet } = T.player(true, bed, () => "count-in");
    tp.start(bar, 0, { counted: true });
    T.run(tp, 12e6);
    const line = outlet.pulses[0].t;
    return {
      clicks: outlet.played.filter((n) => n.part.who === "click").map((n) => Math.round((n.t - line) / 1000)),
      keys: outlet.played.filter((n) => n.part.who === "click").map((n) => n.note.key),
      early: outlet.played.filter((n) => n.part.who !== "click" && n.t < line).length,
    };
  };

  /** ended tells when the transport stopped, and when the last bar line was. */
  T.ended = () => {
    const { tp, outlet } = T.player(true, 0);
    const last = T.beds[0].bars.length - 1;
    tp.start(last, 0);
    const end = tp.queue.at(-1).end;
    let stopped = null;
    tp.onend = () => { stopped = tp.last; };
    for (let t = 0; t < 20e6 && tp.playing; t += T.tick) {
      tp.last = t;
      tp.tick(t);
    }
    return { end, stopped, tail: outlet.tail, notes: outlet.played.length,
      own: T.from(T.beds[0], last, last, 0).length };
  };
})()
