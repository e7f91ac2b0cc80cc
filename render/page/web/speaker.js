// Our own sound in real time: an audio context with its clock, its outlet and its reverb.
import { AudioClock } from "./audioclock.js";
import { rate } from "./notes.js";
import { Sound } from "./sound.js";

export class Speaker {
  /**
   * @param {import("./notes.js").Notes} notes
   * @param {{onblocked: () => void, onsleep: () => void}} on
   */
  constructor(notes, on) {
    // What plays is planned ahead, so that larger buffers cost nothing but a moment at a stop.
    const context = new AudioContext({ sampleRate: rate, latencyHint: "playback" });
    this.notes = notes;
    this.clock = new AudioClock(context, on);
    this.sound = new Sound(context, notes);
    this.bank = "";
  }

  /** furnish has the reverb of a bank; where it cannot be had the sound is dry until it is furnished again. */
  async furnish(bank) {
    if (bank && bank !== this.bank) {
      this.bank = bank;
      const impulse = await this.notes.impulse(bank).catch(() => null);
      if (bank === this.bank) {
        this.sound.setRoom(impulse);
        this.bank = impulse ? bank : "";
      }
    }
  }
}
