// @ts-check
/** The plate: panels one above the other that share the bearings, with room for labels left and right of them. */
import { bearingScale } from '../think/scales.js';
import { svg } from './elements.js';

/** @typedef {import('../think/scales.js').BearingScale} BearingScale */
/** @typedef {{ width: number, height: number, left: number, right: number, across: BearingScale, ratio: number, isNarrow: boolean }} Frame
 * of a panel: its size and the edges of its plot [CSS px], its bearings, device pixels to a CSS pixel, whether labels must be short */

const NarrowPx = 560;
const InkNames = ['paper', 'hatch', 'shade', 'lit', 'lit-pale', 'lit-dot'];
const LabelsPx = { left: 54, right: 96, rightNarrow: 44 };

/** @param {HTMLElement} panel @param {{ fromDeg: number, widthDeg: number }} span @param {number} height @returns {Frame} */
export function frameOf(panel, span, height) {
  const width = panel.clientWidth;
  const isNarrow = width < NarrowPx;
  const [left, right] = [LabelsPx.left, width - (isNarrow ? LabelsPx.rightNarrow : LabelsPx.right)];
  return {
    width, height, left, right, isNarrow, across: bearingScale(span.fromDeg, span.widthDeg, left, right), ratio: pixelRatio(),
  };
}

/** Device pixels to a CSS pixel, as far as it pays. */
export const pixelRatio = () => Math.min(3, window.devicePixelRatio || 1);

/** Lays a panel out anew: a canvas under the plot and an empty drawing over all of it.
 * @param {HTMLElement} panel @param {Frame} frame */
export function layOut(panel, frame) {
  const canvas = /** @type {HTMLCanvasElement} */ (panel.querySelector('canvas') ?? panel.appendChild(document.createElement('canvas')));
  const width = frame.right - frame.left;
  Object.assign(canvas.style, { left: `${frame.left}px`, width: `${width}px`, height: `${frame.height}px` });
  const [pixelsWide, pixelsHigh] = [Math.round(width * frame.ratio), Math.round(frame.height * frame.ratio)];
  if (canvas.width !== pixelsWide || canvas.height !== pixelsHigh) [canvas.width, canvas.height] = [pixelsWide, pixelsHigh];
  canvas.setAttribute('aria-hidden', 'true');
  return { canvas, drawing: layOver(panel, frame) };
}

/** An empty drawing over all of a panel. @param {HTMLElement} panel @param {Frame} frame */
export function layOver(panel, frame) {
  panel.style.height = `${frame.height}px`;
  panel.querySelector('svg')?.remove();
  return panel.appendChild(svg('svg', { width: frame.width, height: frame.height, viewBox: `0 0 ${frame.width} ${frame.height}` }));
}

/** The colours of the page's style, for canvases. */
export function inks() {
  const probe = document.body.appendChild(document.createElement('i'));
  const known = new Map(InkNames.map(name => {
    probe.style.color = `var(--${name})`;
    return [name, /** @type {[number, number, number]} */ ((getComputedStyle(probe).color.match(/[\d.]+/g) ?? []).slice(0, 3).map(Number))];
  }));
  probe.remove();
  return (/** @type {string} */ name) => known.get(name) ?? [0, 0, 0];
}
