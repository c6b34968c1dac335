// @ts-check
/** The strip beside the chart: how much of the ridge and of the valley is lit, moment by moment. */
import { ridgeShareAt, valleyShareAt } from '../think/chart.js';
import { path, svg } from './elements.js';

/** @typedef {import('./plate.js').Frame} Frame */
/** @typedef {import('../think/chart.js').Chart} Chart */

const StepPx = 2;

/** @param {SVGElement} drawing @param {Frame} frame @param {import('../think/scales.js').TimeScale} down @param {Chart} chart */
export function drawShares(drawing, frame, down, chart) {
  const [from, to] = [frame.right + 10, frame.width - 2];
  const toPx = (/** @type {number} */ share) => from + share * (to - from);
  const ys = Array.from({ length: Math.floor(frame.height / StepPx) + 1 }, (_, i) => i * StepPx);
  const ridge = ys.map((y, i) => `${i ? 'L' : 'M'}${toPx(ridgeShareAt(chart, down.toS(y))).toFixed(1)} ${y}`).join('');
  drawing.append(svg('rect', { class: 'strip', x: from, y: 0, width: to - from, height: frame.height }));
  if (chart.valleyShare) {
    const valley = ys.map(y => `L${toPx(valleyShareAt(chart, down.toS(y)) ?? 0).toFixed(1)} ${y}`).join('');
    drawing.append(
      path('valley-share', `M${from} 0${valley}L${from} ${frame.height}Z`),
      path('threshold', `M${toPx(chart.valleyLit)} 0V${frame.height}`));
  }
  drawing.append(
    path('threshold', `M${toPx(chart.columnsLit)} 0V${frame.height}`),
    path('ridge-share', ridge));
}
