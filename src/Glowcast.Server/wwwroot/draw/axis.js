// @ts-check
import { bearing, multiples, stepFor } from '../think/scales.js';
import { path, svg } from './elements.js';

/** @typedef {import('./plate.js').Frame} Frame */

const LabelPx = 6;
const Names = { 0: 'N', 45: 'NE', 90: 'E', 135: 'SE', 180: 'S', 225: 'SW', 270: 'W', 315: 'NW' };

/** The bearings, below a panel and above the next. @param {SVGElement} drawing @param {Frame} frame @param {{ fromDeg: number, widthDeg: number }} span */
export function drawBearings(drawing, frame, span) {
  const { across, left, right } = frame;
  const step = stepFor(span.widthDeg, (right - left) / 46, [1, 2, 5, 10, 15, 30, 45, 90]);
  const fine = stepFor(span.widthDeg, (right - left) / 9, [0.5, 1, 5, 15]);
  drawing.append(path('rule', `M${left} 0.5H${right}`));
  for (const at of multiples(span.fromDeg, span.fromDeg + span.widthDeg, fine)) drawing.append(tick(across.toPx(at), 4));
  for (const at of multiples(span.fromDeg, span.fromDeg + span.widthDeg, step)) {
    const x = across.toPx(at);
    const name = Names[/** @type {keyof typeof Names} */ (bearing(at))];
    drawing.append(tick(x, 7), svg('text', { class: 'tick', x, y: 19, 'text-anchor': 'middle' }, `${bearing(at)}°${name ? ` ${name}` : ''}`));
  }
}

/** @param {number} x @param {number} length */
const tick = (x, length) => path('rule', `M${x} 0V${length}`);

/** Times down the left of a panel.
 * @param {SVGElement} drawing @param {Frame} frame @param {import('../think/scales.js').TimeScale} down
 * @param {(seconds: number) => string} label @param {number[]} steps in seconds, ascending @param {number} phaseS what full hours are off the chart's start */
export function drawTimes(drawing, frame, down, label, steps, phaseS) {
  const step = stepFor(down.endS - down.startS, (down.toPx(down.endS) - down.toPx(down.startS)) / 30, steps);
  for (const at of multiples(down.startS + phaseS, down.endS + phaseS, step)) {
    const y = down.toPx(at - phaseS);
    drawing.append(
      path('grid', `M${frame.left} ${y}H${frame.right}`),
      path('rule', `M${frame.left - 5} ${y}H${frame.left}`));
    // A label that the edge would cut is left out.
    if (y < LabelPx || y > frame.height - LabelPx) continue;
    drawing.append(svg('text', { class: 'tick', x: frame.left - 8, y: y + 4, 'text-anchor': 'end' }, label(at - phaseS)));
  }
}
