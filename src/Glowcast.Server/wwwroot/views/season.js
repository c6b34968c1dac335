// @ts-check
/** The season: a ribbon of days with their windows, and the best of them with reasons. A day that is picked moves everything. */
import { button, html, path, svg } from '../draw/elements.js';
import { shortDate } from '../think/clock.js';
import { multiples, stepFor } from '../think/scales.js';
import * as say from '../think/say.js';
import * as service from '../api.js';

/** @typedef {{ rank: number, date: string, score: number, windows: { start: string, end: string, lengthS: number }[], reasons: string[],
 * fit: { verdict: string, chance: number, isClose: boolean } | null }} Day */

const DayMs = 86_400_000;
const UsualDays = 365;
const Offered = 8;
const Height = 190;
const [Left, Foot] = [44, 22];
const HourS = 3600;

export class Season {
  /** @param {HTMLElement} place @param {{ plan: () => any, onPick: (date: string) => void }} does */
  constructor(place, { plan, onPick }) {
    this.onPick = onPick;
    /** All that were answered, ranked. @type {Day[]} */
    this.all = [];
    /** Those shown, in order of time. @type {Day[]} */
    this.days = [];
    /** @type {import('../think/clock.js').Clock | null} */
    this.clock = null;
    this.date = '';
    this.from = /** @type {HTMLInputElement} */ (html('input', { type: 'date', id: 'season-from' }));
    this.to = /** @type {HTMLInputElement} */ (html('input', { type: 'date', id: 'season-to' }));
    this.said = html('p', { role: 'status', class: 'quiet' });
    this.stopping = new AbortController();
    this.go = html('button', { type: 'submit' }, 'Look through the days');
    this.stop = button('Stop', () => this.stopping.abort());
    this.stop.hidden = true;
    const form = html('form', { class: 'choice' }, html('label', { for: 'season-from' }, 'from'), this.from, html('label', { for: 'season-to' }, 'to'), this.to,
      this.go, this.stop);
    form.addEventListener('submit', event => {
      event.preventDefault();
      if (this.stop.hidden) this.ask(plan());
    });
    this.filters = html('p', { class: 'choice' }, ...[['season-weekends', 'weekends only'], ['season-past', 'days gone by too']].map(([id, text]) => {
      const box = html('input', { type: 'checkbox', id });
      box.addEventListener('change', () => this.showDays());
      return html('label', { for: id }, box, ` ${text}`);
    }));
    this.panel = html('div', { class: 'panel ribbon', role: 'slider', tabindex: '0', 'aria-label': 'Day of the season: arrow keys, then Enter', hidden: '' });
    this.list = html('ol', { class: 'remedies' });
    place.append(html('div', { class: 'strip-head' }, html('h2', {}, 'The season'), form), this.said, this.filters, this.panel, this.list);
    this.panel.addEventListener('click', event => this.pick(this.dayAt(event.clientX - this.panel.getBoundingClientRect().left)));
    this.panel.addEventListener('keydown', event => {
      const step = { ArrowLeft: -1, ArrowRight: 1, PageUp: -30, PageDown: 30 }[event.key];
      if (step) this.mark(this.days[Math.max(0, Math.min(this.days.length - 1, this.days.findIndex(day => day.date === this.date) + step))]);
      else if (event.key === 'Enter') this.onPick(this.date);
      else return;
      event.preventDefault();
    });
    new ResizeObserver(() => this.draw()).observe(place);
  }

  /** @param {import('../think/forecast.js').Forecast} forecast */
  show({ answer, clock }) {
    this.clock = clock;
    this.date = answer.date;
    const first = Date.parse(answer.date);
    if (!this.from.value) [this.from.value, this.to.value] = [first, first + (UsualDays - 1) * DayMs].map(ms => new Date(ms).toISOString().slice(0, 10));
    this.draw();
  }

  /** @param {any} plan */
  async ask(plan) {
    const stopping = this.stopping = new AbortController();
    this.stop.hidden = false;
    try {
      const answer = await service.season({ plan, from: this.from.value, to: this.to.value }, share => { this.said.textContent = `Looking through the days: ${say.percent(share)}`; }, stopping.signal);
      const days = /** @type {Day[]} */ (answer.days);
      this.said.textContent = `${days.filter(day => day.windows.length > 0).length} of ${days.length} days have a window.`;
      this.all = days;
      this.showDays();
    } catch (error) {
      this.said.textContent = stopping.signal.aborted ? 'Stopped.' : [/** @type {Error} */ (error).message, ...Object.values(/** @type {any} */ (error).faults ?? {}).flat()].join(' ');
    }
    // Who stopped it by keys goes on from here.
    if (document.activeElement === this.stop) this.go.focus();
    this.stop.hidden = true;
  }

