// @ts-check
/** The contact sheet: every frame in the order it was shot, with bars that open and close the sets. */
import { html } from '../draw/elements.js';
import { print } from '../draw/take.js';

/** @typedef {import('../think/take.js').Take} Take */
/** @typedef {import('../think/take.js').TakeSet} TakeSet */

const Marks = { whole: 'whole', notWhole: 'not whole', uncertain: 'uncertain' };

export class TakeSheet {
  /** @param {HTMLElement} place @param {HTMLElement} said @param {() => void} onMoved */
  constructor(place, said, onMoved) {
    this.place = place;
    this.said = said;
    this.onMoved = onMoved;
    place.addEventListener('keydown', event => this.onKey(event));
    place.addEventListener('pointerdown', event => this.onPointer(event));
  }

  /** @param {Take} take @param {(name: string) => { frame: any, picture: Blob | null }} of */
  show(take, of) {
    this.take = take;
    this.prints = take.names.map(name => {
      const { frame, picture } = of(name);
      return html('div', { class: 'shot', role: 'group', 'aria-label': name }, print(frame, picture), html('div', {}, name), html('div', {}, frame.taken?.slice(11, 21) ?? ''));
    });
    this.at = 0;
    this.draw();
  }

  draw() {
    const take = /** @type {Take} */ (this.take);
    const parts = take.names.flatMap((_, at) => {
      const set = take.around(at);
      const shot = /** @type {HTMLElement} */ (this.prints?.[at]);
      shot.classList.toggle('in', Boolean(take.setAt(at)));
      shot.dataset.at = String(at);
      shot.tabIndex = at === this.at ? 0 : -1;
      return [
        set?.first === at && this.head(set), set?.first === at && this.bar(set, 'first'),
        shot, set?.last === at && this.bar(set, 'last'),
      ].filter(part => part);
    });
    this.place.replaceChildren(.../** @type {HTMLElement[]} */ (parts));
  }

  /** @param {TakeSet} set */
  head({ about, moved }) {
    const number = /** @type {Take} */ (this.take).sets.findIndex(set => set.about === about) + 1;
    const judged = about && (!moved || about.isByHand);
    const mark = judged ? html('span', { class: `mark ${about.wholeness}` }, /** @type {any} */ (Marks)[about.wholeness]) : html('span', { class: 'mark' }, 'borders moved; sort again to judge it');
    return html('div', { class: 'set-head' }, html('h3', {}, `Set ${number} `, mark),
      judged && html('ul', {}, ...about.reasons.map((/** @type {string} */ reason) => html('li', {}, reason))));
  }

  /** @param {TakeSet} set @param {'first' | 'last'} end */
  bar(set, end) {
    const take = /** @type {Take} */ (this.take);
    const number = take.sets.indexOf(set) + 1;
    return html('button', {
      type: 'button', class: `brace ${end}`, role: 'slider', 'data-bar': `${number} ${end}`, 'aria-label': `Set ${number} ${end === 'first' ? 'begins' : 'ends'}`,
      'aria-valuemin': '1', 'aria-valuemax': String(take.names.length), 'aria-valuenow': String(set[end] + 1), 'aria-valuetext': take.names[set[end]],
    });
  }

  /** @param {string} bar @returns {[TakeSet, 'first' | 'last']} */
  barOf(bar) {
    const [number, end] = bar.split(' ');
    return [/** @type {Take} */ (this.take).sets[Number(number) - 1], /** @type {any} */ (end)];
  }

  /** @param {TakeSet} set @param {'first' | 'last'} end @param {number} to */
  move(set, end, to) {
    const take = /** @type {Take} */ (this.take);
    if (!take.move(set, end, to)) return;
    const number = take.sets.indexOf(set) + 1;
    this.moved(`Set ${number} has ${take.namesOf(set).length} frames, ${take.names[set.first]} to ${take.names[set.last]}.`, `[data-bar="${number} ${end}"]`);
  }

  /** @param {string} text @param {string} focus */
  moved(text, focus) {
    this.said.textContent = text;
    this.draw();
    /** @type {HTMLElement | null} */ (this.place.querySelector(focus))?.focus();
    this.onMoved();
  }

  /** @param {KeyboardEvent} event */
  onKey(event) {
    const { bar, at } = /** @type {HTMLElement} */ (event.target).dataset;
    const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey || !(step || 'sl'.includes(event.key.toLowerCase()))) return;
    if (bar && step) {
      const [set, end] = this.barOf(bar);
      this.move(set, end, set[end] + step);
    } else if (at && step) this.go(Number(at) + step);
    else if (at) this.change(Number(at), event.key.toLowerCase());
    else return;
    event.preventDefault();
  }

  /** @param {number} at */
  go(at) {
    const [from, to] = [this.prints?.[this.at ?? 0], this.prints?.[at]];
    if (!from || !to) return;
    [from.tabIndex, to.tabIndex, this.at] = [-1, 0, at];
    to.focus();
  }

  /** @param {number} at @param {string} key */
  change(at, key) {
    const take = /** @type {Take} */ (this.take);
    if (key === 's') take.beginAt(at);
    else take.takeOut(at);
    this.moved(key === 's' ? 'A set begins here.' : take.out.has(at) ? 'Taken out.' : 'Put back.', `[data-at="${at}"]`);
  }

  /** @param {PointerEvent} event */
  onPointer(event) {
    const handle = /** @type {HTMLElement} */ (event.target);
    if (!handle.dataset.bar) return;
    const [set, end] = this.barOf(handle.dataset.bar);
    handle.setPointerCapture(event.pointerId);
    handle.addEventListener('pointerup', up => {
      const over = document.elementsFromPoint(up.clientX, up.clientY).map(element => /** @type {HTMLElement | null} */ (element.closest('.shot'))).find(shot => shot);
      if (over) this.move(set, end, Number(over.dataset.at));
    }, { once: true });
  }
}
