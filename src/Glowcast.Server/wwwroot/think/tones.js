// @ts-check
/** The tones of the ridge picture. They tell lit from shaded and near from far; they are no measured colours. */

/** @typedef {import('./ground.js').Raster} Raster */
/** @typedef {[number, number, number]} Rgb */
/** @typedef {{ azimuthDeg: number, altitudeDeg: number }} SunPlace */

// Koschmieder: at the visibility 2 % of the contrast is left.
const ContrastLeft = -Math.log(0.02);
const Degree = Math.PI / 180;

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

/** What does not change with the minute: how much haze lies before each pixel, and which pixels draw the edge of a ridge.
 * @param {Raster} raster @param {number} visibilityM */
export function depthOf(raster, visibilityM) {
  const haze = new Float32Array(raster.distances.length);
  const edge = new Float32Array(raster.distances.length);
  raster.distances.forEach((distance, i) => {
    if (distance === 0) return;
    haze[i] = 1 - Math.exp((-ContrastLeft * distance) / visibilityM);
    const above = i >= raster.columns ? raster.distances[i - raster.columns] : 0;
    // The farther the ground behind an edge, the clearer the line.
    edge[i] = above === 0 ? 1 : Math.min(1, Math.max(0, Math.log(above / distance) - 0.08) * 3);
  });
  return { haze, edge };
}

/** Paints the ground; sky stays clear.
 * @param {Uint8ClampedArray} rgba @param {{ haze: Float32Array, edge: Float32Array }} depth @param {Float32Array} normals
 * @param {Float32Array} light of each pixel, 0 to 1 @param {SunPlace} sun */
export function paintGround(rgba, depth, normals, light, sun) {
  const inks = inksAt(sun.altitudeDeg);
  const [sx, sy, sz] = towards(sun);
  const air = mix(mix(inks.foot, inks.top, 0.5), inks.shade, 0.3);
  for (let i = 0, n = 0, c = 0; i < light.length; i++, n += 3, c += 4) {
    if (normals[n] === 0 && normals[n + 1] === 0 && normals[n + 2] === 0) {
      rgba[c + 3] = 0;
      continue;
    }
    const facing = Math.max(0, normals[n] * sx + normals[n + 1] * sy + normals[n + 2] * sz);
    // Light of the sky comes from above; direct light by how squarely it falls.
    const sky = 0.6 + 0.5 * normals[n + 2];
    const direct = light[i] * (0.15 + 1.1 * facing ** 1.5);
    const [line, haze] = [1 - 0.22 * depth.edge[i], depth.haze[i]];
    for (let k = 0; k < 3; k++) {
      const ground = Math.min(255, (inks.shade[k] * sky + (inks.lit[k] - inks.shade[k] * 0.45) * direct) * line);
      rgba[c + k] = ground + (air[k] - ground) * haze;
    }
    rgba[c + 3] = 255;
  }
}

/** @param {SunPlace} sun @returns {Rgb} east, north, up */
function towards(sun) {
  const [azimuth, altitude] = [sun.azimuthDeg * Degree, sun.altitudeDeg * Degree];
  return [Math.cos(altitude) * Math.sin(azimuth), Math.cos(altitude) * Math.cos(azimuth), Math.sin(altitude)];
}
