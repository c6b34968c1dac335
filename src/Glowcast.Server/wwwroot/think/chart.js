// @ts-check
/** The light chart as the page works with it. */
import { bytesOf } from './bytes.js';
import { bearing } from './scales.js';
import { covers, stretchesOf } from './stretches.js';

/** @typedef {import('./stretches.js').Stretch} Stretch */
/** @typedef {ReturnType<typeof chartOf>} Chart */

/** What a bearing shows at a moment. */
export const State = Object.freeze({ noRidge: 0, shade: 1, partly: 2, lit: 3, valleyToo: 4 });

/** @param {any} answer the chart of a forecast @param {any} assumed what the forecast rests on */
export function chartOf(answer, assumed) {
  return {
    startMs: Date.parse(answer.start),
    lengthS: /** @type {number} */ (answer.lengthS),
    minutes: /** @type {number} */ (answer.minutes),
    fromDeg: /** @type {number} */ (answer.fromDeg),
    columnDeg: /** @type {number} */ (answer.columnDeg),
    columns: /** @type {number} */ (answer.columns),
    hasRidge: /** @type {boolean[]} */ (answer.hasRidge),
    crest: bytesOf(answer.crest),
    ridge: bytesOf(answer.ridge),
    valley: bytesOf(answer.valley),
    columnLit: /** @type {Stretch[][]} */ (answer.columnLitS.map(stretchesOf)),
    valleyShare: /** @type {number[] | null} */ (answer.valleyShare),
    valleyShaded: stretchesOf(answer.valleyShadedS),
    sunAzimuthDeg: /** @type {number[]} */ (answer.sunAzimuthDeg),
    sunAltitudeDeg: /** @type {number[]} */ (answer.sunAltitudeDeg),
    beamX: /** @type {(number | null)[]} */ (answer.byMinute?.beamX ?? []),
    beamY: /** @type {(number | null)[]} */ (answer.byMinute?.beamY ?? []),
    columnsLit: /** @type {number} */ (assumed.columnsLit),
    valleyLit: /** @type {number} */ (assumed.valleyLit),
  };
}

/** @param {Chart} chart @param {number} ms since 1970 */
export const secondsAt = (chart, ms) => (ms - chart.startMs) / 1000;

/** @param {Chart} chart @param {number} seconds */
export const msAt = (chart, seconds) => chart.startMs + seconds * 1000;

/** @param {Chart} chart @param {number} column */
export const columnBearing = (chart, column) => bearing(chart.fromDeg + (column + 0.5) * chart.columnDeg);

/** The minute of the arrays that a moment belongs to. @param {Chart} chart @param {number} seconds */
export const minuteAt = (chart, seconds) => Math.max(0, Math.min(chart.minutes - 1, Math.floor(seconds / 60)));

// Less of a crest than this, of 255, is no light that anybody sees.
const LeastLight = 13;

/** @param {Chart} chart @param {number} column @param {number} seconds */
export function stateAt(chart, column, seconds) {
  if (!chart.hasRidge[column]) return State.noRidge;
  const cell = minuteAt(chart, seconds) * chart.columns + column;
  if (!covers(chart.columnLit[column], seconds)) return chart.crest[cell] > LeastLight ? State.partly : State.shade;
  return chart.valley[cell] > 255 * chart.valleyLit ? State.valleyToo : State.lit;
}

/** Share of the columns with ridge that are lit; 0 without any. @param {Chart} chart @param {number} seconds */
export function ridgeShareAt(chart, seconds) {
  let [ridge, lit] = [0, 0];
  for (let column = 0; column < chart.columns; column++) {
    if (!chart.hasRidge[column]) continue;
    ridge++;
    if (covers(chart.columnLit[column], seconds)) lit++;
  }
  return ridge > 0 ? lit / ridge : 0;
}

/** Share of the whole valley that is lit; null where none is visible. @param {Chart} chart @param {number} seconds */
export const valleyShareAt = (chart, seconds) => chart.valleyShare?.[minuteAt(chart, seconds)] ?? null;
