// The outlet of our own sound: the bank's notes, each with the gain of its touch and an exponential
// release, in a bus a part, with one reverb for all. It plays on any audio context, an offline one too.

const choke = 0.005; // seconds in which a note fades that another of its class ends
const ramps = 4; // of which that is made
const silent = 9.226; // time constants after which a released note is over: -80 dB
const fade = 0.01; // seconds in which a part is muted

/** Sound is an outlet of the transport. */
export class Sound {
  ahead = 250000;
  recalls = true;
  tail = 2500000;
  busy = 0;

  /**
   * @param {BaseAudioContext} context
   * @param {{get: (bank: string, name: string) => {buffer: AudioBuffer, release: number, group: number,
   *   held: number} | null}} notes
   */
  constructor(context, notes) {
    this.context = context;
    this.notes = notes;
    this.buses = new Map(); // by the part's key
    this.groups = new Map(); // voices of an exclusive class, by part and class, in the order of their starts
    this.voices = new Set();
    this.missing = 0; // notes left out because they were not there in time
    this.heard = () => true;
    this.master = context.createGain();
    this.master.connect(context.destination);
    this.room = context.createConvolver();
    this.room.normalize = false;
    this.room.connect(this.master);
  }

  /** setRoom sets the reverb's impulse. */
  setRoom(buffer) {
    this.room.buffer = buffer;
  }

  setLoudness(x) {
    this.master.gain.setTargetAtTime(x, this.context.currentTime, fade / 3);
  }

  /** setHeard fades parts in and out by what heard says of them. */
  setHeard(heard) {
    this.heard = heard;
    for (const bus of this.buses.values()) {
      bus.input.gain.setTargetAtTime(heard(bus.part) ? 1 : 0, this.context.currentTime, fade / 5);
    }
  }

  /** bus is where a part's notes go: mute, level, place, and its share of the reverb. */
  #bus(part) {
    const had = this.buses.get(part.key);
    if (had) {
      if (had.part !== part) {
        had.part = part;
        this.#level(had);
      }
      return had;
    }
    const c = this.context;
    const bus = {
      part, input: c.createGain(), level: c.createGain(), pan: c.createStereoPanner(), send: c.createGain(),
    };
    bus.input.gain.value = this.heard(part) ? 1 : 0;
    bus.input.connect(bus.level).connect(bus.pan).connect(this.master);
    bus.pan.connect(bus.send).connect(this.room);
    this.#level(bus);
    this.buses.set(part.key, bus);
    return bus;
  }

  #level({ part: { level }, level: gain, pan, send }) {
    gain.gain.value = level.gain;
    pan.pan.value = level.pan;
    send.gain.value = level.send;
  }

  /** on starts a note; null: the bank's note is not there. */
  on(note, part, t, bed) {
    const sound = this.notes.get(bed.bank, note.note);
    if (!sound) {
      this.missing++;
      return null;
    }
    if (!sound.buffer) {
      return null; // the bank has nothing for the key
    }
    const at = seconds(t, this.context.sampleRate);
    const source = this.context.createBufferSource();
    source.buffer = sound.buffer;
    const gain = this.context.createGain();
    gain.channelCountMode = "explicit"; // a buffer of one channel is the same on both sides
    gain.channelCount = 2;
    const touch = (note.velocity / 127) ** 2;
    gain.gain.value = touch;
    source.connect(gain).connect(this.#bus(part).input);
    source.start(at);
    const off = at + sound.held; // what is held for longer fades before its sound is cut off
    const voice = { source, gain, at, touch, release: sound.release, off, choked: Infinity, end: Infinity,
      group: sound.group ? `${part.key}/${sound.group}` : null };
    this.voices.add(voice);
    source.onended = () => this.#free(voice);
    if (off < Infinity) {
      this.#shape(voice, off);
    }
    if (voice.group) {
      const list = this.groups.get(voice.group) ?? [];
      this.groups.set(voice.group, list);
      list.push(voice);
      list.sort((a, b) => a.at - b.at);
      this.#rechoke(list);
    }
    return voice;
  }

  /** off releases a note. */
  off(voice, t) {
    const off = Math.max(seconds(t, this.context.sampleRate), voice.at);
    if (off < voice.off) {
      voice.off = off;
      this.#shape(voice, off);
    }
  }

  /** recall takes back a note that has not begun. */
  recall(voice) {
    voice.source.onended = null;
    voice.source.stop();
    this.#free(voice);
    const list = this.groups.get(voice.group);
    if (list) {
      this.#rechoke(list);
    }
  }

  /** silence releases all that sounds at a time and takes back what would begin later. */
  silence(t) {
    const at = seconds(t, this.context.sampleRate);
    for (const voice of [...this.voices]) {
      if (voice.at >= at) {
        this.recall(voice);
      } else if (voice.off > at) {
        voice.off = at;
        this.#shape(voice, at);
      }
    }
  }

  program() {} // each note says itself what it is played on
  pulse() {}
  stop() {}

  /** rechoke has each voice of a class end where the next begins. */
  #rechoke(list) {
    list.forEach((voice, i) => {
      const next = list.slice(i + 1).find((v) => v.at > voice.at)?.at ?? Infinity;
      if (next !== voice.choked) {
        const from = Math.min(next, voice.choked);
        voice.choked = next;
        this.#shape(voice, from);
      }
    });
  }

  /** shape writes how a voice ends, from a time on: by its release, or choked where that is first. */
  #shape({ source, gain: { gain }, at, touch, release, off, choked }, from) {
    gain.cancelScheduledValues(from);
    let end = at + source.buffer.duration + 1;
    if (off < choked) {
      if (off >= from) {
        gain.setTargetAtTime(0, off, release);
      }
      end = Math.min(end, off + silent * release);
    }
    if (choked < end) {
      end = choked + choke;
      const left = (t) => touch * Math.exp(-Math.max(0, choked - off, off < choked ? t - off : 0) / release);
      gain.setValueAtTime(left(choked), choked);
      for (let i = 1; i <= ramps; i++) { // a release goes on meanwhile
        const t = choked + (choke * i) / ramps;
        gain.linearRampToValueAtTime(left(t) * (1 - i / ramps), t);
      }
    }
    source.stop(end);
  }

  #free(voice) {
    voice.source.disconnect();
    voice.gain.disconnect();
    this.voices.delete(voice);
    const list = this.groups.get(voice.group);
    if (list) {
      list.splice(list.indexOf(voice), 1);
      if (!list.length) {
        this.groups.delete(voice.group);
      }
    }
  }
}

/** seconds is a time on a whole frame: between frames a sound would be filtered. */
export function seconds(t, rate) {
  return Math.round((t * rate) / 1e6) / rate;
}
