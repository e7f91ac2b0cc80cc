// What comes from plinth: states become beds, rooms are given to theirs.
import { likeness } from "./bed.js";

const again = 1000; // milliseconds before chunks that could not be had are asked for once more

export class Intake {
  #turn = 0; // counts states: only the newest is loaded to its end
  #room = null; // one whose bed is still to come

  /**
   * @param {object} o
   * @param {import("./bed.js").Chunks} o.chunks
   * @param {import("./place.js").Places} o.places
   * @param {import("./player.js").Player} o.player
   * @param {(event: string) => void} o.tell  "bed" or "room"
   * @param {(kind: string, text: string) => void} o.trouble
   */
  constructor({ chunks, places, player, tell, trouble }) {
    Object.assign(this, { chunks, places, player, tell, trouble });
    this.state = null;
  }

  /** take takes a state: of a bed that there is already, with other words, or of another bed. */
  take(state) {
    const turn = ++this.#turn;
    const alike = likeness(state);
    this.#compare(state, alike);
    const had = this.player.beds().find((bed) => bed.alike === alike);
    this.state = state;
    if (had !== this.player.newest || !had) {
      this.places.add(state);
    }
    if (!had) {
      this.#load(state, turn);
      return;
    }
    had.tell(state);
    this.#bring(had);
  }

  /** compare forgets all revisions where another plinth speaks, which counts them from 1 again. */
  #compare(state, alike) {
    const was = this.state;
    if (was && (state.rev < was.rev || (state.rev === was.rev && alike !== likeness(was)))) {
      this.places.forget();
      this.player.beds().forEach((bed) => bed.revs.clear());
      this.#room = null;
    }
  }

  async #load(state, turn) {
    let bed = null;
    try {
      bed = await this.chunks.load(state);
    } catch {
      if (turn === this.#turn) {
        this.trouble("load", "The bars of the last save could not be had from plinth; they are asked for again.");
        setTimeout(() => turn === this.#turn && this.#load(state, turn), again);
      }
    }
    if (bed && turn === this.#turn) {
      this.#bring(bed);
    }
  }

  #bring(bed) {
    this.trouble("load", "");
    if (bed !== this.player.newest) {
      this.player.bring(bed);
    }
    this.forget();
    this.furnish();
    this.tell("bed");
  }

  /** furnish gives a room to the bed that it is of. */
  furnish(room = this.#room) {
    const { newest } = this.player;
    this.#room = room;
    if (room && newest?.revs.has(room.rev)) {
      newest.room = room;
      this.#room = null;
      this.tell("room");
    }
  }

  /** forget drops the chunks of beds of which nothing is to be heard any more. */
  forget() {
    this.chunks.keep(this.player.beds());
  }
}
