// @ts-check
/** What the user did, to be undone and done again. */

const MostKept = 100;

/** @template T */
export class History {
  /** @type {T[]} */
  #states = [];
  #at = -1;

  /** @param {T} state what follows from now on; what had been undone is forgotten */
  push(state) {
    this.#states = [...this.#states.slice(0, this.#at + 1), state].slice(-MostKept);
    this.#at = this.#states.length - 1;
  }

  get now() { return this.#states[this.#at]; }
  get canUndo() { return this.#at > 0; }
  get canRedo() { return this.#at < this.#states.length - 1; }

  /** @param {-1 | 1} step back or forth, where there is one */
  go(step) {
    this.#at += step;
    return this.now;
  }
}
