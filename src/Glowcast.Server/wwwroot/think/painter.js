// @ts-check
/** Paints the ground of the ridge picture, fast enough for every minute: whatever the minute does not change is worked out before. */
import { SameSlope } from './ground.js';
import { mix } from './tones.js';

/** @typedef {import('./ground.js').Raster} Raster */
/** @typedef {{ azimuthDeg: number, altitudeDeg: number }} SunPlace */
/** @typedef {ReturnType<typeof groundOf>} Ground */

// Koschmieder: at the visibility 2 % of the contrast is left.
const ContrastLeft = -Math.log(0.02);
const Degree = Math.PI / 180;
const EarthM = 6_371_000;
const Bright = { ground: 1, deck: 2.4 };
// Directions that ground can face, on a square: half the tangent of half the zenith distance, east and north.
const Side = 160;
const Facets = facets();
// Written anew for every minute.
const Facing = new Uint16Array(Side * Side);
const Opaque = 255 << 24;
const Bits = 10;
const One = 1 << Bits;

/** The ground pixel by pixel: how bright it is in the light of the sky, how much direct light brightens it, and the haze before it,
 * in parts of `One`.
 * @param {Raster} raster @param {Float32Array} normals @param {number} visibilityM
 * @param {(distance: number, altitudeDeg: number) => boolean} isDeck */
export function groundOf(raster, normals, visibilityM, isDeck) {
  const { columns, distances, topDeg, rowDeg } = raster;
  const pixels = Uint32Array.from(distances.keys()).filter(pixel => distances[pixel] > 0);
  const [sky, direct, haze, facet] = Array.from({ length: 4 }, () => new Uint16Array(pixels.length));
  pixels.forEach((pixel, i) => {
    const distance = distances[pixel];
    const above = pixel >= columns ? distances[pixel - columns] : 0;
    // The farther the ground behind an edge, the clearer the line.
    const edge = above === 0 ? 1 : Math.min(1, Math.max(0, Math.log(above / distance) - SameSlope) * 3);
    const deck = isDeck(distance, topDeg - (Math.floor(pixel / columns) + 0.5) * rowDeg);
    const [x, y, z] = deck ? [0, 0, 1] : normals.subarray(3 * pixel, 3 * pixel + 3);
    const left = Math.exp((-ContrastLeft * distance) / visibilityM);
    const bright = (1 - 0.22 * edge) * left * (deck ? Bright.deck : Bright.ground);
    facet[i] = facetOf(x, y, z);
    haze[i] = One * (1 - left);
    direct[i] = One * bright;
    sky[i] = One * (0.6 + 0.5 * z) * bright;
  });
  return { pixels, facet, sky, direct, haze };
}

/** Tells the top of a sea of cloud from ground. @param {number | null} deckTopM @param {number} eyeM @param {number} refractionK @param {number} rowDeg
 * @returns {(distance: number, altitudeDeg: number) => boolean} */
export function deckTest(deckTopM, eyeM, refractionK, rowDeg) {
  if (deckTopM === null) return () => false;
  return (distance, altitudeDeg) => {
    const heightM = eyeM + distance * Math.tan(altitudeDeg * Degree) + (distance * distance * (1 - refractionK)) / (2 * EarthM);
    return heightM < deckTopM + distance * rowDeg * Degree + 2;
  };
}

/** In whole numbers and with one write a pixel, which takes two thirds of the time that fractions and four writes do.
 * @param {Uint32Array} rgba of the whole raster, red in the lowest byte; sky stays as it is
 * @param {Ground} ground @param {import('./patch-map.js').PatchMap | null} map @param {Float32Array} light of the patches
 * @param {SunPlace} sun @param {ReturnType<typeof import('./tones.js').inksAt>} inks */
export function paintGround(rgba, { pixels, facet, sky, direct, haze }, map, light, sun, inks) {
  const facing = facingOf(sun);
  const [r, g, b] = inks.shade.map(fine);
  const [lr, lg, lb] = inks.lit.map((lit, k) => fine(lit - inks.shade[k] * 0.45));
  const [ar, ag, ab] = mix(mix(inks.foot, inks.top, 0.5), inks.shade, 0.3).map(fine);
  const { index, weight } = map ?? { index: new Uint16Array(4 * pixels.length), weight: new Uint8Array(4 * pixels.length) };
  // A weight of 255 and full light, over 64, are One.
  const shine = new Uint16Array(light.length);
  for (let i = 0; i < light.length; i++) shine[i] = 257 * light[i];
  for (let i = 0, at = 0; i < pixels.length; i++, at += 4) {
    const s = sky[i];
    const h = haze[i];
    const lit = (weight[at] * shine[index[at]] + weight[at + 1] * shine[index[at + 1]] + weight[at + 2] * shine[index[at + 2]] + weight[at + 3] * shine[index[at + 3]]) >> 6;
    const d = (((lit * facing[facet[i]]) >> Bits) * direct[i]) >> Bits;
    rgba[pixels[i]] = Opaque | byte(b * s + lb * d + ab * h) << 16 | byte(g * s + lg * d + ag * h) << 8 | byte(r * s + lr * d + ar * h);
  }
}

/** An ink in sixteenths. @param {number} ink */
const fine = ink => Math.round(16 * ink);

/** @param {number} value a share of `One` times an ink in sixteenths */
function byte(value) {
  const whole = (value + 8 * One) >> (Bits + 4);
  return whole < 0 ? 0 : whole > 255 ? 255 : whole;
}

/** How strongly the sun lights ground that faces each way, in parts of `One`. @param {SunPlace} sun */
function facingOf({ azimuthDeg, altitudeDeg }) {
  const level = Math.cos(altitudeDeg * Degree);
  const [x, y, z] = [level * Math.sin(azimuthDeg * Degree), level * Math.cos(azimuthDeg * Degree), Math.sin(altitudeDeg * Degree)];
  for (let i = 0; i < Facing.length; i++) {
    const cosine = Math.max(0, Facets[3 * i] * x + Facets[3 * i + 1] * y + Facets[3 * i + 2] * z);
    Facing[i] = One * (0.15 + 1.1 * cosine * Math.sqrt(cosine));
  }
  return Facing;
}

/** @param {number} x east @param {number} y north @param {number} z up */
function facetOf(x, y, z) {
  const along = (/** @type {number} */ v) => Math.max(0, Math.min(Side - 1, Math.round((v / (1 + z) + 1) / 2 * (Side - 1))));
  return along(y) * Side + along(x);
}

/** The direction of each facet: east, north, up. */
function facets() {
  const directions = new Float32Array(3 * Side * Side);
  for (let i = 0; i < Side * Side; i++) {
    const [u, v] = [2 * (i % Side) / (Side - 1) - 1, 2 * Math.floor(i / Side) / (Side - 1) - 1];
    const scale = 1 + u * u + v * v;
    directions.set([2 * u / scale, 2 * v / scale, 2 / scale - 1], 3 * i);
  }
  return directions;
}
