// @ts-check
/** The ridge picture: sky, ground, the frames of the set over it, altitudes beside it. */
import { multiples, stepFor } from '../think/scales.js';
import { cleanRectangle } from '../think/clean.js';
import { frameOutline } from '../think/outline.js';
import { path, svg } from './elements.js';

/** @typedef {import('./plate.js').Frame} Frame */
/** @typedef {import('../think/ground.js').Raster} Raster */
/** @typedef {{ topDeg: number, bottomDeg: number, toPx: (altitudeDeg: number) => number, stretch: number }} UpScale */

const SkyAboveDeg = 2;
const LeastPx = { wide: 190, narrow: 150 };
const MostPx = 520;

/** Heights as they are drawn: true to the bearings where that is tall enough to be read, else stretched by a round factor.
 * Of a narrow span, which would be very tall, the near ground at the foot is left out.
 * @param {Raster} raster @param {Frame} frame @returns {UpScale & { height: number }} */
export function upScale(raster, { across: { pxPerDeg }, isNarrow }) {
  const topDeg = raster.topDeg + SkyAboveDeg;
  const bottomDeg = Math.max(footOf(raster), topDeg - MostPx / pxPerDeg);
  const plain = (topDeg - bottomDeg) * pxPerDeg;
  const stretch = Math.max(1, Math.ceil((2 * (isNarrow ? LeastPx.narrow : LeastPx.wide)) / plain) / 2);
  return { topDeg, bottomDeg, stretch, height: Math.round(plain * stretch), toPx: altitude => (topDeg - altitude) * pxPerDeg * stretch };
}

/** The altitude of its lower edge. @param {Raster} raster */
const footOf = raster => raster.topDeg - raster.rows * raster.rowDeg;

/** Puts the picture, painted at the raster's own size, in its place; the sky shines through from behind it.
 * @param {HTMLElement} view @param {HTMLCanvasElement} ground @param {Raster} raster @param {UpScale} up @param {Frame} frame */
export function placeScene(view, ground, raster, up, frame) {
  const top = up.toPx(raster.topDeg);
  Object.assign(view.style, { left: `${frame.left}px`, width: `${frame.right - frame.left}px`, height: `${frame.height}px` });
  Object.assign(ground.style, { top: `${top}px`, width: '100%', height: `${up.toPx(footOf(raster)) - top}px` });
}

/** The sky above the horizon. @param {UpScale} up @param {{ top: import('../think/tones.js').Rgb, foot: import('../think/tones.js').Rgb }} inks */
export const skyOf = (up, inks) => `linear-gradient(${css(inks.top)}, ${css(inks.foot)} ${up.toPx(0).toFixed(0)}px)`;

/** @param {import('../think/tones.js').Rgb} rgb */
const css = rgb => `rgb(${rgb.map(Math.round).join(' ')})`;

/** @param {SVGElement} drawing @param {Frame} frame @param {UpScale} up */
export function drawAltitudes(drawing, frame, up) {
  const pxPerDeg = up.toPx(0) - up.toPx(1);
  const step = stepFor(up.topDeg - up.bottomDeg, (up.topDeg - up.bottomDeg) * pxPerDeg / 34, [1, 2, 5, 10, 20]);
  for (const altitude of multiples(up.bottomDeg, up.topDeg, step)) {
    const y = up.toPx(altitude);
    if (y < 9) continue;
    drawing.append(
      path('rule', `M${frame.left - 5} ${y}H${frame.left}`),
      svg('text', { class: 'tick', x: frame.left - 8, y: y + 4, 'text-anchor': 'end' }, `${altitude < 0 ? '−' : ''}${Math.abs(altitude)}°`));
  }
  drawing.append(path('level', `M${frame.left} ${up.toPx(0)}H${frame.right}`));
}

/** The frames of one set as the camera cuts them.
 * @param {SVGElement} drawing @param {Frame} frame @param {UpScale} up @param {any} set of a forecast @param {{ exposure: any, problem: string | null }[]} stair */
export function drawFrames(drawing, frame, up, set, stair) {
  const group = svg('g', { class: 'frames', 'clip-path': 'url(#scene)' });
  drawing.append(
    svg('clipPath', { id: 'scene' }, svg('rect', { x: frame.left, y: 0, width: frame.right - frame.left, height: frame.height })), group);
  for (const { exposure, problem } of stair.filter(step => step.exposure.set === 1)) {
    const points = frameOutline(exposure.bearingDeg, exposure.pitchDeg, set.horizontalFovDeg, set.verticalFovDeg);
    const path = points.map(([bearingDeg, altitude], i) => `${i ? 'L' : 'M'}${frame.across.toPx(bearingDeg).toFixed(1)} ${up.toPx(altitude).toFixed(1)}`).join('');
    group.append(svg('path', { class: problem ? 'outline missing' : exposure.spare ? 'outline spare' : 'outline', d: `${path}Z` }));
  }
}

/** The clean rectangle of the stitched picture. @param {SVGElement} drawing @param {Frame} frame @param {UpScale} up @param {any} set of a forecast */
export function drawClean(drawing, frame, up, set) {
  const { fromDeg, widthDeg, bottomDeg, topDeg } = cleanRectangle(set);
  const [y, x] = [up.toPx(topDeg), frame.across.toPx(fromDeg)];
  drawing.append(svg('rect', { class: 'clean', x, y, width: widthDeg * frame.across.pxPerDeg, height: up.toPx(bottomDeg) - y }, svg('title', {}, 'The clean rectangle')));
}

const NamePx = 13;

/** Names over the summits that are in sight, the nearest first; one that would cover another is left out.
 * @param {SVGElement} drawing @param {Frame} frame @param {UpScale} up @param {{ name: string, bearingDeg: number, altitudeDeg: number }[]} summits */
export function drawSummits(drawing, frame, up, summits) {
  /** @type {[number, number, number][]} */
  const taken = [];
  for (const { name, bearingDeg, altitudeDeg } of summits) {
    const [x, foot, half] = [frame.across.toPx(bearingDeg), up.toPx(altitudeDeg), name.length * 3.6 + 4];
    const y = [30, 44, 58].map(lift => foot - lift).find(at => at > NamePx && !taken.some(([from, to, row]) => Math.abs(row - at) < NamePx && from < x + half && to > x - half));
    if (y === undefined || x < frame.left || x > frame.right) continue;
    taken.push([x - half, x + half, y]);
    drawing.append(path('leader', `M${x} ${y + 3}V${foot - 3}`), svg('text', { class: 'summit', x, y, 'text-anchor': 'middle' }, name));
  }
}