  /** Those of the days answered that are wanted. */
  showDays() {
    const isOn = (/** @type {string} */ id) => /** @type {HTMLInputElement} */ (this.filters.querySelector(`#${id}`)).checked;
    const today = new Date().toISOString().slice(0, 10);
    const wanted = this.all.filter(day => (!isOn('season-weekends') || [0, 6].includes(new Date(`${day.date}T00:00:00Z`).getUTCDay()))
      && (isOn('season-past') || day.date >= today || this.to.value < today));
    this.offer(wanted.filter(day => day.windows.length > 0).slice(0, Offered));
    this.days = [...wanted].sort((a, b) => a.date.localeCompare(b.date));
    this.draw();
  }

  /** @param {Day[]} best */
  offer(best) {
    this.list.replaceChildren(...best.map(day => html('li', {},
      button(shortDate(day.date), () => this.onPick(day.date)), ` ${this.windowsOf(day)}${this.setOf(day)} `, html('span', { class: 'quiet' }, say.sentence(day.reasons.join(' '))))));
  }

  /** @param {Day} day */
  windowsOf(day) {
    const at = (/** @type {string} */ utc) => this.clock?.hm(Date.parse(utc));
    return day.windows.map(window => `${at(window.start)} to ${at(window.end)}, ${say.time(window.lengthS)}`).join('; ') || 'no window';
  }

  /** @param {Day} day */
  setOf({ fit }) {
    if (!fit) return '';
    const word = { fits: 'the set fits', tight: 'the set is tight' }[fit.verdict] ?? 'the set does not fit';
    return `; ${word}, ${say.chance(fit.chance)}${fit.isClose ? ', close: ask its forecast' : ''}.`;
  }

  /** @param {number} x @returns {Day | undefined} */
  dayAt(x) {
    return this.days[Math.floor((x - Left) / (this.panel.clientWidth - Left) * this.days.length)];
  }

  /** @param {Day | undefined} day */
  pick(day) {
    if (day) this.onPick(day.date);
  }

  /** @param {Day} day */
  mark(day) {
    this.date = day.date;
    this.draw();
  }

  draw() {
    this.panel.hidden = this.days.length === 0;
    const { clock, days } = this;
    if (!clock || days.length === 0 || this.panel.clientWidth === 0) return;
    const secondOf = (/** @type {string} */ utc) => clock.hms(Date.parse(utc)).split(':').reduce((sum, part) => 60 * sum + Number(part), 0);
    const ends = days.flatMap(day => day.windows.flatMap(window => [secondOf(window.start), secondOf(window.end)]));
    const [first, last] = ends.length > 0 ? [Math.min(...ends) - HourS / 2, Math.max(...ends) + HourS / 2] : [0, 24 * HourS];
    const wide = (this.panel.clientWidth - Left) / days.length;
    const y = (/** @type {number} */ seconds) => (seconds - first) / (last - first) * (Height - Foot);
    const drawing = svg('svg', { width: this.panel.clientWidth, height: Height, 'aria-hidden': 'true' });
    for (const at of multiples(first, last, stepFor(last - first, 7, [1800, HourS, 2 * HourS, 3 * HourS, 6 * HourS]))) drawing.append(
      path('grid', `M${Left} ${y(at)}H${this.panel.clientWidth}`),
      svg('text', { class: 'tick', x: Left - 6, y: y(at) + 4, 'text-anchor': 'end' }, new Date(1000 * at).toISOString().slice(11, 16)));
    days.forEach((day, i) => {
      const x = Left + i * wide;
      if (day.date.endsWith('-01')) drawing.append(path('rule', `M${x} ${Height - Foot}v6`), svg('text', { class: 'tick', x: x + 3, y: Height - 6 }, shortDate(day.date).split(' ')[2]));
      for (const window of day.windows) drawing.append(svg('rect', {
        class: 'day', x, y: y(secondOf(window.start)), width: Math.max(1, wide - (wide > 4 ? 1 : 0)), height: Math.max(1, y(secondOf(window.end)) - y(secondOf(window.start))),
        'fill-opacity': 0.35 + 0.65 * day.score,
      }, svg('title', {}, `${shortDate(day.date)}: ${this.windowsOf(day)}`)));
      if (day.date === this.date) drawing.append(path('today', `M${x + wide / 2} 0V${Height - Foot}`));
    });
    drawing.append(path('rule', `M${Left} ${Height - Foot}H${this.panel.clientWidth}`));
    this.panel.replaceChildren(drawing);
    const day = days.find(({ date }) => date === this.date);
    this.panel.setAttribute('aria-valuenow', String(days.findIndex(({ date }) => date === this.date)));
    this.panel.setAttribute('aria-valuetext', day ? `${shortDate(day.date)}: ${this.windowsOf(day)}` : this.date);
  }
}
