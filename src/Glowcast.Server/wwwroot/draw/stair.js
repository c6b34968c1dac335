// @ts-check
/** The set as a stair: each exposure a short bar over its bearings, at its instant. */
import { path, svg } from './elements.js';

/** @typedef {import('./plate.js').Frame} Frame */
/** @typedef {{ exposure: import('../think/stair.js').Exposure, frame: number, opensS: number, closesS: number, problem: string | null }} Step */

const BeyondPx = 5;
// What a finger can take hold of.
const GripPx = 28;

/** Draws it in place of the one before.
 * @param {Element} drawing @param {Frame} frame @param {import('../think/scales.js').TimeScale} down @param {Step[]} stair
 * @param {number} fovDeg @param {(step: Step) => string} describe */
export function drawStair(drawing, frame, down, stair, fovDeg, describe) {
  const height = barHeight(down, stair);
  const group = svg('g', { class: 'stair' });
  for (const step of stair) {
    const y = down.toPx((step.opensS + step.closesS) / 2);
    const middle = frame.across.toPx(step.exposure.bearingDeg);
    const half = (fovDeg / 2) * frame.across.pxPerDeg;
    // Spare frames reach beyond the span; their bars end a little beside the plot.
    const from = Math.max(frame.left - BeyondPx, middle - half);
    const to = Math.min(frame.right + BeyondPx, middle + half);
    const kind = step.problem ? 'step missing' : step.exposure.spare ? 'step spare' : 'step';
    group.append(svg('rect', { class: kind, x: from, y: y - height / 2, width: Math.max(2, to - from), height }, svg('title', {}, describe(step))));
    if (step.problem && height > 2) group.append(cross((from + to) / 2, y));
  }
  const { left, right } = frame;
  const [top, bottom] = [down.toPx(stair[0].opensS), down.toPx(stair[stair.length - 1].closesS)];
  const [y, tall] = [Math.min(top, (top + bottom - GripPx) / 2), Math.max(GripPx, bottom - top)];
  group.append(svg('rect', { class: 'grip', x: left, y, width: right - left, height: tall }, svg('title', {}, 'Drag up or down: another start')));
  drawing.querySelector('.stair')?.remove();
  drawing.append(group);
}

/** As tall as the time between exposures allows. @param {import('../think/scales.js').TimeScale} down @param {Step[]} stair */
function barHeight(down, stair) {
  if (stair.length < 2) return 4;
  const apart = Math.min(...stair.slice(1).map((step, i) => step.opensS - stair[i].opensS));
  return Math.max(1.2, Math.min(5, (down.toPx(apart) - down.toPx(0)) * 0.62));
}

/** @param {number} x @param {number} y */
const cross = (x, y) => path('cross', `M${x - 4} ${y - 4}l8 8m0-8l-8 8`);

/** Names the sweeps at the right of the enlarged set.
 * @param {SVGElement} drawing @param {Frame} frame @param {import('../think/scales.js').TimeScale} down @param {Step[]} stair */
export function drawSweepNames(drawing, frame, down, stair) {
  for (let first = 0; first < stair.length;) {
    const { set, row } = stair[first].exposure;
    let last = first;
    while (last + 1 < stair.length && stair[last + 1].exposure.set === set && stair[last + 1].exposure.row === row) last++;
    const y = (down.toPx(stair[first].opensS) + down.toPx(stair[last].closesS)) / 2;
    drawing.append(
      path('rule', `M${frame.right + 11} ${down.toPx(stair[first].opensS)}H${frame.right + 15}V${down.toPx(stair[last].closesS)}H${frame.right + 11}`),
      svg('text', { class: 'tick', x: frame.right + 20, y: y + 4 }, frame.isNarrow ? `${set}·${row}` : `set ${set}, row ${row}`));
    first = last + 1;
  }
}
