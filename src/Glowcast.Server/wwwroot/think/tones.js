// @ts-check
/** The tones of the ridge picture. The hue of direct light is the engine's; the rest only tells lit from shaded and near from far. */

/** @typedef {[number, number, number]} Rgb */

/** @type {{ altitudeDeg: number, top: Rgb, foot: Rgb, shade: Rgb, lit: Rgb }[]} */
const Hours = [
  { altitudeDeg: -6, top: [44, 56, 82], foot: [132, 118, 132], shade: [38, 46, 62], lit: [208, 128, 96] },
  { altitudeDeg: -0.5, top: [92, 117, 150], foot: [224, 190, 172], shade: [58, 68, 84], lit: [236, 144, 92] },
  { altitudeDeg: 3, top: [116, 146, 178], foot: [236, 214, 188], shade: [68, 82, 100], lit: [250, 178, 114] },
  { altitudeDeg: 12, top: [124, 162, 196], foot: [222, 226, 220], shade: [82, 100, 118], lit: [246, 210, 156] },
  { altitudeDeg: 40, top: [118, 164, 204], foot: [214, 226, 230], shade: [92, 112, 128], lit: [226, 208, 170] },
];

/** The inks of a moment. @param {number} altitudeDeg of the sun */
export function inksAt(altitudeDeg) {
  const next = Hours.findIndex(hour => hour.altitudeDeg > altitudeDeg);
  if (next === 0) return Hours[0];
  if (next < 0) return Hours[Hours.length - 1];
  const [a, b] = [Hours[next - 1], Hours[next]];
  const t = (altitudeDeg - a.altitudeDeg) / (b.altitudeDeg - a.altitudeDeg);
  return { altitudeDeg, top: mix(a.top, b.top, t), foot: mix(a.foot, b.foot, t), shade: mix(a.shade, b.shade, t), lit: mix(a.lit, b.lit, t) };
}

/** @param {Rgb} a @param {Rgb} b @param {number} t @returns {Rgb} */
export function mix(a, b, t) {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
}

/** The inks of a moment whose direct light has a measured colour: that colour, as bright as the ink was.
 * @param {ReturnType<typeof inksAt>} inks @param {number | null} x CIE 1931 @param {number | null} y */
export function inColour(inks, x, y) {
  if (x === null || y === null || y <= 0) return inks;
  const [X, Z] = [x / y, (1 - x - y) / y];
  const linear = [3.2406 * X - 1.5372 - 0.4986 * Z, -0.9689 * X + 1.8758 + 0.0415 * Z, 0.0557 * X - 0.204 + 1.057 * Z].map(v => Math.max(0, v));
  const most = Math.max(...linear);
  const colour = /** @type {Rgb} */ (linear.map(v => 255 * (v / most) ** (1 / 2.2)));
  const gain = luma(inks.lit) / luma(colour);
  return { ...inks, lit: /** @type {Rgb} */ (colour.map(v => v * gain)) };
}

/** @param {Rgb} rgb */
const luma = ([r, g, b]) => 0.3 * r + 0.59 * g + 0.11 * b;
