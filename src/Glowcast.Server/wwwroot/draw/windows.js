// @ts-check
/** Windows of light outlined over a chart, with whiskers for how sure their ends are. */
import { svg } from './elements.js';

/** @typedef {import('./plate.js').Frame} Frame */
/** @typedef {{ startS: number, endS: number, startUncertaintyS: number, endUncertaintyS: number, startText: string, startCause: string,
 * endText: string, endCause: string }} DrawnWindow */

/** @param {SVGElement} drawing @param {Frame} frame @param {import('../think/scales.js').TimeScale} down @param {DrawnWindow[]} windows */
export function drawWindows(drawing, frame, down, windows) {
  for (const window of windows) {
    const [top, bottom] = [down.toPx(window.startS), down.toPx(window.endS)];
    if (bottom < 0 || top > frame.height) continue;
    drawing.append(svg('rect', { class: 'window', x: frame.left, y: top, width: frame.right - frame.left, height: bottom - top }));
    drawing.append(...whisker(frame, down, window.startS, window.startUncertaintyS), ...whisker(frame, down, window.endS, window.endUncertaintyS));
    if (top > 12) drawing.append(label(frame, top - 5, window.startText, window.startCause));
    if (bottom < frame.height - 18) drawing.append(label(frame, bottom + 15, window.endText, window.endCause));
  }
}

/** @param {Frame} frame @param {import('../think/scales.js').TimeScale} down @param {number} seconds @param {number} uncertaintyS */
function whisker(frame, down, seconds, uncertaintyS) {
  const [from, to] = [down.toPx(seconds - uncertaintyS), down.toPx(seconds + uncertaintyS)];
  return [frame.left + 7, frame.right - 7].map(x => svg('path', {
    class: 'whisker', d: `M${x} ${from}V${to}M${x - 4} ${from}H${x + 4}M${x - 4} ${to}H${x + 4}`,
  }));
}

/** @param {Frame} frame @param {number} y @param {string} moment @param {string} cause */
function label(frame, y, moment, cause) {
  return svg('text', { class: 'note', x: frame.left + 16, y }, frame.isNarrow ? moment : `${moment}: ${cause}`);
}
