// The engine of the page, without the page: what it does in real time, and what it tells.
(async () => {
  const T = globalThis.T;
  T.close();
  Object.assign(T, await T.load("engine", "audioclock"));

  T.ports = [];
  /** midi is what the browser has of MIDI: "none", "refused" or ports by name. */
  T.midi = (what) => {
    T.access = { outputs: new Map(), inputs: new Map(), onstatechange: null, sysexEnabled: false };
    const request = async () => {
      if (what === "refused") throw new DOMException("no", "NotAllowedError");
      return T.access;
    };
    Object.defineProperty(navigator, "requestMIDIAccess", { configurable: true, writable: true,
      value: what === "none" ? undefined : request });
    if (Array.isArray(what)) {
      what.forEach((name, i) => T.access.outputs.set(String(i), new T.Port(String(i), name)));
    }
  };

  T.start = () => {
    T.events = [];
    const engine = T.engine = new T.Engine();
    for (const type of ["bed", "swap", "room", "change"]) engine.addEventListener(type, () => T.events.push(type));
    engine.addEventListener("trouble", ({ detail }) => T.events.push(`${detail.kind}: ${detail.text}`));
  };

  /** until waits for something to be so; what is not within a minute never is. */
  T.until = async (is, what = String(is)) => {
    for (const end = performance.now() + 60000; !is();) {
      if (performance.now() > end) throw new Error(`waited in vain: ${what}; ${T.events.slice(-5)}`);
      await new Promise((go) => setTimeout(go, 10));
    }
  };

  /** moved waits until the playhead has gone on for some bars' microseconds. */
  T.moved = async (micros) => {
    const bars = T.engine.bed;
    let last = T.engine.now()?.at ?? 0;
    let gone = 0;
    await T.until(() => {
      const at = T.engine.now()?.at ?? last;
      if (at < last && T.engine.bed === bars && !T.engine.loop) throw new Error(`back from ${last} to ${at}`);
      gone += Math.max(0, at - last);
      last = at;
      return gone >= micros;
    }, `${micros} µs of playing`);
  };

  /** loud is the loudest sample that is heard within a while. */
  T.loud = async () => {
    const { context, master } = T.engine.player.sound;
    const meter = context.createAnalyser();
    master.connect(meter);
    const wave = new Float32Array(meter.fftSize);
    let loud = 0;
    await T.until(() => {
      meter.getFloatTimeDomainData(wave);
      loud = Math.max(loud, ...wave.map(Math.abs));
      return loud > 0.01;
    }, "a sound");
    master.disconnect(meter);
    return loud;
  };

  /** ready waits until the newest bed says so and the notes of its next bars are there. */
  T.ready = async (says) => {
    const near = (bed) => bed.names(T.engine.now().bar).every((key) => T.engine.notes.kept.has(key));
    const there = () => T.engine.player.newest.state.says === says && near(T.engine.player.newest);
    while (!there()) {
      await new Promise((go) => {
        T.engine.addEventListener("bed", go, { once: true });
        T.engine.addEventListener("progress", go, { once: true });
      });
    }
  };

  T.trouble = (kind) => T.engine.troubles.get(kind) ?? "";

  /** clocked looks at a clock that stands at the times given in milliseconds, and tells how often it slept. */
  T.clocked = (pairs) => {
    const context = { state: "running", currentTime: 0 };
    let slept = 0;
    const clock = new T.AudioClock(context, { onsleep: () => slept++ });
    for (const [page, audio] of pairs) {
      context.currentTime = audio / 1000;
      clock.look(page);
    }
    return slept;
  };
})()
