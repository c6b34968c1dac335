// @ts-check
/** The light chart as a table, for those who do not see it. */
import { html } from '../draw/elements.js';
import { State, columnBearing, msAt, ridgeShareAt, stateAt, valleyShareAt } from '../think/chart.js';
import { multiples, stepFor } from '../think/scales.js';
import { percent } from '../think/say.js';

const Parts = 6;
/** @type {Record<number, string>} */
const Words = { [State.noRidge]: 'no ridge', [State.shade]: 'shade', [State.partly]: 'partly lit', [State.lit]: 'lit', [State.valleyToo]: 'lit, valley too' };

/** @param {import('../think/forecast.js').Forecast} forecast with a chart @param {{ startS: number, endS: number }} shown */
export function chartTable({ chart: known, clock }, shown) {
  const chart = /** @type {import('../think/chart.js').Chart} */ (known);
  const parts = Array.from({ length: Math.min(Parts, chart.columns) }, (_, i, all = Math.min(Parts, chart.columns)) =>
    [Math.floor((i * chart.columns) / all), Math.floor(((i + 1) * chart.columns) / all)]);
  const step = stepFor(shown.endS - shown.startS, 24, [60, 120, 300, 600, 1800, 3600]);
  const head = html('tr', {}, ...['Time', 'Ridge lit', 'Valley lit', ...parts.map(([from, to]) => span(chart, from, to))].map(text => html('th', { scope: 'col' }, text)));
  const rows = multiples(shown.startS, shown.endS, step).map(seconds => {
    const valley = valleyShareAt(chart, seconds);
    return html('tr', {}, html('th', { scope: 'row' }, clock.hm(msAt(chart, seconds))),
      ...[percent(ridgeShareAt(chart, seconds)), valley === null ? 'none seen' : percent(valley),
        ...parts.map(([from, to]) => mostly(chart, from, to, seconds))].map(text => html('td', {}, text)));
  });
  return html('table', {}, html('caption', {}, 'Light on the crest, most of each part of the span'), html('thead', {}, head), html('tbody', {}, ...rows));
}

/** @param {import('../think/chart.js').Chart} chart @param {number} from @param {number} to columns */
function span(chart, from, to) {
  return `${columnBearing(chart, from).toFixed(0)}° to ${columnBearing(chart, to - 1).toFixed(0)}°`;
}

/** @param {import('../think/chart.js').Chart} chart @param {number} from @param {number} to @param {number} seconds */
function mostly(chart, from, to, seconds) {
  const counts = new Map();
  for (let column = from; column < to; column++) {
    const state = stateAt(chart, column, seconds);
    counts.set(state, (counts.get(state) ?? 0) + 1);
  }
  return Words[[...counts].reduce((most, entry) => (entry[1] > most[1] ? entry : most))[0]];
}
