// The outlet for instruments, on ports that keep W3C's interface (Web MIDI API, MIDIOutput) and write down.
(() => {
  const T = globalThis.T;

  T.Port = class {
    constructor(id, name) {
      Object.assign(this, { id, name, manufacturer: "", version: "", type: "output", state: "connected" });
      this.connection = "open";
      this.sent = []; // [microseconds, ...bytes], in the order of their times, as they reach the instrument
    }
    send(data, timestamp = performance.now()) {
      if (this.state === "disconnected") throw new DOMException("gone", "InvalidStateError");
      if (!data.length || data[0] < 0x80 || data.some((b) => !Number.isInteger(b) || b < 0 || b > 255) ||
        data.slice(1).some((b) => b > 127)) throw new TypeError(`no MIDI message: ${data}`);
      const length = { 0x8: 3, 0x9: 3, 0xb: 3, 0xc: 2 }[data[0] >> 4] ?? (data[0] === 0xf2 ? 3 : 1);
      if (data.length !== length) throw new TypeError(`a message of another length: ${data}`);
      this.sent.push([Math.round(timestamp * 1000), ...data]);
    }
    get arrived() {
      return this.sent.map((m, i) => [m, i]).sort((a, b) => a[0][0] - b[0][0] || a[1] - b[1]).map(([m]) => m);
    }
  };

  /** sender is a transport over instruments. */
  T.sender = (bed, { clock = false, click = true, guide = false } = {}) => {
    const port = new T.Port("1", "Synth");
    const outlet = new T.Midi();
    outlet.setHeard((part) => part.who !== "guide" && part.who !== "pitch" || guide, 0);
    outlet.setPort(port, 0);
    outlet.clock = clock;
    const tp = new T.Transport({ outlet, places: T.places, click: () => click });
    tp.offer(T.beds[bed]);
    return { tp, outlet, port };
  };

  /** sends is what a song sends from a bar on, and when its first line was. */
  T.sends = (bed, bar, options) => {
    const { tp, port } = T.sender(bed, options);
    tp.start(bar, 0);
    const { start } = tp.queue[0];
    T.run(tp, start + T.beds[bed].end + 2e6);
    return { start, from: T.beds[bed].bars[bar].at, tick: T.beds[bed].bars[bar].tick, sent: port.arrived };
  };

  /** left are the notes that nothing ends, and the offs that come before their notes. */
  T.left = (port) => {
    const on = new Map();
    const wrong = [];
    for (const [t, status, key, velocity] of port.arrived) {
      const id = `${status & 15}/${key}`;
      if (status >> 4 === 9 && velocity > 0) {
        if (on.has(id)) wrong.push(`${id} twice at ${t}`);
        on.set(id, t);
      } else if (status >> 4 === 8) {
        on.delete(id);
      } else if (status >> 4 === 11 && key === 123 && [...on.keys()].some((x) => x.startsWith(`${status & 15}/`))) {
        wrong.push(`${id}: only control 123 ends a note at ${t}`);
      }
    }
    return [...wrong, ...[...on].map(([id, t]) => `${id} from ${t}`)];
  };

  const ends = {
    stop: (tp, t) => { tp.stop(t); },
    port: (tp, t) => tp.outlet.setPort(new T.Port("2", "Other"), t),
    mute: (tp, t) => tp.outlet.setHeard(() => false, t),
    again: (tp, t) => { tp.stop(t); tp.start(2, t); },
    now: (tp, t) => { tp.offer(T.beds[1]); tp.swapNow(t); },
  };

  /** endsAll ends what sounds at many moments, and tells what is left. */
  T.endsAll = (how, from, to, step) => {
    const wrong = [];
    let moments = 0;
    let sounding = 0;
    for (let at = from; at < to; at += step, moments++) {
      const { tp, outlet, port } = T.sender(0, { clock: true });
      tp.start(0, 0);
      let sent = 0;
      T.run(tp, at + 200000, { [at]: (_, t) => {
        sounding += outlet.sounding.size;
        ends[how](tp, t);
        sent = port.sent.length;
      } });
      if (tp.playing && outlet.port === port && how !== "mute") tp.stop(at + 300000);
      else if (port.sent.length > sent && how !== "mute") wrong.push(`${at}: it was sent on`);
      const last = port.arrived.findLast((m) => m[1] >> 4 < 15);
      if (last[1] >> 4 !== 11) wrong.push(`${at}: the last is ${last}`);
      wrong.push(...T.left(port).map((x) => `${at}: ${x}`));
      if (how !== "mute" && !port.arrived.some((m) => m[1] === 0xfc)) wrong.push(`${at}: the clock runs on`);
    }
    return { moments, sounding, wrong: wrong.slice(0, 5) };
  };

  /** follows is what those who follow the clock are told in a loop and at a swap. */
  T.follows = (loop) => {
    const { tp, port } = T.sender(0, { clock: true });
    tp.setLoop({ from: loop[0], to: loop[1] }, 0);
    tp.start(loop[0], 0);
    const { start } = tp.queue[0];
    T.run(tp, 9e6);
    return port.arrived.filter((m) => m[1] >= 0xf0).map(([t, ...bytes]) => [t - start, ...bytes]);
  };

  /** stood is what those who follow the clock are told where nothing ticks from one time to another. */
  T.stood = (from, to) => {
    const { tp, port } = T.sender(0, { clock: true });
    tp.start(0, 0);
    T.run(tp, from);
    T.run(tp, to + 2e6, {}, to);
    return port.sent.filter((m) => m[1] >= 0xf0);
  };
})()
