// @ts-check
/** A take as the service laid it out, and the borders that are moved in it. Knows nothing of the page. */

/** @typedef {{ first: number, last: number, moved: boolean, about: any }} TakeSet places of its first and last frame */

export class Take {
  /** @param {any} answer of the service */
  constructor(answer) {
    this.names = /** @type {string[]} */ (answer.inOrder);
    this.answer = answer;
    const places = new Map(this.names.map((name, at) => [name, at]));
    /** @type {TakeSet[]} */
    this.sets = answer.sets.map((/** @type {any} */ about) => ({ first: places.get(about.first), last: places.get(about.last), moved: about.isByHand, about }));
    const inSets = new Set(answer.sets.flatMap((/** @type {any} */ set) => set.files));
    /** Frames between those of a set that are no part of it. */
    this.out = new Set(this.names.flatMap((name, at) => (!inSets.has(name) && this.around(at) ? [at] : [])));
  }

  /** @param {number} at */
  around = at => this.sets.find(set => at >= set.first && at <= set.last);

  /** @param {number} at @returns {TakeSet | undefined} the set that a frame belongs to */
  setAt = at => (this.out.has(at) ? undefined : this.around(at));

  /** A border pushes those of other sets before it; a set without frames is gone. @param {TakeSet} set @param {'first' | 'last'} end @param {number} to */
  move(set, end, to) {
    if (to < 0 || to >= this.names.length || to === set[end] || (end === 'first' ? to > set.last : to < set.first)) return false;
    set[end] = to;
    set.moved = true;
    for (const other of this.sets) {
      if (other === set || other.last < set.first || other.first > set.last) continue;
      other.moved = true;
      if (other.first < set.first) other.last = set.first - 1;
      else other.first = set.last + 1;
    }
    this.sets = this.sets.filter(each => each.first <= each.last);
    return true;
  }

  /** @param {number} at where a set is to begin */
  beginAt(at) {
    const around = this.around(at);
    if (around?.first === at) return;
    const next = this.sets.find(set => set.first > at);
    this.sets.push({ first: at, last: around?.last ?? (next ? next.first : this.names.length) - 1, moved: true, about: null });
    if (around) Object.assign(around, { last: at - 1, moved: true });
    this.sets.sort((a, b) => a.first - b.first);
  }

  /** Takes a frame out of its set, or puts it back. @param {number} at */
  takeOut(at) {
    const around = this.around(at);
    if (!around) return;
    around.moved = true;
    if (!this.out.delete(at)) this.out.add(at);
  }

  /** Of the sets that were moved; the service sorts the others anew. */
  get borders() {
    const moved = this.sets.filter(set => set.moved);
    const inside = moved.map(set => this.namesOf(set)).filter(names => names.length > 0);
    return { sets: inside.map(names => ({ first: names[0], last: names.at(-1) })), loose: [...this.out].filter(at => moved.includes(/** @type {TakeSet} */ (this.around(at)))).map(at => this.names[at]) };
  }

  /** @param {TakeSet} set */
  namesOf = set => this.names.slice(set.first, set.last + 1).filter((_, i) => !this.out.has(set.first + i));

  /** Names set by set, a blank line between. */
  get text() {
    return this.sets.map((set, i) => [`# set ${i + 1}`, ...this.namesOf(set), ''].join('\n')).join('\n');
  }

  /** By RFC 4180. */
  get csv() {
    const quoted = (/** @type {string} */ name) => (/[",\r\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name);
    const rows = this.names.map((name, at) => {
      const set = this.setAt(at);
      return `${quoted(name)},${set ? this.sets.indexOf(set) + 1 : ''}`;
    });
    return ['file,set', ...rows, ''].join('\r\n');
  }
}
