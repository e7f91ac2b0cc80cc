// The swap, as it sounds: the transport on an offline context that is fed in steps.
(async () => {
  const T = globalThis.T;
  const rate = 48000;
  const step = 0.1; // seconds

  T.allNotes = async (beds) => {
    const notes = new T.Notes({ get: async (path) => (await fetch(path)).arrayBuffer() });
    const wanted = new Map(beds.flatMap((b) => [...b.longest]).map(([key]) => [key, 12]));
    const keys = [...wanted.keys()];
    await new Promise((done) => {
      notes.onchange = () => notes.ready(keys) === keys.length && done();
      notes.want(wanted);
    });
    if (notes.failed.size) throw new Error("notes are missing");
    return notes;
  };

  /** played renders what a transport plays; at has what is done at some times. */
  T.played = async (seconds, notes, bed, at, room = null) => {
    const context = new OfflineAudioContext(2, seconds * rate, rate);
    const sound = new T.Sound(context, notes);
    sound.setRoom(room);
    const tp = new T.Transport({ outlet: sound, places: T.places });
    tp.offer(bed);
    const lines = [];
    const ticked = (t) => {
      const times = Object.keys(at).map(Number).filter((x) => x <= t);
      times.forEach((x) => { at[x](tp, t); delete at[x]; });
      tp.tick(t);
      tp.path.forEach((p) => { lines.some((l) => l.x === p.x) || lines.push(p); });
    };
    tp.start(0, 0);
    ticked(0);
    for (let t = step; t < seconds; t += step) {
      context.suspend(t).then(() => { ticked(Math.round(t * 1e6)); context.resume(); });
    }
    const buffer = await context.startRendering();
    return { buffer, lines: lines.filter((l) => tp.path.includes(l) || l.t < 1e6 * seconds), tp, sound };
  };

  /** file is what is heard of the first bed from its first line on: a channel's samples as base 64 of floats. */
  T.file = async (seconds, channel) => {
    const [bed] = T.beds;
    const notes = await T.allNotes([bed]);
    const { buffer, lines } = await T.played(seconds, notes, bed, {}, await notes.impulse(bed.bank));
    const from = buffer.getChannelData(channel).subarray(Math.round(lines[0].t * 0.048));
    const bytes = new Uint8Array(from.buffer, from.byteOffset, from.byteLength);
    let text = "";
    for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
    return btoa(text);
  };

  /** whole renders notes that are all there from the start, without any transport. */
  T.whole = async (seconds, notes, list) => {
    const context = new OfflineAudioContext(2, seconds * rate, rate);
    const sound = new T.Sound(context, notes);
    for (const { note, part, t, bed } of list) {
      const voice = sound.on(note, part, t, bed);
      sound.off(voice, t + note.length);
    }
    return context.startRendering();
  };

  /** differ are the largest differences of two renders before a frame and from there on. */
  T.differ = (a, b, frame) => {
    const out = { before: 0, after: 0, peak: 0 };
    for (let c = 0; c < 2; c++) {
      const [x, y] = [a.getChannelData(c), b.getChannelData(c)];
      for (let i = 0; i < x.length; i++) {
        const side = i < frame ? "before" : "after";
        out[side] = Math.max(out[side], Math.abs(x[i] - y[i]));
        out.peak = Math.max(out.peak, Math.abs(x[i]));
      }
    }
    return out;
  };

  /**
   * swapAt offers the second bed at a time (microseconds) and says how what is heard differs from both beds
   * put together at the bar line, and from the first alone.
   */
  T.swapAt = async (time, seconds) => {
    const [a, b] = T.beds;
    const notes = await T.allNotes([a, b]);
    const { buffer, lines, sound } = await T.played(seconds, notes, a, { [time]: (tp) => tp.offer(b) });
    const line = lines.find((l) => l.x.bed === b);
    const start = lines[0].t;
    const cut = line.x.bar;
    const old = T.from(a, 0, a.bars.length - 1, start).filter(({ note }) => owner(a, note) < cut);
    const fresh = T.from(b, cut, b.bars.length - 1, line.t);
    const first = Math.min(...fresh.map((n) => n.t));
    const joined = await T.whole(seconds, notes, [...old, ...fresh]);
    const alone = await T.whole(seconds, notes, T.from(a, 0, a.bars.length - 1, start));
    return {
      bar: cut, line: line.t, start, first, missing: sound.missing,
      joined: T.differ(buffer, joined, Math.round(first * 0.048)),
      alone: T.differ(buffer, alone, Math.round(first * 0.048)),
    };
  };

  function owner(bed, note) {
    return bed.bars.findIndex((_, i) => bed.notes(i).some((n) => n.at === note.at && n.key === note.key &&
      n.part === note.part));
  }
})()
