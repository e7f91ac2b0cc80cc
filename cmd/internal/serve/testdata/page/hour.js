// An hour of playing in fast time, and a note's sound by arithmetic.
(() => {
  const T = globalThis.T;
  const rate = 3000; // the least that a context may have: it is counted, not listened to

  /**
   * hour plays a loop of the whole song on an offline context that is fed in steps. save(i) is called often and
   * brings another bed. It tells how much there was of everything, at most, in each sixth of the time.
   */
  T.hour = async (seconds, saves) => {
    const step = 0.2;
    const context = new OfflineAudioContext(1, seconds * rate, rate);
    const notes = await T.allNotes(T.beds);
    const sound = T.sound = new T.Sound(context, notes);
    const tp = new T.Transport({ outlet: sound, places: T.places });
    let heard = 0;
    tp.onswap = () => heard++;
    T.chunks.keep(T.beds);
    let bed = T.beds[0];
    tp.offer(bed);
    tp.setLoop({ from: 0, to: bed.bars.length - 1 }, 0);
    tp.start(0, 0);
    const counts = [];
    let ons = 0;
    const on = sound.on.bind(sound);
    sound.on = (...a) => { ons++; return on(...a); };
    const feed = async (t) => {
      const part = (counts[Math.floor((6 * t) / seconds)] ??= {});
      if (Math.floor((t * saves) / seconds) > Math.floor(((t - step) * saves) / seconds)) {
        const i = await save(Math.floor((t * saves) / seconds));
        const state = T.states.at(-1);
        T.states = [];
        T.places.add(state);
        bed = await T.chunks.load(state);
        tp.offer(bed);
        T.chunks.keep([bed, ...tp.beds()]);
        if (state.says !== `save ${i}`) throw new Error(state.says);
      }
      tp.tick(Math.round(t * 1e6));
      const now = {
        voices: sound.voices.size, groups: sound.groups.size, buses: sound.buses.size, queue: tp.queue.length,
        path: tp.path.length, sounding: tp.sounding.length, chunks: T.chunks.byHash.size, steps: T.places.steps.length,
        kept: notes.kept.size, revs: bed.revs.size,
      };
      for (const [k, n] of Object.entries(now)) part[k] = Math.max(part[k] ?? 0, n);
    };
    await feed(0);
    for (let t = step; t < seconds; t += step) {
      context.suspend(t).then(() => feed(t)).then(() => context.resume(), (e) => { T.failed = e; context.resume(); });
    }
    await context.startRendering();
    if (T.failed) throw T.failed;
    return { counts, heard, ons, late: tp.late, missing: sound.missing };
  };

  /**
   * shaped plays two notes of a class, the first held to a time and the second choking it, and tells how far
   * what is heard is from arithmetic; recalled: the second is taken back before it begins; held: the seconds for
   * which there is sound of the first.
   */
  T.shaped = async ({ off, choke, recalled, held = Infinity }) => {
    const rate = 48000;
    const context = new OfflineAudioContext(2, rate, rate);
    const buffer = new AudioBuffer({ length: rate, numberOfChannels: 1, sampleRate: rate });
    buffer.getChannelData(0).fill(0.5);
    const none = new AudioBuffer({ length: rate, numberOfChannels: 1, sampleRate: rate });
    const sounds = {
      long: { buffer, release: 0.02, group: 7, held }, short: { buffer: none, release: 0.02, group: 7, held: Infinity },
    };
    const sound = new T.Sound(context, { get: (_, name) => sounds[name] });
    const part = { key: "drums/9", who: "drums", level: { gain: 0.8, pan: 0, send: 0 } };
    const bed = { bank: "" };
    const first = sound.on({ note: "long", velocity: 100 }, part, 100000, bed);
    const second = sound.on({ note: "short", velocity: 90 }, part, choke * 1e6, bed);
    sound.off(first, off * 1e6);
    if (recalled) sound.recall(second);
    off = Math.min(off, 0.1 + held);
    const got = (await context.startRendering()).getChannelData(1);
    let far = 0;
    for (let i = 0; i < rate; i++) {
      const t = i / rate;
      let want = t < 0.1 ? 0 : 0.5 * 0.8 * (100 / 127) ** 2;
      if (t > off) want *= Math.exp(-(t - off) / 0.02);
      if (!recalled && t > choke) want *= Math.max(0, 1 - (t - choke) / 0.005);
      if (!recalled && t > choke && off > choke - 1e-9 && t > off) want = 0;
      far = Math.max(far, Math.abs(got[i] - want));
    }
    return far;
  };
})()
